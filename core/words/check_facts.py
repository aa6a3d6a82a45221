"""Dead ranges and check spots of a leg as items to compare plan with plan."""

from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan
from core.words import times
from core.words.check_words import (
    DEAD_RANGE,
    MARKER_CHECK,
    RANGE_CHECK,
    countdown_words,
    heading_spot_words,
    index_spot_words,
)


def check_facts(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    """What the sheet of the leg and its list at the back say of them."""
    checks = leg.checks
    if checks is None:
        return []
    items = [
        (
            f"{DEAD_RANGE} {dead.object_id}",
            f"{times.span(timetable, leg.leg_index, dead.from_along_m, dead.to_along_m)} "
            f"{countdown_words(dead)}".strip(),
        )
        for dead in checks.dead_ranges
    ]
    pair, marker = checks.index_spot, checks.heading_spot
    if pair is not None:
        when = times.when(timetable, leg.leg_index, pair.along_m)
        items.append((RANGE_CHECK, f"{when} {index_spot_words(pair)}"))
    if marker is not None:
        when = times.when(timetable, leg.leg_index, marker.along_m)
        items.append((MARKER_CHECK, f"{when} {heading_spot_words(marker)}"))
    return items
