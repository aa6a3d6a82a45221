"""Heads of a leg behind which craft can run unseen: found, looked at, merged, worst first."""

import math
from dataclasses import dataclass, replace

import numpy as np

from core.coverage.coverage_result import LegCoverage
from core.coverage.hidden_water import hidden_from
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.candidates import LegField
from core.plan.emergence_look import Approaches, Comings, Scene, comings_of
from core.plan.emergence_offing import with_offing
from core.plan.emergence_result import Alarm, CraftRun, Emergence, NoOffing
from core.plan.emergence_time import bearing_off_bow_deg, warning_s
from core.plan.emergence_tips import Tip, coast_walk, tips_of
from core.plan.rules import PlanRules

_GRID_M = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Coming:
    """One craft that comes out behind one tip."""

    tip: Tip
    side: Side
    number: int
    """Of its speed."""
    warning_s: float
    is_behind_unknown: bool


def emergences_of(
    field: LegField,
    coverage: LegCoverage,
    scene: Scene,
    *,
    ids: dict[str, str],
    turn_s: float,
    rules: PlanRules,
) -> tuple[Emergence, ...]:
    """Heads near a leg that a craft can come out from behind.

    Parameters
    ----------
    field : LegField
        The leg with its coast.
    coverage : LegCoverage
        Its viewpoints, for how much water is hidden.
    scene : Scene
        Rays over its land.
    ids : dict
        Letter or name of each feature that has one, by key.
    turn_s : float
        Time in which own ship makes a bold alteration, s.
    rules : PlanRules
        Speeds of craft, passing distance, decision time.

    Returns
    -------
    tuple of Emergence
        The shortest warning first, ``rules.emergence.most_a_leg`` at most. A straight coast has
        none: there must be water behind the tip, hidden and big enough.
    """
    found = [coming for side in Side for coming in _comings(field, scene, side, rules)]
    heads = []
    for group in _heads(found, rules):
        hidden_m2 = _hidden_m2(field, coverage, scene, group, rules)
        if hidden_m2 < rules.emergence.least_hidden_m2:
            continue
        heads.append(_emergence(field, scene, group, hidden_m2, ids, turn_s, rules))
    heads.sort(key=lambda head: (_least_s(head), head.tip_along_m))
    return tuple(
        replace(with_offing(head, field, rules), number=number)
        for number, head in enumerate(heads[: rules.emergence.most_a_leg], 1)
    )


def turn_s(*, radius_m: float, response_m: float, speed_mps: float, alteration_deg: float) -> float:
    """Time from helm order until own ship has altered so far in her normal turn, s."""
    return (response_m + math.radians(alteration_deg) * radius_m) / speed_mps


def _least_s(head: Emergence) -> float:
    return head.deciding.at_edge_s or 0.0


def _comings(field: LegField, scene: Scene, side: Side, rules: PlanRules) -> list[_Coming]:
    """Craft of every speed behind every tip of one side."""
    own, speeds = field.speed_mps, rules.emergence.craft_speeds_mps
    reach_m = rules.decision_time_s * max(speeds)
    is_starboard = side is Side.STARBOARD
    # The water behind a tip is looked into for a mile beyond.
    walk = coast_walk(
        field.frame,
        scene.land,
        is_starboard=is_starboard,
        most_m=reach_m + rules.emergence.near_tip_m,
    )
    tips: list[tuple[Tip, int]] = []
    for number, speed in enumerate(speeds):
        # To lie on the bearing of the tip the craft is so much farther out than it.
        beyond_m = rules.pass_off_m * speed / own
        for tip in tips_of(
            walk, speed_ratio=own / speed, depth_m=beyond_m + rules.emergence.least_run_m
        ):
            if tip.offing_m > reach_m:
                continue
            if 0.0 <= tip.along_m + rules.pass_off_m < field.line.length_m:
                tips.append((tip, number))
    if not tips:
        return []
    craft_mps = np.array([speeds[number] for _tip, number in tips])
    by_coast_s = np.array(
        [
            warning_s(
                offing_m=tip.offing_m,
                pass_off_m=rules.pass_off_m,
                own_speed_mps=own,
                craft_speed_mps=speeds[number],
            )
            for tip, number in tips
        ]
    )
    run_s = rules.emergence.least_run_m / craft_mps
    comings = comings_of(
        scene,
        Approaches(
            meet_m=np.array([tip.along_m + rules.pass_off_m for tip, _number in tips]),
            sign=np.full(len(tips), 1.0 if is_starboard else -1.0),
            speed_mps=craft_mps,
            look_back_s=by_coast_s + rules.emergence.late_s + 1.5 * run_s + 8.0,
        ),
    )
    return [
        _Coming(
            tip=tip,
            side=side,
            number=number,
            warning_s=float(comings.warning_s[i]),
            is_behind_unknown=bool(comings.is_behind_unknown[i]),
        )
        for i, (tip, number) in enumerate(tips)
        if _counts(comings, i, float(by_coast_s[i]), rules)
    ]


