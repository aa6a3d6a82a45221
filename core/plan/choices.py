"""What the officer decided for a leg: objects chosen and danger limits, matched to features."""

import math
from dataclasses import dataclass

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.plan.intervals import Intervals
from core.plan.plan_result import DangerLimit, IndexLine, KnownObject, Mark, Override, Role

_MOVED_M = 100.0
"""Farther than this an object is more likely another one than the same in other data, m: open
coast and elevation agree no better than that."""

_ROLES = {"primary": Role.PRIMARY, "check": Role.CHECK}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An override and the feature it means."""

    override: Override
    key: str
    role: Role


@dataclass(frozen=True, slots=True, kw_only=True)
class LegChoices:
    """Everything the officer decided for one leg."""

    choices: tuple[Choice, ...]
    limits: tuple[tuple[DangerLimit, str], ...]
    """Danger limits with the key of their feature; those for any leg included."""

    def keys(self, role: Role) -> frozenset[str]:
        """Keys of the features chosen for a role."""
        return frozenset(c.key for c in self.choices if c.role is role)

    def parts(self, role: Role) -> dict[str, Intervals]:
        """Features chosen for a role, and the parts of the leg they are chosen for."""
        found: dict[str, Intervals] = {}
        for choice in self.choices:
            if choice.role is role:
                part = choice.override.part_m or (-math.inf, math.inf)
                found[choice.key] = (*found.get(choice.key, ()), part)
        return found

    def override(self, key: str, role: Role, from_m: float, to_m: float) -> Override | None:
        """The override that put a feature into a role on a stretch of the leg."""
        chosen = (c.override for c in self.choices if (c.key, c.role) == (key, role))
        return next((o for o in chosen if o.meets(from_m, to_m)), None)

    @property
    def demanded(self) -> frozenset[str]:
        """Keys that the planned screen should hold if any scale does."""
        limits = {key for limit, key in self.limits if limit.leg_number is not None}
        return frozenset(c.key for c in self.choices) | limits


def part_of(lines: tuple[IndexLine, ...], line: IndexLine) -> tuple[float, float] | None:
    """The part of its leg that a line serves, m along; None where it serves the whole leg alone."""
    is_alone = sum(other.role is line.role for other in lines) < 2
    return None if is_alone else (line.from_along_m, line.to_along_m)


def with_own_lines(
    part_m: tuple[float, float] | None, lines: tuple[IndexLine, ...], role: str, object_id: str
) -> tuple[float, float] | None:
    """A part of a leg together with lines that the object carries already and that meet it.

    Else the object would be taken off what it serves beyond the part.
    """
    if part_m is None:
        return None
    own = [line for line in lines if (line.role.value, line.object.id) == (role, object_id)]
    meeting = [x for x in own if x.from_along_m <= part_m[1] and x.to_along_m >= part_m[0]]
    spans = (part_m, *((line.from_along_m, line.to_along_m) for line in meeting))
    return min(start for start, _stop in spans), max(stop for _start, stop in spans)


def key_of(object_id: str, ids: dict[str, str]) -> str | None:
    """The feature that an id or a mark's name means, letters in either case."""
    wanted = object_id.strip().casefold()
    return next((key for key, name in ids.items() if name.casefold() == wanted), None)


def names_in(overrides: tuple[Override, ...], limits: tuple[DangerLimit, ...]) -> frozenset[str]:
    """Ids that choices and danger limits name, in small letters."""
    ids = [item.object_id for item in overrides] + [item.object_id for item in limits]
    return frozenset(name.strip().casefold() for name in ids)


def choices_of(
    leg_number: int,
    overrides: tuple[Override, ...],
    limits: tuple[DangerLimit, ...],
    ids: dict[str, str],
) -> LegChoices:
    """What concerns one leg; whatever names no known object is left to ``unknown_names``."""
    chosen = []
    for override in overrides:
        key = key_of(override.object_id, ids)
        if override.leg_number == leg_number and key is not None and override.role in _ROLES:
            chosen.append(Choice(override=override, key=key, role=_ROLES[override.role]))
    matched = []
    for limit in limits:
        key = key_of(limit.object_id, ids)
        if limit.leg_number in (None, leg_number) and key is not None:
            matched.append((limit, key))
    return LegChoices(choices=tuple(chosen), limits=tuple(matched))


