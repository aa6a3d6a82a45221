"""First paints that were seen, compared in the window with the plan."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel, QTableView
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.seen_rows import SEEN_HEADS
from app.window.ask import Ask
from app.window.main_window import MainWindow
from app.window.seen_dialog import SeenDialog
from core.plan.outcome import Outcome
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints
from tests.helpers.window_jobs import StandIns


@pytest.fixture
def painted(planned: MainWindow, document: Document) -> Outcome:
    outcome = with_paints(sample_outcome())
    document.set_outcome(outcome, document.project)
    return outcome


def _compare(
    window: MainWindow, monkeypatch: pytest.MonkeyPatch, path: Path | None
) -> list[SeenDialog]:
    opened: list[SeenDialog] = []
    monkeypatch.setattr(SeenDialog, "exec", lambda self: opened.append(self))
    monkeypatch.setattr(SeenDialog, "deleteLater", lambda _self: None)
    monkeypatch.setattr(Ask, "file", lambda _self, _title, kind: path if kind == "seen" else None)
    window.actions_by_id["compare_seen"].trigger()
    return opened


def test_every_sighting_stands_in_the_table_with_its_ratio_or_why_it_has_none(
    qtbot: QtBot,
    planned: MainWindow,
    painted: Outcome,
    stand_ins: StandIns,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    thing = next(
        (leg, limits)
        for leg in painted.plan.legs
        for limits in leg.first_paints
        if limits.normally_by.moment
    )
    leg, limits = thing
    seen = tmp_path / "seen.csv"
    number = leg.leg_index + 1
    seen.write_text(f"object,leg,range_nm\n{limits.object_id},{number},1.0\nZZ,{number},5\n")
    stand_ins.thread_names.clear()
    opened = _compare(planned, monkeypatch, seen)
    qtbot.waitUntil(lambda: bool(opened))
    (dialog,) = opened
    rows = [dialog.model.row(i) for i in range(dialog.model.rowCount())]
    cells = {row.cells[1].split(",")[0]: row.cells for row in rows if row is not None}
    assert len(cells) == 2
    assert len(cells["ZZ"]) == len(SEEN_HEADS)
    assert cells["ZZ"][-1] == "the plan expects no first paint of it on leg 1"
    assert float(cells[limits.object_id][5]) > 0.0
    assert stand_ins.thread_names == {"legsheet-plan"}
    dialog.resize(700, 500)
    dialog.show()
    (table,) = dialog.findChildren(QTableView)
    for number in range(2):
        assert table.rowHeight(number) >= table.sizeHintForRow(number), "nothing is cut"
    words = " ".join(label.text() for label in dialog.findChildren(QLabel))
    assert "1 sighting, middle ratio" in words
    assert "Hints only" in words


def test_a_file_that_cannot_be_used_is_told_in_one_sentence(
    qtbot: QtBot,
    planned: MainWindow,
    document: Document,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    seen = tmp_path / "seen.csv"
    seen.write_text("object,leg,range_nm\nA,first,1.0\n")
    opened = _compare(planned, monkeypatch, seen)
    qtbot.waitUntil(lambda: bool(document.notices.waiting))
    assert not opened
    assert "leg «first» is not a number" in document.notices.waiting[-1].text


def test_no_file_no_comparison(
    planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert _compare(planned, monkeypatch, None) == []
    assert not document.job.is_running
