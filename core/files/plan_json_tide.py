"""Index objects at low and high water in the plan file."""

from typing import Any

from core.files.plan_numbers import metres, nm, nullable
from core.plan.plan_result import LegPlan
from core.plan.tide_edge_result import EdgeAtTide, TideEdge

_NO_SHORE = "nothing is known of its shore"
_LOW_SHORE = "its shore is lower than the tide as far in as was looked"


def tide_documents(leg: LegPlan) -> list[dict[str, Any]]:
    """Every object of a leg's lines at low and at high water."""
    return [_document(edge) for edge in leg.tide_edges]


def _document(edge: TideEdge) -> dict[str, Any]:
    why = _LOW_SHORE if edge.is_at_least else _NO_SHORE
    steady = "at any tide" if edge.is_steady else why
    return {
        "object_id": edge.object.id,
        "side": edge.side.value,
        "cross_index_range_nm": nm(edge.cross_index_range_m),
        **nullable("edge_moves_nm", None if edge.moves_m is None else nm(edge.moves_m), _NO_SHORE),
        "edge_moves_at_least": edge.is_at_least,
        **nullable(
            "steady_from_m",
            None if edge.steady_from_m is None else round(edge.steady_from_m, 2) + 0.0,
            steady,
        ),
        **nullable(
            "steady_to_m",
            None if edge.steady_to_m is None else round(edge.steady_to_m, 2) + 0.0,
            steady,
        ),
        "low_water": _at(edge.low, why),
        "high_water": _at(edge.high, why),
    }


def _at(at: EdgeAtTide, why: str) -> dict[str, Any]:
    cross_m = at.cross_index_range_m
    return {
        "water_above_mean_sea_level_m": round(at.water_m, 2) + 0.0,
        "height_above_water_m": metres(at.height_m),
        **nullable("cross_index_range_nm", None if cross_m is None else nm(cross_m), why),
        "horizon_nm": nm(at.horizon_m),
        "holds": at.holds.value,
    }
