"""The list of legs: several lines a leg, what must not be overlooked in bold."""

from typing import Any

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QSignalBlocker,
    QSize,
    Qt,
)
from PySide6.QtGui import (
    QFont,
    QPainter,
    QPalette,
    QResizeEvent,
    QStandardItem,
    QStandardItemModel,
)
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
from core.base.language import tr

_Index = QModelIndex | QPersistentModelIndex
_PAD = 6
_LEAST_PX = 60
_FLAGS = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)


class LegListModel(QStandardItemModel):
    """The legs of the document as rows of words; Qt holds them and their sizes itself."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        leg = QStandardItem()
        leg.setEditable(False)
        self.setItemPrototype(leg)
        self.rows: tuple[LegRow, ...] = ()
        self.refresh()

    def refresh(self) -> bool:
        """Take the words from the document again; tell whether they are others."""
        rows, before = leg_rows(self._document), self.rows
        self.rows = rows
        if rows == before:
            return False
        if len(rows) != len(before):
            self.setRowCount(len(rows))
            self.setColumnCount(1)
        for number, row in enumerate(rows):
            if len(rows) == len(before) and row == before[number]:
                continue
            values: dict[int, Any] = {
                Qt.ItemDataRole.DisplayRole: row.head,
                Qt.ItemDataRole.ToolTipRole: row.spoken,
                Qt.ItemDataRole.AccessibleTextRole: row.spoken,
            }
            self.setItemData(self.index(number, 0), values)
        return True


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

    def least_width(self) -> int:
        """Room for the words of the alert that matters most, each unbroken."""
        alert = tr("INCOMPLETE: data gap in reach")
        return self._sizes.word_width(alert, is_bold=True) + 2 * _PAD + 4

    def size(self, row: LegRow, width: int) -> QSize:
        """Room for all lines of a leg, wrapped to the width of the list."""
        width -= 2 * _PAD + 2
        heights = [self._height(text, is_bold=b, width=width) for text, b in self._texts(row)]
        return QSize(120, sum(heights) + 2 * _PAD)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        """Draw the lines on the ground of the style."""
        model = index.model()
        if not isinstance(model, LegListModel) or not 0 <= index.row() < len(model.rows):
            return
        row = model.rows[index.row()]
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
        self._legs_drawn = LegDelegate(self)
        self.setModel(self._legs)
        self.setItemDelegate(self._legs_drawn)
        self.setAccessibleName(tr("Legs"))
        self.setUniformItemSizes(False)
        # The words of an alert are not broken, however narrow the window.
        bar_px = self.verticalScrollBar().sizeHint().width() + 2 * self.frameWidth()
        self.setMinimumWidth(self._legs_drawn.least_width() + bar_px)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        for signal in (
            document.project_changed,
            document.passage_changed,
            document.outcome_changed,
            document.legs_done_changed,
            document.job.turned,
        ):
            signal.connect(self._refresh)
        document.leg_changed.connect(self._show_leg)
        self._fit()
        self._refresh()

    def currentChanged(self, current: _Index, previous: _Index) -> None:
        """Another leg was chosen here."""
        super().currentChanged(current, previous)
        if current.isValid() and current.row() != self._document.leg_index:
            self._document.set_leg(current.row())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words wrap at another width."""
        self._fit()
        super().resizeEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        """Another font has other sizes."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._fit()

    def _refresh(self) -> None:
        if self._legs.refresh():
            self._fit()
        self._show_leg()

    def _fit(self) -> None:
        """Give every leg the height of its words, in one layout."""
        width = self.viewport().width()
        with QSignalBlocker(self._legs):
            for number, row in enumerate(self._legs.rows):
                size = self._legs_drawn.size(row, width)
                self._legs.setData(self._legs.index(number, 0), size, Qt.ItemDataRole.SizeHintRole)
        self.scheduleDelayedItemsLayout()

    def _show_leg(self) -> None:
        index = self._legs.index(self._document.leg_index, 0)
        if index.isValid() and index != self.currentIndex():
            self.setCurrentIndex(index)
            self.scrollTo(index)
