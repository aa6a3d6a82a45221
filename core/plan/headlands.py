"""Headlands and shores seen from a leg: where a coast line comes nearest to the track."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, IntArray
from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.land_objects import line_point_indices
from core.plan.leg_frame import LegFrame
from core.plan.plan_result import ObjectKind
from core.plan.rules import PlanRules
from core.plan.shore import highest_within_m, is_known_low
from core.plan.shore_rise import middling_rise

_FLAT_M = 30.0
_MOST_HEADLANDS = 60
"""Per leg; the nearest ones are kept. Far more than a sheet can use."""


def nearest_dips(values_m: FloatArray, prominence_m: float) -> list[int]:
    """Numbers of local minima that values rise from by a prominence on both sides.

    The ends of the row never count: past them the values are not known.
    """
    dips: list[int] = []
    lowest, highest = 0, 0
    has_risen = False
    for i in range(1, values_m.size):
        if not has_risen:
            # Looking for a fall of the prominence below the highest value so far.
            if values_m[i] > values_m[highest]:
                highest = i
            if values_m[highest] - values_m[i] >= prominence_m:
                has_risen, lowest = True, i
        else:
            if values_m[i] < values_m[lowest]:
                lowest = i
            if values_m[i] - values_m[lowest] >= prominence_m:
                dips.append(lowest)
                has_risen, highest = False, i
    return dips


@dataclass(frozen=True, slots=True)
class _Run:
    """Coast points of one line that follow one another on one side of the track."""

    place: IntArray
    """Numbers within the frame's arrays."""


def _runs(frame: LegFrame, members: IntArray, *, is_closed: bool) -> list[_Run]:
    """Unbroken stretches of a coast line on one side of the track, within reach.

    ``members`` are the numbers of the line's coast points, in order along it.
    """
    if members.size < 3 or frame.near.size == 0:
        return []
    place = np.searchsorted(frame.near, members)
    place = np.minimum(place, frame.near.size - 1)
    is_near = frame.near[place] == members
    if not np.any(is_near):
        return []
    side = np.where(is_near, np.sign(frame.cross_m[place]), 0.0)
    start = 0
    if is_closed:
        # Begin where the line leaves reach or changes side, else at its farthest point, so that
        # no headland is cut in two by the seam of a closed line.
        breaks = np.flatnonzero(side != np.roll(side, 1))
        start = int(breaks[0]) if breaks.size else int(np.argmax(np.abs(frame.cross_m[place])))
    order = np.roll(np.arange(members.size), -start)
    if is_closed and start and np.all(side == side[0]):
        order = np.append(order, order[0])
    sides = side[order]
    cuts = np.flatnonzero(np.diff(sides)) + 1
    parts = np.split(order, cuts)
    return [_Run(place[part]) for part in parts if part.size >= 3 and side[part[0]] != 0.0]


def headlands(
    frame: LegFrame, land: LandModel, rules: PlanRules, *, islet_keys: frozenset[str]
) -> tuple[Feature, ...]:
    """Headlands, rounded points and near sides of shores, nearest first.

    Each is a local minimum of the distance off the track along one coast line on one side,
    standing out by at least ``rules.prominence_m``; islets are left out.
    """
    found: list[tuple[float, int, _Run, int]] = []
    members_of = line_point_indices(land)
    for number in sorted({int(n) for n in np.unique(land.points.line[frame.near])}):
        if f"line {number}" in islet_keys:
            continue
        is_closed = land.coast.lines[number].is_closed
        for run in _runs(frame, members_of[number], is_closed=is_closed):
            off = np.abs(frame.cross_m[run.place])
            for dip in nearest_dips(off, rules.prominence_m):
                if off[dip] >= rules.least_cross_m:
                    found.append((float(off[dip]), int(frame.near[run.place[dip]]), run, dip))
    found.sort(key=lambda item: (item[0], item[1]))
    heads = (
        _headland(frame, land, rules, run=run, dip=dip)
        for _off, _point, run, dip in found[:_MOST_HEADLANDS]
    )
    return tuple(head for head in heads if not _is_known_low(head, land, rules))


