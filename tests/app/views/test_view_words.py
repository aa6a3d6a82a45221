from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from app.state.document import Document
from app.views.finding_list import finding_rows
from app.views.index_rows import index_rows
from app.views.input_rows import input_rows
from app.views.leg_words import leg_rows
from app.views.paint_rows import PAINT_HEADS, paint_rows
from app.views.plan_rows import cover_rows, gap_rows, scale_rows, turn_rows
from app.views.readout_words import readout, scales_in_force
from app.views.setup_rows import setup_rows
from core.base.units import m_from_nm
from core.files.project import Options, Project
from core.plan import reason_codes as codes
from core.plan.plan_result import Override, Reason
from core.words import quantities, times
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints
from tests.helpers.window_jobs import no_leg_covered

_PROJECT = Project(route=Path("a.rtz"), land=(Path("land"),))


@pytest.fixture
def planned(document: Document) -> Document:
    document.open_project(_PROJECT, None)
    document.set_outcome(sample_outcome(), _PROJECT)
    return document


def test_a_leg_says_names_course_distance_time_index_and_data(planned: Document) -> None:
    row = leg_rows(planned)[0]
    assert row.head == "1  Outer buoy → Islet turn"
    assert row.lines[0] == "000° T   8.0 NM   12.0 kn"
    assert row.lines[1] == "0500–0540 UTC   data fair"
    assert "Index A, B, no gap" in row.lines
    assert any("Hidden water" in line for line in row.lines)


def test_a_leg_without_index_and_with_a_gap_says_so_loudly(planned: Document) -> None:
    alerts = leg_rows(planned)[2].alerts
    assert "NOTHING TO INDEX" in alerts
    assert any(alert.startswith("INCOMPLETE") for alert in alerts)


def test_a_leg_that_is_not_complete_never_says_that_no_water_is_hidden(planned: Document) -> None:
    assert not any("No hidden water" in line for line in leg_rows(planned)[2].lines)


def test_every_leg_of_a_plan_out_of_date_says_so(planned: Document) -> None:
    planned.set_options(Options(refraction_k=1.2))
    assert all(row.alerts[0].startswith("OUT OF DATE") for row in leg_rows(planned))


def test_a_route_without_plan_promises_nothing(document: Document) -> None:
    document.open_project(_PROJECT, None)
    document.set_passage(sample_outcome().plan.passage)
    covered = no_leg_covered().with_leg(sample_outcome().coverage.legs[1])
    document.take_first(covered, document.project)
    rows = leg_rows(document)
    assert [row.lines[1] for row in (rows[0], rows[2])] == ["Not computed yet"] * 2
    assert rows[1].lines[1] == "No hidden water found"
    assert rows[1].alerts[0] == "NOT PLANNED YET"


def test_the_read_out_says_what_to_keep_where_own_ship_is() -> None:
    where, keep, near = readout(sample_outcome(), 0, m_from_nm(3.0))
    assert where.startswith("5.00 NM to go   wheel over in 4.43 NM   0515 UTC")
    assert keep == (
        "Keep A STARBOARD 1.20 NM; B PORT 0.90 NM; A STARBOARD not less than 0.90 NM; "
        "B PORT not less than 0.70 NM"
    )
    assert near.startswith("Nearest land")


def test_each_radar_has_its_scale_in_the_read_out() -> None:
    leg = sample_outcome().plan.legs[0]
    first = replace(leg.scales[0], radar="X band, main mast", scale_m=m_from_nm(3.0))
    second = replace(first, radar="S band, bow", scale_m=m_from_nm(6.0))
    assert scales_in_force(replace(leg, scales=(first,)), 0.0) == "scale 3 NM"
    both = scales_in_force(replace(leg, scales=(first, second)), 0.0)
    assert both == "scale 3 NM (X), 6 NM (S)"


def test_the_read_out_says_when_there_is_no_line() -> None:
    assert readout(sample_outcome(), 2, 0.0)[1] == "No index line here"


def test_the_index_table_has_each_line_with_its_reason_and_range() -> None:
    outcome = sample_outcome()
    rows = index_rows(outcome, outcome.plan.legs[0], ())
    lines, notes = rows[::2], rows[1::2]
    assert lines[0].cells[:4] == ("primary", "A", "STARBOARD", "1.20")
    assert lines[0].cells[-1] == "8.0–2.8"
    assert all(note.is_note and note.cells[0] for note in notes)
    assert lines[2].cells[3] == "NLT 0.90"
    assert any(row.cells[0] == "hand-over" for row in rows)
    assert not any(row.is_alert for row in rows)


def test_gaps_and_legs_without_index_stand_out() -> None:
    outcome = sample_outcome()
    gaps = [r for r in index_rows(outcome, outcome.plan.legs[1], ()) if r.cells[0] == "GAP"]
    assert len(gaps) == 2
    assert all(r.is_alert for r in gaps)
    first = index_rows(outcome, outcome.plan.legs[2], ())[0]
    assert first.cells[0] == "NONE"
    assert first.is_alert


def test_a_choice_the_plan_does_not_hold_yet_is_told_on_its_lines_only() -> None:
    outcome = sample_outcome()
    override = Override(leg_number=2, role="primary", object_id="D")
    rows = index_rows(outcome, outcome.plan.legs[1], (override,))
    told = [i for i, row in enumerate(rows) if "CHANGED to D" in row.cells[0]]
    assert [rows[i - 1].cells[0] for i in told] == ["primary"]
    assert rows[told[0]].is_alert
    assert rows[told[0] - 1].is_alert


