"""What is fixed by in a stretch without an index line agrees with the fixes of the leg."""

import pytest

from core.plan.fix_result import FixBy
from core.plan.gap_fixes import gaps_with_fixes
from core.plan.hand_overs import fix_by_ranges
from core.plan.plan_result import IndexGap, Plan
from tests.core.plan.test_leg_fixes import plan as plan
from tests.helpers.sample_fixes import fixes_over

FIXES = fixes_over(10_000.0, 370.4).fixes


def gap(from_m: float, to_m: float, substitute: str) -> IndexGap:
    return IndexGap(from_along_m=from_m, to_along_m=to_m, minutes=1.0, substitute=substitute)


@pytest.mark.parametrize(
    ("from_m", "to_m", "words"),
    [
        (0.0, 3000.0, "Fix by other means than radar: no fixed objects both paint and cut well"),
        (6000.0, 10_000.0, "Fix by radar ranges of A and B"),
        (4000.0, 6000.0, "Fix by radar range and bearing of A"),
        (
            1000.0,
            10_000.0,
            "Fix by radar ranges of A and B at 3 of 4 times, else by other means",
        ),
        (8900.0, 8950.0, "Fix by radar ranges of A and B"),
    ],
)
def test_the_fixes_of_the_leg_rule(from_m: float, to_m: float, words: str) -> None:
    given = gap(from_m, to_m, fix_by_ranges(("X", "Y", "Z")))
    (found,) = gaps_with_fixes((given,), FIXES)
    assert found.substitute == words


@pytest.mark.parametrize(
    "words",
    [
        "Still in the turn; A takes over at its end",
        "Fix by radar ranges of the nearest coast, checked by another aid",
        "Fix by other means than radar",
    ],
)
def test_what_names_no_objects_to_fix_by_stays(words: str) -> None:
    given = gap(0.0, 3000.0, words)
    assert gaps_with_fixes((given,), FIXES) == (given,)


def test_no_gap_of_a_plan_names_objects_that_its_fixes_do_not(plan: Plan) -> None:
    for leg in plan.legs:
        assert leg.fixing is not None
        by = {o.object_id for f in leg.fixing.fixes if f.by is not FixBy.NONE for o in f.objects}
        for one in leg.index_gaps:
            if one.substitute.startswith("Fix by radar range") and "coast" not in one.substitute:
                names = one.substitute.split(" of ")[1].split(" at ")[0]
                assert {n.strip() for n in names.replace(" and ", ",").split(",")} <= by
