"""Abort points of a leg as rows: when the wheel goes over at the latest, and onto what."""

from app.views.table_model import Row
from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.words import quantities
from core.words.contingency_words import abort_words, last_words, turn_words


def abort_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Two rows a contingency leg; none where nothing leaves this leg."""
    rows = []
    for one in outcome.contingencies:
        if one.parent_index != leg.leg_index:
            continue
        words = f"{last_words(one)}, {abort_words(one, leg.distance_m)}"
        rows.append(Row(cells=(tr("Abort {number}", number=one.at.number), words)))
        own = tr(
            "to {name}, {distance}; {turn}",
            name=one.name,
            distance=quantities.distance(one.leg.distance_m),
            turn=turn_words(one),
        )
        rows.append(Row(cells=("", own)))
    return tuple(rows)
