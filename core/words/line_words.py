"""What is said of a leg's lines besides their figures: fallbacks, agreement, the corridor."""

from core.plan.plan_result import HandOver, IndexLine, LegPlan, Role, ScaleStretch
from core.words import quantities
from core.words.messages import Say

_LETTERS = 3
"""Names no longer than this have room in the table of lines."""
_WHOLE_M = 185.2
"""A fallback that lacks less than a cable at an end serves all along."""


def agreement_words(hand_over: HandOver) -> str:
    """What both lines are to agree within, rounded up: ``agree within 0.05 NM``."""
    error = quantities.uncertainty(hand_over.agreement_m).removeprefix("± ")
    return Say.AGREE_WITHIN.format(error=error)


def fallback_words(leg: LegPlan, line: IndexLine) -> str:
    """What to use where the object is not seen, and where it serves only a part; else a dash."""
    other = line.fallback
    if other is None:
        return quantities.DASH
    is_part = (
        other.from_along_m > line.from_along_m + _WHOLE_M
        or other.to_along_m < line.to_along_m - _WHOLE_M
    )
    if not is_part:
        return other.object_id
    start, stop = (
        quantities.miles(leg.distance_m - along_m)
        for along_m in (other.from_along_m, other.to_along_m)
    )
    return f"{other.object_id} {start}{quantities.DASH}{stop} {Say.NM_TO_GO}"


def short_fallback(line: IndexLine) -> str:
    """A fallback that is a letter, for the table of lines; empty for a longer name or none."""
    other = line.fallback
    return other.object_id if other is not None and len(other.object_id) <= _LETTERS else ""


def long_fallbacks(leg: LegPlan) -> str:
    """Fallbacks of primary lines that the table has no room for: ``A: Sound Beacon``."""
    said = dict.fromkeys(
        f"{line.object.id}: {fallback_words(leg, line)}"
        for line in leg.lines
        if line.role is Role.PRIMARY
        and line.fallback is not None
        and (line.override is not None or not short_fallback(line))
    )
    return "; ".join(said)


def override_list(leg: LegPlan) -> str:
    """The officer's choices with his remarks: ``B check: seen last time``; empty without one."""
    chosen = dict.fromkeys(
        (line.object.id, line.role.shown, line.override.remark)
        for line in leg.lines
        if line.override is not None
    )
    return "; ".join(
        f"{name} {role}: {remark}" if remark else f"{name} {role}" for name, role, remark in chosen
    )


def corridor_words(leg: LegPlan, stretch: ScaleStretch) -> str:
    """The narrowest corridor that can be watched, at the first stretch on that scale."""
    watch = leg.corridor_watch
    if watch is None or stretch is not next(
        (one for one in leg.scales if one.scale_m == watch.scale_m), None
    ):
        return ""
    return Say.LEAST_CORRIDOR.format(least=quantities.cables_up(watch.least_corridor_m))
