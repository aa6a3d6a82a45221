"""Pictures of every panel, palette and dialog, compared by sense.

The same thing in other colours shows the same in the same places; another thing does not.
"""

import itertools
from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QDialog, QWidget
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.lighting import LIGHTS
from app.window.main_window import MainWindow
from core.base.arrays import FloatArray
from tests.app.window.test_night import DIALOGS
from tests.helpers.looks import brightness_of, differs, likeness

_ALIKE, _UNLIKE = 0.8, 0.6
_SAME_PIXELS = 0.002

_PANELS: dict[str, Callable[[MainWindow], QWidget]] = {
    "legs": lambda window: window.panes.legs,
    "strip": lambda window: window.panes.strip,
    "read-out": lambda window: window.panes.readout,
    "area": lambda window: window.panes.area,
    "picture": lambda window: window.panes.picture,
    "tables": lambda window: window.panes.tables,
    "findings": lambda window: window.panes.findings,
    "menus": lambda window: window.menuBar(),
    "window": lambda window: window,
}
_BY_LEG = ("legs", "strip", "read-out", "area", "tables", "window")


def _seen(qtbot: QtBot, window: MainWindow, name: str) -> FloatArray:
    """What a panel shows once everything behind it has been drawn."""
    panes = window.panes
    panes.upper.setCurrentWidget(panes.picture if name == "picture" else panes.area)
    qtbot.waitUntil(lambda: panes.strip.is_current)
    if name == "picture":
        # The first one loads what it is calculated with.
        qtbot.waitUntil(lambda: panes.picture.is_current, timeout=60_000)
    if name in ("area", "window"):
        qtbot.waitUntil(lambda: panes.area.is_ready and panes.area.is_current)
    qtbot.wait(80)
    return brightness_of(_PANELS[name](window))


@pytest.mark.parametrize("name", _PANELS)
def test_a_panel_shows_the_same_in_every_palette(
    qtbot: QtBot, planned: MainWindow, name: str
) -> None:
    seen = {}
    for light in LIGHTS:
        planned.set_light(light)
        seen[light] = _seen(qtbot, planned, name)
    for one, other in itertools.pairwise(LIGHTS):
        assert likeness(seen[one], seen[other]) > _ALIKE, (one, other)
        assert seen[other].mean() < 0.8 * seen[one].mean()


@pytest.mark.parametrize("name", _BY_LEG)
def test_a_panel_shows_another_leg_otherwise_and_the_same_leg_alike(
    qtbot: QtBot, planned: MainWindow, document: Document, name: str
) -> None:
    first = _seen(qtbot, planned, name)
    document.set_leg(1)
    other = _seen(qtbot, planned, name)
    document.set_leg(0)
    again = _seen(qtbot, planned, name)
    assert differs(first, other) > 0.005
    assert differs(first, again) < _SAME_PIXELS


def _dialog(window: MainWindow, name: str) -> FloatArray:
    dialog = DIALOGS[name](window)
    dialog.resize(dialog.sizeHint().expandedTo(dialog.size()))
    dialog.show()
    picture = brightness_of(dialog)
    if isinstance(dialog, QDialog):
        dialog.done(0)
    dialog.deleteLater()
    return picture


@pytest.mark.parametrize("name", DIALOGS)
def test_a_dialog_shows_the_same_in_every_palette(
    qtbot: QtBot, planned: MainWindow, name: str
) -> None:
    seen = {}
    for light in LIGHTS:
        planned.set_light(light)
        seen[light] = _dialog(planned, name)
    for one, other in itertools.pairwise(LIGHTS):
        assert likeness(seen[one], seen[other]) > _ALIKE, (one, other)
        assert seen[other].mean() < 0.8 * seen[one].mean()


def test_no_two_dialogs_look_alike(planned: MainWindow) -> None:
    seen = {name: _dialog(planned, name) for name in DIALOGS}
    alike = {
        (one, other): round(likeness(seen[one], seen[other]), 2)
        for one, other in itertools.combinations(DIALOGS, 2)
    }
    assert {pair: share for pair, share in alike.items() if share > _UNLIKE} == {}


def test_the_comparison_tells_a_missing_word_from_other_colours(planned: MainWindow) -> None:
    whole = brightness_of(planned.panes.legs)
    faded = 0.2 + 0.3 * whole
    assert likeness(whole, faded) > _ALIKE
    assert differs(whole, faded) > 0.5
    blank = whole.copy()
    blank[: blank.shape[0] // 2] = blank.max()
    assert likeness(whole, blank) < _UNLIKE + 0.1
