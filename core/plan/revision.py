"""Revisions of a plan: which legs changed since the last one that was issued, and in what.

A leg is compared by what its sheet prints, so that a change nobody could read is none. Legs are
the same where the names of their ends are, else where their ends are; a moved waypoint is then a
change of the legs that meet in it, and a waypoint put between makes new legs.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.geodesy.position import Position

_SAME_PLACE_DEG = 1.0e-4
"""About 11 m: half of what two decimals of a minute tell apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegFacts:
    """What the sheet of a leg says, item by item, in printed words."""

    start_name: str
    end_name: str
    start: Position
    end: Position
    items: tuple[tuple[str, str], ...]
    """What and its words, in the order of the sheet; no item stands twice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One item that is said differently now."""

    what: str
    before: str
    """Empty where it was not there."""
    now: str
    """Empty where it is no longer there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegRevision:
    """A leg and the revision its sheet belongs to."""

    facts: LegFacts
    revision: int
    """The revision it last changed in."""
    is_new: bool = False
    """Whether the revision before that had no such leg."""
    changes: tuple[Change, ...] = ()
    """From the revision before that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """A plan that was issued: signed, printed, on the bridge."""

    number: int
    """From 1."""
    issued_utc: str
    """ISO 8601 with Z."""
    digest: str
    """Of the plan that was issued."""
    note: str
    """Why, in the officer's words; may be empty."""
    legs: tuple[LegRevision, ...]
    by: str = ""
    """Rank and name of who issued it; empty where it was not asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRevision:
    """How a plan stands to the last revision."""

    number: int
    """Of the last revision where nothing printed differs from it, else the next."""
    since: Revision | None
    """The last one issued; None before the first."""
    legs: tuple[LegRevision, ...]
    dropped: tuple[str, ...] = ()
    """Legs of the last revision that are no more, by their ends."""
    note: str = ""
    """Why it is made, in the officer's words."""

    @property
    def is_issued(self) -> bool:
        """Whether it says what the last revision says."""
        return self.since is not None and self.number == self.since.number

    def is_marked(self, leg_index: int) -> bool:
        """Whether the sheet of a leg belongs to this revision and not to one before."""
        return self.number > 1 and self.legs[leg_index].revision == self.number

    def marked(self) -> tuple[int, ...]:
        """Indices of the legs whose sheets changed in this revision."""
        return tuple(index for index in range(len(self.legs)) if self.is_marked(index))


FIRST = PlanRevision(number=1, since=None, legs=())
"""Of a plan whose legs were not compared with anything."""


def revise(legs: Sequence[LegFacts], since: Revision | None, *, note: str = "") -> PlanRevision:
    """Compare a plan with the last revision.

    Parameters
    ----------
    legs : sequence of LegFacts
        The plan as it is now, leg by leg.
    since : Revision or None
        The last revision that was issued; None makes this the first, with nothing marked.
    note : str
        Why it is made; where nothing printed changed, that of the last revision stays.
    """
    if since is None:
        first = tuple(LegRevision(facts=facts, revision=1) for facts in legs)
        return PlanRevision(number=1, since=None, legs=first, note=note)
    pairs = _pairs(legs, [leg.facts for leg in since.legs])
    kept = {old for old in pairs if old is not None}
    dropped = tuple(
        f"{leg.facts.start_name} to {leg.facts.end_name}"
        for index, leg in enumerate(since.legs)
        if index not in kept
    )
    found = tuple(
        _compared(facts, None if old is None else since.legs[old], since.number + 1)
        for facts, old in zip(legs, pairs, strict=True)
    )
    is_changed = bool(dropped) or any(leg.revision > since.number for leg in found)
    number = since.number + 1 if is_changed else since.number
    return PlanRevision(
        number=number,
        since=since,
        legs=found,
        dropped=dropped,
        note=note if is_changed else since.note,
    )


def _compared(facts: LegFacts, old: LegRevision | None, number: int) -> LegRevision:
    if old is None:
        return LegRevision(facts=facts, revision=number, is_new=True)
    changes = changes_between(old.facts, facts)
    if not changes:
        return replace(old, facts=facts)
    return LegRevision(facts=facts, revision=number, changes=changes)


def issue(plan: PlanRevision, *, digest: str, issued_utc: str, by: str = "") -> Revision:
    """The plan as the next revision, to be compared with later."""
    return Revision(
        number=plan.number,
        issued_utc=issued_utc,
        digest=digest,
        note=plan.note,
        legs=plan.legs,
        by=by,
    )


def changes_between(before: LegFacts, now: LegFacts) -> tuple[Change, ...]:
    """Items that are said differently, in the order of the sheet, then those that are gone."""
    old, new = dict(before.items), dict(now.items)
    changes = [
        Change(what=what, before=old.get(what, ""), now=words)
        for what, words in now.items
        if old.get(what) != words
    ]
    changes += [
        Change(what=what, before=words, now="") for what, words in before.items if what not in new
    ]
    return tuple(changes)


def _pairs(now: Sequence[LegFacts], before: Sequence[LegFacts]) -> list[int | None]:
    """For each leg its index in the last revision: by the names of its ends, else by place."""
    names_now = Counter(_names(leg) for leg in now)
    names_before = Counter(_names(leg) for leg in before)
    pairs: list[int | None] = []
    for leg in now:
        key = _names(leg)
        is_one = names_now[key] == names_before[key] == 1
        same = [i for i, old in enumerate(before) if _names(old) == key] if is_one else []
        if not same:
            same = [i for i, old in enumerate(before) if _is_same_line(leg, old)]
        pairs.append(next((i for i in same if i not in pairs), None))
    return pairs


def _names(leg: LegFacts) -> tuple[str, str]:
    return leg.start_name, leg.end_name


def _is_same_line(one: LegFacts, other: LegFacts) -> bool:
    return _is_same_place(one.start, other.start) and _is_same_place(one.end, other.end)


def _is_same_place(one: Position, other: Position) -> bool:
    around = (one.lon_deg - other.lon_deg + 180.0) % 360.0 - 180.0
    return abs(one.lat_deg - other.lat_deg) < _SAME_PLACE_DEG and abs(around) < _SAME_PLACE_DEG
