"""Abort points on the sheet of the leg they leave, and on that of the contingency leg."""

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import Entry, Section
from core.words import times
from core.words.contingency_words import Abort, abort_words, last_words, own_words
from core.words.messages import Say


def abort_section(outcome: Outcome, plan: LegPlan, first_page: int | None) -> tuple[Section, ...]:
    """One section where there is an abort point, else none.

    Parameters
    ----------
    outcome : Outcome
        Of the passage, or of a contingency leg.
    plan : LegPlan
        The leg.
    first_page : int or None
        Page of the first contingency leg; None where there is no book.
    """
    if outcome.leaves is not None:
        entries = tuple(Entry(text=words) for words in own_words(outcome.leaves))
        return (Section(title=str(Abort.OWN_SECTION), entries=entries, keep=1),)
    own = [one for one in outcome.contingencies if one.parent_index == plan.leg_index]
    if not own:
        return ()
    entries = tuple(
        Entry(
            lead=last_words(one),
            text=f"{abort_words(one, plan.distance_m)}; {_page(first_page, one.at.number)}",
            is_inline=True,
            reference=f"abort:{one.at.number}",
        )
        for one in own
    )
    return (Section(title=str(Abort.SECTION), entries=entries, keep=len(entries)),)


def aborts_on(outcome: Outcome, plan: LegPlan) -> tuple[tuple[float, str, str], ...]:
    """Abort points of a leg: m along, words for the ruler of its strip, reference."""
    return tuple(
        (
            one.last_m,
            Abort.CHIP.format(
                when=times.when_early(outcome.plan.timetable, plan.leg_index, one.last_m)
            ),
            f"abort:{one.at.number}",
        )
        for one in outcome.contingencies
        if one.parent_index == plan.leg_index
    )


def _page(first_page: int | None, number: int) -> str:
    if first_page is None:
        return str(Say.IN_PLAN_FILE)
    return Say.ON_PAGE.format(page=first_page + number - 1)
