"""The anchoring card: ranges to an object ahead or astern, time by the way taken off, drag watch.

Distances count from the radar's reference point, which lies abaft the hawse: when the anchor is
let go it is still that far short of the spot (job.md 2.10.7, T15b). Where the anchor may lie, and
whether there is room to swing, the chart alone says.
"""

import itertools
import math
from collections.abc import Sequence

import numpy as np

from core.base.language import tr
from core.base.units import m_from_nm, mps_from_kn
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.plan.anchor_echoes import AnchorEcho, range_bearing, steadiness
from core.plan.anchoring_result import (
    Anchorage,
    AnchoringCard,
    ApproachLine,
    ApproachStep,
    DeadRange,
    HeadMark,
    SpeedStep,
)
from core.plan.drag_watch import drag_watch
from core.ship.ship import Ship

USUAL_SPEEDS = tuple(
    SpeedStep(from_to_go_m=m_from_nm(nm), speed_mps=mps_from_kn(kn))
    for nm, kn in ((3.0, 8.0), (1.5, 6.0), (0.8, 4.0), (0.3, 2.0))
)
"""Way taken off before the anchorage (common practice, no source)."""

_COUNTDOWN_NM = (6.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.75, 0.5, 0.25, 0.1, 0.0)
GOOD_OFF_DEG = 10.0
"""Nearer to the line than this the range tells distance run (job.md 2.10.6)."""
_MOST_OFF_DEG = 30.0
"""Up to this an object serves where none is nearer to the line: off the track its range is out by
half of that at the most (sin 30 degrees)."""
_FARTHEST_M = m_from_nm(12.0)
_HEAD_MARK_DEG = 1.0
"""Nearer to the extended track than this, seen from the let-go place, a bearing cannot tell the
difference (bearing error of the set, IMO MSC.192(79) 5.12)."""


def anchoring_card(
    anchorage: Anchorage,
    line: LegLine,
    ship: Ship,
    echoes: Sequence[AnchorEcho],
    *,
    speed_mps: float,
    leg_index: int = 0,
    approach: tuple[ApproachLine, ...] = (),
) -> AnchoringCard:
    """The card for a ship that anchors at the end of a leg.

    Parameters
    ----------
    anchorage : Anchorage
        Cable, hawse and speeds as far as the officer states them.
    line : LegLine
        The leg whose end is the spot.
    ship : Ship
        Her bow offset and range accuracy.
    echoes : sequence of AnchorEcho
        Fixed objects that echo at the end of the leg.
    speed_mps : float
        Speed of the leg, before way is taken off.
    leg_index : int
        Of the leg, from 0.
    approach : tuple of ApproachLine
        Its index lines.
    """
    spot = line.end
    course_deg = float(line.at(np.array([line.length_m]))[2][0])
    stated_m = anchorage.hawse_m if anchorage.hawse_m is not None else ship.bow_offset_m
    hawse_m = stated_m or 0.0
    let_go = _moved(spot, course_deg + 180.0, hawse_m)
    speeds = anchorage.speeds or tuple(s for s in USUAL_SPEEDS if s.speed_mps < speed_mps)
    dead = _dead_range(let_go, course_deg, echoes)
    positions = {echo.object_id: echo.position for echo in echoes}
    mark = None if dead is None else positions[dead.object_id]
    swing_m = None if anchorage.cable_m is None else anchorage.cable_m + hawse_m
    watch, watch_drag_m = drag_watch(spot, ship, echoes, swing_m)
    return AnchoringCard(
        leg_index=leg_index,
        spot=spot,
        let_go=let_go,
        course_deg=course_deg,
        hawse_m=hawse_m,
        is_hawse_stated=stated_m is not None,
        speeds=speeds,
        are_speeds_usual=not anchorage.speeds,
        approach=approach,
        head_mark=_head_mark(let_go, course_deg, echoes),
        dead_range=dead,
        dead_range_reason=""
        if dead is not None
        else tr(
            "no fixed object that paints lies within {most_off_deg:g} "
            "degrees of the line, ahead or astern",
            most_off_deg=_MOST_OFF_DEG,
        ),
        steps=_steps(let_go, course_deg, line.length_m - hawse_m, mark, speeds, speed_mps),
        swing_m=swing_m,
        watch=watch,
        watch_drag_m=watch_drag_m,
        watch_reason="" if watch else tr("no fixed object echoes strongly enough within 6 NM"),
    )


