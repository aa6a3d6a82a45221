"""Dead ranges, check spots and cross-checks of a leg as rows of the list at the back."""

from collections.abc import Iterator, Sequence

from core.base.language import tr
from core.passage.timetable import Timetable
from core.plan.leg_check_result import CrossCheck, LegChecks
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import Entry, Section
from core.sheets.tables import Cell, Row
from core.words import quantities, times
from core.words.check_words import (
    CROSS_CHECK,
    DEAD_RANGE,
    DIAGNOSIS,
    MARKER_CHECK,
    RANGE_CHECK,
    WHEN_LINES_DIFFER,
    cross_check_means,
    cross_check_words,
    dead_range_words,
    end_words,
    heading_spot_means,
    heading_spot_words,
    index_spot_means,
    index_spot_words,
    rate_words,
)
from core.words.messages import Say
from core.words.reasons import sentence

_MOST_CROSS = 2
"""Pairs of index lines of a leg on paper; all are in the plan file and in the window."""


def check_list_rows(outcome: Outcome, leg: LegPlan) -> Iterator[Row]:
    """Rows of one leg: what, when, what to read, what it means, a box."""
    checks = leg.checks
    if checks is None:
        return
    timetable = outcome.plan.timetable
    is_last = leg.leg_index == len(outcome.plan.legs) - 1
    for dead in checks.dead_ranges:
        yield Row(
            cells=(
                Cell(text=DEAD_RANGE),
                _span(leg, dead.from_along_m, dead.to_along_m, timetable),
                Cell(text=dead_range_words(dead, is_last_leg=is_last), is_bold=True),
                Cell(text=rate_words(dead)),
                Cell(is_blank_box=True),
            ),
            reference="check",
        )
    pair, marker = checks.index_spot, checks.heading_spot
    if pair is not None:
        yield Row(
            cells=(
                Cell(text=RANGE_CHECK),
                _at(leg, pair.along_m, timetable),
                Cell(text=index_spot_words(pair), is_bold=True),
                Cell(text=index_spot_means(pair)),
                Cell(is_blank_box=True),
            ),
            reference="check",
        )
    if marker is not None:
        yield Row(
            cells=(
                Cell(text=MARKER_CHECK),
                _at(leg, marker.along_m, timetable),
                Cell(text=heading_spot_words(marker), is_bold=True),
                Cell(text=heading_spot_means(marker)),
                Cell(is_blank_box=True),
            ),
            reference="check",
        )
    for cross in most_telling(checks.cross_checks)[:_MOST_CROSS]:
        yield Row(
            cells=(
                Cell(text=CROSS_CHECK),
                _span(leg, cross.from_along_m, cross.to_along_m, timetable),
                Cell(text=cross_check_words(cross)),
                Cell(text=cross_check_means(cross)),
                Cell(),
            ),
            reference="check",
        )
    missing = _missing(checks)
    if missing:
        yield Row(cells=(), note=missing, reference="check")


def most_telling(checks: Sequence[CrossCheck]) -> list[CrossCheck]:
    """Pairs that tell more causes apart first, then those together for longer."""
    return sorted(
        checks, key=lambda c: (len(c.alike), c.from_along_m - c.to_along_m, c.first_id, c.second_id)
    )


def _missing(checks: LegChecks) -> str:
    """In one line what the leg has none of, and why."""
    parts = [
        tr("no {check}: {sentence}", check=what, sentence=sentence(reason))
        for what, reason in (
            (DEAD_RANGE, checks.dead_ranges_reason),
            (RANGE_CHECK, checks.index_spot_reason),
            (
                tr("check of the {marker_check}", marker_check=MARKER_CHECK),
                checks.heading_spot_reason,
            ),
        )
        if reason is not None
    ]
    words = "; ".join(parts)
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _span(leg: LegPlan, from_m: float, to_m: float, timetable: Timetable) -> Cell:
    return Cell(
        text=times.span(timetable, leg.leg_index, from_m, to_m),
        second=f"{quantities.miles(leg.distance_m - from_m)}{quantities.DASH}"
        f"{quantities.miles(leg.distance_m - to_m)} {Say.NM_TO_GO}",
    )


def _at(leg: LegPlan, along_m: float, timetable: Timetable) -> Cell:
    return Cell(
        text=times.when(timetable, leg.leg_index, along_m),
        beside=quantities.miles(leg.distance_m - along_m, 2),
        is_bold=True,
    )


def countdown_section(outcome: Outcome, leg: LegPlan, *, where: str) -> Section:
    """One line on the sheet of the leg: the dead range at its end, and where the rest stands."""
    dead_ranges = () if leg.checks is None else leg.checks.dead_ranges
    counting = [dead for dead in dead_ranges if dead.countdown]
    is_last = leg.leg_index == len(outcome.plan.legs) - 1
    return Section(
        title=end_words(counting[0], is_last_leg=is_last) if counting else "",
        entries=(),
        left_out=len(counting),
        where=where,
        is_pointer=True,
    )


def diagnosis_section() -> Section:
    """What it means when index lines do not read as planned; said once for all legs."""
    entries = tuple(Entry(lead=sign, text=meaning) for sign, meaning in DIAGNOSIS)
    return Section(title=WHEN_LINES_DIFFER, entries=entries, keep=len(entries))
