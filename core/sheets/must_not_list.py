"""What must not paint on a leg, since land hides it: the checks of the ship's position."""

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import Entry, Section
from core.words.messages import Say
from core.words.paint_words import must_not_words

MOST_MUST_NOT = 3
"""On the sheet of a leg; more are in the plan file."""


def must_not_section(outcome: Outcome, plan: LegPlan, most: int = MOST_MUST_NOT) -> Section:
    """The objects that tell most, in their order along the leg.

    Those that paint elsewhere on the same leg come first: an error of position brings just them
    forward or back. Then what is nearest.
    """
    changing = {
        paint.object_id for paint in plan.first_paints if paint.lost or paint.normally_by.moment
    }
    ranked = sorted(
        plan.must_not_paint,
        key=lambda item: (item.object_id not in changing, item.begins.range_m, item.object_id),
    )
    shown = sorted(ranked[:most], key=lambda item: item.begins.along_m)
    entries = tuple(
        Entry(
            lead=item.object_id,
            text=must_not_words(item, outcome.plan.timetable, plan.leg_index),
            is_inline=True,
            rank=ranked.index(item),
            reference=f"must-not:{item.object_id}",
        )
        for item in shown
    )
    if entries:
        entries = (*entries, Entry(text=str(Say.MUST_NOT_MEANS), rank=len(ranked)))
    return Section(title=Say.MUST_NOT_PAINT, entries=entries, keep=2 if entries else 1)
