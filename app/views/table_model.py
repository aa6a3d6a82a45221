"""Tables of words for Qt's views: rows of cells, some of which must not be overlooked."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QObject, QSignalBlocker, Qt
from PySide6.QtGui import QFont, QStandardItem, QStandardItemModel

_Role = Qt.ItemDataRole
_ACROSS = Qt.Orientation.Horizontal


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: its words, a longer explanation, and what it stands for."""

    cells: tuple[str, ...]
    tip: str = ""
    is_alert: bool = False
    is_note: bool = False
    """One sentence over the whole width, belonging to the row above."""
    subject: Any = None
    """What a view needs to act on the row; nothing the table looks at."""


class WordsTable(QStandardItemModel):
    """A table whose heads and rows are words made elsewhere.

    Qt holds the words itself: to paint a cell it asks seven times, and a model in Python would
    have to wait for the interpreter at each while a plan is computed.
    """

    def __init__(self, heads: Sequence[str], parent: QObject | None = None) -> None:
        super().__init__(parent)
        cell = QStandardItem()
        cell.setEditable(False)
        cell.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.setItemPrototype(cell)
        self._heads: tuple[str, ...] = ()
        self._rows: tuple[Row, ...] = ()
        self.set_rows((), heads)

    def set_rows(self, rows: Sequence[Row], heads: Sequence[str] | None = None) -> None:
        """Show other rows."""
        self._rows = tuple(rows)
        if heads is not None:
            self._heads = tuple(heads)
        self.beginResetModel()
        with QSignalBlocker(self):
            self.setRowCount(0)
            self.setRowCount(len(self._rows))
            self.setColumnCount(len(self._heads))
            self.setHorizontalHeaderLabels(self._heads)
            for column in range(len(self._heads)):
                # Heads stand as their view says, not as cells do.
                self.setHeaderData(column, _ACROSS, None, _Role.TextAlignmentRole)
            for number, row in enumerate(self._rows):
                self._put(number, row)
        self.endResetModel()

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows, from the top."""
        return self._rows

    @property
    def heads(self) -> tuple[str, ...]:
        """Heads of the columns."""
        return self._heads

    def row(self, number: int) -> Row | None:
        """A row by its number; None where there is none."""
        return self._rows[number] if 0 <= number < len(self._rows) else None

    def _put(self, number: int, row: Row) -> None:
        font = QFont()
        font.setBold(row.is_alert)
        font.setItalic(row.is_note)
        for column, (head, words) in enumerate(zip(self._heads, row.cells, strict=False)):
            tip = row.tip or words
            values: dict[int, Any] = {
                _Role.DisplayRole: words,
                _Role.ToolTipRole: tip,
                _Role.StatusTipRole: tip,
                _Role.AccessibleTextRole: words if row.is_note else f"{head}: {words}",
            }
            if row.is_alert or row.is_note:
                values[_Role.FontRole] = font
            self.setItemData(self.index(number, column), values)
