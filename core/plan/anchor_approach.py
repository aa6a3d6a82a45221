"""The anchoring card of a planned passage: which leg leads to the spot, and its index lines."""

from core.passage.passage import Passage, Side
from core.plan.anchor_echoes import anchor_echoes
from core.plan.anchor_leg import anchor_leg_index
from core.plan.anchoring import anchoring_card
from core.plan.anchoring_result import AnchoringCard, ApproachLine
from core.plan.candidates import LegField
from core.plan.from_afar import FromAfar
from core.plan.object_book import ObjectBook
from core.plan.plan_result import IndexLine, LegPlan, Role
from core.plan.request import Request
from core.plan.rules import PlanRules

_MOST_LINES = 3
_NEAR_END_M = 1_852.0
"""A line that ends farther from the spot than this is none of the approach."""


def anchoring_of(
    request: Request,
    passage: Passage,
    fields: tuple[LegField, ...],
    legs: tuple[LegPlan, ...],
    afar: tuple[FromAfar, ...],
    book: ObjectBook,
    rules: PlanRules,
) -> AnchoringCard | None:
    """The card, from what echoes at the end of the leg; None where nobody anchors."""
    if request.anchorage is None:
        return None
    index = anchor_leg_index(passage, request.anchorage)
    if index is None:
        return None
    field = fields[index]
    return anchoring_card(
        request.anchorage,
        field.line,
        request.ship,
        anchor_echoes(field, book.ids, book.names, afar[index].paints, rules),
        speed_mps=field.speed_mps,
        leg_index=index,
        approach=approach_lines(legs[index]),
    )


def approach_lines(leg: LegPlan) -> tuple[ApproachLine, ...]:
    """Lines in use last on a leg, primaries first, with what they read at the corridor's edges.

    A ship to port of her track is nearer to what lies to port and farther from what lies to
    starboard (plane geometry).
    """
    last = [
        line
        for line in leg.lines
        if line.role in (Role.PRIMARY, Role.CHECK)
        and leg.distance_m - line.to_along_m <= _NEAR_END_M
    ]
    last.sort(key=lambda line: (line.role is Role.CHECK, -line.to_along_m))
    return tuple(_line(leg, line) for line in last[:_MOST_LINES])


def _line(leg: LegPlan, line: IndexLine) -> ApproachLine:
    towards = 1.0 if line.side is Side.PORT else -1.0
    range_m = line.cross_index_range_m
    return ApproachLine(
        object_id=line.object.id,
        name=line.object.name,
        is_check=line.role is Role.CHECK,
        side=line.side,
        cross_index_range_m=range_m,
        at_port_edge_m=range_m - towards * leg.corridor_port_m,
        at_starboard_edge_m=range_m + towards * leg.corridor_starboard_m,
        range_scale_m=line.range_scale_m,
        ends_to_go_m=max(0.0, leg.distance_m - line.to_along_m),
    )