def _counts(comings: Comings, i: int, by_coast_s: float, rules: PlanRules) -> bool:
    """Whether the craft came out unseen, from behind this tip."""
    warning = float(comings.warning_s[i])
    return (
        not math.isnan(warning)
        and warning <= by_coast_s + rules.emergence.late_s
        and float(comings.hidden_run_m[i]) >= rules.emergence.least_run_m
    )


def _heads(found: list[_Coming], rules: PlanRules) -> list[list[_Coming]]:
    """Craft that come out at one head together, each group with the shortest warning first."""
    left = sorted(found, key=lambda c: (c.warning_s, c.number, c.tip.along_m))
    heads: list[list[_Coming]] = []
    # By the craft that decides before the others, so that each speed stands under one head.
    middle = len(rules.emergence.craft_speeds_mps) // 2
    for coming in sorted(left, key=lambda c: abs(c.number - middle)):
        home = next(
            (
                head
                for head in heads
                if head[0].side is coming.side
                and math.hypot(
                    head[0].tip.along_m - coming.tip.along_m,
                    head[0].tip.offing_m - coming.tip.offing_m,
                )
                <= rules.emergence.same_head_m
            ),
            None,
        )
        if home is None:
            heads.append([coming])
        else:
            home.append(coming)
    return heads


def _hidden_m2(
    field: LegField,
    coverage: LegCoverage,
    scene: Scene,
    group: list[_Coming],
    rules: PlanRules,
) -> float:
    """Water hidden near a tip and not nearer to the track, when the craft comes out."""
    first = group[0]
    own_m = first.tip.along_m + rules.pass_off_m - field.speed_mps * first.warning_s
    views = coverage.on_track()
    if not views:
        return 0.0
    view = min(views, key=lambda v: abs(v.viewpoint.along_m - own_m))
    reach = rules.emergence.near_tip_m
    steps = np.arange(-reach, reach + 1.0, _GRID_M)
    along, out = (a.ravel() for a in np.meshgrid(steps, steps[steps >= 0.0]))
    near = np.hypot(along, out) <= reach
    sign = 1.0 if first.side is Side.STARBOARD else -1.0
    lat, lon = scene.craft_at(
        first.tip.along_m + along[near], sign * (first.tip.offing_m + out[near])
    )
    return float(np.count_nonzero(hidden_from(view, lat, lon))) * _GRID_M**2


