from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.state.document import Document
from core.files.project import Options, Project
from core.geodesy.position import Position
from core.plan.plan_result import KnownObject, ObjectKind, Override
from tests.helpers.sample_outcome import sample_outcome

_ROUTE = Project(route=Path("a.rtz"), land=(Path("land"),))


@pytest.fixture
def planned(document: Document) -> Document:
    document.open_project(_ROUTE, None)
    document.set_outcome(sample_outcome(), _ROUTE)
    return document


def _choice(object_id: str = "C") -> Override:
    return Override(leg_number=1, role="primary", object_id=object_id, remark="seen well")


def test_an_edit_can_be_undone_and_made_again(document: Document) -> None:
    document.open_project(_ROUTE, None)
    document.set_options(Options(refraction_k=1.2))
    assert document.project.options.refraction_k == 1.2
    document.undo_stack.undo()
    assert document.project == _ROUTE
    document.undo_stack.redo()
    assert document.project.options.refraction_k == 1.2


def test_an_override_can_be_put_replaced_and_cleared_each_in_one_step(planned: Document) -> None:
    planned.set_override(_choice("C"))
    planned.set_override(_choice("D"))
    assert planned.project.overrides == (_choice("D"),)
    planned.clear_override(1, "primary")
    assert not planned.project.overrides
    assert planned.undo_stack.count() == 3
    for expected in (("D",), ("C",), ()):
        planned.undo_stack.undo()
        assert tuple(o.object_id for o in planned.project.overrides) == expected


def test_choices_for_parts_of_a_leg_stand_beside_each_other(planned: Document) -> None:
    early, late = (
        replace(_choice("C"), part_m=(0.0, 900.0)),
        replace(_choice("D"), part_m=(900.0, 2e3)),
    )
    planned.set_override(early)
    planned.set_override(late)
    assert planned.overrides_of(1, "primary") == (early, late)
    # Lines of a hand-over run together: a choice for one is none for the other.
    both = replace(_choice("D"), part_m=(600.0, 2e3))
    planned.set_override(both)
    assert planned.overrides_of(1, "primary") == (early, both)
    planned.set_override(late)
    newer = replace(_choice("E"), part_m=(100.0, 800.0))
    planned.set_override(newer)
    assert planned.overrides_of(1, "primary") == (late, newer)
    planned.clear_override(1, "primary", (1000.0, 1100.0))
    assert planned.overrides_of(1, "primary") == (newer,)
    planned.set_override(_choice("F"))
    assert planned.overrides_of(1, "primary") == (_choice("F"),)


def test_an_override_of_another_leg_or_role_stays(planned: Document) -> None:
    other = replace(_choice(), leg_number=2)
    planned.set_override(other)
    planned.set_override(_choice())
    planned.clear_override(1, "primary")
    assert planned.project.overrides == (other,)
    assert planned.overrides_of(2, "primary") == (other,)
    assert planned.overrides_of(2, "check") == ()


def test_a_plan_is_out_of_date_until_its_inputs_are_back(planned: Document) -> None:
    assert not planned.is_stale
    planned.set_override(_choice())
    assert planned.is_stale
    planned.undo_stack.undo()
    assert not planned.is_stale


def test_nothing_changes_where_an_edit_changes_nothing(planned: Document) -> None:
    planned.set_options(planned.project.options)
    assert planned.undo_stack.count() == 0
    assert not planned.is_modified


def test_saving_makes_the_document_clean(planned: Document) -> None:
    planned.set_override(_choice())
    assert planned.is_modified
    planned.saved_as(Path("x.legsheet"))
    assert not planned.is_modified
    planned.undo_stack.undo()
    assert planned.is_modified


def test_the_cursor_stays_on_the_leg(planned: Document) -> None:
    planned.set_cursor(-500.0)
    assert planned.cursor_along_m == 0.0
    planned.set_cursor(1e9)
    assert planned.cursor_along_m == planned.leg_length_m()


def test_the_cursor_steps_from_viewpoint_to_viewpoint(planned: Document) -> None:
    stops = [v.viewpoint.along_m for v in sample_outcome().coverage.legs[0].on_track()]
    planned.step_cursor(1)
    assert planned.cursor_along_m == min(s for s in stops if s > 1.0)
    planned.step_cursor(-1)
    assert planned.cursor_along_m == 0.0
    planned.step_cursor(-1)
    assert planned.cursor_along_m == 0.0
    planned.step_cursor(10_000)
    assert planned.cursor_along_m == planned.leg_length_m()


