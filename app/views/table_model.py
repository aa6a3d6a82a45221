"""Tables of words for Qt's views: rows of cells, some of which must not be overlooked."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QFont

_Index = QModelIndex | QPersistentModelIndex


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


class WordsTable(QAbstractTableModel):
    """A table whose heads and rows are words made elsewhere."""

    def __init__(self, heads: Sequence[str], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._heads = tuple(heads)
        self._rows: tuple[Row, ...] = ()

    def set_rows(self, rows: Sequence[Row], heads: Sequence[str] | None = None) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._rows = tuple(rows)
        if heads is not None:
            self._heads = tuple(heads)
        self.endResetModel()

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows, from the top."""
        return self._rows

    def row(self, number: int) -> Row | None:
        """A row by its number; None where there is none."""
        return self._rows[number] if 0 <= number < len(self._rows) else None

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's signature
        """How many rows."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's signature
        """How many columns."""
        return 0 if parent.isValid() else len(self._heads)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - Qt's signature
        """Words, tips and bold type of a cell."""
        row = self.row(index.row()) if index.isValid() else None
        if row is None or not 0 <= index.column() < len(row.cells):
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return row.cells[index.column()]
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.StatusTipRole):
            return row.tip or row.cells[index.column()]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            if row.is_note:
                return row.cells[index.column()]
            return f"{self._heads[index.column()]}: {row.cells[index.column()]}"
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        if role == Qt.ItemDataRole.FontRole and (row.is_alert or row.is_note):
            font = QFont()
            font.setBold(row.is_alert)
            font.setItalic(row.is_note)
            return font
        return None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401 - Qt's signature
        """Words over the columns."""
        if orientation is not Qt.Orientation.Horizontal or role != Qt.ItemDataRole.DisplayRole:
            return None
        return self._heads[section] if 0 <= section < len(self._heads) else None