def test_a_choice_the_plan_holds_is_told_as_the_officers() -> None:
    outcome = sample_outcome()
    override = Override(leg_number=2, role="primary", object_id="C", remark="seen well")
    leg = outcome.plan.legs[1]
    lines = (replace(leg.lines[0], override=override), *leg.lines[1:])
    leg = replace(leg, lines=lines)
    held = index_rows(outcome, leg, (override,))[1]
    assert held.cells[0].startswith("officer's choice: seen well")
    values = (("kind", "islet"), ("chosen", 1.0), ("sharp", 1.0))
    chosen = Reason(code=codes.INDEX_OBJECT, values=values)
    leg = replace(leg, lines=(replace(lines[0], reason=chosen), *lines[1:]))
    said = index_rows(outcome, leg, (override,))[1].cells[0]
    assert said.startswith("officer's choice: seen well; islet: sharp edge")
    assert "chosen" not in said
    assert not held.is_alert
    taken_back = index_rows(outcome, leg, ())[1]
    assert taken_back.cells[0].startswith("choice taken back, compute again")


def test_the_last_leg_says_why_it_has_no_wheel_over() -> None:
    outcome = sample_outcome()
    assert turn_rows(outcome, outcome.plan.legs[2])[0].cells == (
        "No wheel-over",
        "last leg of the passage",
    )
    facts = {row.cells[0]: row.cells[1] for row in turn_rows(outcome, outcome.plan.legs[0])}
    assert facts["Wheel over"].startswith("0.57 NM before the waypoint")
    assert "060° T" in facts["New course"]


def test_every_viewpoint_on_the_track_has_its_row() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    rows = cover_rows(outcome, leg)
    assert len(rows) == len(outcome.coverage.legs[0].on_track())
    assert rows[0].cells[0] == "8.00"
    assert scale_rows(outcome, leg)


def test_what_is_known_by_geometry_alone_stands_under_the_heads_of_first_paint() -> None:
    outcome = sample_outcome()
    leg = replace(outcome.plan.legs[0], first_paints=())
    rows = paint_rows(outcome, leg)
    assert rows
    for row, sight in zip(rows, leg.first_sights, strict=True):
        told = dict(zip(PAINT_HEADS, row.cells, strict=True))
        assert told["Possible"] == told["By"] == told["OVERDUE"] == quantities.DASH
        assert "whether it gives an echo is not calculated" in row.tip
        if sight.in_sight_from is not None:
            assert told["From"] == times.when(
                outcome.plan.timetable, 0, sight.in_sight_from.along_m
            )
            assert told["Range"].startswith(quantities.radar_range(sight.in_sight_from.range_m))


def test_a_gap_that_matters_stands_out() -> None:
    rows = gap_rows(sample_outcome().plan.legs[2])
    assert rows
    assert any(row.is_alert for row in rows)


def test_findings_are_sentences_worst_first() -> None:
    rows = finding_rows(sample_outcome().findings)
    assert [row.cells[0] for row in rows] == ["MUST FIX", "check", "note"]
    assert rows[0].cells[1] == "3"
    assert rows[2].cells[1] == "all"
    assert all(row.cells[2].endswith(".") and row.cells[2][0].isupper() for row in rows)


def test_inputs_that_are_missing_stand_out(document: Document) -> None:
    rows = input_rows(document)
    missing = {row.cells[0] for row in rows if row.is_alert}
    assert missing == {"Route", "Land"}
    document.open_project(_PROJECT, None)
    assert not any(row.is_alert for row in input_rows(document))


def test_the_readout_says_what_is_to_paint_next_and_what_is_overdue_next() -> None:
    outcome = with_paints(sample_outcome())
    paint = outcome.plan.legs[0].first_paints[0]
    start = readout(outcome, 0, 0.0)[2]
    assert f"next to paint {paint.object_id} by" in start
    assert "overdue" in start
    end = readout(outcome, 0, outcome.plan.legs[0].distance_m)[2]
    assert "next to paint" not in end
    assert "overdue" not in end


def test_no_word_promises_an_echo_or_safety(planned: Document) -> None:
    outcome = sample_outcome()
    words: list[str] = [row.spoken for row in leg_rows(planned)]
    for leg in outcome.plan.legs:
        for rows in (
            index_rows(outcome, leg, ()),
            turn_rows(outcome, leg),
            paint_rows(outcome, leg),
            cover_rows(outcome, leg),
            gap_rows(leg),
        ):
            words += [" ".join((*row.cells, row.tip)) for row in rows]
        for along_m in np.linspace(0.0, leg.distance_m, 9):
            words += readout(outcome, leg.leg_index, float(along_m))
    text = " ".join(words).lower()
    for word in ("will paint", "overdue", "call the master", " safe", "guarantee"):
        assert word not in text


def test_the_set_up_tab_has_the_card_the_check_and_the_order_of_set_up() -> None:
    outcome = sample_outcome()
    rows = setup_rows(outcome, outcome.plan.legs[0])
    cells = [row.cells for row in rows]
    assert ("gain", "8.0–0.0", "up to a light, even speckle") in [one[:3] for one in cells]
    at = next(i for i, one in enumerate(cells) if one[0] == "tune check")
    assert cells[at][1:3] == ("6.4", "0508 UTC, 3 NM, short")
    assert cells[at + 1][2] == "A  2.10 NM 040° T"
    assert cells[at + 4][0] == "expect NONE"
    notes = [one[0] for one, row in zip(cells, rows, strict=True) if row.is_note]
    assert any(note.startswith("Strong seen, weak missing: gain") for note in notes)
    assert any(note.startswith("11. Then set scale") for note in notes)
    assert "† common practice, no source" in notes
    without = [row.cells for row in setup_rows(outcome, outcome.plan.legs[1])]
    assert ("tune check", "", "NONE", "echoes were not worked out for this leg") in without