def unknown_names(
    overrides: tuple[Override, ...],
    limits: tuple[DangerLimit, ...],
    ids: dict[str, str],
    known: tuple[KnownObject, ...],
    leg_count: int,
) -> tuple[Finding, ...]:
    """Findings for overrides and limits that name no object or no leg of this passage.

    ``known`` are the objects of earlier plans too: a letter that only they had is told apart.
    """
    earlier = {thing.id.casefold() for thing in known}

    def lost(object_id: str) -> str:
        if object_id.strip().casefold() in earlier:
            return tr("known from an earlier plan but not found in sight this time")
        return tr("not known on this passage")

    found = []
    for override in overrides:
        where = Where(leg_number=override.leg_number)
        if not 1 <= override.leg_number <= leg_count:
            what = tr(
                "an object is chosen for leg {leg_number}, which does not exist",
                leg_number=override.leg_number,
            )
        elif override.role not in _ROLES:
            what = tr(
                "an object is chosen as {role!r}, which is neither primary nor check",
                role=override.role,
            )
        elif key_of(override.object_id, ids) is None:
            what = tr(
                "the chosen object {object_id} is {why}",
                object_id=override.object_id,
                why=lost(override.object_id),
            )
        else:
            continue
        found.append(
            Finding(
                severity=Severity.CHECK,
                code="choice-unknown",
                what=what,
                where=where,
                todo=tr("Choose again from the objects of the leg"),
            )
        )
    for limit in limits:
        number = limit.leg_number
        if number is not None and not 1 <= number <= leg_count:
            what = tr(
                "a danger limit is given for leg {leg_number}, which does not exist",
                leg_number=number,
            )
        elif key_of(limit.object_id, ids) is None:
            what = tr(
                "the danger limit is off {object_id}, which is {why}",
                object_id=limit.object_id,
                why=lost(limit.object_id),
            )
        else:
            continue
        found.append(
            Finding(
                severity=Severity.MUST_FIX,
                code="danger-limit-unknown",
                what=what,
                where=Where(leg_number=number),
                todo=tr("Name an object by its letter or a mark by its name"),
            )
        )
    return tuple(found)


def moved_names(
    overrides: tuple[Override, ...], limits: tuple[DangerLimit, ...], moved_m: dict[str, float]
) -> tuple[Finding, ...]:
    """Findings for overrides and limits whose object is not quite where it got its letter."""
    far = {letter.casefold(): off_m for letter, off_m in moved_m.items() if off_m > _MOVED_M}
    named: list[tuple[str, int | None, str]] = [
        *((o.object_id, o.leg_number, chosen_as(o.role)) for o in overrides),
        *((limit.object_id, limit.leg_number, tr("with a danger limit")) for limit in limits),
    ]
    return tuple(
        Finding(
            severity=Severity.CHECK,
            code="choice-moved",
            what=tr(
                "{object_id}, {given_as}, is now found {moved_m:.0f} m from "
                "where it got its letter",
                object_id=object_id,
                given_as=use,
                moved_m=far[object_id.strip().casefold()],
            ),
            where=Where(leg_number=leg_number),
            todo=tr("Check on the chart that it is still the object you meant"),
        )
        for object_id, leg_number, use in named
        if object_id.strip().casefold() in far
    )


def chosen_as(role: str) -> str:
    """What an object was chosen for, as it stands in files."""
    if role == Role.PRIMARY.value:
        return tr("chosen as primary object")
    return tr("chosen as check object")


def override_findings(
    choices: LegChoices,
    lines: tuple[IndexLine, ...],
    ids: dict[str, str],
    marks: dict[str, Mark],
    leg_number: int,
) -> tuple[Finding, ...]:
    """Findings for chosen objects that no line could be laid on."""
    found = []

    def is_laid(name: str, role: Role, choice: Choice) -> bool:
        return any(
            (line.object.id, line.role) == (name, role)
            and choice.override.meets(line.from_along_m, line.to_along_m)
            for line in lines
        )

    for choice in choices.choices:
        name = ids[choice.key]
        if is_laid(name, choice.role, choice):
            continue
        mark = marks.get(choice.key)
        if choice.key.startswith("peak "):
            why = tr("a summit inland is no edge to index on")
        elif is_laid(name, Role.PRIMARY, choice):
            why = tr("it carries the primary line, as nothing else can")
        elif mark is not None and not mark.is_fixed:
            why = tr("it floats, and floating marks are never indexed")
        else:
            why = (
                tr(
                    "nowhere on the leg is it in sight, near enough and readable within the error "
                    "limit"
                )
                if choice.override.part_m is None
                else tr(
                    "nowhere on the part it is for is it in sight, near enough and readable "
                    "within the error limit"
                )
            )
        found.append(
            Finding(
                severity=Severity.CHECK if choice.override.is_locked else Severity.NOTE,
                code="choice-not-usable",
                what=tr(
                    "{name} is {chosen} but has no line: {why}",
                    name=name,
                    chosen=chosen_as(choice.role.value),
                    why=why,
                ),
                where=Where(leg_number=leg_number),
                todo=tr("Choose another object"),
            )
        )
    return tuple(found)
