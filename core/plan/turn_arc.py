"""Where the arc of a turn runs, and how near land it comes."""

import math

import numpy as np

from core.base.arrays import FloatArray
from core.geodesy import rhumb
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.land.land_model import Cell, LandModel
from core.passage.turn import Turn
from core.plan.shore import metres_from
from core.plan.turn_card_result import ARC_SHARES, ArcPlace

_SAMPLES = 41
_NEAR_M = 9260.0
"""Land farther off is not told."""


def arc_start(line: LegLine, turn: Turn) -> Position:
    """Where the arc begins; on a leg shorter than its tangent the start of the leg."""
    return line.position_at(max(line.length_m - turn.tangent_m, 0.0))


def arc_places(line: LegLine, turn: Turn) -> tuple[ArcPlace, ...]:
    """The places at ``ARC_SHARES``."""
    start = arc_start(line, turn)
    return tuple(
        ArcPlace(
            share_ratio=share,
            position=_along(start, turn, share),
            course_deg=turn.arc_course_deg(share),
        )
        for share in ARC_SHARES
    )


def _along(start: Position, turn: Turn, share_ratio: float) -> Position:
    """A place on the arc: by the chord, which bears half the turn so far (plane geometry)."""
    half_deg = turn.alteration_deg * share_ratio / 2.0
    lat, lon = rhumb.direct(
        lat_deg=start.lat_deg,
        lon_deg=start.lon_deg,
        course_deg=turn.old_course_deg + half_deg,
        distance_m=2.0 * turn.radius_m * abs(math.sin(math.radians(half_deg))),
    )
    return Position(lat_deg=lat, lon_deg=(lon + 180.0) % 360.0 - 180.0)


def land_on_arc(line: LegLine, turn: Turn, land: LandModel) -> tuple[bool, float | None]:
    """Whether the arc runs across land, and how far off it the nearest coast is, m.

    By the cells under the arc and the points of the coast; None where no coast is within 5 NM.
    """
    start = arc_start(line, turn)
    places = [_along(start, turn, share) for share in np.linspace(0.0, 1.0, _SAMPLES)]
    lat = np.array([place.lat_deg for place in places])
    lon = np.array([place.lon_deg for place in places])
    row, col = land.lattice.row_col(lat, lon)
    rows, cols = np.floor(row + 0.5).astype(np.int64), np.floor(col + 0.5).astype(np.int64)
    inside = (rows >= 0) & (rows < land.lattice.rows) & (cols >= 0) & (cols < land.lattice.cols)
    is_across = bool((land.cell[rows[inside], cols[inside]] == Cell.LAND).any())
    return is_across, _nearest_coast_m(lat, lon, land)


def _nearest_coast_m(lat_deg: FloatArray, lon_deg: FloatArray, land: LandModel) -> float | None:
    middle = len(lat_deg) // 2
    here = {"from_lat_deg": float(lat_deg[middle]), "from_lon_deg": float(lon_deg[middle])}
    east, north = metres_from(land.points.lat_deg, land.points.lon_deg, **here)
    own_east, own_north = metres_from(lat_deg, lon_deg, **here)
    reach_m = _NEAR_M + float(np.hypot(own_east, own_north).max())
    near = np.hypot(east, north) <= reach_m
    if not near.any():
        return None
    off = np.hypot(
        east[near][:, None] - own_east[None, :], north[near][:, None] - own_north[None, :]
    )
    nearest_m = float(off.min())
    return nearest_m if nearest_m <= _NEAR_M else None
