"""Looking at the sheets before they are printed."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.paint.palette import Palette
from app.views.sheet_view import SheetView
from core.sheets.page import Page


class SheetsDialog(QDialog):
    """Pages one at a time, with print and PDF beside them."""

    def __init__(
        self,
        palette: Palette,
        *,
        print_them: Callable[[], None],
        export_them: Callable[[], None],
        is_stale: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Sheets")
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.view = SheetView(palette, self)
        self._where = QLabel(self)
        self._back = QPushButton("Page &before", self)
        self._next = QPushButton("&Next page", self)
        prints = QPushButton("&Print…", self)
        exports = QPushButton("PD&F…", self)
        closes = QPushButton("&Close", self)
        row = QHBoxLayout()
        row.addWidget(self._where, 1)
        for button in (self._back, self._next, prints, exports, closes):
            button.setAutoDefault(False)
            row.addWidget(button)
        self._back.clicked.connect(lambda: self.view.turn_to(self.view.number - 1))
        self._next.clicked.connect(lambda: self.view.turn_to(self.view.number + 1))
        prints.clicked.connect(print_them)
        exports.clicked.connect(export_them)
        closes.clicked.connect(self.accept)
        layout = QVBoxLayout(self)
        if is_stale:
            warning = QLabel("OUT OF DATE: the inputs changed after this plan was computed", self)
            warning.setObjectName("trouble")
            layout.addWidget(warning)
        layout.addWidget(self.view, 1)
        layout.addLayout(row)
        self.view.page_changed.connect(self._refresh)
        self.finished.connect(self.view.close_threads)
        self.view.setFocus()
        self._refresh()

    def show_pages(self, pages: Sequence[Page]) -> None:
        """Show the sheets of a plan."""
        self.view.show_pages(pages)

    def _refresh(self) -> None:
        count, number = len(self.view.pages), self.view.number
        name = self.view.pages[number].name if count else ""
        self._where.setText(f"Page {number + 1} of {count}  {name}" if count else "")
        self._back.setEnabled(number > 0)
        self._next.setEnabled(number + 1 < count)
