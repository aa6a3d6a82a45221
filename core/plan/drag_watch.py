"""The drag watch: ranges and bearings that stay within limits while the ship swings.

The reference point may lie anywhere within the swing of the anchor. A ship that drags carries it
beyond; how far, before an object's range or bearing passes a limit, depends on the way she drags:
ranges tell a drag towards or from an object, bearings one across.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from core.base.arrays import FloatArray
from core.base.units import m_from_nm
from core.geodesy.position import Position
from core.plan.anchor_echoes import AnchorEcho, range_bearing, steadiness
from core.plan.anchoring_result import WatchObject
from core.plan.error_budget import known_bearing_error_deg
from core.ship.ship import STANDARD_RANGE_SCALES_M, Ship

_LEAST_MARGIN_DB = 10.0
"""What is watched for hours must stand well over the threshold (common practice, no source)."""
_FARTHEST_M = m_from_nm(6.0)
_NEAREST_SWINGS = 1.5
"""Nearer than this many swings the bearing of an object turns too far to mean anything."""
_MOST_WATCHED = 4
_LEAST_APART_DEG = 30.0
_WAYS_DEG = np.arange(0.0, 360.0, 5.0)
_DRAG_STEP_M = 5.0
_MOST_DRAG_M = 3_000.0


def drag_watch(
    spot: Position, ship: Ship, echoes: Sequence[AnchorEcho], swing_m: float | None
) -> tuple[tuple[WatchObject, ...], float | None]:
    """Up to four objects, near, steady, well apart in bearing, and how soon they warn together.

    Parameters
    ----------
    spot : Position
        The anchor.
    ship : Ship
        Her range and bearing accuracy.
    echoes : sequence of AnchorEcho
        Fixed objects that paint there.
    swing_m : float or None
        Farthest the reference point lies from the anchor; None holds the errors alone.

    Returns
    -------
    watch, drag_m : tuple of WatchObject, float or None
        How far beyond the swing she may drag, the worst way, before one of them shows it.
    """
    swing = swing_m or 0.0
    chosen: list[WatchObject] = []
    for range_m, bearing_deg, echo in _ranked(spot, echoes, swing):
        if any(_apart(bearing_deg, other.bearing_deg) < _LEAST_APART_DEG for other in chosen):
            continue
        chosen.append(_watched(ship, echo, range_m, bearing_deg, swing))
        if len(chosen) == _MOST_WATCHED:
            break
    if swing_m is None or not chosen:
        return tuple(chosen), None
    drags = np.array([drag_shown_m(one, swing) for one in chosen])
    worst = drags.max(axis=1)
    best = int(np.argmin(worst))
    return tuple(
        replace(one, worst_drag_m=float(worst[i]), is_best=i == best)
        for i, one in enumerate(chosen)
    ), float(drags.min(axis=0).max())


def drag_shown_m(watched: WatchObject, swing_m: float) -> FloatArray:
    """How far she drags beyond her swing, each way of 5 deg, before a limit is passed, m.

    She lies at the edge of her swing and moves straight out (plane geometry, in steps of 5 m);
    ``inf`` where 3000 m do not show it.
    """
    out_m = swing_m + np.arange(0.0, _MOST_DRAG_M, _DRAG_STEP_M)
    way = np.radians(_WAYS_DEG)[:, None]
    bearing = math.radians(watched.bearing_deg)
    east = watched.range_m * math.sin(bearing) - out_m * np.sin(way)
    north = watched.range_m * math.cos(bearing) - out_m * np.cos(way)
    range_m = np.hypot(east, north)
    turned_deg = np.degrees(np.arctan2(east, north)) - watched.bearing_deg
    turned_deg = np.mod(turned_deg + 180.0, 360.0) - 180.0
    most_deg = _apart(watched.bearing_to_deg, watched.bearing_deg)
    is_out = (range_m < watched.least_m) | (range_m > watched.most_m)
    is_out |= np.abs(turned_deg) > most_deg
    first = np.argmax(is_out, axis=1) * _DRAG_STEP_M
    return np.where(is_out.any(axis=1), first, np.inf)


def _ranked(
    spot: Position, echoes: Sequence[AnchorEcho], swing_m: float
) -> list[tuple[float, float, AnchorEcho]]:
    """Range, bearing and echo, the steadiest and nearest first."""
    ranked = []
    for echo in echoes:
        rank = steadiness(echo)
        range_m, bearing_deg = range_bearing(spot, echo.position)
        is_near = _NEAREST_SWINGS * swing_m < range_m <= _FARTHEST_M
        if rank is None or echo.margin_db < _LEAST_MARGIN_DB or not is_near:
            continue
        ranked.append((rank, range_m, echo.object_id, bearing_deg, echo))
    ranked.sort(key=lambda item: item[:3])
    return [(range_m, bearing_deg, echo) for _rank, range_m, _id, bearing_deg, echo in ranked]


def _watched(
    ship: Ship, echo: AnchorEcho, range_m: float, bearing_deg: float, swing_m: float
) -> WatchObject:
    scale_m = next(
        (s for s in STANDARD_RANGE_SCALES_M if s >= range_m + swing_m),
        STANDARD_RANGE_SCALES_M[-1],
    )
    error_m = ship.range_error_m(scale_m) + abs(ship.radars[0].range_index_error_m)
    error_deg = ship.heading_error_deg + abs(known_bearing_error_deg(ship))
    turn_deg = math.degrees(math.asin(min(swing_m / range_m, 1.0))) + error_deg
    return WatchObject(
        object_id=echo.object_id,
        name=echo.name,
        range_m=range_m,
        bearing_deg=bearing_deg,
        least_m=max(0.0, range_m - swing_m - error_m),
        most_m=range_m + swing_m + error_m,
        bearing_from_deg=(bearing_deg - turn_deg) % 360.0,
        bearing_to_deg=(bearing_deg + turn_deg) % 360.0,
        scale_m=scale_m,
        worst_drag_m=None,
        is_best=False,
    )


def _apart(one_deg: float, other_deg: float) -> float:
    return abs((one_deg - other_deg + 180.0) % 360.0 - 180.0)
