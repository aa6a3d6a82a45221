"""First paint, what-ifs and what must not paint in the tables of the window."""

from app.views.paint_rows import (
    MUST_NOT_HEADS,
    PAINT_HEADS,
    WHAT_IF_HEADS,
    must_not_rows,
    paint_rows,
    what_if_rows,
)
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints

_OUTCOME = with_paints(sample_outcome())
_LEG = _OUTCOME.plan.legs[0]


def test_every_object_has_a_row_as_wide_as_the_heads() -> None:
    rows = paint_rows(_OUTCOME, _LEG)
    assert {row.cells[0] for row in rows} == {paint.object_id for paint in _LEG.first_paints}
    assert all(len(row.cells) == len(PAINT_HEADS) for row in rows)
    first = rows[0].cells
    assert first[1] < first[2] < first[3] < first[5] < first[6]
    assert "11.0 NM" in first[4]


def test_an_object_that_does_not_paint_says_why_in_place_of_a_range() -> None:
    paint = _LEG.first_paints[2]
    row = next(r for r in paint_rows(_OUTCOME, _LEG) if r.cells[0] == paint.object_id)
    assert row.cells[4] == paint.normally_by.reason
    assert "call the master" in row.tip


def test_without_a_radar_sight_stands_in_its_place() -> None:
    bare = sample_outcome()
    rows = paint_rows(bare, bare.plan.legs[0])
    assert all("not calculated" in row.tip for row in rows)


def test_what_if_and_must_not_rows_are_as_wide_as_their_heads() -> None:
    what_if = what_if_rows(_OUTCOME, _LEG)
    assert {row.cells[0] for row in what_if} == {_LEG.first_paints[0].object_id}
    assert all(len(row.cells) == len(WHAT_IF_HEADS) for row in what_if)
    (hidden,) = must_not_rows(_OUTCOME, _LEG)
    assert len(hidden.cells) == len(MUST_NOT_HEADS)
    assert hidden.cells[-1] == "land 84 m high, 2.1 NM off"
