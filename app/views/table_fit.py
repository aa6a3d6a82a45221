"""Columns and rows of a table made as large as their words, once and only where it is seen.

Qt's own header mode for that measures every cell of every table anew at each change of rows,
width, font or colours, hidden tables too: half a second at a change to night colours. Its call
for one table asks the model ten times a cell: 10 to 20 ms at each change of the leg.
"""

from PySide6.QtCore import QEvent
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHeaderView, QStyle, QTableView, QWidget

from app.views.table_model import Row, WordsTable
from app.views.word_sizes import WordSizes

_NOTE_PAD_PX = 4
_LEAST_PX = 40
_ANEW = (QEvent.Type.FontChange, QEvent.Type.StyleChange)


class FittedTable(QTableView):
    """A table of words whose last column takes the room that is left.

    Columns in mode ``Fixed`` keep the width they were given, the others fit their words; rows are
    as high as their words unless ``has_high_rows`` is false. Notes take the whole width.
    """

    def __init__(
        self, table: WordsTable, parent: QWidget | None = None, *, has_high_rows: bool = True
    ) -> None:
        super().__init__(parent)
        self.table = table
        table.setParent(self)
        self.setModel(table)
        self._has_high_rows = has_high_rows
        self._sizes = WordSizes(self.font())
        self._is_fitted = False
        self._fitted_width = -1
        self._fitted_font = ""

        self._sized_font = self.font().key()
        head = self.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        head.setSectionResizeMode(table.columnCount() - 1, QHeaderView.ResizeMode.Stretch)
        head.setSectionsClickable(False)
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
        for column in range(head.count()):
            if head.sectionResizeMode(column) is QHeaderView.ResizeMode.Interactive:
                words = max((self._width(row, column) for row in rows), default=0)
                wanted = max(words + 2 * margin, head.sectionSizeHint(column))
                head.resizeSection(column, max(wanted, head.minimumSectionSize()))
        if not self._has_high_rows:
            return
        # The last column is widened a moment later; its words will have what is left.
        sizes = [head.sectionSize(column) for column in range(head.count() - 1)]
        sizes.append(max(self._fitted_width - sum(sizes), head.minimumSectionSize()))
        widths = [size - 2 * margin for size in sizes]
        side = self.verticalHeader()
        least = side.sectionSizeHint(0)
        for number, row in enumerate(rows):
            side.resizeSection(number, max(self._height(row, widths), least))

    def _width(self, row: Row, column: int) -> int:
        if row.is_note or column >= len(row.cells):
            return 0
        return self._sizes.width(row.cells[column], is_bold=row.is_alert)

    def _height(self, row: Row, widths: list[int]) -> int:
        if row.is_note:
            # Written over all columns; Qt would measure it by the width of the first.
            width = max(self.viewport().width() - 2 * _NOTE_PAD_PX, _LEAST_PX)
            words = self._sizes.height(row.cells[0], width, is_bold=row.is_alert, is_italic=True)
            return words + _NOTE_PAD_PX
        return max(
            self._sizes.height(text, width, is_bold=row.is_alert)
            for text, width in zip(row.cells, widths, strict=False)
        )
