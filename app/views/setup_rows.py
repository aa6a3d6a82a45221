"""Set-up card and tune check of a leg as rows of words, and the order of set-up below them."""

from collections.abc import Iterator

from app.views.plan_rows import to_go
from app.views.table_model import Row
from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.tune_result import TuneCheck, TuneRung
from core.words import quantities, times
from core.words.card_words import why_words
from core.words.kept_words import shown
from core.words.messages import Say
from core.words.reasons import sentence
from core.words.setup_words import (
    COMMON_PRACTICE,
    COMMON_PRACTICE_SIGN,
    ORDER_OF_SET_UP,
    READINGS,
    WHEN_TUNED,
    control_words,
    rung_words,
)

SETUP_HEADS = (tr("Control"), tr("NM to go"), tr("Setting"), tr("Why"))


def setup_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Every setting with its reason, the tune check, then what holds for every leg."""
    return (
        *_settings(leg),
        *_check(outcome, leg),
        _note(str(Say.ORDER_OF_SET_UP)),
        *(_note(f"{n}. {text}") for n, text in enumerate(ORDER_OF_SET_UP, start=1)),
        _note(str(Say.WHEN_TUNED)),
        *(_note(text) for text in WHEN_TUNED),
        _note(COMMON_PRACTICE),
    )


def _note(text: str) -> Row:
    return Row(cells=(text,), tip=text, is_note=True)


def _settings(leg: LegPlan) -> Iterator[Row]:
    for row in leg.setup.rows if leg.setup is not None else ():
        why = why_words(row) + (COMMON_PRACTICE_SIGN if row.is_common_practice else "")
        yield Row(
            cells=(
                control_words(row),
                to_go(leg, row.from_along_m, row.to_along_m),
                sentence(row.setting),
                why,
            ),
            tip=f"{control_words(row)}: {sentence(row.setting)}. {why}",
            subject=row,
        )


def _check(outcome: Outcome, leg: LegPlan) -> Iterator[Row]:
    check = leg.tune_check
    if check is None:
        why = "" if leg.tune_check_reason is None else sentence(leg.tune_check_reason)
        yield Row(cells=(str(Say.TUNE_CHECK), "", str(Say.NONE), why))
        return
    yield Row(
        cells=(
            str(Say.TUNE_CHECK),
            quantities.miles(leg.distance_m - check.along_m),
            ", ".join(
                (_when(outcome, leg, check), quantities.scale(check.scale_m), shown(check.pulse))
            ),
            sentence(check.reason),
        ),
        subject=check,
    )
    for step in check.rungs:
        yield _step(step)
    for reading in check.readings:
        sign, meaning = READINGS[reading]
        yield _note(f"{sign}: {meaning}")


def _when(outcome: Outcome, leg: LegPlan, check: TuneCheck) -> str:
    timetable = outcome.plan.timetable
    when = times.when_early(timetable, leg.leg_index, check.along_m)
    return f"{when} {times.zone_words(timetable)}"


def _step(step: TuneRung) -> Row:
    echo = step.echo
    if echo is None:
        return Row(cells=(rung_words(step.rung), "", str(Say.NONE), sentence(step.reason)))
    figures = f"{quantities.radar_range(echo.range_m)} {quantities.course(echo.bearing_deg)}"
    return Row(
        cells=(rung_words(step.rung), "", f"{echo.object_id}  {figures}", sentence(step.reason)),
        tip=f"{echo.object_id}: {echo.name}",
        subject=step,
    )