def _emergence(
    field: LegField,
    scene: Scene,
    group: list[_Coming],
    hidden_m2: float,
    ids: dict[str, str],
    turn_s: float,
    rules: PlanRules,
) -> Emergence:
    first = group[0]
    tip, sign = first.tip, 1.0 if first.side is Side.STARBOARD else -1.0
    lat, lon = field.line.offset(np.array([tip.along_m]), np.array([sign * tip.offing_m]))
    off_deg = [_off_course_deg(field, coming.number, rules, sign) for coming in group]
    return Emergence(
        number=0,
        object_id=_name_of(field, tip, sign, ids, rules),
        side=first.side,
        tip=_position(float(lat[0]), float(lon[0])),
        tip_along_m=tip.along_m,
        offing_m=tip.offing_m,
        pass_off_m=rules.pass_off_m,
        hidden_m2=hidden_m2,
        is_behind_unknown=any(coming.is_behind_unknown for coming in group),
        relative_from_deg=(min(off_deg) - scene.motion.most_heading_off_deg) % 360.0,
        relative_to_deg=(max(off_deg) - scene.motion.least_heading_off_deg) % 360.0,
        runs=tuple(
            _run(field, scene, number, group, turn_s, rules)
            for number in range(len(rules.emergence.craft_speeds_mps))
        ),
        decision_s=rules.decision_time_s,
        needed_offing_m=None,
        extra_offing_m=None,
        extra_distance_m=None,
        no_offing=NoOffing.ENOUGH,
    )


def _run(
    field: LegField,
    scene: Scene,
    number: int,
    group: list[_Coming],
    turn_s: float,
    rules: PlanRules,
) -> CraftRun:
    speed, own = rules.emergence.craft_speeds_mps[number], field.speed_mps
    is_starboard = group[0].side is Side.STARBOARD
    sign = 1.0 if is_starboard else -1.0
    relative = (_off_course_deg(field, number, rules, sign) - scene.motion.steer_off_deg) % 360.0
    coming = next((c for c in group if c.number == number), None)
    if coming is None:
        return CraftRun(
            craft_speed_mps=speed,
            warning_s=None,
            at_edge_s=None,
            own_along_m=None,
            position=None,
            relative_deg=relative,
            alarm=Alarm.NONE,
        )
    meet_m = coming.tip.along_m + rules.pass_off_m
    corridor_m = field.corridor_towards_m(is_starboard=is_starboard)
    # Own ship at the edge is so much nearer to the tip, but not past it.
    nearer_m = min(corridor_m, coming.tip.offing_m)
    at_edge = coming.warning_s - nearer_m / speed
    cross = sign * speed * coming.warning_s
    lat, lon = scene.craft_at(np.array([meet_m]), np.array([cross]))
    return CraftRun(
        craft_speed_mps=speed,
        warning_s=coming.warning_s,
        at_edge_s=at_edge,
        own_along_m=meet_m - own * coming.warning_s,
        position=_position(float(lat[0]), float(lon[0])),
        relative_deg=relative,
        alarm=_alarm(at_edge, number, turn_s, rules),
    )


def _off_course_deg(field: LegField, number: int, rules: PlanRules, sign: float) -> float:
    """Bearing of one speed of craft from the course, starboard positive."""
    return sign * bearing_off_bow_deg(
        own_speed_mps=field.speed_mps,
        craft_speed_mps=rules.emergence.craft_speeds_mps[number],
    )


def _alarm(least_s: float, number: int, turn_s: float, rules: PlanRules) -> Alarm:
    """Fast craft are flagged where own ship could not even turn: else no head would be without."""
    is_fast = number > len(rules.emergence.craft_speeds_mps) // 2
    if least_s < min(turn_s, rules.decision_time_s):
        return Alarm.SHORTER_THAN_TURN
    return Alarm.SHORT if least_s < rules.decision_time_s and not is_fast else Alarm.NONE


def _name_of(field: LegField, tip: Tip, sign: float, ids: dict[str, str], rules: PlanRules) -> str:
    """Letter of the nearest object whose waterline passes the tip."""
    best_m, name = rules.emergence.name_reach_m, ""
    for track in field.tracks:
        if track.feature.key not in ids or not track.feature.is_fixed:
            continue
        off = np.hypot(track.along_m - tip.along_m, track.cross_m - sign * tip.offing_m)
        nearest = float(off.min())
        if nearest <= best_m:
            best_m, name = nearest, ids[track.feature.key]
    return name


def _position(lat_deg: float, lon_deg: float) -> Position:
    return Position(lat_deg=lat_deg, lon_deg=(lon_deg + 180.0) % 360.0 - 180.0)
