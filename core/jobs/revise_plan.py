"""A finished plan beside the last revision: what changed, and the next revision of it."""

from dataclasses import replace

from core.plan.outcome import Outcome
from core.plan.revision import Revision, issue, revise
from core.words.leg_facts import leg_facts


def compared_with(outcome: Outcome, since: Revision | None, *, note: str = "") -> Outcome:
    """The same plan, compared with a revision; None makes it the first."""
    facts = [leg_facts(outcome, index) for index in range(len(outcome.plan.legs))]
    return replace(outcome, revision=revise(facts, since, note=" ".join(note.split())))


def issued(outcome: Outcome, *, issued_utc: str, note: str) -> Revision:
    """The plan as the officer signs and issues it."""
    noted = compared_with(outcome, outcome.revision.since, note=note)
    return issue(noted.revision, digest=noted.digest, issued_utc=issued_utc)
