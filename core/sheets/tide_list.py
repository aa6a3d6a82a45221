"""Index objects at low and high water, leg by leg, as rows of a list."""

from core.plan.leg_rules import rules_for
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.rules import DEFAULT_RULES
from core.plan.tide_edge_result import TideEdge
from core.sheets.list_pages import Group
from core.sheets.tables import Cell, Column, Row
from core.words import quantities
from core.words.messages import Say
from core.words.tide_words import (
    Tidal,
    at_tide_words,
    moves_words,
    steady_words,
    waters_words,
)


def tide_columns() -> tuple[Column, ...]:
    """Columns of the list."""
    return (
        Column(head=Say.COLUMN_OBJECT, width_mm=31.0),
        Column(head=Tidal.COLUMN_PLANNED, width_mm=35.0),
        Column(head=Tidal.COLUMN_LOW, width_mm=38.0),
        Column(head=Tidal.COLUMN_HIGH, width_mm=38.0),
        Column(head=Tidal.COLUMN_MOVES, width_mm=19.0),
        Column(head=Tidal.COLUMN_STEADY, width_mm=27.0),
    )


def tide_groups(outcome: Outcome) -> list[Group]:
    """First which waters are meant, then a group a leg that has an object with an edge."""
    groups = [
        Group(title=_leg_title(outcome, leg), rows=tide_rows(outcome, leg))
        for leg in outcome.plan.legs
        if leg.tide_edges
    ]
    if not groups:
        return []
    environment = outcome.request.environment
    words = waters_words(environment, rules_for(environment, DEFAULT_RULES))
    first = groups[0]
    heads = (Row(cells=(), title=words), Row(cells=(), title=str(Tidal.MEANS)))
    return [Group(title=first.title, rows=(*heads, *first.rows)), *groups[1:]]


def _leg_title(outcome: Outcome, leg: LegPlan) -> str:
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    ends = Say.FROM_TO.format(start=names[leg.leg_index], stop=names[leg.leg_index + 1])
    return f"{Say.LEG} {leg.leg_index + 1}, {ends}"


def tide_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """One row an object of the leg's lines."""
    return tuple(_row(outcome, edge) for edge in leg.tide_edges)


def _row(outcome: Outcome, edge: TideEdge) -> Row:
    low, high = (at_tide_words(edge, at) for at in (edge.low, edge.high))
    planned = quantities.index_range(edge.cross_index_range_m, edge.range_scale_m)
    return Row(
        cells=(
            Cell(text=edge.object.id, is_bold=True),
            Cell(text=f"{quantities.side(edge.side)} {planned}"),
            Cell(text=low[0], second=low[1]),
            Cell(text=high[0], second=high[1]),
            Cell(text=moves_words(edge)),
            Cell(text=steady_words(edge, outcome.request.environment)),
        ),
        reference=f"object:{edge.object.id}",
    )
