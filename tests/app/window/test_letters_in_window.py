"""Letters and choices through the whole window, with the real jobs and invented land."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.state.settings import Settings
from app.window.main_window import MainWindow
from app.window.plugged_jobs import real_jobs
from core.base.units import m_from_nm
from core.files.project import Options, Project, read_project, write_project
from core.plan.plan_result import Override, Role
from tests.helpers.three_islets import EAST, ROUTE, write_three_islets


@pytest.fixture
def window(
    qtbot: QtBot, qapp: QApplication, document: Document, settings: Settings
) -> Iterator[MainWindow]:
    qapp.setStyle("Fusion")
    load_fonts()
    made = MainWindow(document, real_jobs(), settings)
    made.show()
    yield made
    document.undo_stack.setClean()
    made.close()
    qapp.setStyleSheet("")
    made.deleteLater()


def _compute(qtbot: QtBot, window: MainWindow) -> None:
    with qtbot.waitSignal(window.job.computed, timeout=120_000):
        window.job.compute()


def _letters(document: Document) -> dict[str, tuple[float, float]]:
    assert document.outcome is not None
    return {
        thing.id: (round(thing.position.lat_deg, 2), round(thing.position.lon_deg, 2))
        for thing in document.outcome.plan.objects
    }


def _primaries(document: Document) -> set[str]:
    assert document.outcome is not None
    lines = document.outcome.plan.legs[0].lines
    return {line.object.id for line in lines if line.role is Role.PRIMARY}


def test_letters_and_choices_stay_with_their_islets(
    qtbot: QtBot,
    window: MainWindow,
    document: Document,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    target = tmp_path / "p.legsheet"
    land = write_three_islets(tmp_path / "land")
    write_project(
        target, Project(route_text=ROUTE, land=land, options=Options(antenna_height_m=25.0))
    )
    window.files.open_path(target)
    _compute(qtbot, window)
    first = _letters(document)
    assert set(first) == {"A", "B", "C"}
    assert first["B"] == (round(EAST.lat_deg, 2), round(EAST.lon_deg, 2))
    assert not document.is_modified
    assert not document.is_stale
    assert document.undo_stack.count() == 0

    document.set_override(Override(leg_number=1, role="primary", object_id="B"))
    document.set_options(replace(document.project.options, radius_m=m_from_nm(2.0)))
    _compute(qtbot, window)
    # The far islet, lettered first, is out of reach; a first plan would call the others A and B.
    assert _letters(document) == {k: first[k] for k in ("B", "C")}
    assert "B" in _primaries(document)
    assert not document.is_stale

    monkeypatch.setattr(window.files.ask, "target", lambda *_args: target)
    assert window.files.save()
    assert {thing.id for thing in read_project(target).known_objects} == {"A", "B", "C"}
    window.files.open_path(target)
    _compute(qtbot, window)
    assert _letters(document) == {k: first[k] for k in ("B", "C")}
    assert document.project.overrides[0].object_id == "B"

    document.set_options(replace(document.project.options, radius_m=None))
    _compute(qtbot, window)
    assert _letters(document) == first
    assert "B" in _primaries(document)
