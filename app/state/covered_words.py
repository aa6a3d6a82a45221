"""What a computation that was stopped leaves, in words."""

from app.state.document import Document
from core.base.language import tr


def stopped_words(document: Document) -> str:
    """Which legs are covered, and what to do for the rest."""
    words = _covered_words(sorted(document.first_legs.numbers), document.leg_count)
    if document.outcome is None:
        return words
    return tr("The plan shown is the one before. {covered}", covered=words)


def _covered_words(legs: list[int], leg_count: int) -> str:
    """Of legs from 0, in order."""
    count = len(legs)
    if not count:
        return tr("No leg is covered yet; compute again (F5).")
    if count == leg_count:
        return tr("All legs are covered, but not planned yet; compute again (F5).")
    if count == 1:
        return tr("Leg {number} is covered; compute again (F5) for the rest.", number=legs[0] + 1)
    if legs == list(range(count)):
        return tr("Legs 1 to {last} are covered; compute again (F5) for the rest.", last=count)
    numbers = ", ".join(str(leg + 1) for leg in legs)
    return tr("Legs {numbers} are covered; compute again (F5) for the rest.", numbers=numbers)
