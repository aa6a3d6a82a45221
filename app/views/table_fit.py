"""Columns and rows of a table made as large as their words, once and only where it is seen.

Qt's own header mode for that measures every cell of every table anew at each change of rows,
width, font or colours, hidden tables too: half a second at a change to night colours. Its call
for one table asks the model ten times a cell: 10 to 20 ms at each change of the leg.
"""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QStyle, QTableView, QWidget

from app.views.column_widths import ColumnRoom, shared_widths
from app.views.table_model import Row, WordsTable
from app.views.word_sizes import WordSizes

_NOTE_PAD_PX = 4
_ROW_PAD_PX = 6
"""So that rows of several lines stand apart from each other."""
_LEAST_PX = 40
_SHORT = "0" * 13
"""Cells and heads as short as these figures wrap only where nothing else is left to give way."""
_HEAD_FLAGS = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_ANEW = (QEvent.Type.FontChange, QEvent.Type.StyleChange)


class FittedTable(QTableView):
    """A table of words, each of which can be read whole.

    Columns fit their words as long as there is room, the last takes what is left; then heads wrap,
    else long cells; figures last, and only then can the table be scrolled sideways. Rows are as
    high as their words. Notes take the whole width.
    """

    def __init__(self, table: WordsTable, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.table = table
        table.setParent(self)
        self.setModel(table)
        self._sizes = WordSizes(self.font())
        self._is_fitted = False
        self._fitted_width = -1
        self._fitted_font = ""

        self._sized_font = self.font().key()
        head = self.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        head.setSectionsClickable(False)
        # Qt takes the flag of wrapping among those of alignment, but does not name it there.
        head.setDefaultAlignment(
            Qt.AlignmentFlag(_HEAD_FLAGS.value | Qt.TextFlag.TextWordWrap.value)
        )
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)

    def fit_anew(self) -> None:
        """The words are others now."""
        self._is_fitted = False
        if self.isVisible():
            self._fit()

    def showEvent(self, event: QShowEvent) -> None:
        """Fit what changed while it was hidden."""
        super().showEvent(event)
        if not self._is_fitted:
            self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words wrap at another width."""
        super().resizeEvent(event)
        if self.isVisible() and self.viewport().width() != self._fitted_width:
            self._fit()

    def changeEvent(self, event: QEvent) -> None:
        """Another font has other sizes; other colours have not."""
        super().changeEvent(event)
        if event.type() in _ANEW and self._is_fitted and self.font().key() != self._fitted_font:
            self.fit_anew()

    def _fit(self) -> None:
        self._is_fitted, self._fitted_width = True, self.viewport().width()
        self._fitted_font = self.font().key()
        if self._sized_font != self._fitted_font:
            self._sized_font, self._sizes = self._fitted_font, WordSizes(self.font())
        rows = self.table.rows
        # As Qt's styles do: words stand so far from both edges of their cell.
        margin = self.style().pixelMetric(QStyle.PixelMetric.PM_FocusFrameHMargin, None, self) + 1
        head = self.horizontalHeader()
        columns = [self._room(rows, column, 2 * margin) for column in range(head.count())]
        sizes = shared_widths(columns, self._fitted_width)
        for column, size in enumerate(sizes):
            head.resizeSection(column, size)
        self._fit_heads(sizes)
        widths = [size - 2 * margin for size in sizes]
        side = self.verticalHeader()
        side.setDefaultSectionSize(self.fontMetrics().height() + _ROW_PAD_PX)
        for number, row in enumerate(rows):
            high = self._height(row, widths) + _ROW_PAD_PX
            if high != side.sectionSize(number):
                side.resizeSection(number, high)

    def _room(self, rows: tuple[Row, ...], column: int, pad: int) -> ColumnRoom:
        head = self.horizontalHeader()
        title = self.table.heads[column]
        title_px = self._head_px(column)
        title_word_px = title_px - self._sizes.width(title) + self._sizes.word_width(title)
        bottom = max(title_word_px, head.minimumSectionSize())
        cells = [
            (row.cells[column], row.is_alert)
            for row in rows
            if not row.is_note and column < len(row.cells)
        ]
        words_px = pad + max((self._sizes.width(t, is_bold=bold) for t, bold in cells), default=0)
        wanted = max(words_px, title_px, bottom)
        short_px = pad + self._sizes.width(_SHORT)
        word_px = pad + max(
            (self._sizes.word_width(t, is_bold=bold) for t, bold in cells), default=0
        )
        least = max(word_px, bottom)
        return ColumnRoom(
            wanted=wanted,
            cells=max(words_px, bottom),
            easy=max(min(wanted, short_px), least),
            least=least,
        )

    def _head_px(self, column: int) -> int:
        """Room for a head in one line; Qt asks for a part of a pixel less."""
        return self.horizontalHeader().sectionSizeHint(column) + 1

    def _fit_heads(self, sizes: list[int]) -> None:
        """Heads as high as the one that wraps most."""
        head = self.horizontalHeader()
        if not sizes:
            return
        line_px = self.fontMetrics().height()
        words_px = max(
            self._sizes.height(title, size - self._head_px(column) + self._sizes.width(title))
            for column, (title, size) in enumerate(zip(self.table.heads, sizes, strict=True))
        )
        head.setFixedHeight(head.sizeHint().height() + words_px - line_px)

    def _height(self, row: Row, widths: list[int]) -> int:
        if row.is_note:
            # Written over all columns; Qt would measure it by the width of the first.
            width = max(self.viewport().width() - 2 * _NOTE_PAD_PX, _LEAST_PX)
            return self._sizes.height(row.cells[0], width, is_bold=row.is_alert, is_italic=True)
        return max(
            self._sizes.height(text, width, is_bold=row.is_alert)
            for text, width in zip(row.cells, widths, strict=False)
        )
