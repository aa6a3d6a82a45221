"""The sweep job: land files and a place in, a sweep raster out."""

import math
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from core.base.constants import NAUTICAL_MILE_M
from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress, Span
from core.coverage.cell_sweep import CellSweep, sweep_cells
from core.coverage.terrain import prepare_terrain
from core.files.load_land import load_land
from core.files.sweep_raster import write_sweep_raster
from core.files.writing import check_writable
from core.geodesy import geodesic
from core.geodesy.position import Bounds, Position, bounds_of

_LARGEST_RADIUS_M = 100.0 * NAUTICAL_MILE_M
_PADDING_DEG = 0.01


def box_round(position: Position, radius_m: float) -> Bounds:
    """The box that holds a circle round a place, and a little more."""
    lat, lon, _course = geodesic.direct(
        lat_deg=position.lat_deg,
        lon_deg=position.lon_deg,
        bearing_deg=np.arange(0.0, 360.0, 1.0),
        distance_m=radius_m,
    )
    ring = tuple(
        Position(lat_deg=float(a), lon_deg=float(b)) for a, b in zip(lat, lon, strict=True)
    )
    return bounds_of((position, *ring)).padded(lat_deg=_PADDING_DEG, lon_deg=2.0 * _PADDING_DEG)


def _check(what: str, value: float, low: float, high: float, unit: str) -> None:
    if not (math.isfinite(value) and low < value <= high):
        raise InputError(
            tr(
                "{what} {value} is not above {low:g} and up to {high:g}",
                what=what,
                value=f"{value:g} {unit}".rstrip(),
                low=low,
                high=high,
            ),
            todo=tr("Give another value"),
        )


def sweep_area(
    land_paths: Sequence[Path],
    position: Position,
    antenna_height_m: float,
    radius_m: float,
    target_height_m: float,
    refraction_k: float,
    water_level_m: float,
    height_error_m: float,
    is_exact: bool,
    target: Path,
    progress: Progress,
) -> CellSweep:
    """Sweep round a place and write the raster.

    Parameters
    ----------
    land_paths : sequence of Path
        Files or folders of elevation and coast.
    position : Position
        The antenna.
    antenna_height_m, target_height_m : float
        Antenna above the water now, target above the surface of its cell, m.
    radius_m, refraction_k : float
        Geodesic radius, m; effective Earth radius factor, bare.
    water_level_m : float
        Height of the water now above mean sea level, m.
    height_error_m : float
        Error of the heights, 95 %, m.
    is_exact : bool
        The exact setting instead of the planning setting.
    target : Path
        The GeoTIFF to write.
    progress : Progress
        Told of the work; may stop it.

    Returns
    -------
    CellSweep
        What was written.

    Raises
    ------
    InputError, DataGapError, OutputError
        A value or file cannot be used; no land data there; the target cannot be written.
    """
    _check(tr("antenna height"), antenna_height_m, 0.0, 1000.0, "m")
    _check(tr("radius"), radius_m / NAUTICAL_MILE_M, 0.0, _LARGEST_RADIUS_M / NAUTICAL_MILE_M, "NM")
    _check(tr("refraction factor"), refraction_k, 0.0, 1000.0, "")
    if not (math.isfinite(target_height_m) and 0.0 <= target_height_m <= 9000.0):
        raise InputError(
            tr(
                "target height {target_height_m:g} m is not from 0 to 9000",
                target_height_m=target_height_m,
            ),
            todo=tr("Give another value"),
        )
    if not (math.isfinite(height_error_m) and 0.0 <= height_error_m <= 1000.0):
        raise InputError(
            tr(
                "height error {height_error_m:g} m is not from 0 to 1000",
                height_error_m=height_error_m,
            ),
            todo=tr("Give another value"),
        )
    check_writable((target,))
    land = load_land(
        land_paths,
        bounds=box_round(position, radius_m),
        water_level_m=water_level_m,
        height_error_m=height_error_m,
        coast_height_m=None,
        progress=Span(progress, 0.0, 0.5),
    )
    progress.report(0.5, tr("preparing the land"))
    terrain = prepare_terrain(land)
    sweep = sweep_cells(
        terrain,
        position,
        antenna_height_m=antenna_height_m,
        refraction_k=refraction_k,
        radius_m=radius_m,
        target_height_m=target_height_m,
        height_error_m=height_error_m,
        is_exact=is_exact,
        progress=Span(progress, 0.55, 0.95),
    )
    write_sweep_raster(target, sweep)
    progress.report(1.0, tr("sweep written"))
    return sweep
