"""Set-up card and tune check of one leg in the plan file."""

from typing import Any

from core.files.plan_numbers import deg, moment_of, nm, nullable, place
from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan
from core.plan.setup_result import SetupCard, SetupRow
from core.plan.tune_result import LadderEcho, TuneCheck, TuneRung
from core.words.card_words import why_words
from core.words.reasons import sentence
from core.words.setup_words import READINGS


def setup_document(leg: LegPlan, timetable: Timetable) -> dict[str, Any]:
    """The fields ``setup`` and ``tune_checks`` with their reasons."""
    card, check = leg.setup, leg.tune_check
    reason = leg.tune_check_reason
    return {
        **nullable("setup", None if card is None else _card(card), "no card was made"),
        **nullable(
            "tune_checks",
            None if check is None else [_check(check, leg.leg_index, timetable)],
            "no check was looked for" if reason is None else sentence(reason),
        ),
    }


def _card(card: SetupCard) -> dict[str, Any]:
    return {
        "radar": card.radar,
        "band": card.band.value,
        "rows": [_row(row) for row in card.rows],
    }


def _row(row: SetupRow) -> dict[str, Any]:
    return {
        "control": row.control.value,
        **nullable("number", row.number or None, "the control has no number"),
        "setting": sentence(row.setting),
        "why": why_words(row),
        "from_along_nm": nm(row.from_along_m),
        "to_along_nm": nm(row.to_along_m),
        "common_practice": row.is_common_practice,
    }


def _check(check: TuneCheck, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "along_nm": nm(check.along_m),
        **place(check.position),
        **moment_of(timetable, leg_index, check.along_m),
        "radar": check.radar,
        "range_scale_nm": nm(check.scale_m),
        "pulse": check.pulse,
        "reason": sentence(check.reason),
        "echoes": [_rung(step) for step in check.rungs],
        "readings": [
            {"sign": READINGS[one][0], "meaning": READINGS[one][1]} for one in check.readings
        ],
    }


def _rung(step: TuneRung) -> dict[str, Any]:
    why = sentence(step.reason)
    return {
        "step": step.rung.value,
        **nullable("echo", None if step.echo is None else _echo(step.echo), why),
        "reason": why,
    }


def _echo(echo: LadderEcho) -> dict[str, Any]:
    margin_db = None if echo.is_masked_by_land else echo.margin_db
    return {
        "object_id": echo.object_id,
        "name": echo.name,
        **place(echo.position),
        "range_nm": nm(echo.range_m),
        "bearing_deg": deg(echo.bearing_deg),
        **nullable(
            "margin_db",
            None if margin_db is None else round(margin_db, 1) + 0.0,
            "land hides it",
        ),
        "expected": not echo.is_masked_by_land,
    }
