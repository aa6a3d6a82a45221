"""What a leg planned at one offing comes to, for the comparison with others."""

import math

import numpy as np

from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.first_paint_result import FirstPaint
from core.coverage.land_crossing import land_crossings
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.leg_frame import leg_frame
from core.plan.offing_result import Offing, OffingLine, OffingPaint
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role

_LOUD = (
    "track-breaks-danger-limit",
    "danger-limit-without-line",
    "danger-limit-unknown",
    "corridor-breaks-danger-limit",
)


def offing_of(
    outcome: Outcome,
    *,
    shift_m: float,
    distance_change_m: float,
    beside: Passage,
    leg_index: int,
    names: dict[str, str],
) -> Offing:
    """The first leg of a plan as one offing.

    Parameters
    ----------
    outcome : Outcome
        The leg planned alone at this offing, with a piece of the next.
    shift_m, distance_change_m : float
        As in ``Offing``.
    beside, leg_index : Passage, int
        The whole passage with the leg at this offing, and its index there.
    names : dict of str to str
        What to call an object by its id, the same for all offings.
    """
    leg, covered = outcome.plan.legs[0], outcome.coverage.legs[0]
    nearest_m = _nearest_land_m(outcome)
    return Offing(
        shift_m=shift_m,
        distance_change_m=distance_change_m,
        lines=_lines(leg, names),
        index_gap_minutes=sum(gap.minutes for gap in leg.index_gaps),
        worst_uncertainty_m=max(
            (line.uncertainty_m for line in leg.lines if line.role is Role.PRIMARY), default=None
        ),
        paints=tuple(_paint(paint, names) for paint in leg.first_paints),
        nearest_land_m=nearest_m,
        nearest_hidden_m=min((s.range_from_m for s in covered.shadows), default=None),
        hidden_count=len(covered.shadows),
        emergence=next(iter(leg.waters.emergences), None) if leg.waters is not None else None,
        is_complete=covered.is_complete,
        warnings=(
            *_crossing_words(beside, leg_index, outcome.land),
            *_corridor_words(leg, nearest_m),
            *_limit_words(outcome),
        ),
    )


def _nearest_land_m(outcome: Outcome) -> float | None:
    """From the track to the nearest land: what the viewpoints found and the coast between them."""
    ranges = [v.nearest_land_range_m for v in outcome.coverage.legs[0].on_track()]
    known = [range_m for range_m in ranges if range_m is not None]
    if not known:
        return None
    line = outcome.plan.passage.line(0)
    frame = leg_frame(line, outcome.land, min(known))
    past = np.maximum(np.maximum(-frame.along_m, frame.along_m - line.length_m), 0.0)
    off = np.hypot(frame.cross_m, past)
    return min(min(known), float(np.min(off, initial=np.inf)))


def _lines(leg: LegPlan, names: dict[str, str]) -> tuple[OffingLine, ...]:
    """One entry an object and role, its stretches added up."""
    found: dict[tuple[str, str], OffingLine] = {}
    for role in (Role.PRIMARY, Role.CHECK):
        for line in (line for line in leg.lines if line.role is role):
            key = line.object.id, role.value
            before = found[key].share_ratio if key in found else 0.0
            found[key] = OffingLine(
                object_id=line.object.id,
                name=names.get(line.object.id, line.object.name),
                role=role.value,
                side=line.side,
                cross_index_range_m=line.cross_index_range_m,
                range_scale_m=max(
                    line.range_scale_m, found[key].range_scale_m if key in found else 0.0
                ),
                share_ratio=before + (line.to_along_m - line.from_along_m) / leg.distance_m,
            )
    return tuple(found.values())


def _paint(paint: FirstPaint, names: dict[str, str]) -> OffingPaint:
    limit = paint.normally_by
    moment = limit.moment
    return OffingPaint(
        object_id=paint.object_id,
        name=names.get(paint.object_id, paint.name),
        range_m=None if moment is None else moment.range_m,
        along_m=None if moment is None else moment.along_m,
        words=tr("from the start") if limit.is_from_start else limit.reason,
    )


def _crossing_words(passage: Passage, leg_index: int, land: LandModel) -> tuple[str, ...]:
    """Land under the leg or under the legs beside it, as far as the land that was read reaches."""
    words: list[str] = []
    for crossing in land_crossings(passage, land):
        length_nm = nm_from_m(crossing.to_along_m - crossing.from_along_m)
        along_nm = nm_from_m(crossing.from_along_m)
        if crossing.leg_index == leg_index:
            words.insert(
                0,
                tr(
                    "THE LEG CROSSES LAND: {length_nm:.2f} NM of it from {along_nm:.1f} NM on",
                    length_nm=length_nm,
                    along_nm=along_nm,
                ),
            )
        elif abs(crossing.leg_index - leg_index) == 1:
            words.append(
                tr("THE LEG BEFORE IT WOULD CROSS LAND: {length_nm:.2f} NM", length_nm=length_nm)
                if crossing.leg_index < leg_index
                else tr(
                    "THE LEG AFTER IT WOULD CROSS LAND: {length_nm:.2f} NM", length_nm=length_nm
                )
            )
    return tuple(words)


def _corridor_words(leg: LegPlan, nearest_m: float | None) -> tuple[str, ...]:
    widest_m = max(leg.corridor_port_m, leg.corridor_starboard_m)
    if nearest_m is None or nearest_m > widest_m:
        return ()
    return (
        tr(
            "LAND {nearest} NM FROM THE TRACK, the corridor is {corridor_nm:.2f} NM",
            nearest=_down(nearest_m),
            corridor_nm=nm_from_m(widest_m),
        ),
    )


def _limit_words(outcome: Outcome) -> tuple[str, ...]:
    """Danger limits that the leg does not keep, or that nothing watches."""
    found = [
        finding.what
        for code in _LOUD
        for finding in outcome.plan.findings
        if finding.code == code and finding.where.leg_number in (None, 1)
    ]
    return (*_too_near(outcome), *(tr("DANGER LIMIT: {finding}", finding=what) for what in found))


def _too_near(outcome: Outcome) -> tuple[str, ...]:
    """Limits «not less than» of objects that the leg passes nearer, indexed or not."""
    places = {thing.id.casefold(): thing for thing in outcome.plan.objects}
    line = outcome.plan.passage.line(0)
    words = []
    for limit in outcome.request.limits:
        thing = places.get(limit.object_id.strip().casefold())
        if thing is None or limit.leg_number not in (None, 1) or limit.least_m is None:
            continue
        off_m = _off_m(line, thing.position)
        if off_m < limit.least_m:
            words.append(
                tr(
                    "DANGER LIMIT BROKEN: {off} NM off {object_id}, the limit is "
                    "not less than {limit_nm:.2f} NM",
                    off=_down(off_m),
                    object_id=thing.id,
                    limit_nm=nm_from_m(limit.least_m),
                )
            )
    return tuple(words)


def _off_m(line: LegLine, position: Position) -> float:
    """Distance of a place from a leg between its waypoints, m; a plane will do for a few miles."""
    along, cross = line.track_coordinates(
        np.array([position.lat_deg]), np.array([position.lon_deg])
    )
    past_m = max(-float(along[0]), float(along[0]) - line.length_m, 0.0)
    return math.hypot(float(cross[0]), past_m)


def _down(distance_m: float) -> str:
    return f"{math.floor(nm_from_m(distance_m) * 100.0 + 1e-6) / 100.0:.2f}"
