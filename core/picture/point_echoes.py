"""Point targets in a picture: in sight or not, how strong, and over which cells they spread."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.base.arrays import Float32Array
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.sight import sight_of_points
from core.coverage.terrain import Terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.radar.echo_budget import EchoBudget
from core.radar.radar_target import RadarTarget
from core.radar.resolution_cell import beam_gain_db
from core.radar.target_echo import target_power_w

_WIDTHS = 1.5
"""How far off its axis the beam gathers, in half-power widths, as for land."""
_LEAST_RANGE_M = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureTarget:
    """Something that echoes from one place, such as a buoy."""

    name: str
    position: Position
    target: RadarTarget
    """As the band in use sees it; heights above the water."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PointEcho:
    """A point target within the picture."""

    name: str
    position: Position
    range_m: float
    bearing_deg: float
    state: CoastState
    """Its top: in sight, hidden by land, or unknown behind missing heights."""
    power_w: float
    """At the receiver in the middle of the beam, one pulse; 0 where hidden."""


def point_echoes(
    terrain: Terrain,
    position: Position,
    budget: EchoBudget,
    targets: Sequence[PictureTarget],
    *,
    radius_m: float,
) -> tuple[PointEcho, ...]:
    """Range, bearing, sight and power of the targets within a radius.

    Over sea all the way the field is that of open sea (``target_echo.py``); land in between hides
    a target whose top it covers.
    """
    if not targets:
        return ()
    lat = np.array([t.position.lat_deg for t in targets])
    lon = np.array([t.position.lon_deg for t in targets])
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=position.lat_deg,
        from_lon_deg=position.lon_deg,
        to_lat_deg=lat,
        to_lon_deg=lon,
    )
    settings = SweepSettings(
        antenna_height_m=budget.antenna_height_m,
        refraction_k=budget.conditions.refraction_k,
        radius_m=radius_m,
    )
    # A target's height counts from the water, so ground of that height or more is looked at.
    ground = sight_of_points(terrain, position, lat, lon, settings=settings)
    top_m = np.array([t.target.height_m for t in targets])
    above_m = np.maximum(top_m - np.nan_to_num(ground.height_m.astype(np.float64)), 0.0)
    sight = sight_of_points(terrain, position, lat, lon, settings=settings, target_height_m=above_m)
    found = []
    for i, target in enumerate(targets):
        state = CoastState(int(sight.state[i]))
        if not _LEAST_RANGE_M <= range_m[i] < radius_m or state is CoastState.OUTSIDE:
            continue
        is_hidden = state is CoastState.HIDDEN
        found.append(
            PointEcho(
                name=target.name,
                position=target.position,
                range_m=float(range_m[i]),
                bearing_deg=float(bearing_deg[i]),
                state=state,
                power_w=0.0
                if is_hidden
                else float(target_power_w(budget, target.target, float(range_m[i]))),
            )
        )
    return tuple(found)


def with_points(
    power_w: Float32Array, points: Sequence[PointEcho], budget: EchoBudget, cell_m: float
) -> Float32Array:
    """Powers (B, N) with those of points, spread by beam and pulse as a set shows them.

    A point paints from its range outward by ``c tau / 2``, in every cell that meets that span,
    and to both sides as the beam's two-way gain lets it.
    """
    out = power_w.copy()
    bearings, cells = out.shape
    beam_deg = budget.radar.horizontal_beamwidth_deg
    step_deg = 360.0 / bearings
    half = math.ceil(_WIDTHS * beam_deg / step_deg)
    for point in points:
        if point.power_w <= 0.0:
            continue
        middle = round(point.bearing_deg / step_deg)
        rows = np.arange(middle - half, middle + half + 1)
        off_deg = rows * step_deg - point.bearing_deg
        spread = point.power_w * 10.0 ** (2.0 * beam_gain_db(off_deg, beam_deg) / 10.0)
        first = int(point.range_m / cell_m)
        last = min(int((point.range_m + budget.pulse.depth_m) / cell_m), cells - 1)
        out[rows % bearings, first : last + 1] += spread[:, np.newaxis].astype(np.float32)
    return out
