"""What to fix by where nothing can be indexed, as the fixes of the leg have it."""

from collections.abc import Sequence
from dataclasses import replace

from core.plan.fix_result import Fix, FixBy
from core.plan.hand_overs import FIX_BY_RADAR, NEAREST_COAST, OTHER_MEANS, listed
from core.plan.plan_result import IndexGap


def gaps_with_fixes(gaps: Sequence[IndexGap], fixes: Sequence[Fix]) -> tuple[IndexGap, ...]:
    """Gaps whose substitute is a radar fix of named objects, with the objects of the fixes there.

    What is in sight may not paint, or cut too finely, so the fixes rule.
    """
    return tuple(
        replace(gap, substitute=_substitute(gap, fixes)) if _names_objects(gap) else gap
        for gap in gaps
    )


def _names_objects(gap: IndexGap) -> bool:
    return gap.substitute.startswith(FIX_BY_RADAR) and gap.substitute != NEAREST_COAST


def _substitute(gap: IndexGap, fixes: Sequence[Fix]) -> str:
    inside = [fix for fix in fixes if gap.from_along_m <= fix.along_m <= gap.to_along_m]
    if not inside and fixes:
        middle_m = (gap.from_along_m + gap.to_along_m) / 2.0
        inside = [min(fixes, key=lambda fix: abs(fix.along_m - middle_m))]
    good = [fix for fix in inside if fix.objects]
    if not good:
        return f"{OTHER_MEANS}: no fixed objects both paint and cut well"
    best = min(good, key=lambda fix: (fix.by is not FixBy.RANGES, fix.semi_major_m))
    names = listed(tuple(thing.object_id for thing in best.objects))
    words = f"{FIX_BY_RADAR[0 if best.by is FixBy.RANGES else 1]} {names}"
    if len(good) < len(inside):
        words += f" at {len(good)} of {len(inside)} times, else by other means"
    return words
