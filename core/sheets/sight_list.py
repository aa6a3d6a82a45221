"""What first paints on a leg: in short beside its strip, in full at the end of the book.

Where no radar was worked out, what comes in sight stands in its place.
"""

from collections.abc import Sequence

from core.coverage.coverage_result import Moment
from core.geodesy import geodesic
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import Entry, Section
from core.sheets.page import Anchor
from core.sheets.short_names import described, used_objects
from core.sheets.tables import Cell, Column, Row
from core.words import quantities, times
from core.words.messages import Say
from core.words.paint_words import Sighting, Stand, limit_when, limits_words, sightings

_TABS_MM = (20.5, 31.0, 40.5)
_BOX_MM = 18.0
_FIRST = 2
"""So many of what comes stand on the sheet before what is there already."""


def sight_title(plan: LegPlan) -> Say:
    """Heading of the section, after what was worked out."""
    return Say.FIRST_PAINT if plan.first_paints else Say.IN_SIGHT


def list_title(outcome: Outcome) -> Say:
    """Heading of the list at the end."""
    has_paint = any(leg.first_paints for leg in outcome.plan.legs)
    return Say.PAINT_LIST if has_paint else Say.SIGHT_LIST


def sight_section(outcome: Outcome, plan: LegPlan, *, where: str, is_shortened: bool) -> Section:
    """What first paints, with boxes to tick off; what paints already by letter only.

    Where room is short what the leg uses and what it sights first stay longest, then what the
    next leg uses, then the officer's marks, then what is nearest when it comes.
    """
    timetable = outcome.plan.timetable
    everything = sightings(plan)
    coming = sorted(
        (one for one in everything if one.is_listed),
        key=lambda one: (one.first_along_m, one.object_id),
    )
    ranks = _ranks(outcome, plan, coming)
    entries = [
        Entry(
            lead=one.object_id,
            facts=_facts(outcome, plan, one),
            text=_words(plan, one, timetable),
            has_box=True,
            rank=ranks[one.object_id],
            reference=f"sight:{one.object_id}",
        )
        for one in coming
    ]
    has_paint = bool(plan.first_paints)
    if has_paint and any(one.paint and one.paint.overdue.moment for one in coming):
        entries.insert(0, Entry(text=str(Say.OVERDUE_MEANS)))
    for stand, lead in (
        (Stand.FROM_START, Say.PAINTS_FROM_START if has_paint else Say.FROM_START),
        (Stand.NEVER, Say.NOT_PAINTED if has_paint else Say.NEVER_IN_SIGHT),
        (Stand.UNKNOWN, Say.SIGHT_NOT_KNOWN),
    ):
        ids = [o.object_id for o in everything if o.stand is stand and not o.is_listed]
        if ids:
            entries.append(
                Entry(lead=str(lead), text=", ".join(ids), rank=_FIRST + 1, count=len(ids))
            )
    head = f"{Say.BY} {times.zone_short(timetable)}" if has_paint else _from_head(timetable)
    return Section(
        title=sight_title(plan),
        entries=tuple(entries),
        keep=_FIRST + 1,
        where=where,
        is_shortened=is_shortened and bool(entries),
        heads=(head, "NM", "° T", str(Say.SEEN_AT)),
        tabs_mm=_TABS_MM,
        box_mm=_BOX_MM,
    )


def _from_head(timetable: Timetable) -> str:
    return f"{Say.COLUMN_FROM} {times.zone_short(timetable)}"


def says_less(plan: LegPlan) -> bool:
    """Whether the section of a leg, though whole, says less than the list at the end."""
    return any(not one.is_listed for one in sightings(plan))


