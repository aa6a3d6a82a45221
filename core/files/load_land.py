"""Land for one passage from the given files and folders."""

import math
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np

from core.base.errors import DataGapError, InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.progress import Progress, Span
from core.files.cell_size import meet
from core.files.coast_files import read_coast
from core.files.coast_header import CoastFile, NoCoastError, read_coast_header, refuse_no_numbers
from core.files.elevation import RasterHeights
from core.files.ground_raster import read_ground
from core.files.land_paths import LandKind, LandPath, find_land
from core.geodesy.position import Bounds
from core.land.build_land import WaterAndErrors, build_land
from core.land.coast_data import CoastData
from core.land.land_model import LandModel
from core.land.lattice import Lattice
from core.land.sources import GroundCodes, HeightWindow

_METRES_PER_DEG = 111_320.0
_MOST_OWN_CELLS = 60_000_000
_COARSEST_LINE_M = 2_000.0
"""Lines with points farther apart, found in a folder, are not taken for a coast."""


def open_heights(paths: Sequence[Path], ground: GroundCodes | None = None) -> RasterHeights:
    """Elevation among files and folders as a source of heights; a raster of ground is none.

    Raises
    ------
    InputError
        A path is no land data, or a named elevation file cannot be used.
    """
    found = _but_ground(find_land(paths), ground)
    return RasterHeights(p for p in found if p.kind is LandKind.ELEVATION)


def _but_ground(found: Sequence[LandPath], ground: GroundCodes | None) -> list[LandPath]:
    """What was found without the raster of ground, which may stand in a folder of elevation."""
    if ground is None:
        return list(found)
    return [one for one in found if one.path.resolve() != ground.path.resolve()]


def load_land(
    paths: Sequence[Path],
    *,
    bounds: Bounds,
    water_level_m: float,
    height_error_m: float,
    coast_height_m: float | None,
    progress: Progress,
    ground: GroundCodes | None = None,
) -> LandModel:
    """Land of a box from elevation and coast files.

    Parameters
    ----------
    paths : sequence of Path
        Files, or folders that are searched through; only what meets the box is read.
    bounds : Bounds
        The box; it may cross the antimeridian.
    water_level_m : float
        Height of the water now above mean sea level, m.
    height_error_m : float
        Error of the heights, 95 %, m.
    coast_height_m : float or None
        Height above the water to assume for all land where no elevation is given.
    ground : GroundCodes, optional
        Raster of kinds of ground.

    Raises
    ------
    InputError
        A file cannot be used, or nothing but coast is given without a height to assume.
    DataGapError
        No file reaches the box.
    """
    found = _but_ground(find_land(paths), ground)
    heights = RasterHeights(p for p in found if p.kind is LandKind.ELEVATION)
    files, findings = _coast_files([p for p in found if p.kind is LandKind.COAST])
    progress.report(0.02, tr("reading coast"))
    coasts, more = _coasts(
        files, {p.path for p in found if p.is_named}, bounds, Span(progress, 0.02, 0.2)
    )
    findings += more
    extent = heights.extent(bounds)
    if extent:
        window = heights.window(bounds, progress=Span(progress, 0.2, 0.6))
    else:
        _refuse_no_heights(found, heights, coasts, coast_height_m)
        window = _empty_window(bounds)
    land = build_land(
        window=window,
        coasts=coasts,
        bounds=bounds,
        elevation_extent=extent,
        stated=WaterAndErrors(
            water_level_m=water_level_m,
            height_error_m=height_error_m,
            coast_height_m=coast_height_m,
        ),
        findings=(*findings, *heights.findings),
        progress=Span(progress, 0.6, 1.0 if ground is None else 0.9),
    )
    if ground is None:
        return land
    kinds, source, more_findings = read_ground(
        ground, land.lattice, land.cell, Span(progress, 0.9, 1.0)
    )
    return replace(
        land,
        ground=kinds,
        sources=(*land.sources, source),
        findings=(*land.findings, *more_findings),
    )


