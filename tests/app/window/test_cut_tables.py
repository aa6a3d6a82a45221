"""No cell of any table is cut on a small screen."""

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.table_fit import FittedTable
from app.views.word_sizes import WordSizes
from app.window.about import KeysDialog
from app.window.main_window import MainWindow
from core.files.project import Project
from core.plan.outcome import Outcome
from tests.helpers.cut_cells import cut_cells
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints

_OUTCOMES: dict[str, Callable[[], Outcome]] = {
    "sample": lambda: with_paints(sample_outcome()),
    "demo": demo_outcome,
}


def _cut_anywhere(window: MainWindow, document: Document) -> list[str]:
    tables, found = window.panes.tables, cut_cells(window.panes.findings)
    for leg in range(document.leg_count):
        document.set_leg(leg)
        for number in range(tables.count()):
            tables.setCurrentIndex(number)
            QApplication.processEvents()
            table = tables.currentWidget()
            assert isinstance(table, FittedTable)
            name = table.accessibleName()
            found += [f"leg {leg + 1}, {name}: {words}" for words in cut_cells(table)]
    return found


@pytest.mark.parametrize("name", ["sample", pytest.param("demo", marks=pytest.mark.slow)])
def test_no_table_cuts_a_cell(
    qtbot: QtBot, window: MainWindow, document: Document, name: str
) -> None:
    outcome = _OUTCOMES[name]()
    window.resize(1366, 768)
    document.open_project(Project(), None)
    document.set_outcome(outcome, Project())
    qtbot.wait(100)
    assert document.leg_count == len(outcome.plan.legs)
    assert _cut_anywhere(window, document) == []


def test_the_list_of_keys_cuts_nothing(qtbot: QtBot, window: MainWindow) -> None:
    dialog = KeysDialog(window)
    dialog.show()
    qtbot.waitExposed(dialog)
    (table,) = dialog.findChildren(FittedTable)
    assert table.table.rowCount() > 60
    assert cut_cells(table) == []
    dialog.close()
    dialog.deleteLater()


def test_alerts_of_the_leg_list_keep_their_words_in_the_smallest_window(
    qtbot: QtBot, window: MainWindow, document: Document
) -> None:
    window.resize(window.minimumSize())
    document.open_project(Project(), None)
    document.set_outcome(sample_outcome(), Project())
    window.panes.setSizes([1, 900, 900])
    QApplication.processEvents()
    assert window.width() == window.minimumWidth()
    legs = window.panes.legs
    longest = WordSizes(legs.font()).word_width("INCOMPLETE:", is_bold=True)
    bar_px = legs.verticalScrollBar().sizeHint().width()
    assert longest + 14 <= legs.width() - bar_px - 4