def _is_known_low(head: Feature, land: LandModel, rules: PlanRules) -> bool:
    point = int(head.key.removeprefix("point "))
    return is_known_low(
        land,
        lat_deg=float(land.points.lat_deg[point]),
        lon_deg=float(land.points.lon_deg[point]),
        height_m=head.height_m,
        rules=rules,
    )


def _headland(
    frame: LegFrame, land: LandModel, rules: PlanRules, *, run: _Run, dip: int
) -> Feature:
    along, cross = frame.along_m[run.place], frame.cross_m[run.place]
    steps = np.hypot(np.diff(along), np.diff(cross))
    arc = np.concatenate([[0.0], np.cumsum(steps)]) - float(np.sum(steps[:dip]))
    first, last = _stretch(np.abs(cross), arc, dip, rules.headland_reach_m)
    turn_deg = _turning_deg(along, cross, arc, dip, rules.sharp_reach_m)
    # Chords to both sides of a circle differ by reach / radius.
    rounding = rules.sharp_reach_m / math.radians(max(turn_deg, 1e-3))
    rounding = max(rounding, _flat_radius_m(np.abs(cross), arc, dip))
    indices = frame.near[run.place[first : last + 1]]
    point = int(frame.near[run.place[dip]])
    lat, lon = float(land.points.lat_deg[point]), float(land.points.lon_deg[point])
    shore = indices[np.abs(arc[first : last + 1]) <= rules.sharp_reach_m]
    rise = middling_rise(land, land.points.lat_deg[shore], land.points.lon_deg[shore], rules)
    is_sharp = turn_deg >= rules.sharp_turn_deg
    is_steep = rise is not None and rise.sure_slope_ratio >= rules.steep_ratio
    return Feature(
        key=f"point {point}",
        kind=ObjectKind.STEEP_SHORE if is_steep and not is_sharp else ObjectKind.HEADLAND,
        lat_deg=land.points.lat_deg[indices],
        lon_deg=land.points.lon_deg[indices],
        point_index=indices,
        height_m=highest_within_m(land, lat_deg=lat, lon_deg=lon, reach_m=rules.height_reach_m),
        rise=rise,
        extent_m=float(np.ptp(along[first : last + 1])),
        rounding_m=rounding,
        isolation_m=None,
    )


def _stretch(off_m: FloatArray, arc_m: FloatArray, dip: int, reach_m: float) -> tuple[int, int]:
    """First and last point of the waterline round a dip that belongs to it.

    It ends after ``reach_m`` along the coast, or where the coast comes nearer than the dip.
    """
    first = dip
    while first > 0 and arc_m[first - 1] >= -reach_m and off_m[first - 1] >= off_m[dip]:
        first -= 1
    last = dip
    top = off_m.size - 1
    while last < top and arc_m[last + 1] <= reach_m and off_m[last + 1] >= off_m[dip]:
        last += 1
    return first, last


def _flat_radius_m(off_m: FloatArray, arc_m: FloatArray, dip: int) -> float:
    """Radius of the circle that stays as near the track as long as the coast does.

    A corner at the end of a long straight shore turns sharply, yet the shore has no point to
    hold: half its length h within ``_FLAT_M`` of the nearest point is the chord h^2 / (2 flat).
    """
    first = last = dip
    while first > 0 and off_m[first - 1] - off_m[dip] <= _FLAT_M:
        first -= 1
    while last < off_m.size - 1 and off_m[last + 1] - off_m[dip] <= _FLAT_M:
        last += 1
    half = float(arc_m[last] - arc_m[first]) / 2.0
    return half * half / (2.0 * _FLAT_M)


def _turning_deg(
    along_m: FloatArray, cross_m: FloatArray, arc_m: FloatArray, dip: int, reach_m: float
) -> float:
    """How much the waterline turns within a reach either side of a dip, deg, 0 to 180."""
    before = float(np.interp(-reach_m, arc_m, along_m)), float(np.interp(-reach_m, arc_m, cross_m))
    after = float(np.interp(reach_m, arc_m, along_m)), float(np.interp(reach_m, arc_m, cross_m))
    here = float(along_m[dip]), float(cross_m[dip])
    inward = math.atan2(here[1] - before[1], here[0] - before[0])
    outward = math.atan2(after[1] - here[1], after[0] - here[0])
    turn = abs(math.degrees(outward - inward)) % 360.0
    return min(turn, 360.0 - turn)
