"""A finished plan beside the last revision: what changed, and the next revision of it."""

from dataclasses import replace

from core.plan.outcome import ContingencyPlan, Outcome
from core.plan.revision import PlanRevision, Revision, issue, revise
from core.words.contingency_words import is_of_contingency
from core.words.leg_facts import leg_facts


def compared_with(outcome: Outcome, since: Revision | None, *, note: str = "") -> Outcome:
    """The same plan, compared with a revision; None makes it the first."""
    facts = [leg_facts(outcome, index) for index in range(len(outcome.plan.legs))]
    revision = revise(facts, since, note=" ".join(note.split()))
    contingencies = tuple(_like(one, outcome.digest, revision) for one in outcome.contingencies)
    return replace(outcome, revision=revision, contingencies=contingencies)


def _like(one: ContingencyPlan, digest: str, revision: PlanRevision) -> ContingencyPlan:
    """A contingency leg belongs to the revision of the leg it leaves; changes are its own."""
    parent = revision.legs[one.parent_index]
    changes = tuple(
        change for change in parent.changes if is_of_contingency(change.what, one.at.number)
    )
    own = replace(parent, changes=changes)
    legs = replace(revision, legs=(parent, own))
    return replace(one, outcome=replace(one.outcome, digest=digest, revision=legs))


def issued(outcome: Outcome, *, issued_utc: str, note: str, by: str = "") -> Revision:
    """The plan as an officer signs and issues it."""
    noted = compared_with(outcome, outcome.revision.since, note=note)
    who = " ".join(by.split())
    return issue(noted.revision, digest=noted.digest, issued_utc=issued_utc, by=who)
