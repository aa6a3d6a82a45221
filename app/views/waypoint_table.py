"""The waypoint table: rows of text to type in, and keys that put rows in and take them out."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app.views import waypoint_rows
from app.views.soft_caret import SoftCaret
from app.views.waypoint_rows import HEADS, KIND, NOTE, DraftRow, is_open, kind_of, kind_text
from core.base.language import tr

_Index = QModelIndex | QPersistentModelIndex
_MOST_NOTE_PX = 320


class WaypointModel(QAbstractTableModel):
    """Rows as they are being typed; nothing is refused before all is taken over."""

    def __init__(self, rows: tuple[DraftRow, ...], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows = rows

    def set_rows(self, rows: tuple[DraftRow, ...]) -> None:
        """Other rows."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's signature
        """How many waypoints."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's signature
        """How many columns."""
        return 0 if parent.isValid() else len(HEADS)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - Qt's signature
        """The text of a cell, and what its leg comes to as a tip."""
        if not index.isValid():
            return None
        row, column = index.row(), index.column()
        text = self.rows[row].cells[column]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return text if is_open(row, column) or role == Qt.ItemDataRole.EditRole else "–"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return tr(
                "Row {row_number}, {heads}: {cells}",
                row_number=row + 1,
                heads=HEADS[column],
                cells=text,
            )
        if role == Qt.ItemDataRole.ToolTipRole and column >= KIND:
            return waypoint_rows.leg_words(self.rows, row)
        return None

    def setData(
        self,
        index: _Index,
        value: Any,  # noqa: ANN401 - Qt's signature
        role: int = Qt.ItemDataRole.EditRole,
    ) -> bool:
        """Take what was typed; a kind of leg by its first letter."""
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        text, row, column = str(value), index.row(), index.column()
        kind = kind_of(text) if column == KIND else None
        changed = self.rows[row].with_cell(column, text if kind is None else kind_text(kind))
        self.rows = (*self.rows[:row], changed, *self.rows[row + 1 :])
        self.dataChanged.emit(self.index(row, 0), self.index(row, len(HEADS) - 1))
        return True

    def flags(self, index: _Index) -> Qt.ItemFlag:
        """All can be chosen; what belongs to no leg cannot be typed in."""
        flags = super().flags(index)
        if index.isValid() and is_open(index.row(), index.column()):
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401 - Qt's signature
        """Heads of columns, and numbers of rows."""
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        return HEADS[section] if orientation is Qt.Orientation.Horizontal else section + 1


class _Typing(QStyledItemDelegate):
    """Edits in place, with a text cursor in ink."""

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: _Index) -> QWidget:
        """An edit with a quiet cursor."""
        editor: QWidget = super().createEditor(parent, option, index)
        SoftCaret(editor)
        return editor


class WaypointTable(QTableView):
    """Return or a letter types in a cell; Insert and Delete put rows in and take them out."""

    def __init__(self, rows: tuple[DraftRow, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.draft = WaypointModel(rows, self)
        self.setModel(self.draft)
        self.setItemDelegate(_Typing(self))
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setAccessibleName(tr("Waypoints"))
        self.setAlternatingRowColors(True)
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 8)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.resizeColumnsToContents()
        self.horizontalHeader().setStretchLastSection(True)
        self.setColumnWidth(NOTE, min(self.columnWidth(NOTE), _MOST_NOTE_PX))
        self.setCurrentIndex(self.draft.index(0, 0))

    def insert(self, *, is_above: bool = False) -> None:
        """Put a row in behind or before the one chosen."""
        here = max(self.currentIndex().row(), 0)
        change = waypoint_rows.with_row_above if is_above else waypoint_rows.with_row_below
        self._put(change, here, here if is_above else here + 1)

    def delete(self) -> None:
        """Take the chosen row out."""
        here = self.currentIndex().row()
        if here >= 0:
            self._put(waypoint_rows.without_row, here, here)

    def turn(self) -> None:
        """Turn the rows round."""
        here = self.currentIndex().row()
        last = len(self.draft.rows) - 1
        self._put(lambda rows, _index: waypoint_rows.turned(rows), here, last - here)

    def show_cell(self, row: int, column: int) -> None:
        """Go to a cell."""
        self.setCurrentIndex(self.draft.index(row, column))
        self.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return types in the cell; Insert, Shift with Insert and Delete are of rows."""
        key = Qt.Key(event.key())
        is_closed = self.editTriggers() == QAbstractItemView.EditTrigger.NoEditTriggers
        if is_closed or self.state() == QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.edit(self.currentIndex())
        elif key == Qt.Key.Key_Insert:
            is_above = event.modifiers() == Qt.KeyboardModifier.ShiftModifier
            self.insert(is_above=is_above)
        elif key == Qt.Key.Key_Delete:
            self.delete()
        else:
            super().keyPressEvent(event)

    def _put(
        self,
        change: Callable[[tuple[DraftRow, ...], int], tuple[DraftRow, ...]],
        here: int,
        then: int,
    ) -> None:
        column = max(self.currentIndex().column(), 0)
        self.draft.set_rows(change(self.draft.rows, here))
        self.setCurrentIndex(self.draft.index(min(max(then, 0), len(self.draft.rows) - 1), column))
