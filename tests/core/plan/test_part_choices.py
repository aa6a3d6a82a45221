"""The officer's choice for a part of a leg: it moves the line it was made for, and no other."""

from itertools import pairwise

import pytest

from core.plan.choices import part_of, with_own_lines
from core.plan.plan_result import IndexLine, Override, Plan, Role
from tests.core.plan.test_selection import chain_of, stretch
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, findings_of, planned

_ISLETS = ((1.0, -6.0), (-1.1, -3.0), (1.2, 0.0), (-1.0, 3.0), (1.3, 5.5))


def _plan(*choices: Override) -> Plan:
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=60.0)
    for east_nm, north_nm in _ISLETS:
        sea = sea.land(islet(east_nm * NM, north_nm * NM, width_m=120.0), 30.0)
    land = sea.model()
    passage = track((0.0, -8.0 * NM), (0.0, 8.0 * NM))
    return planned(land, passage, covered(land, passage), overrides=choices)


def _primaries(plan: Plan) -> tuple[IndexLine, ...]:
    return tuple(line for line in plan.legs[0].lines if line.role is Role.PRIMARY)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return _plan()


def _choice(plan: Plan, line: IndexLine, object_id: str) -> Override:
    lines = plan.legs[0].lines
    part_m = with_own_lines(part_of(lines, line), lines, "primary", object_id)
    return Override(leg_number=1, role="primary", object_id=object_id, part_m=part_m)


def _windows_met(plan: Plan, object_id: str, part_m: tuple[float, float]) -> float:
    look = next(look for look in plan.legs[0].looks if look.object.id == object_id)
    return sum(max(min(b, part_m[1]) - max(a, part_m[0]), 0.0) for a, b in look.windows)


def test_another_object_for_one_line_leaves_the_lines_that_do_not_meet_it(plan: Plan) -> None:
    lines = _primaries(plan)
    assert len(lines) >= 3, [line.object.id for line in lines]
    tried = 0
    for line in lines:
        part_m = (line.from_along_m, line.to_along_m)
        for look in plan.legs[0].looks:
            name = look.object.id
            if name == line.object.id or _windows_met(plan, name, part_m) < 0.5 * NM:
                continue
            tried += 1
            choice = _choice(plan, line, name)
            changed = _plan(choice)
            assert findings_of(changed, "choice-not-usable") == []
            mine = [x for x in _primaries(changed) if x.override == choice]
            assert {x.object.id for x in mine} == {name}
            assert all(choice.meets(x.from_along_m, x.to_along_m) for x in mine)
            apart = {
                x.object.id
                for x in lines
                if x.object.id not in (line.object.id, name)
                and (x.to_along_m < part_m[0] or x.from_along_m > part_m[1])
            }
            assert apart <= {x.object.id for x in _primaries(changed)}
    assert tried >= 3


def test_two_parts_of_a_leg_have_a_choice_each(plan: Plan) -> None:
    first, *_rest, last = _primaries(plan)
    choices = tuple(
        Override(
            leg_number=1,
            role="primary",
            object_id=line.object.id,
            part_m=(line.from_along_m, line.to_along_m),
        )
        for line in (first, last)
    )
    lines = _primaries(_plan(*choices))
    assert {x.override for x in lines if x.override is not None} == set(choices)
    assert all(a.object.id != b.object.id for a, b in pairwise(lines))


def test_an_object_that_serves_nothing_of_the_part_is_told(plan: Plan) -> None:
    first, *_rest, last = _primaries(plan)
    far = Override(
        leg_number=1,
        role="primary",
        object_id=first.object.id,
        part_m=(last.to_along_m - 100.0, last.to_along_m),
    )
    told = _plan(far)
    assert findings_of(told, "choice-not-usable") == [1]
    said = next(str(f) for f in told.findings if f.code == "choice-not-usable")
    assert "nowhere on the part it is for" in said
    assert [x.object.id for x in _primaries(told)] == [x.object.id for x in _primaries(plan)]


def test_a_line_that_serves_a_leg_alone_is_chosen_for_the_whole_leg(plan: Plan) -> None:
    lines = _primaries(plan)
    assert part_of(lines[:1], lines[0]) is None
    assert part_of(lines, lines[0]) == (lines[0].from_along_m, lines[0].to_along_m)
    assert with_own_lines(None, lines, "primary", lines[0].object.id) is None


def test_going_on_with_an_object_is_no_hand_over() -> None:
    # G is chosen for 4 to 8 and reaches from 4 to 10: it goes on, and A before it stays.
    parts = (
        stretch("A", 0, 5),
        stretch("G", 4, 8, is_forced=True),
        stretch("G", 4, 10),
        stretch("I", 4, 10),
    )
    assert chain_of(*parts) == "AGG"
