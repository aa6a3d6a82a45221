"""The card of a turn in the plan file."""

from typing import Any

from core.files.plan_numbers import deg, kn, nm, nullable, place
from core.plan.plan_result import LegPlan
from core.plan.turn_card_result import ARC_SHARES, HalfTurn, Ring, TurnCard


def turn_document(leg: LegPlan) -> dict[str, Any]:
    """Ring, half turn, drift and what shows along the turn at the end of a leg."""
    card = leg.turn_card
    return nullable(
        "turn",
        None if card is None else _card(card),
        leg.wheel_over_reason or "the turn was not worked out",
    )


def _card(card: TurnCard) -> dict[str, Any]:
    return {
        "side": card.side.value,
        "radius_nm": nm(card.radius_m),
        "advance_nm": nm(card.advance_m),
        "transfer_nm": nm(card.transfer_m),
        "arc_nm": nm(card.arc_m),
        "arc_minutes": round(card.arc_minutes, 2),
        "water_speed_kn": kn(card.water_speed_mps),
        "rate_of_turn_deg_per_min": round(card.rate_deg_per_min, 2),
        "slow_speed_kn": kn(card.slow_speed_mps),
        "slow_rate_of_turn_deg_per_min": round(card.slow_rate_deg_per_min, 2),
        **nullable(
            "drift",
            None
            if card.drift_m is None or card.drift_deg is None
            else {"distance_nm": nm(card.drift_m), "towards_deg": deg(card.drift_deg)},
            "no set was given",
        ),
        "places": [
            {
                "share": one.share_ratio,
                **place(one.position),
                "course_deg": deg(one.course_deg),
            }
            for one in card.places
        ],
        **nullable("ring", None if card.ring is None else _ring(card.ring), card.ring_reason),
        **nullable(
            "half_turn",
            None if card.half is None else _half(card.half),
            "the course alters by no more than 90 degrees",
        ),
        "shows": [
            {"object_id": one.object_id, "use": one.use, "at_shares": list(_shares(one.shows))}
            for one in card.seen
        ],
        "is_across_land": card.is_across_land,
        **nullable(
            "nearest_land_nm",
            None if card.nearest_land_m is None else nm(card.nearest_land_m),
            "no coast within 5 NM of the arc",
        ),
    }


def _shares(shows: tuple[bool, ...]) -> tuple[float, ...]:
    return tuple(share for share, is_shown in zip(ARC_SHARES, shows, strict=True) if is_shown)


def _ring(ring: Ring) -> dict[str, Any]:
    return {
        "object_id": ring.object.id,
        "radius_nm": nm(ring.radius_m),
        "readings": [
            {
                "share": share,
                "range_nm": nm(one.range_m),
                "relative_bearing_deg": deg(one.relative_deg),
            }
            for share, one in zip(ARC_SHARES, ring.readings, strict=True)
        ],
    }


def _half(half: HalfTurn) -> dict[str, Any]:
    line = None
    if half.object is not None and half.side is not None and half.cross_index_range_m is not None:
        line = {
            "object_id": half.object.id,
            "side": half.side.value,
            "cross_index_range_nm": nm(half.cross_index_range_m),
            "range_nm": nm(half.range_m or 0.0),
            "bearing_deg": deg(half.bearing_deg or 0.0),
        }
    return {
        "course_deg": deg(half.course_deg),
        **nullable("line", line, "no object for a line shows at half turn"),
    }
