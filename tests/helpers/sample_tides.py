"""An outcome whose first leg has an edge at two tides; invented."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.plan.outcome import Outcome
from core.plan.tide_edge_result import EdgeAtTide, Holds, TideEdge


def with_tides(outcome: Outcome) -> Outcome:
    """The object of the first line moves 1.35 cables and is covered at high water."""
    leg = outcome.plan.legs[0]
    line = leg.lines[0]

    def at(water_m: float, cross_nm: float, holds: Holds) -> EdgeAtTide:
        return EdgeAtTide(
            water_m=water_m,
            height_m=1.0 - water_m,
            nearer_m=m_from_nm(1.2 - cross_nm),
            cross_index_range_m=m_from_nm(cross_nm),
            horizon_m=m_from_nm(12.0),
            holds=holds,
        )

    edge = TideEdge(
        object=line.object,
        side=line.side,
        range_scale_m=m_from_nm(3.0),
        cross_index_range_m=m_from_nm(1.2),
        low=at(-2.0, 1.19, Holds.YES),
        high=at(2.0, 1.21, Holds.COVERED),
        moves_m=m_from_nm(0.135),
        is_at_least=False,
        steady_from_m=-0.37,
        steady_to_m=0.37,
    )
    legs = (replace(leg, tide_edges=(edge,)), *outcome.plan.legs[1:])
    return replace(outcome, plan=replace(outcome.plan, legs=legs))
