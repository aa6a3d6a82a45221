"""Edits by hand kept in the project, from the officer's act to the request."""

from dataclasses import replace
from pathlib import Path

import pytest

from core.base.units import m_from_nm
from core.files.project import Project, read_project, write_project
from core.geodesy.position import Position
from core.jobs.demo import demo_paths
from core.jobs.edit_project import (
    limits_of,
    marks_of,
    passage_to_edit,
    with_edited_passage,
    with_limits,
    with_marks,
)
from core.jobs.make_request import make_request
from core.passage.edit_passage import with_deleted, with_inserted, with_waypoint
from core.passage.passage import Passage
from core.plan.plan_result import DangerLimit, Mark, Override

_ROUTE = """name,lat,lon
A,0 00.0N,030 00.0W
B,0 00.0N,029 54.0W
C,0 06.0N,029 54.0W
D,0 06.0N,029 48.0W
"""
_LIMIT = DangerLimit(object_id="X", leg_number=2, least_m=m_from_nm(1.0), most_m=None)


def _project(tmp_path: Path, **more: object) -> Project:
    land = demo_paths().land
    return Project(route_text=_ROUTE, land=tuple(land), **more)  # type: ignore[arg-type]  # any field


def _names(passage: Passage) -> list[str]:
    return [w.name for w in passage.waypoints]


def _midway(passage: Passage, leg: int) -> Position:
    a, b = passage.waypoints[leg].position, passage.waypoints[leg + 1].position
    return Position(lat_deg=(a.lat_deg + b.lat_deg) / 2, lon_deg=(a.lon_deg + b.lon_deg) / 2)


def test_an_edit_is_kept_in_the_project_and_planned(tmp_path: Path) -> None:
    project = _project(tmp_path)
    place = Position(lat_deg=0.02, lon_deg=-29.92)
    edited = with_edited_passage(
        project, lambda p: with_waypoint(p, 1, replace(p.waypoints[1], position=place))
    )
    assert edited.route is None
    assert edited.leg_sources == ((0,), (1,), (2,))
    path = tmp_path / "kept.legsheet"
    write_project(path, edited)
    request = make_request(read_project(path))
    assert request.passage.waypoints[1].position == place
    assert request.passage.name == "typed route"


def test_an_edit_that_changes_nothing_is_no_edit(tmp_path: Path) -> None:
    project = _project(tmp_path)
    same = with_edited_passage(project, lambda p: with_waypoint(p, 1, p.waypoints[1]))
    assert same is project


def test_choices_and_limits_of_files_go_with_their_legs(tmp_path: Path) -> None:
    limits = tmp_path / "limits.csv"
    limits.write_text("object,leg,not_less_than_nm\nX,2,1.0\nY,3,0.5\nZ,,0.2\n", encoding="utf-8")
    project = _project(
        tmp_path,
        limits=limits,
        overrides=(Override(leg_number=2, role="primary", object_id="X"),),
    )
    split = with_edited_passage(project, lambda p: with_inserted(p, 1, _midway(p, 1)))
    assert split.leg_sources == ((0,), (1,), (1,), (2,))
    assert [(o.leg_number, o.object_id) for o in split.overrides] == [(2, "X"), (3, "X")]
    request = make_request(split)
    assert [(x.object_id, x.leg_number) for x in request.limits] == [
        ("X", 2), ("X", 3), ("Y", 4), ("Z", None),
    ]  # fmt: skip
    joined = with_edited_passage(split, lambda p: with_deleted(p, 3))
    assert joined.leg_sources == ((0,), (1,), (1, 2))
    assert [(x.object_id, x.leg_number) for x in make_request(joined).limits] == [
        ("X", 2), ("X", 3), ("Y", 3), ("Z", None),
    ]  # fmt: skip
    cut = with_edited_passage(project, lambda p: with_deleted(p, 3))
    request = make_request(cut)
    assert [x.object_id for x in request.limits] == ["X", "Z"]
    assert "limit-without-leg" in [f.code for f in request.findings]


def test_a_choice_for_a_part_keeps_it_only_on_a_leg_that_stays_one(tmp_path: Path) -> None:
    part_m = (100.0, 900.0)
    choices = tuple(
        Override(leg_number=number, role="primary", object_id=name, part_m=part_m)
        for number, name in ((2, "X"), (3, "Y"), (3, "Z"))
    )
    project = _project(tmp_path, overrides=choices)
    split = with_edited_passage(project, lambda p: with_inserted(p, 1, _midway(p, 1)))
    assert [(o.leg_number, o.object_id, o.part_m) for o in split.overrides] == [
        (2, "X", None), (3, "X", None), (4, "Y", part_m), (4, "Z", part_m),
    ]  # fmt: skip
    joined = with_edited_passage(project, lambda p: with_deleted(p, 2))
    assert [(o.leg_number, o.object_id, o.part_m) for o in joined.overrides] == [(2, "X", None)]


def test_an_edit_of_a_passage_planned_the_other_way_stays_that_way(tmp_path: Path) -> None:
    limits = tmp_path / "limits.csv"
    limits.write_text("object,leg,not_less_than_nm\nX,1,1.0\n", encoding="utf-8")
    project = _project(tmp_path, is_reversed=True, limits=limits)
    before = passage_to_edit(project)
    assert _names(before) == ["D", "C", "B", "A"]
    # The last leg as planned, from B to A, is the first of the file.
    edited = with_edited_passage(project, lambda p: with_inserted(p, 2, _midway(p, 2)))
    after = passage_to_edit(edited)
    assert _names(after) == ["D", "C", "B", "BA", "A"]
    assert [(x.object_id, x.leg_number) for x in make_request(edited).limits] == [
        ("X", 4), ("X", 3),
    ]  # fmt: skip


def test_limits_by_hand_count_the_legs_as_planned_both_ways(tmp_path: Path) -> None:
    for is_reversed in (False, True):
        project = with_limits(_project(tmp_path, is_reversed=is_reversed), (_LIMIT,))
        assert limits_of(project) == (_LIMIT,)
        assert make_request(project).limits == (_LIMIT,)
        split = with_edited_passage(project, lambda p: with_inserted(p, 0, _midway(p, 0)))
        assert [x.leg_number for x in limits_of(split)] == [3]


def test_marks_by_hand_begin_with_those_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "marks.csv"
    path.write_text("name,lat,lon,fixed\nPole,0 01N,030 01W,yes\n", encoding="utf-8")
    project = _project(tmp_path, marks=path)
    new = Mark(
        name="Beacon",
        position=Position(lat_deg=0.01, lon_deg=-29.95),
        height_above_water_m=12.5,
        is_fixed=True,
        kind="beacon",
        is_on_chart=True,
    )
    kept = with_marks(project, (*marks_of(project), new))
    assert kept.marks is None
    again = marks_of(kept)
    assert [m.name for m in again] == ["Pole", "Beacon"]
    assert again[1] == new
    assert [m.name for m in make_request(kept).marks] == ["Pole", "Beacon"]
    assert with_marks(kept, ()).marks_text == ""


def test_a_passage_of_two_waypoints_keeps_them(tmp_path: Path) -> None:
    project = replace(_project(tmp_path), route_text="\n".join(_ROUTE.splitlines()[:3]))
    with pytest.raises(ValueError, match="two waypoints"):
        with_edited_passage(project, lambda p: with_deleted(p, 0))
