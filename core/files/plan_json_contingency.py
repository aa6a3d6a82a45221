"""Contingency legs of the plan file."""

from typing import Any

from core.files.plan_json_leg import leg_document, wheel_over_document
from core.files.plan_numbers import moment_of, nm, nullable
from core.plan.outcome import ContingencyPlan, Outcome


def contingency_documents(outcome: Outcome) -> list[dict[str, Any]]:
    """Every contingency leg as JSON, along the passage."""
    return [
        _document(one, outcome.plan.legs[one.parent_index].distance_m)
        for one in outcome.contingencies
    ]


def _document(one: ContingencyPlan, parent_m: float) -> dict[str, Any]:
    at, turn = one.at, one.wheel_over
    timetable = one.outcome.plan.timetable
    leg = leg_document(one.outcome, 1)
    leg["number"] = at.number
    no_turn = one.outcome.plan.legs[0].wheel_over_reason
    return {
        "number": at.number,
        "leaves_leg": at.leg_number,
        "name": one.name,
        "note": at.note,
        "line_leaves_at": {"along_nm": nm(at.along_m), "to_go_nm": nm(at.to_go_m)},
        **nullable(
            "turn_before_nm_to_go",
            None if at.turn_before_m is None else nm(at.turn_before_m),
            "no line was given for the turn to end before",
        ),
        "last": {
            "along_nm": nm(one.last_m),
            "to_go_nm": nm(parent_m - one.last_m),
            **moment_of(timetable, 0, one.last_m),
        },
        **nullable(
            "wheel_over",
            None if turn is None else wheel_over_document(turn, 0, timetable),
            no_turn,
        ),
        "not_worked_out": _NOT_WORKED_OUT,
        "findings": [
            {
                "severity": finding.severity.value,
                "code": finding.code,
                "what": finding.what,
                "todo": finding.todo,
            }
            for finding in one.outcome.findings
        ],
        "leg": leg,
    }


_NOT_WORKED_OUT = ["first_paints", "coast_first_paints", "must_not_paint", "look_alikes"]
"""Fields of the leg that are empty because nobody looked."""