def _coast_files(paths: Sequence[LandPath]) -> tuple[list[CoastFile], list[Finding]]:
    files: list[CoastFile] = []
    findings: list[Finding] = []
    for one in paths:
        try:
            files.append(read_coast_header(one.path))
        except NoCoastError:
            if one.is_named:
                raise
        except InputError as exc:
            if one.is_named:
                raise
            findings.append(_left_out(one.path, exc))
    return files, findings


def _left_out(path: Path, exc: InputError) -> Finding:
    return Finding(
        severity=Severity.CHECK,
        code="land-file-unusable",
        what=exc.what,
        where=Where(file=path.name),
        todo=tr("Replace or remove the file"),
    )


def _coasts(
    files: Sequence[CoastFile], named: set[Path], bounds: Bounds, progress: Progress
) -> tuple[list[CoastData], list[Finding]]:
    coasts: list[CoastData] = []
    findings: list[Finding] = []
    for number, file in enumerate(files):
        if any(meet(declared, bounds) for declared in file.declared):
            refuse_no_numbers(file.path)
            coast, more = read_coast(file, bounds)
            findings += more
            if coast.rules or coast.spacing_m <= _COARSEST_LINE_M or file.path in named:
                coasts.append(coast)
            else:
                findings.append(_too_coarse(coast))
        progress.report((number + 1) / len(files), tr("reading coast"))
    return coasts, findings


def _too_coarse(coast: CoastData) -> Finding:
    """A file of lines in a folder that is rather a route than a coast."""
    return Finding(
        severity=Severity.CHECK,
        code="coast-too-coarse",
        what=tr(
            "has points about {spacing_m:.0f} m apart and is not taken for a coast",
            spacing_m=coast.spacing_m,
        ),
        where=Where(file=coast.source.name),
        todo=tr("Name the file itself if it is one"),
    )


def _refuse_no_heights(
    found: Sequence[LandPath],
    heights: RasterHeights,
    coasts: Sequence[CoastData],
    coast_height_m: float | None,
) -> None:
    """Refuse what cannot become land: nothing in reach, or coast without heights."""
    if not coasts:
        unusable = heights.findings
        if unusable:
            raise InputError(unusable[0].what, where=str(unusable[0].where), todo=unusable[0].todo)
        raise DataGapError(
            tr("none of the land files reaches the passage"),
            todo=tr("Give land data for these waters"),
        )
    if coast_height_m is None:
        only = all(p.kind is LandKind.COAST for p in found)
        raise InputError(
            tr("only a coast is given, no elevation")
            if only
            else tr("no elevation reaches the passage"),
            todo=tr("Give elevation for these waters or state a height to assume for the land"),
        )
    if not any(c.rules for c in coasts):
        raise InputError(
            tr("shorelines without polygons and without elevation do not tell land from sea"),
            todo=tr("Give land polygons or elevation"),
        )


def _empty_window(bounds: Bounds) -> HeightWindow:
    """A lattice with no height known, for a coast without elevation."""
    middle = math.radians((bounds.south_deg + bounds.north_deg) / 2.0)
    span_lat, span_lon = bounds.north_deg - bounds.south_deg, bounds.east_deg - bounds.west_deg
    area = span_lat * span_lon * max(math.cos(middle), 0.05)
    # About 60 m, or as fine as the box of a long passage allows; the coast itself stays exact.
    cell_y = max(2.0 / 3600.0, math.sqrt(area / _MOST_OWN_CELLS))
    cell_x = cell_y / max(math.cos(middle), 0.05)
    rows = math.ceil((bounds.north_deg - bounds.south_deg) / cell_y) + 2
    cols = math.ceil((bounds.east_deg - bounds.west_deg) / cell_x) + 2
    lattice = Lattice(
        crs="EPSG:4326",
        left_x=bounds.west_deg - cell_x,
        top_y=bounds.north_deg + cell_y,
        cell_x=cell_x,
        cell_y=cell_y,
        rows=rows,
        cols=cols,
    )
    return HeightWindow(
        lattice=lattice,
        heights_m=np.full((rows, cols), np.nan, dtype=np.float32),
        is_missing=np.ones((rows, cols), dtype=np.bool_),
        sources=(),
    )