def test_another_leg_puts_the_cursor_at_its_start_and_is_told_once(
    planned: Document, qtbot: QtBot
) -> None:
    planned.set_cursor(1000.0)
    told: list[int] = []
    planned.leg_changed.connect(lambda: told.append(planned.leg_index))
    planned.set_leg(1)
    planned.set_leg(1)
    planned.set_leg(99)
    assert told == [1, 2]
    assert planned.cursor_along_m == 0.0


def test_another_route_without_a_plan_forgets_the_passage(document: Document) -> None:
    document.open_project(_ROUTE, None)
    document.set_passage(sample_outcome().plan.passage)
    document.edit("open route", replace(_ROUTE, route=Path("b.rtz")))
    assert document.passage is None


def test_a_plan_of_another_route_is_not_shown_until_its_route_is_back(planned: Document) -> None:
    outcome = planned.outcome
    planned.edit("open route", replace(_ROUTE, route=Path("b.rtz")))
    assert planned.outcome is None
    assert planned.passage is None
    assert not planned.is_stale
    planned.undo_stack.undo()
    assert planned.outcome is outcome
    assert planned.passage is not None


def test_opening_a_project_leaves_nothing_of_the_old_one(planned: Document) -> None:
    planned.set_override(_choice())
    planned.set_leg(2)
    planned.open_project(Project(), None)
    assert planned.outcome is None
    assert planned.passage is None
    assert planned.undo_stack.count() == 0
    assert planned.leg_index == 0
    assert not planned.is_modified
    assert not planned.is_stale


_KNOWN = (
    KnownObject(id="C", kind=ObjectKind.ISLET, position=Position(lat_deg=-36.5, lon_deg=174.8)),
)


def test_objects_of_a_plan_are_kept_for_the_next_and_are_no_edit(document: Document) -> None:
    document.open_project(_ROUTE, None)
    outcome = sample_outcome()
    document.set_outcome(replace(outcome, plan=replace(outcome.plan, known_objects=_KNOWN)), _ROUTE)
    assert document.project_to_keep.known_objects == _KNOWN
    assert not document.is_stale
    assert not document.is_modified
    document.set_options(Options(refraction_k=1.2))
    document.undo_stack.undo()
    assert document.project_to_keep.known_objects == _KNOWN
    assert not document.is_stale


def test_a_route_without_a_plan_takes_the_objects_of_the_last_and_undo_gives_back_its_own(
    document: Document,
) -> None:
    document.open_project(_ROUTE, None)
    outcome = sample_outcome()
    document.set_outcome(replace(outcome, plan=replace(outcome.plan, known_objects=_KNOWN)), _ROUTE)
    revised = replace(_ROUTE, route=Path("b.rtz"))
    document.edit("open route", revised)
    assert document.project_to_keep.known_objects == _KNOWN
    document.set_outcome(replace(outcome, plan=replace(outcome.plan, known_objects=())), revised)
    assert not document.project_to_keep.known_objects
    document.undo_stack.undo()
    assert document.project_to_keep.known_objects == _KNOWN


def test_another_document_starts_with_its_own_objects(document: Document) -> None:
    document.open_project(replace(_ROUTE, known_objects=_KNOWN), None)
    assert document.project_to_keep.known_objects == _KNOWN
    document.open_project(_ROUTE, None)
    assert not document.project_to_keep.known_objects


def test_turning_the_passage_round_is_one_step_and_hides_the_other_plan(
    planned: Document,
) -> None:
    planned.set_options(Options(start_utc=datetime(2031, 5, 4, tzinfo=UTC)))
    planned.set_override(_choice())
    before = planned.project
    letters = planned.project_to_keep.known_objects
    planned.reverse()
    assert planned.project.is_reversed
    assert (planned.project.overrides, planned.project.options.start_utc) == ((), None)
    assert planned.outcome is None
    assert planned.project_to_keep.known_objects == letters
    planned.undo_stack.undo()
    assert planned.project == before
    assert planned.outcome is not None
