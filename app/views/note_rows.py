"""Rows of a table that hold one sentence over its whole width."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QTableView

from app.views.table_model import WordsTable

_PAD_PX = 8


class NoteRows(QStyledItemDelegate):
    """Gives notes the height that their words need over the whole width.

    Qt measures a cell by the width of its own column, even where the cell spans more.
    """

    def __init__(self, view: QTableView) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Size of a cell; a note wraps at the width of the table."""
        table = index.model()
        row = table.row(index.row()) if isinstance(table, WordsTable) else None
        if row is None or not row.is_note:
            return super().sizeHint(option, index)
        if index.column() > 0:
            return QSize(0, 0)
        width = max(self._view.viewport().width() - _PAD_PX, 40)
        words = option.fontMetrics.boundingRect(
            QRect(0, 0, width, 10_000), int(Qt.TextFlag.TextWordWrap), row.cells[0]
        )
        return QSize(0, words.height() + 4)
