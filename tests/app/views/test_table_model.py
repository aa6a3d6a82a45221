"""Words of a table as Qt's views ask for them."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.views.table_model import Row, WordsTable

_Role = Qt.ItemDataRole


def test_a_cell_has_words_tip_and_what_is_spoken(qapp: QApplication) -> None:
    table = WordsTable(("What", "How far"))
    table.set_rows((Row(cells=("Head", "2.0 NM")), Row(cells=("Rock", "1.0 NM"), tip="Dries 2 m")))
    cell = table.index(0, 1)
    assert cell.data() == "2.0 NM"
    assert cell.data(_Role.ToolTipRole) == cell.data(_Role.StatusTipRole) == "2.0 NM"
    assert cell.data(_Role.AccessibleTextRole) == "How far: 2.0 NM"
    assert table.index(1, 0).data(_Role.ToolTipRole) == "Dries 2 m"
    assert table.headerData(1, Qt.Orientation.Horizontal) == "How far"


def test_alerts_are_bold_and_notes_italic_without_a_head(qapp: QApplication) -> None:
    table = WordsTable(("What", "How far"))
    table.set_rows(
        (
            Row(cells=("Wreck", "0.2 NM"), is_alert=True),
            Row(cells=("A note",), is_note=True),
            Row(cells=("Head", "2 NM")),
        )
    )
    assert table.index(0, 1).data(_Role.FontRole).bold()
    note = table.index(1, 0)
    assert note.data(_Role.FontRole).italic()
    assert note.data(_Role.AccessibleTextRole) == "A note"
    assert table.index(1, 1).data() is None
    assert table.index(2, 0).data(_Role.FontRole) is None


def test_nothing_in_it_can_be_typed_over(qapp: QApplication) -> None:
    table = WordsTable(("What", "How far"))
    table.set_rows((Row(cells=("Head", "2.0 NM")),))
    for column in range(2):
        flags = table.index(0, column).flags()
        assert flags & Qt.ItemFlag.ItemIsSelectable
        assert not flags & Qt.ItemFlag.ItemIsEditable


def test_other_rows_and_heads_take_the_place_of_the_old_in_one_step(qapp: QApplication) -> None:
    table = WordsTable(("One", "Two"))
    steps: list[str] = []
    table.modelReset.connect(lambda: steps.append("reset"))
    table.rowsInserted.connect(lambda *_: steps.append("rows"))
    table.dataChanged.connect(lambda *_: steps.append("data"))
    table.set_rows((Row(cells=("a", "b"), is_alert=True), Row(cells=("c", "d"))))
    table.set_rows((Row(cells=("e", "f", "g")),), ("One", "Two", "Three"))
    assert steps == ["reset", "reset"]
    assert (table.rowCount(), table.columnCount()) == (1, 3)
    assert [table.index(0, column).data() for column in range(3)] == ["e", "f", "g"]
    assert table.index(0, 0).data(_Role.FontRole) is None
    assert [row.cells for row in table.rows] == [("e", "f", "g")]
    assert table.row(0) == table.rows[0]
    assert table.row(1) is None
