"""Danger limits put, changed and taken out by hand, one at a time."""

from dataclasses import replace
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.units import m_from_nm
from core.files.project import Project
from core.jobs.demo import demo_project
from core.jobs.edit_limits import limit_behind, moved_limit, with_limit, without_limit
from core.jobs.edit_project import limits_of
from core.jobs.make_request import make_request
from core.plan.plan_result import DangerLimit, IndexLine, Limit, Role
from tests.helpers.sample_outcome import sample_outcome

_ROUTE = "name,lat,lon\nA,0 00.0N,030 00.0W\nB,0 00.0N,029 54.0W\nC,0 06.0N,029 54.0W\n"


def _limit(name: str, leg: int | None, least: float | None, most: float | None) -> DangerLimit:
    return DangerLimit(
        object_id=name,
        leg_number=leg,
        least_m=None if least is None else m_from_nm(least),
        most_m=None if most is None else m_from_nm(most),
    )


@pytest.fixture
def margin() -> IndexLine:
    lines = sample_outcome().plan.legs[0].lines
    return next(x for x in lines if x.role is Role.MARGIN and x.object.id == "A")


@pytest.fixture
def project(tmp_path: Path) -> Project:
    limits = tmp_path / "limits.csv"
    limits.write_text(
        "object,leg,not_less_than_nm,not_more_than_nm,note\nA,,0.9,1.5,foul\nB,1,,2,\n"
    )
    return Project(route_text=_ROUTE, limits=limits)


def test_a_limit_of_a_file_is_changed_in_the_project_and_the_file_stays(project: Project) -> None:
    assert project.limits is not None
    before = project.limits.read_bytes()
    changed = with_limit(project, replace(limits_of(project)[0], least_m=m_from_nm(0.85)))
    assert project.limits.read_bytes() == before
    assert changed.limits is None
    first, second = limits_of(changed)
    assert first.least_m == pytest.approx(m_from_nm(0.85), abs=0.01)
    assert first.most_m == pytest.approx(m_from_nm(1.5), abs=0.01)
    assert (first.note, first.leg_number) == ("foul", None)
    assert second.object_id == "B"


def test_a_limit_can_go_from_every_leg_to_one(project: Project) -> None:
    every = limits_of(project)[0]
    changed = with_limit(project, replace(every, leg_number=2), instead_of=every)
    assert [(x.object_id, x.leg_number) for x in limits_of(changed)] == [("A", 2), ("B", 1)]


def test_the_last_limit_taken_out_leaves_none(project: Project) -> None:
    for limit in limits_of(project):
        project = without_limit(project, limit)
    assert limits_of(project) == ()
    assert (project.limits, project.limits_text) == (None, "")


def test_a_new_limit_is_put_beside_the_others(project: Project) -> None:
    changed = with_limit(project, _limit("c", 1, 0.4, None))
    assert [x.object_id for x in limits_of(changed)] == ["A", "B", "c"]


@pytest.mark.parametrize(
    ("least", "most", "words"),
    [
        (None, None, "no distance"),
        (1.0, 0.5, "not below"),
        (0.001, None, "less than 0.01"),
        (None, 60.0, "more than 50"),
    ],
)
def test_what_is_no_limit_is_refused_and_nothing_changes(
    project: Project, least: float | None, most: float | None, words: str
) -> None:
    with pytest.raises(InputError, match=words):
        with_limit(project, _limit("A", None, least, most))


def test_the_limit_behind_a_line_is_that_of_its_own_value_then_of_its_leg(
    margin: IndexLine,
) -> None:
    every, own, other = (
        _limit("a", None, 0.9, None),
        _limit("A", 1, 0.8, 2.0),
        _limit("B", 1, 0.9, 1),
    )
    assert limit_behind((other, own, every), margin, 1) == every
    moved = replace(margin, cross_index_range_m=m_from_nm(0.5))
    assert limit_behind((other, every, own), moved, 1) == own
    assert limit_behind((other, own), margin, 2) is None


def test_a_moved_line_keeps_the_other_distance_and_the_note(margin: IndexLine) -> None:
    kept = replace(_limit("A", 1, 0.9, 2.0), note="foul ground")
    moved = moved_limit((kept,), margin, 1, m_from_nm(1.1))
    assert moved == replace(kept, least_m=m_from_nm(1.1))
    most = replace(margin, limit=Limit.NOT_MORE_THAN, cross_index_range_m=m_from_nm(2.0))
    assert moved_limit((kept,), most, 1, m_from_nm(1.8)).most_m == m_from_nm(1.8)


def test_a_line_whose_limit_is_gone_makes_one_of_its_leg(margin: IndexLine) -> None:
    made = moved_limit((), margin, 3, m_from_nm(1.1))
    assert made == DangerLimit(object_id="A", leg_number=3, least_m=m_from_nm(1.1), most_m=None)


def test_a_limit_moved_by_hand_is_what_the_next_plan_is_asked_for() -> None:
    project = demo_project()
    old = next(x for x in limits_of(project) if x.object_id == "Strand Breakwater East")
    moved = replace(old, least_m=m_from_nm(0.77))
    asked = make_request(with_limit(project, moved)).limits
    by_object = {limit.object_id: limit for limit in asked}
    assert by_object["Strand Breakwater East"].least_m == pytest.approx(m_from_nm(0.77), abs=0.01)
    assert len(asked) == len(make_request(project).limits)
