"""An edited line is another line: nothing of the old plan passes for its plan."""

from dataclasses import replace
from pathlib import Path

import pytest

from app.state.document import Document
from app.state.edited_line import same_legs
from app.views.leg_words import leg_rows
from core.base.errors import InputError
from core.files.project import Project
from core.geodesy.position import Position
from core.passage.edit_passage import (
    PassageEdit,
    with_added,
    with_deleted,
    with_inserted,
    with_leg,
    with_waypoint,
)
from core.passage.passage import Passage
from tests.helpers.sample_outcome import sample_outcome

_ROUTE = Project(route=Path("a.rtz"), limits_text="object,not_less_than_nm\nA,0.5\n")


@pytest.fixture
def planned(document: Document) -> Document:
    document.open_project(_ROUTE, None)
    document.take_line(_ROUTE, sample_outcome().request.passage)
    document.set_outcome(sample_outcome(), _ROUTE)
    return document


def _shifted(passage: Passage, index: int) -> PassageEdit:
    waypoint = passage.waypoints[index]
    place = replace(waypoint.position, lat_deg=waypoint.position.lat_deg + 0.02)
    return with_waypoint(passage, index, replace(waypoint, position=place))


def test_a_moved_waypoint_leaves_the_legs_that_do_not_touch_it(planned: Document) -> None:
    planned.edit_passage("move waypoint", lambda p: _shifted(p, 0))
    assert planned.outcome is None
    assert planned.leg_plan is None
    assert planned.outcome_before_edit is sample_outcome()
    assert planned.kept_legs == {1: 1, 2: 2}
    assert planned.passage is not None
    alerts = [row.alerts for row in leg_rows(planned)]
    assert alerts == [
        ("LINE EDITED: compute again",),
        ("OUT OF DATE: compute again",),
        ("OUT OF DATE: compute again",),
    ]
    planned.undo_stack.undo()
    assert planned.outcome is sample_outcome()
    assert planned.outcome_before_edit is None
    planned.undo_stack.redo()
    assert planned.kept_legs == {1: 1, 2: 2}


def test_the_chosen_leg_keeps_its_place_in_the_passage(planned: Document) -> None:
    planned.set_leg(2, 500.0)
    middle = planned.passage.line(0).position_at(1000.0) if planned.passage else None
    assert middle is not None
    planned.edit_passage("insert", lambda p: with_inserted(p, 0, middle))
    assert (planned.leg_index, planned.cursor_along_m) == (3, 500.0)
    assert planned.kept_legs == {2: 1, 3: 2}
    planned.edit_passage("delete", lambda p: with_deleted(p, 0))
    assert planned.leg_index == 2
    assert planned.kept_legs == {1: 1, 2: 2}


def test_a_leg_with_another_corridor_is_another_leg(planned: Document) -> None:
    def wider(passage: Passage) -> PassageEdit:
        return with_leg(passage, 1, replace(passage.legs[1], corridor_port_m=1234.0))

    planned.edit_passage("corridor", wider)
    assert planned.kept_legs == {0: 0, 2: 2}


def test_another_route_is_no_edit_of_this_one(planned: Document) -> None:
    planned.edit_passage("move waypoint", lambda p: _shifted(p, 0))
    planned.edit("open route", replace(planned.project, route=Path("b.rtz"), route_text=""))
    assert planned.outcome_before_edit is None
    assert planned.passage is None
    planned.undo_stack.undo()
    assert planned.outcome_before_edit is sample_outcome()


def test_a_plan_that_comes_after_an_edit_is_of_the_line_before(planned: Document) -> None:
    planned.edit_passage("add", lambda p: with_added(p, Position(lat_deg=-30.5, lon_deg=-20.0)))
    planned.set_outcome(sample_outcome(), _ROUTE)
    assert planned.leg_count == 4, "the line shown is that of the inputs"
    assert planned.outcome is None
    assert planned.kept_legs == {0: 0, 1: 1, 2: 2}


def test_an_edit_that_cannot_be_done_changes_nothing(planned: Document) -> None:
    broken = replace(planned.project, limits_text="no table")
    planned.edit("limits", broken)
    with pytest.raises(InputError):
        planned.edit_passage("move", lambda p: _shifted(p, 0))
    assert planned.project == broken
    assert planned.outcome is not None


def test_nothing_is_edited_before_the_route_is_read(document: Document) -> None:
    document.open_project(_ROUTE, None)
    document.edit_passage("move", lambda p: _shifted(p, 0))
    assert document.project == _ROUTE


def test_legs_are_found_again_in_order_and_to_the_millimetre() -> None:
    passage = sample_outcome().request.passage
    assert same_legs(passage, passage) == {0: 0, 1: 1, 2: 2}
    first = passage.waypoints[0]
    near = replace(first.position, lat_deg=first.position.lat_deg + 5e-9)
    nudged = replace(passage, waypoints=(replace(first, position=near), *passage.waypoints[1:]))
    assert same_legs(passage, nudged) == {0: 0, 1: 1, 2: 2}
    far = replace(first.position, lat_deg=first.position.lat_deg + 5e-7)
    nudged = replace(passage, waypoints=(replace(first, position=far), *passage.waypoints[1:]))
    assert same_legs(passage, nudged) == {1: 1, 2: 2}
