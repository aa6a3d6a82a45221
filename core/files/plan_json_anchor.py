"""The anchoring card, as the plan file writes it."""

from typing import Any

from core.base.units import kn_from_mps
from core.files.plan_numbers import deg, nm, nullable, place
from core.plan.anchoring_result import AnchoringCard, DeadRange
from core.plan.plan_result import Plan


def anchoring_document(plan: Plan) -> dict[str, Any]:
    """The card under ``anchoring``, null where the passage does not end at anchor."""
    card = plan.anchoring
    value = None if card is None else _card(card)
    return nullable("anchoring", value, "the passage is not said to end at anchor")


def _card(card: AnchoringCard) -> dict[str, Any]:
    return {
        "spot": place(card.spot),
        "let_go": place(card.let_go),
        "course_deg": deg(card.course_deg),
        "hawse_m": round(card.hawse_m, 1),
        "hawse_stated": card.is_hawse_stated,
        "usual_speeds": card.are_speeds_usual,
        **nullable(
            "dead_range",
            None if card.dead_range is None else _dead(card.dead_range),
            card.dead_range_reason,
        ),
        "steps": [
            {
                "to_go_nm": nm(step.to_go_m),
                **nullable(
                    "range_nm",
                    None if step.range_m is None else nm(step.range_m),
                    card.dead_range_reason,
                ),
                "speed_kn": round(kn_from_mps(step.speed_mps), 2),
                "minutes_to_go": round(step.to_go_s / 60.0, 2),
            }
            for step in card.steps
        ],
        **nullable("swing_m", card.swing_m, "no length of cable is stated"),
        "watch": [
            {
                "object_id": item.object_id,
                "name": item.name,
                "range_nm": nm(item.range_m),
                "bearing_deg": deg(item.bearing_deg),
                "least_nm": nm(item.least_m),
                "most_nm": nm(item.most_m),
                "range_scale_nm": nm(item.scale_m),
                "to_middle": item.is_middle,
            }
            for item in card.watch
        ],
        "watch_reason": card.watch_reason,
    }


def _dead(dead: DeadRange) -> dict[str, Any]:
    return {
        "object_id": dead.object_id,
        "name": dead.name,
        "ahead": dead.is_ahead,
        "off_deg": round(dead.off_deg, 1),
        "range_nm": nm(dead.range_m),
        "bearing_deg": deg(dead.bearing_deg),
    }
