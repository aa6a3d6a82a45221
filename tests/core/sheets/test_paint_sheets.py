"""First paint and what must not paint on the sheets."""

import pytest

from core.plan.plan_result import LegPlan
from core.sheets.book import make_book
from core.sheets.leg_sections import leg_sections
from core.sheets.page import Dash, Rectangle, Stroke
from core.sheets.sight_list import sight_rows, sight_section
from core.sheets.strip_block import make_strip
from core.sheets.strip_sight import OVERDUE_MM, upright_of
from core.words.paint_words import sightings
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import words_of
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints

_OUTCOME = with_paints(sample_outcome())


def _leg() -> LegPlan:
    return _OUTCOME.plan.legs[0]


def test_what_is_to_be_looked_out_for_has_a_box_and_only_overdue_calls_the_master() -> None:
    section = sight_section(_OUTCOME, _leg(), where="page 9", is_shortened=False)
    assert section.title == "First paint"
    entries = {entry.lead: entry for entry in section.entries}
    a, b, c = (sight.object_id for sight in _leg().first_sights)
    assert entries[a].has_box
    assert entries[b].has_box
    assert "OVERDUE" in entries[a].text
    assert "possible" in entries[a].text
    assert entries[b].facts[0] == "start"
    assert entries["Not expected to paint on this leg"].text == c
    (meaning,) = [e.text for e in section.entries if "call the master" in e.text]
    assert meaning.startswith("Overdue:")


def test_time_by_is_rounded_up() -> None:
    # job.md T6b: normally by 0717, rounded up from 76.8 min
    section = sight_section(_OUTCOME, _leg(), where="", is_shortened=False)
    timetable = _OUTCOME.plan.timetable
    first = next(entry for entry in section.entries if entry.facts and entry.facts[0] != "start")
    paint = _leg().first_paints[0]
    assert paint.normally_by.moment is not None
    utc = timetable.utc_at(0, paint.normally_by.moment.along_m)
    assert utc is not None
    minutes = utc.hour * 60 + utc.minute + (utc.second + utc.microsecond / 1e6) / 60.0
    printed = int(first.facts[0][:2]) * 60 + int(first.facts[0][2:])
    assert minutes <= printed < minutes + 1.0


def test_the_list_has_every_limit_in_its_column() -> None:
    rows = {row.cells[0].text: row for row in sight_rows(_OUTCOME, _leg()) if row.cells}
    a, b, _c = (sight.object_id for sight in _leg().first_sights)
    figures = [cell.text for cell in rows[a].cells]
    possible, from_, by, off, bears, overdue, lost = figures[2:9]
    assert possible < from_ < by < overdue < lost
    assert (off, bears) == ("11.0", "071")
    assert "lost to land 84 m high" in rows[a].cells[0].beside
    assert rows[b].cells[4].text == "start"
    notes = [row.note for row in sight_rows(_OUTCOME, _leg()) if row.note]
    assert "minimum standard" in notes[0]
    assert "call the master" in notes[0]
    assert any(note.startswith("Not expected to paint") for note in notes)


def test_what_must_not_paint_stands_on_the_leg_with_its_mask() -> None:
    section = next(s for s in leg_sections(_OUTCOME, _leg()) if s.title.startswith("Must not"))
    assert section.entries[0].lead == _leg().must_not_paint[0].object_id
    assert "land 84 m high" in section.entries[0].text
    assert "doubt the position" in section.entries[-1].text
    words = words_of(*make_book(_OUTCOME, FixedMeasure())).replace("\n", " ")
    assert "Must not paint, hidden by land" in words


def test_the_upright_of_an_object_tells_its_limits_apart() -> None:
    one = next(s for s in sightings(_leg()) if s.object_id == _leg().lines[0].object.id)
    upright = upright_of(one, _leg())
    assert upright is not None
    room = Rectangle(x_mm=78.0, y_mm=95.0, width_mm=117.0, height_mm=120.0)
    strip = make_strip(_OUTCOME, 0, frame=room, measure=FixedMeasure())
    own = [
        item
        for item in strip.items
        if isinstance(item, Stroke) and item.reference == f"sight:{one.object_id}"
    ]
    upright_lines = [s for s in own if abs(s.points[0][0] - s.points[1][0]) < 1e-6]
    heavy = [s for s in own if s.width_mm == OVERDUE_MM]
    assert upright.overdue_m is not None
    assert len(heavy) == 1
    assert {s.dash for s in upright_lines} <= {Dash.DOTTED, Dash.FINE, Dash.SOLID}
    assert heavy[0].points[0][1] == pytest.approx(strip.frame.y_mm(upright.overdue_m))