def _ranks(outcome: Outcome, plan: LegPlan, coming: Sequence[Sighting]) -> dict[str, int]:
    """1 for what stays longest; every object its own rank."""
    used = {thing.id for thing in used_objects(plan)}
    after = outcome.plan.legs[plan.leg_index + 1 : plan.leg_index + 2]
    wanted = (
        used | {one.object_id for one in coming[:1]},
        {thing.id for leg in after for thing in used_objects(leg)},
        {mark.name for mark in outcome.request.marks},
    )

    def wish(one: Sighting) -> tuple[int, float, str]:
        group = next((n for n, ids in enumerate(wanted) if one.object_id in ids), len(wanted))
        return group, _moment(outcome, plan, one).range_m, one.object_id

    ordered = sorted(coming, key=wish)
    # Lists of letters give way after the first few.
    ranks = (n + 1 if n < _FIRST else n + 2 for n in range(len(ordered)))
    return {one.object_id: rank for one, rank in zip(ordered, ranks, strict=True)}


def _moment(outcome: Outcome, plan: LegPlan, one: Sighting) -> Moment:
    """Where it bears when it is looked out for: from the start of the leg if it is there then."""
    return one.moment or _at_start(outcome, plan, one)


def _facts(outcome: Outcome, plan: LegPlan, one: Sighting) -> tuple[str, str, str]:
    timetable = outcome.plan.timetable
    moment = _moment(outcome, plan, one)
    return (
        _when(one, plan, timetable),
        quantities.radar_range(moment.range_m).removesuffix(" NM"),
        quantities.whole_degrees(moment.bearing_deg),
    )


def _when(one: Sighting, plan: LegPlan, timetable: Timetable) -> str:
    """First sight rounded down, «normally by» rounded up: neither is told better than it is."""
    if one.moment is None:
        return str(Say.AT_START)
    rounded = times.when_early if one.paint is None else times.when_late
    return rounded(timetable, plan.leg_index, one.moment.along_m)


def _words(plan: LegPlan, one: Sighting, timetable: Timetable) -> str:
    """What it is, its other limits, when it is lost, whether data may be missing in between."""
    parts = [described(one.name, None)] if one.name != one.object_id else []
    if one.paint is not None:
        parts += limits_words(one.paint, timetable, plan.leg_index)
    if one.lost is not None:
        lost = times.when_early(timetable, plan.leg_index, one.lost.along_m)
        parts.append(f"{Say.LOST} {lost}")
    if one.passes_unknown:
        parts.append(str(Say.EARLIEST))
    return "; ".join(parts)


def sight_columns(outcome: Outcome) -> tuple[Column, ...]:
    """Columns of the list at the end of the book."""
    zone = times.zone_short(outcome.plan.timetable)
    if list_title(outcome) is Say.PAINT_LIST:
        return (
            Column(head=Say.COLUMN_OBJECT, width_mm=56.5),
            Column(head=Say.COLUMN_HEIGHT, width_mm=14.5, anchor=Anchor.END),
            Column(head=Say.COLUMN_POSSIBLE, width_mm=15.5, anchor=Anchor.END),
            Column(head=Say.COLUMN_NORMALLY_FROM, width_mm=14.0, anchor=Anchor.END),
            Column(head=f"{Say.COLUMN_BY} {zone}", width_mm=17.0, anchor=Anchor.END),
            Column(head="NM", width_mm=12.5, anchor=Anchor.END),
            Column(head="° T", width_mm=10.0, anchor=Anchor.END),
            Column(head=Say.COLUMN_OVERDUE, width_mm=18.0, anchor=Anchor.END),
            Column(head=Say.LOST, width_mm=13.0, anchor=Anchor.END),
            Column(head=Say.SEEN_AT, width_mm=17.0),
        )
    return (
        Column(head=Say.COLUMN_OBJECT, width_mm=76.0),
        Column(head=Say.COLUMN_HEIGHT, width_mm=14.0, anchor=Anchor.END),
        Column(head=f"{Say.COLUMN_FROM} {zone}", width_mm=22.5, anchor=Anchor.END),
        Column(head=Say.NM_TO_GO_HEAD, width_mm=17.5, anchor=Anchor.END),
        Column(head="NM", width_mm=13.0, anchor=Anchor.END),
        Column(head="° T", width_mm=11.0, anchor=Anchor.END),
        Column(head=Say.LOST, width_mm=14.0, anchor=Anchor.END),
        Column(head=Say.SEEN_AT, width_mm=20.0),
    )


MOST_A_LEG = 18
"""On paper, where the radar was worked out; all of them are in the plan file and in the window."""