def seconds_to_run(to_go_m: float, speeds: Sequence[SpeedStep], speed_mps: float) -> float:
    """Time from a distance to go until the anchor is let go, s.

    Each step's speed holds from its distance to the next; before the first the leg's speed.
    """
    bounds = [step.from_to_go_m for step in speeds] + [0.0]
    seconds = max(0.0, to_go_m - bounds[0]) / speed_mps
    for step, (start_m, stop_m) in zip(speeds, itertools.pairwise(bounds), strict=True):
        seconds += max(0.0, min(to_go_m, start_m) - stop_m) / step.speed_mps
    return seconds


def speed_at(to_go_m: float, speeds: Sequence[SpeedStep], speed_mps: float) -> float:
    """Speed at a distance to go, m/s."""
    passed = [step.speed_mps for step in speeds if to_go_m <= step.from_to_go_m]
    return passed[-1] if passed else speed_mps


def _steps(
    let_go: Position,
    course_deg: float,
    reach_m: float,
    mark: Position | None,
    speeds: Sequence[SpeedStep],
    speed_mps: float,
) -> tuple[ApproachStep, ...]:
    steps = []
    for to_go_nm in _COUNTDOWN_NM:
        to_go_m = m_from_nm(to_go_nm)
        if to_go_m > reach_m:
            continue
        range_m = None
        if mark is not None:
            range_m = range_bearing(_moved(let_go, course_deg + 180.0, to_go_m), mark)[0]
        steps.append(
            ApproachStep(
                to_go_m=to_go_m,
                range_m=range_m,
                speed_mps=speed_at(to_go_m, speeds, speed_mps),
                to_go_s=seconds_to_run(to_go_m, speeds, speed_mps),
            )
        )
    return tuple(steps)


def _dead_range(
    let_go: Position, course_deg: float, echoes: Sequence[AnchorEcho]
) -> DeadRange | None:
    """The steady object nearest the line, ahead before astern."""
    found = []
    for echo in echoes:
        rank = steadiness(echo)
        if rank is None or rank > 1:
            continue
        range_m, bearing_deg = range_bearing(let_go, echo.position)
        off = abs((bearing_deg - course_deg + 180.0) % 360.0 - 180.0)
        is_ahead = off < 90.0
        off_deg = off if is_ahead else 180.0 - off
        if off_deg > _MOST_OFF_DEG or range_m > _FARTHEST_M:
            continue
        dead = DeadRange(
            object_id=echo.object_id,
            name=echo.name,
            is_ahead=is_ahead,
            off_deg=off_deg,
            range_m=range_m,
            bearing_deg=bearing_deg,
        )
        is_far_off = off_deg > GOOD_OFF_DEG
        found.append((is_far_off, not is_ahead, rank, off_deg, range_m, echo.object_id, dead))
    return min(found, key=lambda item: item[:6])[-1] if found else None


def _moved(place: Position, bearing_deg: float, distance_m: float) -> Position:
    lat, lon, _ = geodesic.direct(
        lat_deg=place.lat_deg,
        lon_deg=place.lon_deg,
        bearing_deg=math.fmod(bearing_deg, 360.0),
        distance_m=distance_m,
    )
    return Position(lat_deg=float(lat), lon_deg=float(lon))


def _head_mark(
    let_go: Position, course_deg: float, echoes: Sequence[AnchorEcho]
) -> HeadMark | None:
    """The steadiest, then nearest object on the extended track ahead."""
    found = []
    for echo in echoes:
        rank = steadiness(echo)
        range_m, bearing_deg = range_bearing(let_go, echo.position)
        off_deg = (bearing_deg - course_deg + 180.0) % 360.0 - 180.0
        if rank is None or rank > 1 or abs(off_deg) > _HEAD_MARK_DEG or range_m > _FARTHEST_M:
            continue
        mark = HeadMark(
            object_id=echo.object_id,
            name=echo.name,
            bearing_deg=bearing_deg,
            off_m=range_m * math.sin(math.radians(off_deg)),
        )
        found.append((rank, range_m, echo.object_id, mark))
    return min(found, key=lambda item: item[:3])[-1] if found else None
