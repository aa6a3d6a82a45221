"""Short forms of names: letters stay, names of several words become initials with full stops."""

import re
from collections.abc import Iterable
from string import Formatter

from core.base.language import tr
from core.plan.lettering import HEIGHT_NAME
from core.plan.plan_result import IndexObject, LegPlan
from core.words import quantities

LONG = 4
"""Names of more letters count as long."""


def used_objects(plan: LegPlan) -> list[IndexObject]:
    """Objects that a leg uses: of its lines, its wheel-over and its check mark; each once."""
    things = [line.object for line in plan.lines]
    turn = plan.wheel_over
    if turn is not None:
        things.extend(line.object for line in (turn.line,) if line is not None)
        things.extend(mark.object for mark in (turn.second_mark,) if mark is not None)
    by_id = {thing.id: thing for thing in reversed(things)}
    return sorted(by_id.values(), key=lambda thing: thing.id)


def short_names(plan: LegPlan) -> dict[str, str]:
    """The short form of every object a leg uses, none twice."""
    return shortened(thing.id for thing in used_objects(plan))


def shortened(names: Iterable[str]) -> dict[str, str]:
    """A short form for each name.

    Full stops keep initials apart from letters of objects. Names that share their initials keep
    their last word; what then is still the same stays whole. No word is ever cut.
    """
    whole = sorted(set(names))
    initials = {name: _initials(name) for name in whole}
    longer = {name: _initials_and_last_word(name) for name in whole}
    for short in (initials, longer, _unless_shared(longer)):
        if len(set(short.values())) == len(whole):
            return short
    return {name: name for name in whole}


def _unless_shared(short: dict[str, str]) -> dict[str, str]:
    made = list(short.values())
    return {name: words if made.count(words) == 1 else name for name, words in short.items()}


def _initials(name: str) -> str:
    words = name.split()
    if len(name) <= LONG or len(words) == 1:
        return name
    return "".join(f"{word[0]}." for word in words)


def _initials_and_last_word(name: str) -> str:
    words = name.split()
    if len(name) <= LONG or len(words) == 1:
        return name
    return " ".join([*(f"{word[0]}." for word in words[:-1]), words[-1]])


def described(name: str, height_m: float | None) -> str:
    """A found object's name without «high», and without its height where that is said beside.

    Parameters
    ----------
    name : str
        Such as ``headland 38 m high, 2.6 NM E of Ostrin South``.
    height_m : float or None
        The height to leave out.
    """
    parts = _HIGH.fullmatch(name)
    if parts is None:
        return name
    kind, high_m, place = parts["kind"], float(parts["height_m"]), parts["place"]
    if height_m is None:
        return tr("{kind} {height_m:.0f} m, {place}", kind=kind, height_m=high_m, place=place)
    if quantities.height(height_m) != quantities.height(high_m):
        return name
    return tr("{kind}, {place}", kind=kind, place=place)


def _pattern(template: str) -> re.Pattern[str]:
    """What finds the parts of a name again, in whatever language it is said."""
    parts = {"kind": "(?P<kind>.+?)", "height_m": r"(?P<height_m>\d+)", "place": "(?P<place>.+)"}
    return re.compile(
        "".join(
            re.escape(between) + parts.get(part or "", "")
            for between, part, _how, _conversion in Formatter().parse(template)
        )
    )


_HIGH = _pattern(HEIGHT_NAME)
