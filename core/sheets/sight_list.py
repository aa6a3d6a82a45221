"""What comes in sight on a leg: in short beside its strip, in full at the end of the book."""

from collections.abc import Sequence
from enum import Enum

from core.coverage.coverage_result import FirstSight, Moment
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

_TABS_MM = (20.5, 31.0, 40.5)
_BOX_MM = 18.0
_FIRST = 2
"""So many of what comes in sight stand on the sheet before what is in sight already."""


class _Kind(Enum):
    """How an object stands to a leg."""

    COMES = "comes in sight on the leg"
    FROM_START = "in sight from its start"
    NEVER = "never in sight"
    UNKNOWN = "not known"


def _kind(sight: FirstSight) -> _Kind:
    """After the moment, or the first words of the reason why there is none."""
    if sight.in_sight_from is not None:
        return _Kind.COMES
    for kind, words in (
        (_Kind.FROM_START, Say.REASON_FROM_START),
        (_Kind.NEVER, Say.REASON_NEVER),
    ):
        if sight.in_sight_from_reason.startswith(words):
            return kind
    return _Kind.UNKNOWN


def sight_section(outcome: Outcome, plan: LegPlan, *, where: str, is_shortened: bool) -> Section:
    """What comes in sight, with boxes to tick off; what is in sight already by letter only.

    Where room is short what the leg uses and what it sights first stay longest, then what the
    next leg uses, then the officer's marks, then what is nearest when it comes in sight.
    """
    timetable = outcome.plan.timetable
    coming = [sight for sight in plan.first_sights if _kind(sight) is _Kind.COMES]
    coming.sort(key=lambda s: (_moment(s).along_m, s.object_id))
    ranks = _ranks(outcome, plan, coming)
    entries = [
        Entry(
            lead=sight.object_id,
            facts=_facts(plan, timetable, _moment(sight)),
            text=_words(plan, sight, timetable),
            has_box=True,
            rank=ranks[sight.object_id],
            reference=f"sight:{sight.object_id}",
        )
        for sight in coming
    ]
    for kind, lead in (
        (_Kind.FROM_START, Say.FROM_START),
        (_Kind.NEVER, Say.NEVER_IN_SIGHT),
        (_Kind.UNKNOWN, Say.SIGHT_NOT_KNOWN),
    ):
        ids = [sight.object_id for sight in plan.first_sights if _kind(sight) is kind]
        if ids:
            entries.append(
                Entry(lead=str(lead), text=", ".join(ids), rank=_FIRST + 1, count=len(ids))
            )
    return Section(
        title=Say.IN_SIGHT,
        entries=tuple(entries),
        keep=_FIRST + 1,
        where=where,
        is_shortened=is_shortened and bool(entries),
        heads=(f"{Say.COLUMN_FROM} {times.zone_short(timetable)}", "NM", "° T", str(Say.SEEN_AT)),
        tabs_mm=_TABS_MM,
        box_mm=_BOX_MM,
    )


def says_less(plan: LegPlan) -> bool:
    """Whether the section of a leg, though whole, says less than the list at the end."""
    return any(_kind(sight) is not _Kind.COMES for sight in plan.first_sights)


def _ranks(outcome: Outcome, plan: LegPlan, coming: Sequence[FirstSight]) -> dict[str, int]:
    """1 for what stays longest; every object its own rank."""
    used = {thing.id for thing in used_objects(plan)}
    after = outcome.plan.legs[plan.leg_index + 1 : plan.leg_index + 2]
    wanted = (
        used | {sight.object_id for sight in coming[:1]},
        {thing.id for leg in after for thing in used_objects(leg)},
        {mark.name for mark in outcome.request.marks},
    )

    def wish(sight: FirstSight) -> tuple[int, float, str]:
        group = next((n for n, ids in enumerate(wanted) if sight.object_id in ids), len(wanted))
        return group, _moment(sight).range_m, sight.object_id

    ordered = sorted(coming, key=wish)
    # Lists of letters give way after the first few.
    ranks = (n + 1 if n < _FIRST else n + 2 for n in range(len(ordered)))
    return {sight.object_id: rank for sight, rank in zip(ordered, ranks, strict=True)}


