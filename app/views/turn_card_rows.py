"""Ring, half turn, drift and sight along the turn of a leg as rows."""

from app.views.table_model import Row
from core.base.language import tr
from core.plan.plan_result import LegPlan
from core.plan.turn_card_result import ARC_SHARES
from core.words.turn_words import (
    arc_words,
    half_words,
    land_words,
    rate_words,
    reading_words,
    ring_words,
    seen_words,
    share_words,
)


def turn_card_rows(leg: LegPlan) -> tuple[Row, ...]:
    """What the turn is watched by, a fact a row; none where there is no turn."""
    card = leg.turn_card
    if card is None:
        return ()
    facts = [
        (tr("Arc"), arc_words(card)),
        (tr("Rate"), rate_words(card)),
        (tr("Land"), land_words(card)),
    ]
    if card.half is not None:
        facts.append((tr("Half turn"), half_words(card.half)))
    if card.ring is None:
        facts.append((tr("Ring"), tr("none: {ring_reason}", ring_reason=card.ring_reason)))
    else:
        facts.append((tr("Ring"), f"{card.ring.object.id} {ring_words(card, card.ring)}"))
        facts += [
            (
                tr("  {share} of the turn", share=share_words(share)),
                reading_words(reading),
            )
            for share, reading in zip(ARC_SHARES, card.ring.readings, strict=True)
        ]
    facts += [(f"{one.object_id}, {one.use}", seen_words(one)) for one in card.seen]
    return tuple(Row(cells=fact) for fact in facts)
