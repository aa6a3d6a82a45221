"""What to fix by where nothing can be indexed, as the fixes of the leg have it."""

from collections.abc import Sequence
from dataclasses import replace

from core.base.language import tr
from core.plan.fix_result import Fix, FixBy
from core.plan.hand_overs import NamedFix, fix_by_range_and_bearing, fix_by_ranges
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
    return isinstance(gap.substitute, NamedFix)


def _substitute(gap: IndexGap, fixes: Sequence[Fix]) -> str:
    inside = [fix for fix in fixes if gap.from_along_m <= fix.along_m <= gap.to_along_m]
    if not inside and fixes:
        middle_m = (gap.from_along_m + gap.to_along_m) / 2.0
        inside = [min(fixes, key=lambda fix: abs(fix.along_m - middle_m))]
    good = [fix for fix in inside if fix.objects]
    if not good:
        return tr("Fix by other means than radar: no fixed objects both paint and cut well")
    best = min(good, key=lambda fix: (fix.by is not FixBy.RANGES, fix.semi_major_m))
    names = tuple(thing.object_id for thing in best.objects)
    fix = fix_by_ranges if best.by is FixBy.RANGES else fix_by_range_and_bearing
    if len(good) == len(inside):
        return fix(names)
    return tr(
        "{fix} at {good_count} of {count} times, else by other means",
        fix=fix(names),
        good_count=len(good),
        count=len(inside),
    )
