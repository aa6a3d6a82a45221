"""Chosen parts of the book as PDF from the window."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.ask import Ask
from app.window.main_window import MainWindow
from app.window.sheets_dialog import SheetsDialog
from core.words.bridge_words import Bridge
from tests.helpers.window_jobs import StandIns


@pytest.fixture
def dialog(
    qtbot: QtBot, planned: MainWindow, monkeypatch: pytest.MonkeyPatch
) -> Iterator[SheetsDialog]:
    opened: list[SheetsDialog] = []
    monkeypatch.setattr(SheetsDialog, "exec", lambda self: opened.append(self))
    monkeypatch.setattr(SheetsDialog, "deleteLater", lambda _self: None)
    planned.actions_by_id["preview"].trigger()
    qtbot.waitUntil(lambda: bool(opened), timeout=20_000)
    (made,) = opened
    made.show()
    yield made
    made.close()


def _write(dialog: SheetsDialog) -> None:
    next(b for b in dialog.findChildren(QPushButton) if b.text() == "PD&F…").click()


def test_only_the_parts_chosen_are_written_and_keep_the_numbers_of_the_book(
    qtbot: QtBot,
    dialog: SheetsDialog,
    document: Document,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    target = tmp_path / "legs.pdf"
    monkeypatch.setattr(Ask, "target", lambda *_given: target)
    whole = len(dialog.view.pages)
    for part in dialog.parts:
        if part != Bridge.LEG_SHEETS:
            dialog.choose_part(part, is_chosen=False)
    _write(dialog)
    qtbot.waitUntil(lambda: not document.job.is_running and target.exists(), timeout=20_000)
    data = target.read_bytes()
    legs = len(document.outcome.plan.legs) if document.outcome is not None else 0
    assert len(re.findall(rb"/Type\s*/Page\b", data)) == legs < whole
    assert dialog.view.pages[0].name == "Leg 1 of 3"
    assert "legs.pdf" in document.notices.waiting[-1].text


def test_the_whole_book_goes_the_usual_way(
    qtbot: QtBot,
    dialog: SheetsDialog,
    stand_ins: StandIns,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    monkeypatch.setattr(Ask, "target", lambda *_given: tmp_path / "all.pdf")
    _write(dialog)
    qtbot.waitUntil(lambda: stand_ins.exports == [("pdf", tmp_path / "all.pdf")])
