"""A choice for a part of a leg in table and strip: told for the line it is for, and no other."""

from dataclasses import replace
from pathlib import Path

import pytest

from app.paint.measure import QtMeasure
from app.state.document import Document
from app.views.index_rows import index_rows
from app.views.input_rows import input_rows
from app.views.strip_drag import LineDrag
from core.files.project import Project
from core.plan.plan_result import LegPlan, Override, Role
from core.sheets.page import Rectangle
from core.sheets.strip_block import make_strip
from tests.helpers.sample_outcome import sample_outcome


def _two_lines() -> LegPlan:
    """The first leg with primary lines on A, then on B."""
    leg = sample_outcome().plan.legs[0]
    by_name = {line.object.id: line for line in leg.lines if line.role is not Role.MARGIN}
    middle_m = leg.distance_m / 2.0
    lines = (
        replace(by_name["A"], role=Role.PRIMARY, from_along_m=0.0, to_along_m=middle_m),
        replace(by_name["B"], role=Role.PRIMARY, from_along_m=middle_m, to_along_m=leg.distance_m),
    )
    return replace(leg, lines=lines, key_in=leg.key_in[:2], index_gaps=(), hand_overs=())


def test_only_the_line_of_the_part_is_told_to_change() -> None:
    leg = _two_lines()
    late = leg.lines[1]
    choice = Override(
        leg_number=1,
        role="primary",
        object_id="C",
        part_m=(late.from_along_m - 900.0, late.to_along_m),
    )
    rows = index_rows(sample_outcome(), leg, (choice,))
    said = [row.cells[0] for row in rows if row.is_note]
    assert not said[0].startswith("CHANGED")
    assert said[1].startswith("CHANGED to C, compute again")


@pytest.mark.parametrize(("share", "is_taken"), [(0.0, False), (0.3, True), (1.0, True)])
def test_a_line_goes_only_to_an_object_that_serves_some_of_its_part(
    qapp: object, share: float, is_taken: bool
) -> None:
    outcome, leg = sample_outcome(), _two_lines()
    line = leg.lines[1]
    look = next(look for look in leg.looks if look.object.id == "A")
    part_m = line.to_along_m - line.from_along_m
    served = ((0.0, line.from_along_m - 10.0 + share * (part_m + 10.0)),)
    leg = replace(leg, looks=(replace(look, windows=served),))
    frame = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=150.0, height_mm=200.0)
    strip = make_strip(outcome, leg.leg_index, frame=frame, measure=QtMeasure())
    drag = LineDrag(
        leg=leg,
        strip=strip,
        line=line,
        cross_m=look.cross_index_range_m,
        along_m=line.from_along_m,
    )
    assert (drag.target is not None) is is_taken
    if is_taken:
        assert ("% of this line's part" in drag.words[1]) is (share < 0.95)


def test_the_inputs_tell_for_which_part_of_its_leg_a_choice_is(document: Document) -> None:
    choice = Override(leg_number=1, role="primary", object_id="B", part_m=(1852.0, 4630.0))
    document.open_project(Project(route=Path("a.rtz"), overrides=(choice,)), None)
    words = {row.cells[0]: row.cells[1] for row in input_rows(document)}
    assert words["Choice leg 1"] == "B as primary, locked; 1.00 NM to 2.50 NM along the leg"
