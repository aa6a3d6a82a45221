"""The tables of the plan are all within reach, however many tabs there are."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QToolButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.plan_tables import PlanTables
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
