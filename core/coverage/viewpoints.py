"""Where along a leg coverage is computed: on the track, and at the corridor edges near land."""

import math

import numpy as np

from core.base.units import m_from_nm
from core.coverage.coverage_result import Viewpoint
from core.coverage.nearby import Blocks
from core.geodesy.position import Position
from core.passage.passage import Passage

SPACING_M = m_from_nm(0.25)
"""Greatest distance between viewpoints along a leg."""
_EVERY_EDGE = 4.0
"""Land nearer than this many corridors: both edges are swept at every viewpoint."""
_SOME_EDGES = 12.0
"""Land nearer than this many corridors: both edges are swept at every second viewpoint."""


def along_of(length_m: float, spacing_m: float = SPACING_M) -> tuple[float, ...]:
    """Places along a leg, evenly spread, at most a spacing apart, both ends included."""
    count = max(1, math.ceil((length_m - 0.01) / spacing_m))
    return (*(length_m * i / count for i in range(count)), length_m)


def viewpoints_of(
    passage: Passage, leg_index: int, blocks: Blocks, *, spacing_m: float = SPACING_M
) -> tuple[Viewpoint, ...]:
    """Viewpoints of a leg in order of along, then cross.

    On the track there is one at least every ``spacing_m`` and at both ends. What a corridor edge
    sees differs from what the track sees by the corridor over the range of the land: at more
    than 12 corridors (the wider side counts) the difference is under 5 deg and the edges are
    left out; from 12 to 4 corridors both edges are taken at every second viewpoint, nearer than
    4 at every one. Gaps in the heights count as land.

    Parameters
    ----------
    passage : Passage
        With both corridors of every leg filled in.
    leg_index : int
        From 0.
    blocks : Blocks
        Where land lies.
    spacing_m : float
        Greatest distance between viewpoints, m.
    """
    leg, line = passage.legs[leg_index], passage.line(leg_index)
    port_m, starboard_m = leg.corridor_port_m or 0.0, leg.corridor_starboard_m or 0.0
    along = along_of(line.length_m, spacing_m)
    lats, lons, _courses = line.at(np.array(along))
    wanted: list[tuple[float, float]] = []
    for index, (along_m, lat, lon) in enumerate(zip(along, lats, lons, strict=True)):
        ratio = blocks.land_distance_m(
            Position(lat_deg=float(lat), lon_deg=float((lon + 180.0) % 360.0 - 180.0))
        ) / max(port_m, starboard_m, 1.0)
        has_edges = ratio < _EVERY_EDGE or (ratio < _SOME_EDGES and index % 2 == 0)
        if has_edges and port_m > 0.0:
            wanted.append((along_m, -port_m))
        wanted.append((along_m, 0.0))
        if has_edges and starboard_m > 0.0:
            wanted.append((along_m, starboard_m))
    places = line.offset(np.array([w[0] for w in wanted]), np.array([w[1] for w in wanted]))
    return tuple(
        Viewpoint(
            leg_index=leg_index,
            along_m=along_m,
            cross_m=cross_m,
            position=_at_waypoint(passage, leg_index, along_m, cross_m, line.length_m)
            or Position(lat_deg=float(lat), lon_deg=float((lon + 180.0) % 360.0 - 180.0)),
        )
        for (along_m, cross_m), lat, lon in zip(wanted, *places, strict=True)
    )


def _at_waypoint(
    passage: Passage, leg_index: int, along_m: float, cross_m: float, length_m: float
) -> Position | None:
    """The waypoint's own position at an end of the track, so that both legs share the sweep."""
    if cross_m != 0.0 or along_m not in (0.0, length_m):
        return None
    is_end = along_m == length_m and length_m > 0.0
    return passage.waypoints[leg_index + (1 if is_end else 0)].position
