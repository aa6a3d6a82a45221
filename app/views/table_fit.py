"""Columns and rows of a table made as large as their words, once and only where it is seen.

Qt's own header mode for that measures every cell of every table anew at each change of rows,
width, font or colours, hidden tables too: half a second at a change to night colours.
"""

from PySide6.QtCore import QEvent
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

_ANEW = (QEvent.Type.FontChange, QEvent.Type.StyleChange)


class FittedTable(QTableView):
    """A table whose last column takes the room that is left.

    Columns in mode ``Fixed`` keep the width they were given, the others fit their words; rows are
    as high as their words unless ``has_high_rows`` is false.
    """

    def __init__(self, parent: QWidget | None = None, *, has_high_rows: bool = True) -> None:
        super().__init__(parent)
        self._has_high_rows = has_high_rows
        self._is_fitted = False
        self._fitted_width = -1
        self._fitted_font = ""

    def begin_fitting(self, columns: int) -> None:
        """To be called once the model is set."""
        head = self.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        head.setSectionResizeMode(columns - 1, QHeaderView.ResizeMode.Stretch)
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
        head = self.horizontalHeader()
        for column in range(head.count()):
            if head.sectionResizeMode(column) is QHeaderView.ResizeMode.Interactive:
                self.resizeColumnToContents(column)
        if self._has_high_rows:
            self.resizeRowsToContents()
