"""Revisions: which legs changed, in what, and which sheets must be printed anew."""

from dataclasses import replace

from core.geodesy.position import Position
from core.plan.revision import Change, LegFacts, Revision, issue, revise

_ENDS = tuple(Position(lat_deg=-30.0 + 0.1 * n, lon_deg=-20.0) for n in range(6))


def _leg(n: int, **items: str) -> LegFacts:
    said = {"course": "000° T", "wheel-over": "0512", **items}
    return LegFacts(
        start_name=f"WP{n}",
        end_name=f"WP{n + 1}",
        start=_ENDS[n],
        end=_ENDS[n + 1],
        items=tuple(said.items()),
    )


_LEGS = (_leg(0), _leg(1), _leg(2))


def _issued(legs: tuple[LegFacts, ...] = _LEGS, since: Revision | None = None) -> Revision:
    return issue(revise(legs, since), digest="d" * 64, issued_utc="2031-05-14T00:00:00Z")


def test_the_first_plan_is_revision_one_with_nothing_marked() -> None:
    plan = revise(_LEGS, None)
    assert (plan.number, plan.marked(), plan.is_issued) == (1, (), False)


def test_the_same_plan_stays_the_revision_it_is() -> None:
    plan = revise(_LEGS, _issued())
    assert (plan.number, plan.marked(), plan.is_issued) == (1, (), True)


def test_only_the_changed_leg_gets_a_new_revision_and_says_what_changed() -> None:
    now = (_leg(0), _leg(1, **{"wheel-over": "0517"}), _leg(2))
    plan = revise(now, _issued())
    assert (plan.number, plan.marked()) == (2, (1,))
    assert plan.legs[1].changes == (Change(what="wheel-over", before="0512", now="0517"),)
    assert [leg.revision for leg in plan.legs] == [1, 2, 1]


def test_marks_stay_after_issue_and_go_with_the_next() -> None:
    second = (_leg(0), _leg(1, **{"wheel-over": "0517"}), _leg(2))
    issued = _issued(second, _issued())
    again = revise(second, issued)
    assert (again.number, again.marked(), again.is_issued) == (2, (1,), True)
    assert again.legs[1].changes
    third = revise((_leg(0, course="001° T"), *second[1:]), issued)
    assert (third.number, third.marked()) == (3, (0,))
    assert [leg.revision for leg in third.legs] == [3, 2, 1]


def test_items_that_come_and_go_are_changes() -> None:
    plan = revise((_leg(0, check="B PORT"), _leg(1), _leg(2)), _issued())
    assert plan.legs[0].changes == (Change(what="check", before="", now="B PORT"),)
    back = revise(_LEGS, _issued((_leg(0, check="B PORT"), _leg(1), _leg(2))))
    assert back.legs[0].changes == (Change(what="check", before="B PORT", now=""),)


def test_a_waypoint_put_between_makes_new_legs_and_drops_the_old_one() -> None:
    middle = Position(lat_deg=-29.85, lon_deg=-20.0)
    parts = (
        replace(_leg(1), end_name="NEW", end=middle),
        replace(_leg(1), start_name="NEW", start=middle),
    )
    plan = revise((_LEGS[0], *parts, _LEGS[2]), _issued())
    assert [leg.is_new for leg in plan.legs] == [False, True, True, False]
    assert plan.dropped == ("WP1 to WP2",)
    assert plan.marked() == (1, 2)


def test_a_renamed_waypoint_is_no_new_leg() -> None:
    renamed = (replace(_LEGS[0], end_name="Buoy"), replace(_LEGS[1], start_name="Buoy"), _LEGS[2])
    plan = revise(renamed, _issued())
    assert not any(leg.is_new for leg in plan.legs)
    assert not plan.dropped


def test_two_legs_of_the_same_names_are_told_apart_by_place() -> None:
    legs = tuple(replace(leg, start_name="", end_name="") for leg in _LEGS)
    now = (legs[0], legs[1], replace(legs[2], items=(("course", "005° T"),)))
    assert revise(now, _issued(legs)).marked() == (2,)


def test_a_reversed_passage_is_all_new() -> None:
    back = tuple(
        replace(leg, start_name=leg.end_name, end_name=leg.start_name, start=leg.end, end=leg.start)
        for leg in reversed(_LEGS)
    )
    plan = revise(back, _issued())
    assert all(leg.is_new for leg in plan.legs)
    assert len(plan.dropped) == 3
