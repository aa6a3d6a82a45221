"""Tables fit their words: sizes against those that Qt itself asks for (Qt is the reference)."""

import pytest
from PySide6.QtCore import QModelIndex
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.views.plan_tables import WordsView
from app.views.table_model import Row
from app.views.word_sizes import WordSizes
from tests.helpers.cut_cells import cut_cells

_LONG = (
    "A longer text that wraps, since it does not fit in the width that is left over, once or more."
)
_ROWS = (
    Row(cells=("A", "Short", _LONG)),
    Row(cells=("BB", "Two\nlines", "x"), is_alert=True),
    Row(cells=("C", "A few words more", "plain")),
    Row(cells=("D", "", _LONG + " " + _LONG), is_alert=True),
)


@pytest.fixture
def table(qtbot: QtBot) -> WordsView:
    view = WordsView("Words", ("One", "Two", "Three"))
    qtbot.addWidget(view)
    view.resize(420, 900)
    view.show()
    return view


@pytest.mark.parametrize("width", [300, 420, 700])
def test_cells_have_the_room_that_qt_asks_for(
    qapp: QApplication, table: WordsView, width: int
) -> None:
    table.resize(width, 900)
    table.show_rows(_ROWS)
    qapp.processEvents()
    head = table.horizontalHeader()
    for column in range(2 if width == 700 else 1):
        # A head has a pixel more, since Qt rounds what it asks for down, too.
        assert table.columnWidth(column) == max(
            table.sizeHintForColumn(column), head.sectionSizeHint(column) + 1
        )
    for number in range(len(_ROWS)):
        assert 0 < table.rowHeight(number) - table.sizeHintForRow(number) < 10
    assert sum(table.columnWidth(column) for column in range(3)) == table.viewport().width()
    assert cut_cells(table) == []


def test_figures_keep_their_line_as_long_as_words_can_give_way(
    qapp: QApplication, table: WordsView
) -> None:
    rows = (Row(cells=("Sound Rock Beacon, an invented light", "15.3–11.0 NM", _LONG)),)
    for width, lines in ((420, 1), (190, 2)):
        table.resize(width, 900)
        table.show_rows(rows)
        qapp.processEvents()
        sizes = WordSizes(table.font())
        needed = sizes.height("15.3–11.0 NM", table.columnWidth(1) - 6)
        assert needed == lines * sizes.height("x", 100), width
        assert cut_cells(table) == []
    table.resize(120, 900)
    qapp.processEvents()
    assert table.horizontalScrollBar().maximum() > 0, "what does not fit can be scrolled to"


def test_a_long_head_wraps(qapp: QApplication, table: WordsView) -> None:
    view = table
    view.table.set_rows((), ("NM to go", "Minutes in sight by speed of craft", "How long hidden"))
    view.resize(200, 300)
    view.show_rows((Row(cells=("1.2", "20 kn 2.1 (1.5)", "-")),))
    qapp.processEvents()
    assert cut_cells(view) == []
    assert view.horizontalHeader().height() > 3 * view.fontMetrics().height()


def test_a_note_has_the_whole_width_and_room_for_its_lines(
    qapp: QApplication, table: WordsView
) -> None:
    words = _LONG + " " + _LONG
    table.show_rows((_ROWS[0], Row(cells=(words,), is_note=True), _ROWS[2]))
    qapp.processEvents()
    assert table.columnWidth(0) < 60, "a note widens no column"
    sizes = WordSizes(table.font())
    lines = sizes.width(words, is_italic=True) / table.viewport().width()
    assert lines > 2.0
    assert table.rowHeight(1) >= (int(lines) + 1) * table.fontMetrics().height()
    assert table.rowHeight(1) < (int(lines) + 3) * table.fontMetrics().height()


def test_words_are_measured_anew_for_another_font(qapp: QApplication, table: WordsView) -> None:
    table.show_rows(_ROWS)
    before = table.columnWidth(1)
    font = QFont(table.font())
    font.setPointSizeF(1.5 * font.pointSizeF())
    table.setFont(font)
    table.resize(900, 900)
    qapp.processEvents()
    assert table.columnWidth(1) > 1.2 * before
    assert table.columnWidth(1) == table.sizeHintForColumn(1)


def test_a_table_that_is_not_seen_is_fitted_when_it_is(qtbot: QtBot) -> None:
    view = WordsView("Words", ("One", "Two", "Three"))
    qtbot.addWidget(view)
    view.show_rows(_ROWS)
    asked: list[int] = []
    view.horizontalHeader().sectionResized.connect(lambda *_sizes: asked.append(1))
    view.show_rows(_ROWS)
    assert asked == []
    view.show()
    assert asked != []
    assert view.model().rowCount(QModelIndex()) == len(_ROWS)


def test_measured_words_are_not_measured_again(qapp: QApplication) -> None:
    sizes = WordSizes(qapp.font())
    first = sizes.height(_LONG, 120)
    assert sizes.height(_LONG, 120) == first
    assert sizes.height(_LONG, 60) > first > sizes.height(_LONG, 10_000)
    assert sizes.width("Two\nlines, the second longer") == sizes.width("lines, the second longer")
    assert sizes.width("words", is_bold=True) > sizes.width("words")
