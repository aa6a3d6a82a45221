"""The list of edges at two tides, its file and the rows of the window say the same."""

from app.views.tide_rows import tide_rows as window_rows
from core.files.plan_json_tide import tide_documents
from core.plan.outcome import Outcome
from core.sheets.tide_list import tide_groups, tide_rows
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_tides import with_tides


def _outcome() -> Outcome:
    return with_tides(sample_outcome())


def test_a_row_says_range_height_and_whether_the_line_holds() -> None:
    outcome = _outcome()
    leg = outcome.plan.legs[0]
    row = tide_rows(outcome, leg)[0]
    texts = [cell.text for cell in row.cells] + [cell.second for cell in row.cells]
    assert "1.19 NM" in texts
    assert "COVERED OR AWASH" in " ".join(texts)
    assert "1.4 c" in texts
    assert "+2.7 to +3.3 m CD" in texts


def test_the_first_group_says_which_waters_are_meant() -> None:
    groups = tide_groups(_outcome())
    assert groups
    assert "ASSUMED" in groups[0].rows[0].title
    assert tide_groups(sample_outcome()) == []


def test_window_and_file_hold_every_object() -> None:
    outcome = _outcome()
    leg = outcome.plan.legs[0]
    rows = window_rows(outcome, leg)
    assert len(rows) == 1 + 3 * len(leg.tide_edges)
    assert rows[1].cells[0] == "LW"
    documents = tide_documents(leg)
    assert [d["object_id"] for d in documents] == [e.object.id for e in leg.tide_edges]
    assert documents[0]["high_water"]["holds"] == "covered or awash"
    assert documents[0]["steady_from_m"] == -0.37
