"""Index objects at low and high water as rows below the objects of a leg."""

from app.views.table_model import Row
from core.base.language import tr
from core.plan.leg_rules import rules_for
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.rules import DEFAULT_RULES
from core.plan.tide_edge_result import EdgeAtTide, TideEdge
from core.words import quantities
from core.words.tide_words import Tidal, at_tide_words, moves_words, steady_words, waters_words


def tide_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """A line that says which waters are meant, then two rows and a note an object."""
    if not leg.tide_edges:
        return ()
    environment = outcome.request.environment
    words = waters_words(environment, rules_for(environment, DEFAULT_RULES))
    head = Row(cells=(f"{Tidal.TITLE}. {words}",), tip=str(Tidal.MEANS), is_note=True)
    rows = [head]
    for edge in leg.tide_edges:
        rows.append(_row(edge, edge.low, tr("LW")))
        rows.append(_row(edge, edge.high, tr("HW")))
        steady = steady_words(edge, environment)
        note = tr(
            "{object_id}: edge moves {moves}; within 0.1 cable {steady}",
            object_id=edge.object.id,
            moves=moves_words(edge),
            steady=steady,
        )
        rows.append(Row(cells=(note,), tip=note, is_note=True, subject=edge.object))
    return tuple(rows)


def _row(edge: TideEdge, at: EdgeAtTide, water: str) -> Row:
    reading, words = at_tide_words(edge, at)
    cells = (
        water,
        edge.object.id,
        quantities.side(edge.side),
        reading,
        quantities.DASH,
        quantities.DASH,
        words,
    )
    return Row(cells=cells, tip=words, subject=edge.object)