def sight_rows(outcome: Outcome, plan: LegPlan) -> tuple[Row, ...]:
    """Objects of a leg: as they come, then those there already, then the rest.

    Where the radar was worked out, what comes and the most useful of it; all else by letter.
    """
    order = list(Stand)
    everything = sightings(plan)
    ranked = sorted(everything, key=lambda one: (order.index(one.stand), one.first_along_m))
    if not plan.first_paints:
        return tuple(_row(outcome, plan, one) for one in ranked)
    ranks = _ranks(outcome, plan, [one for one in everything if one.is_listed])
    shown = sorted(ranks, key=lambda i: ranks[i])[:MOST_A_LEG]
    first = next(leg for leg in outcome.plan.legs if leg.first_paints)
    is_first = plan.leg_index == first.leg_index
    rows = [Row(cells=(), note=str(Say.LIMITS_MEAN))] if is_first else []
    rows += [_row(outcome, plan, one) for one in ranked if one.object_id in shown]
    for stand, words in (
        (Stand.COMES, Say.ALSO_PAINTS),
        (Stand.FROM_START, Say.PAINTS_FROM_START),
        (Stand.NEVER, Say.NOT_PAINTED),
        (Stand.UNKNOWN, Say.SIGHT_NOT_KNOWN),
    ):
        ids = [o.object_id for o in ranked if o.stand is stand and o.object_id not in shown]
        if ids:
            rows.append(Row(cells=(), note=f"{words}: {', '.join(ids)}"))
    return tuple(rows)


def _row(outcome: Outcome, plan: LegPlan, one: Sighting) -> Row:
    timetable = outcome.plan.timetable
    words = described(one.name, one.height_above_water_m) if one.name != one.object_id else ""
    is_there = one.stand in (Stand.COMES, Stand.FROM_START)
    notes = (
        words,
        "" if is_there else one.reason,
        Say.EARLIEST if one.passes_unknown and is_there else "",
        one.lost_to and Say.LOST_BEHIND.format(when=Say.LOST, what=one.lost_to),
    )
    said = "; ".join(str(part) for part in notes if part)
    lost = ""
    if one.lost is not None:
        lost = times.when_early(timetable, plan.leg_index, one.lost.along_m)
    return Row(
        cells=(
            Cell(text=one.object_id, beside=said, is_bold=True),
            Cell(text=quantities.height(one.height_above_water_m)),
            *(Cell(text=figure) for figure in _figures(outcome, plan, one, is_there=is_there)),
            Cell(text=lost),
            Cell(is_blank_box=one.is_listed),
        ),
        reference=f"sight:{one.object_id}",
    )


def _figures(outcome: Outcome, plan: LegPlan, one: Sighting, *, is_there: bool) -> tuple[str, ...]:
    """The columns between height and loss."""
    timetable, dash = outcome.plan.timetable, quantities.DASH
    when, off, bears = _facts(outcome, plan, one) if is_there else (dash, dash, dash)
    if list_title(outcome) is Say.PAINT_LIST:
        if one.paint is None:
            return dash, dash, when, off, bears, dash
        limits = (one.paint.earliest_possible, one.paint.normally_from)
        early = (limit_when(timetable, plan.leg_index, limit) for limit in limits)
        due = limit_when(timetable, plan.leg_index, one.paint.overdue, is_late=True)
        return *early, when, off, bears, due
    to_go = dash
    if is_there:
        to_go = quantities.miles(plan.distance_m - _moment(outcome, plan, one).along_m)
    return when, to_go, off, bears


def _at_start(outcome: Outcome, plan: LegPlan, one: Sighting) -> Moment:
    """Where an object that is there already bears from at the start of the leg."""
    own = outcome.plan.passage.line(plan.leg_index).position_at(0.0)
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=own.lat_deg,
        from_lon_deg=own.lon_deg,
        to_lat_deg=one.thing.position.lat_deg,
        to_lon_deg=one.thing.position.lon_deg,
    )
    return Moment(along_m=0.0, range_m=float(range_m), bearing_deg=float(bearing_deg) % 360.0)
