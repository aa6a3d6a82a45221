"""The list of legs: several lines a leg, what must not be overlooked in bold."""

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
)
from PySide6.QtGui import QFont, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.state.document import Document
from app.views.leg_words import LegRow, leg_rows
from app.views.word_sizes import WordSizes

_Index = QModelIndex | QPersistentModelIndex
_ROW_ROLE = Qt.ItemDataRole.UserRole
_PAD = 6
_LEAST_PX = 60
_FLAGS = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)


class LegListModel(QAbstractListModel):
    """The legs of the document as rows of words."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._rows: tuple[LegRow, ...] = leg_rows(document)

    def refresh(self) -> None:
        """Take the words from the document again."""
        rows = leg_rows(self._document)
        if len(rows) != len(self._rows):
            self.beginResetModel()
            self._rows = rows
            self.endResetModel()
        elif rows != self._rows:
            self._rows = rows
            self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's signature
        """How many legs."""
        return 0 if parent.isValid() else len(self._rows)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - Qt's signature
        """The words of a leg."""
        if not index.isValid() or not 0 <= index.row() < len(self._rows):
            return None
        row = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return row.head
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return row.spoken
        if role == _ROW_ROLE:
            return row
        return None


class LegDelegate(QStyledItemDelegate):
    """Draws one leg: head and alerts in bold, plain lines between."""

    @staticmethod
    def _texts(row: LegRow) -> list[tuple[str, bool]]:
        return [
            (row.head, True),
            *((text, False) for text in row.lines),
            *((text, True) for text in row.alerts),
        ]

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._take_font(QApplication.font())

    def _take_font(self, font: QFont) -> None:
        self._font_key = font.key()
        self._sizes = WordSizes(font)
        self._fonts = {False: font, True: QFont(font)}
        self._fonts[True].setBold(True)

    def _height(self, text: str, *, is_bold: bool, width: int) -> int:
        """Height of a text, measured once: lists are laid out anew at every report."""
        font = QApplication.font()
        if font.key() != self._font_key:
            self._take_font(font)
        return self._sizes.height(text, max(width, _LEAST_PX), is_bold=is_bold)

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        """Room for all lines, wrapped to the width of the list."""
        row, view = index.data(_ROW_ROLE), self.parent()
        if not isinstance(row, LegRow) or not isinstance(view, QListView):
            return super().sizeHint(option, index)
        width = view.viewport().width() - 2 * _PAD - 2
        heights = [self._height(text, is_bold=b, width=width) for text, b in self._texts(row)]
        return QSize(120, sum(heights) + 2 * _PAD)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        """Draw the lines on the ground of the style."""
        row = index.data(_ROW_ROLE)
        if not isinstance(row, LegRow):
            return
        painter.save()
        palette: QPalette = option.palette
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(rect, palette.color(QPalette.ColorRole.Highlight))
        ink = QPalette.ColorRole.HighlightedText if chosen else QPalette.ColorRole.Text
        painter.setPen(palette.color(ink))
        line = QRect(rect.adjusted(_PAD + 2, _PAD, -_PAD, 0))
        for text, is_bold in self._texts(row):
            line.setHeight(self._height(text, is_bold=is_bold, width=line.width()))
            painter.setFont(self._fonts[is_bold])
            painter.drawText(line, _FLAGS, text)
            line.translate(0, line.height())
        painter.setPen(palette.color(QPalette.ColorRole.Mid))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        painter.restore()


class LegList(QListView):
    """Chooses the leg; arrow keys or mouse."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._legs = LegListModel(document, self)
        self.setModel(self._legs)
        self.setItemDelegate(LegDelegate(self))
        self.setAccessibleName("Legs")
        self.setUniformItemSizes(False)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        for signal in (
            document.project_changed,
            document.passage_changed,
            document.outcome_changed,
            document.legs_done_changed,
        ):
            signal.connect(self._refresh)
        document.leg_changed.connect(self._show_leg)
        self._refresh()

    def currentChanged(self, current: _Index, previous: _Index) -> None:
        """Another leg was chosen here."""
        super().currentChanged(current, previous)
        if current.isValid() and current.row() != self._document.leg_index:
            self._document.set_leg(current.row())

    def _refresh(self) -> None:
        self._legs.refresh()
        self._show_leg()

    def _show_leg(self) -> None:
        index = self._legs.index(self._document.leg_index)
        if index.isValid() and index != self.currentIndex():
            self.setCurrentIndex(index)
            self.scrollTo(index)
