"""Dead ranges, check spots and cross-checks of a leg as rows of words."""

from collections.abc import Iterator

from app.views.plan_rows import to_go
from app.views.table_model import Row
from core.base.language import tr
from core.plan.leg_check_result import LegChecks
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
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
    heading_spot_means,
    heading_spot_words,
    index_spot_means,
    index_spot_words,
    rate_words,
)
from core.words.reasons import sentence


def check_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Under the heads of the radar fixes: when, NM to go, what to read, what it means."""
    checks = leg.checks
    if checks is None:
        return ()
    return (
        *_dead(outcome, leg, checks),
        *_spots(outcome, leg, checks),
        *_cross(outcome, leg, checks),
        _note(f"{WHEN_LINES_DIFFER}:"),
        *(_note(f"{sign}: {meaning}") for sign, meaning in DIAGNOSIS),
    )


def _note(text: str) -> Row:
    return Row(cells=(text,), tip=text, is_note=True)


def _dead(outcome: Outcome, leg: LegPlan, checks: LegChecks) -> Iterator[Row]:
    is_last = leg.leg_index == len(outcome.plan.legs) - 1
    for dead in checks.dead_ranges:
        yield Row(
            cells=(
                times.span(
                    outcome.plan.timetable, leg.leg_index, dead.from_along_m, dead.to_along_m
                ),
                to_go(leg, dead.from_along_m, dead.to_along_m),
                f"{DEAD_RANGE} {dead_range_words(dead, is_last_leg=is_last)}",
                rate_words(dead),
            ),
            tip=f"{dead.object_id}: {dead.name}",
            subject=dead,
        )
    if checks.dead_ranges_reason is not None:
        yield _note(
            tr(
                "No {dead_range}: {sentence}",
                dead_range=DEAD_RANGE,
                sentence=sentence(checks.dead_ranges_reason),
            )
        )


def _spots(outcome: Outcome, leg: LegPlan, checks: LegChecks) -> Iterator[Row]:
    pair, marker = checks.index_spot, checks.heading_spot
    if pair is not None:
        yield Row(
            cells=(
                times.when(outcome.plan.timetable, leg.leg_index, pair.along_m),
                quantities.miles(leg.distance_m - pair.along_m, 2),
                f"{RANGE_CHECK} {index_spot_words(pair)}",
                index_spot_means(pair),
            ),
            subject=pair,
        )
    elif checks.index_spot_reason is not None:
        yield _note(
            tr(
                "No {range_check}: {sentence}",
                range_check=RANGE_CHECK,
                sentence=sentence(checks.index_spot_reason),
            )
        )
    if marker is not None:
        yield Row(
            cells=(
                times.when(outcome.plan.timetable, leg.leg_index, marker.along_m),
                quantities.miles(leg.distance_m - marker.along_m, 2),
                f"{MARKER_CHECK} {heading_spot_words(marker)}",
                heading_spot_means(marker),
            ),
            tip=f"{marker.object_id}: {marker.name}",
            subject=marker,
        )
    elif checks.heading_spot_reason is not None:
        yield _note(
            tr(
                "No check of the {marker_check}: {sentence}",
                marker_check=MARKER_CHECK,
                sentence=sentence(checks.heading_spot_reason),
            )
        )


def _cross(outcome: Outcome, leg: LegPlan, checks: LegChecks) -> Iterator[Row]:
    for cross in checks.cross_checks:
        yield Row(
            cells=(
                times.span(
                    outcome.plan.timetable, leg.leg_index, cross.from_along_m, cross.to_along_m
                ),
                to_go(leg, cross.from_along_m, cross.to_along_m),
                f"{CROSS_CHECK} {cross_check_words(cross)}",
                cross_check_means(cross),
            ),
            subject=cross,
        )
