"""How the objects of a leg stand to it, and the limits of their first paint in words."""

from dataclasses import dataclass
from enum import Enum

from core.coverage.coverage_result import FirstSight, Moment
from core.coverage.first_paint_result import FirstPaint, MustNotPaint, PaintLimit, WhatIfKind
from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan
from core.words import quantities, times
from core.words.messages import Say


class Stand(Enum):
    """How an object stands to a leg."""

    COMES = "comes on the leg"
    FROM_START = "there from its start"
    NEVER = "never"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sighting:
    """One object of a leg: its paint, or its sight alone where no radar was worked out."""

    object_id: str
    name: str
    height_above_water_m: float
    stand: Stand
    moment: Moment | None
    """From where it is expected to paint, or is in sight."""
    reason: str
    """Why there is no moment."""
    lost: Moment | None
    lost_to: str
    passes_unknown: bool
    thing: FirstSight | FirstPaint
    paint: FirstPaint | None

    @property
    def is_listed(self) -> bool:
        """Whether there is a moment to look out for."""
        overdue = None if self.paint is None else self.paint.overdue.moment
        return self.moment is not None or overdue is not None

    @property
    def first_along_m(self) -> float:
        """Where it is looked out for first, for an order along the leg."""
        return 0.0 if self.moment is None else self.moment.along_m


def sightings(plan: LegPlan) -> tuple[Sighting, ...]:
    """All objects of a leg that there is something to say of, and the coast that first shows."""
    sights = {sight.object_id: sight for sight in plan.first_sights}
    paints = {paint.object_id: paint for paint in plan.first_paints}
    ids = dict.fromkeys((*sights, *paints))
    coast = (paint for paint in plan.coast_paints if paint.normally_by.moment is not None)
    return (
        *(_sighting(sights.get(i), paints.get(i)) for i in ids),
        *(_sighting(None, paint) for paint in coast),
    )


def _sighting(sight: FirstSight | None, paint: FirstPaint | None) -> Sighting:
    unsure = sight is not None and sight.passes_unknown
    if paint is not None:
        by, lost = paint.normally_by, paint.lost
        return Sighting(
            object_id=paint.object_id,
            name=paint.name,
            height_above_water_m=paint.height_above_water_m,
            stand=_stand_of_paint(by),
            moment=by.moment,
            reason=by.reason,
            lost=None if lost is None else lost.ends,
            lost_to="" if lost is None else lost.lost_to,
            passes_unknown=unsure,
            thing=paint,
            paint=paint,
        )
    if sight is None:
        raise ValueError("neither sight nor paint")
    return Sighting(
        object_id=sight.object_id,
        name=sight.name,
        height_above_water_m=sight.height_above_water_m,
        stand=_stand_of_sight(sight),
        moment=sight.in_sight_from,
        reason=sight.in_sight_from_reason,
        lost=sight.lost,
        lost_to="",
        passes_unknown=unsure,
        thing=sight,
        paint=None,
    )


def _stand_of_paint(by: PaintLimit) -> Stand:
    if by.moment is not None:
        return Stand.COMES
    if by.is_from_start:
        return Stand.FROM_START
    return Stand.UNKNOWN if by.reason.startswith(Say.REASON_NOT_KNOWN) else Stand.NEVER


def _stand_of_sight(sight: FirstSight) -> Stand:
    """After the moment, or the first words of the reason why there is none."""
    if sight.in_sight_from is not None:
        return Stand.COMES
    if sight.in_sight_from_reason.startswith(Say.REASON_FROM_START):
        return Stand.FROM_START
    return Stand.NEVER if sight.in_sight_from_reason.startswith(Say.REASON_NEVER) else Stand.UNKNOWN


def limit_when(
    timetable: Timetable, leg_index: int, limit: PaintLimit, *, is_late: bool = False
) -> str:
    """Time of a limit, rounded so that it never misleads; a word or a dash where there is none."""
    if limit.moment is None:
        return str(Say.AT_START) if limit.is_from_start else quantities.DASH
    rounded = times.when_late if is_late else times.when_early
    return rounded(timetable, leg_index, limit.moment.along_m)


