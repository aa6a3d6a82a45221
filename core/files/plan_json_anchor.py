"""The anchoring card, as the plan file writes it."""

import math
from typing import Any

from core.base.units import kn_from_mps
from core.files.plan_numbers import deg, nm, nullable, place
from core.plan.anchoring_result import AnchoringCard, ApproachLine, DeadRange, WatchObject
from core.plan.plan_result import Plan


def anchoring_document(plan: Plan) -> dict[str, Any]:
    """The card under ``anchoring``, null where the passage does not end at anchor."""
    card = plan.anchoring
    value = None if card is None else _card(card)
    return nullable("anchoring", value, "the passage is not said to end at anchor")


_NO_CABLE = "no length of cable is stated"


def _card(card: AnchoringCard) -> dict[str, Any]:
    head = card.head_mark
    return {
        "leg": card.leg_index + 1,
        "approach": [_approach(line) for line in card.approach],
        **nullable(
            "head_mark",
            None
            if head is None
            else {
                "object_id": head.object_id,
                "name": head.name,
                "bearing_deg": deg(head.bearing_deg),
                "off_nm": nm(head.off_m),
            },
            "no fixed object that paints lies on the extended track",
        ),
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
        **nullable("swing_m", card.swing_m, _NO_CABLE),
        "watch": [_watched(item) for item in card.watch],
        **nullable(
            "watch_drag_m",
            _drag(card.watch_drag_m),
            card.watch_reason
            or (_NO_CABLE if card.swing_m is None else "3000 m of drag would not show"),
        ),
        "watch_reason": card.watch_reason,
    }


def _approach(line: ApproachLine) -> dict[str, Any]:
    return {
        "object_id": line.object_id,
        "name": line.name,
        "role": "check" if line.is_check else "primary",
        "side": line.side.value,
        "cross_index_range_nm": nm(line.cross_index_range_m),
        "at_port_edge_nm": nm(line.at_port_edge_m),
        "at_starboard_edge_nm": nm(line.at_starboard_edge_m),
        "range_scale_nm": nm(line.range_scale_m),
        "ends_to_go_nm": nm(line.ends_to_go_m),
    }


def _watched(item: WatchObject) -> dict[str, Any]:
    return {
        "object_id": item.object_id,
        "name": item.name,
        "range_nm": nm(item.range_m),
        "bearing_deg": deg(item.bearing_deg),
        "least_nm": nm(item.least_m),
        "most_nm": nm(item.most_m),
        "range_scale_nm": nm(item.scale_m),
        "bearing_from_deg": deg(item.bearing_from_deg),
        "bearing_to_deg": deg(item.bearing_to_deg),
        **nullable(
            "worst_drag_m",
            _drag(item.worst_drag_m),
            _NO_CABLE if item.worst_drag_m is None else "3000 m of drag one way do not show on it",
        ),
        "best": item.is_best,
    }


def _drag(drag_m: float | None) -> float | None:
    return None if drag_m is None or math.isinf(drag_m) else round(drag_m, 1)


def _dead(dead: DeadRange) -> dict[str, Any]:
    return {
        "object_id": dead.object_id,
        "name": dead.name,
        "ahead": dead.is_ahead,
        "off_deg": round(dead.off_deg, 1),
        "range_nm": nm(dead.range_m),
        "bearing_deg": deg(dead.bearing_deg),
    }
