"""A whole session in the window: it is never deaf for more than 50 ms.

On a machine that is busy with other things, whoever holds the interpreter waits for a core as
well; the limit grows with what others took, and the test says how much that was.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app import start
from app.base.collector import all_stays, garbage_on_this_thread
from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.state.settings import GUIDE, Settings
from app.window.main_window import MainWindow
from app.window.plugged_jobs import load_parts, real_jobs
from core.files.project import Options, Project
from core.geodesy.position import Position
from core.jobs.demo import demo_project
from core.passage.edit_passage import PassageEdit, with_leg, with_waypoint
from core.passage.passage import Passage
from tests.flow.test_real_passages import PASSAGES
from tests.helpers.gui_gaps import GapRecorder, dialogs_closed_after, spin, spin_until

pytestmark = pytest.mark.slow

_COMPUTED_S = 600.0
_LIGHT, _COMPUTE, _AGAIN = "night and day", "compute", "compute again"
_OPENED = "dialogs and preview"
_RATIOS = {_LIGHT: 1.5, _COMPUTE: 1.5, _AGAIN: 1.5, _OPENED: 1.5}
"""On an idle machine with a slow core the demo stays under 50 ms, two real passages reach 59 while
computing and once 81 at other colours. While a plan is made, two or three
workers share the interpreter and the cores with the window, and other colours for everything in it
are steps of Qt's that cannot be divided further: there a slower machine may be a little over."""
_DIALOGS = (
    *("conditions", "edit_ship", "anchorage", "waypoints", "drawn", "land_shelf"),
    *("choose_object", "danger_limit", "issue_revision", "revisions", "help", "preview"),
)


@contextmanager
def _real_window(qapp: QApplication, folder: Path) -> Iterator[tuple[MainWindow, Document]]:
    """The window with the real jobs, as the program starts it."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(start.SWITCH_S)
    qapp.setStyle("Fusion")
    load_fonts()
    settings = Settings(folder / "settings.ini")
    settings.put(GUIDE, "seen")
    document = Document()
    window = MainWindow(document, real_jobs(), settings)
    window.resize(1366, 768)
    window.show()
    load_parts()
    all_stays()
    # The first frame belongs to the start.
    spin(0.5)
    try:
        with garbage_on_this_thread():
            yield window, document
    finally:
        document.undo_stack.setClean()
        window.close()
        qapp.setStyleSheet("")
        window.deleteLater()
        sys.setswitchinterval(usual)


def _moved(passage: Passage) -> PassageEdit:
    waypoint = passage.waypoints[1]
    there = Position(lat_deg=waypoint.position.lat_deg + 0.001, lon_deg=waypoint.position.lon_deg)
    return with_waypoint(passage, 1, replace(waypoint, position=there))


def _noted(passage: Passage) -> PassageEdit:
    return with_leg(passage, 0, replace(passage.legs[0], note="call the pilot station"))


def _computed(window: MainWindow, document: Document) -> None:
    window.actions_by_id["compute"].trigger()
    spin_until(lambda: not document.job.is_running, most_s=_COMPUTED_S)
    assert document.outcome is not None, [notice.text for notice in document.notices.waiting]
    spin(0.5)


def _session(window: MainWindow, document: Document, project: Project, gaps: GapRecorder) -> None:
    """What an officer does in an hour, in a minute or two."""
    panes, actions = window.panes, window.actions_by_id
    gaps.stage("open")
    document.open_project(project, None)
    spin_until(lambda: document.passage is not None, most_s=60.0)
    spin(0.5)
    gaps.stage(_COMPUTE)
    _computed(window, document)
    gaps.stage("own ship along the leg")
    for _step in range(30):
        document.step_cursor(1)
        spin(0.03)
    gaps.stage("legs")
    for leg_index in range(document.leg_count):
        document.set_leg(leg_index)
        spin(0.25)
    gaps.stage("tables")
    for number in range(panes.tables.count()):
        panes.tables.setCurrentIndex(number)
        spin(0.2)
        document.set_leg(number % document.leg_count)
        spin(0.2)
    gaps.stage("pan")
    area = panes.area
    middle = area.rect().center()
    QTest.mousePress(area, Qt.MouseButton.LeftButton, pos=middle)
    for step in range(40):
        QTest.mouseMove(area, middle + QPoint(2 * step, step))
        spin(0.016)
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=middle + QPoint(80, 40))
    spin(0.5)
    gaps.stage("expected picture")
    actions["show_picture"].trigger()
    spin(2.0)
    for _step in range(15):
        document.step_cursor(1)
        spin(0.05)
    panes.show_passage()
    gaps.stage(_OPENED)
    with dialogs_closed_after(0.6) as titles:
        for name in _DIALOGS:
            if actions[name].isEnabled():
                actions[name].trigger()
                spin_until(lambda: not document.job.is_running, most_s=_COMPUTED_S)
                spin(0.8)
    assert len(titles) >= len(_DIALOGS) // 2, titles
    gaps.stage(_LIGHT)
    for _light in range(3):
        actions["light"].trigger()
        spin(0.4)
    gaps.stage("edit")
    document.edit_passage("note", _noted)
    spin(0.5)
    document.edit_passage("move", _moved)
    spin(0.5)
    gaps.stage(_AGAIN)
    actions["compute"].trigger()
    for _step in range(20):
        document.step_cursor(1)
        spin(0.05)
    spin_until(lambda: not document.job.is_running, most_s=_COMPUTED_S)
    spin(0.5)


def _over(gaps: GapRecorder) -> set[str]:
    """Stages with a gap that is longer than allowed."""
    return {
        gap.stage for gap in gaps.gaps if gap.seconds > gaps.most_s * _RATIOS.get(gap.stage, 1.0)
    }


def _recorded(qapp: QApplication, folder: Path, project: Project) -> None:
    """A stage that is over the limit is a fault where it is so in two sessions.

    One may have met something that the machine did for a moment.
    """
    over: set[str] | None = None
    told = []
    for _session_number in range(2):
        gaps = GapRecorder()
        with _real_window(qapp, folder) as (window, document), gaps.running():
            _session(window, document, project, gaps)
        told.append(gaps.told())
        print(told[-1])  # noqa: T201 - what the machine did belongs to the result
        over = _over(gaps) if over is None else over & _over(gaps)
        if not over:
            return
    pytest.fail(f"over the limit twice: {', '.join(sorted(over or ()))}\n" + "\n".join(told))


def test_the_demo_passage(qapp: QApplication, tmp_path: Path) -> None:
    _recorded(qapp, tmp_path, demo_project())


@pytest.mark.skipif(
    not os.environ.get("LEGSHEET_SESSIONS"),
    reason="minutes a passage, and true on an idle machine alone: set LEGSHEET_SESSIONS to run it",
)
@pytest.mark.parametrize("name", PASSAGES)
def test_a_real_passage(name: str, qapp: QApplication, tmp_path: Path, real_data: Path) -> None:
    folder = real_data / PASSAGES[name]
    project = Project(
        route=folder / "routes" / f"{name}.rtz",
        land=(
            folder / "dem_srtm3.tif",
            folder / "coast_gshhg_f_land.geojson",
            folder / "coast_gshhg_f_lines.geojson",
        ),
        options=Options(antenna_height_m=25.0),
    )
    _recorded(qapp, tmp_path, project)