def limits_words(paint: FirstPaint, timetable: Timetable, leg_index: int) -> tuple[str, ...]:
    """The limits but «normally by»: those there are, the one that calls the master last."""
    said = []
    if paint.earliest_possible.moment is not None:
        when = limit_when(timetable, leg_index, paint.earliest_possible)
        said.append(Say.POSSIBLE.format(when=when))
    if paint.normally_from.moment is not None:
        when = limit_when(timetable, leg_index, paint.normally_from)
        said.append(Say.NORMALLY_FROM.format(when=when))
    if paint.corridor_by != paint.normally_by:
        when = limit_when(timetable, leg_index, paint.corridor_by, is_late=True)
        if paint.corridor_by.moment is None:
            said.append(str(Say.NOT_ALL_CORRIDOR))
        else:
            said.append(Say.CORRIDOR_BY.format(when=when))
    if paint.overdue.moment is not None:
        when = limit_when(timetable, leg_index, paint.overdue, is_late=True)
        said.append(Say.OVERDUE.format(when=when))
    held = {limit.held_by for limit in (paint.normally_by, paint.overdue) if limit.held_by}
    said += [Say.BLIND_BEFORE.format(sector=sector) for sector in sorted(held)]
    return tuple(said)


def band_words(paint: FirstPaint, kind: WhatIfKind) -> str:
    """What another weather makes of «normally by»: a span of ranges, never one number."""
    limits = [paint.normally_by, *(w.limit for w in paint.what_if if w.kind is kind)]
    moments = [limit.moment for limit in limits if limit.moment is not None]
    misses = any(limit.moment is None and not limit.is_from_start for limit in limits)
    starts = any(limit.is_from_start for limit in limits)
    if not moments:
        return str(Say.AT_START) if starts and not misses else str(Say.MAY_NOT_PAINT)
    near, far = min(m.range_m for m in moments), max(m.range_m for m in moments)
    words = quantities.radar_range(far)
    is_one = words == quantities.radar_range(near)
    if starts:
        words = f"{Say.AT_START}{quantities.DASH}{quantities.radar_range(near)}"
    elif not is_one:
        words = f"{quantities.radar_range(far).removesuffix(' NM')}{quantities.DASH}"
        words += quantities.radar_range(near)
    return f"{words}, {Say.OR_NOT_AT_ALL}" if misses else words


def must_not_words(item: MustNotPaint, timetable: Timetable, leg_index: int) -> str:
    """A stretch on which something must not paint."""
    return Say.MUST_NOT.format(
        span=times.span(timetable, leg_index, item.begins.along_m, item.ends.along_m),
        begins=quantities.radar_range(item.begins.range_m).removesuffix(" NM"),
        begins_brg=quantities.whole_degrees(item.begins.bearing_deg),
        ends=quantities.radar_range(item.ends.range_m),
        ends_brg=quantities.whole_degrees(item.ends.bearing_deg),
        cause=item.masked_by,
    )


def radar_words(paint: FirstPaint) -> str:
    """Which radars paint it, and from what range: both, one or none; by band where that tells."""
    bands = [one.band for one in paint.by_radar]
    parts = []
    for one in paint.by_radar:
        name = one.band if len(set(bands)) == len(bands) else one.radar
        moment = one.limit.moment
        if moment is not None:
            parts.append(f"{name} {quantities.radar_range(moment.range_m)}")
        elif one.limit.is_from_start:
            parts.append(f"{name} {Say.AT_START}")
    if not parts:
        return str(Say.NO_RADAR_PAINTS)
    if len(bands) > 1 and len(parts) == 1:
        return Say.ONE_RADAR_PAINTS.format(radar=parts[0])
    return ", ".join(parts)
