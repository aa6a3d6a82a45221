"""The tables of the plan are all within reach, however many tabs there are."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QToolButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.plan_tables import PlanTables, WordsView
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import DEMO


def test_a_button_lists_every_table_and_brings_it_to_the_front(
    qtbot: QtBot, document: Document
) -> None:
    document.open_project(DEMO, None)
    document.set_outcome(sample_outcome(), DEMO)
    tables = PlanTables(document)
    qtbot.addWidget(tables)
    button = tables.cornerWidget(Qt.Corner.TopRightCorner)
    assert isinstance(button, QToolButton)
    actions = button.menu().actions()
    assert [a.text() for a in actions] == [tables.tabText(n) for n in range(tables.count())]
    for number in (tables.count() - 1, 2, 0):
        actions[number].trigger()
        assert tables.currentIndex() == number


def test_no_row_of_another_leg_is_acted_on(qtbot: QtBot, document: Document) -> None:
    # Tables follow a moment after the leg; a key may come in between.
    document.open_project(DEMO, None)
    document.set_outcome(sample_outcome(), DEMO)
    tables = PlanTables(document)
    qtbot.addWidget(tables)
    tables.show_index()
    index = tables.currentWidget()
    assert isinstance(index, WordsView)
    asked: list[str] = []
    tables.choice_asked.connect(asked.append)
    tables.limit_asked.connect(lambda _line, typed: asked.append(typed))
    index.setCurrentIndex(index.table.index(0, 0))
    before = index.table.rows
    document.set_leg(document.leg_index + 1)
    index.typed.emit("B")
    assert asked == []
    assert index.table.rows != before, "the leg that is chosen now"
    index.setCurrentIndex(index.table.index(0, 0))
    index.typed.emit("B")
    assert asked == ["B"]


def test_what_is_chosen_belongs_to_the_leg_that_is_chosen(qtbot: QtBot, document: Document) -> None:
    document.open_project(DEMO, None)
    document.set_outcome(sample_outcome(), DEMO)
    tables = PlanTables(document)
    qtbot.addWidget(tables)
    index = tables.currentWidget()
    assert isinstance(index, WordsView)
    before = index.table.rows
    document.set_leg(document.leg_index + 1)
    tables.chosen_line()
    assert index.table.rows != before
