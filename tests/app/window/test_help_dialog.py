"""The short help: every topic is there, words find it, keys it names are real."""

import re

from PySide6.QtGui import QKeySequence
from pytestqt.qtbot import QtBot

from app.window.action_table import ACTIONS
from app.window.help_dialog import HelpDialog
from app.window.help_topics import TOPICS


def _titles(dialog: HelpDialog) -> list[str]:
    return [dialog.topics.item(row).text() for row in range(dialog.topics.count())]


def test_words_find_their_topics(qtbot: QtBot) -> None:
    dialog = HelpDialog()
    qtbot.addWidget(dialog)
    assert _titles(dialog) == [topic.title for topic in TOPICS]
    assert TOPICS[0].title in dialog.page.toPlainText()
    dialog.search.setText("OVERDUE master")
    assert _titles(dialog) == ["First paints"]
    assert "calls the master" in dialog.page.toPlainText()
    dialog.search.setText("submarine")
    assert _titles(dialog) == []
    assert "No topic" in dialog.page.toPlainText()


def test_keys_named_in_the_help_are_those_of_the_window() -> None:
    named = {
        key
        for topic in TOPICS
        for text in topic.paragraphs
        for key in re.findall(r"\b(?:Ctrl\+)?(?:Shift\+)?(?:F\d+|(?<=\+)[A-Z])\b", text)
    }
    assert len(named) >= 10
    real = {QKeySequence(row.shortcut).toString() for row in ACTIONS}
    assert {key for key in named if QKeySequence(key).toString() not in real} == set()