def _moment(sight: FirstSight) -> Moment:
    if sight.in_sight_from is None:
        raise ValueError(f"{sight.object_id} has no first moment")
    return sight.in_sight_from


def _facts(plan: LegPlan, timetable: Timetable, moment: Moment) -> tuple[str, str, str]:
    return (
        times.when_early(timetable, plan.leg_index, moment.along_m),
        quantities.radar_range(moment.range_m).removesuffix(" NM"),
        quantities.whole_degrees(moment.bearing_deg),
    )


def _words(plan: LegPlan, sight: FirstSight, timetable: Timetable) -> str:
    """What it is, when it is lost, and whether data may be missing in between."""
    parts = [described(sight.name, None)] if sight.name != sight.object_id else []
    if sight.lost is not None:
        lost = times.when_early(timetable, plan.leg_index, sight.lost.along_m)
        parts.append(f"{Say.LOST} {lost}")
    if sight.passes_unknown:
        parts.append(str(Say.EARLIEST))
    return "; ".join(parts)


def sight_columns(timetable: Timetable) -> tuple[Column, ...]:
    """Columns of the list at the end of the book."""
    zone = times.zone_short(timetable)
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


def sight_rows(outcome: Outcome, plan: LegPlan) -> tuple[Row, ...]:
    """Every object of a leg: as they come in sight, then those in sight already, then the rest."""
    order = list(_Kind)
    ranked = sorted(
        plan.first_sights,
        key=lambda s: (
            order.index(_kind(s)),
            s.in_sight_from.along_m if s.in_sight_from is not None else 0.0,
        ),
    )
    return tuple(_row(outcome, plan, sight) for sight in ranked)


def _row(outcome: Outcome, plan: LegPlan, sight: FirstSight) -> Row:
    timetable = outcome.plan.timetable
    kind = _kind(sight)
    moment = sight.in_sight_from
    if kind is _Kind.FROM_START:
        moment = _at_start(outcome, plan, sight)
    words = (
        described(sight.name, sight.height_above_water_m) if sight.name != sight.object_id else ""
    )
    if moment is None:
        said = "; ".join(part for part in (words, sight.in_sight_from_reason) if part)
        figures = (quantities.DASH,) * 4
    else:
        said = "; ".join(
            part for part in (words, Say.EARLIEST if sight.passes_unknown else "") if part
        )
        when, off, bears = _facts(plan, timetable, moment)
        to_go = quantities.miles(plan.distance_m - moment.along_m)
        figures = (str(Say.AT_START) if kind is _Kind.FROM_START else when, to_go, off, bears)
    lost = ""
    if sight.lost is not None:
        lost = times.when_early(timetable, plan.leg_index, sight.lost.along_m)
    return Row(
        cells=(
            Cell(text=sight.object_id, beside=said, is_bold=True),
            Cell(text=quantities.height(sight.height_above_water_m)),
            *(Cell(text=figure) for figure in figures),
            Cell(text=lost),
            Cell(is_blank_box=kind is _Kind.COMES),
        ),
        reference=f"sight:{sight.object_id}",
    )


def _at_start(outcome: Outcome, plan: LegPlan, sight: FirstSight) -> Moment:
    """Where an object that is in sight already bears from at the start of the leg."""
    own = outcome.plan.passage.line(plan.leg_index).position_at(0.0)
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=own.lat_deg,
        from_lon_deg=own.lon_deg,
        to_lat_deg=sight.position.lat_deg,
        to_lon_deg=sight.position.lon_deg,
    )
    return Moment(along_m=0.0, range_m=float(range_m), bearing_deg=float(bearing_deg) % 360.0)
