"""Looking at the sheets before they are printed."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.paint.palette import Palette
from app.views.sheet_view import SheetView
from core.sheets.page import Page, part_titles


class SheetsDialog(QDialog):
    """Pages one at a time, the parts of the book to choose from, print and PDF beside them.

    Parameters
    ----------
    print_them : callable
        Prints the parts chosen, given by their titles.
    export_them : callable
        Writes the parts chosen as PDF, given by their titles.
    """

    def __init__(
        self,
        palette: Palette,
        *,
        print_them: Callable[[tuple[str, ...]], None],
        export_them: Callable[[tuple[str, ...]], None],
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
        self._parts = QMenu(self)
        self._all_pages: tuple[Page, ...] = ()
        chooses = QPushButton("P&arts", self)
        chooses.setMenu(self._parts)
        chooses.setToolTip("Which parts of the book to look at, print and write")
        prints = QPushButton("&Print…", self)
        exports = QPushButton("PD&F…", self)
        closes = QPushButton("&Close", self)
        row = QHBoxLayout()
        row.addWidget(self._where, 1)
        for button in (self._back, self._next, chooses, prints, exports, closes):
            button.setAutoDefault(False)
            row.addWidget(button)
        self._back.clicked.connect(lambda: self.view.turn_to(self.view.number - 1))
        self._next.clicked.connect(lambda: self.view.turn_to(self.view.number + 1))
        prints.clicked.connect(lambda: print_them(self.parts))
        exports.clicked.connect(lambda: export_them(self.parts))
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
        """Show the sheets of a plan, with every part chosen."""
        self._all_pages = tuple(pages)
        self._parts.clear()
        for title in part_titles(pages):
            action = QAction(title, self._parts, checkable=True, checked=True)
            action.toggled.connect(self._show_chosen)
            self._parts.addAction(action)
        self.view.show_pages(pages)

    @property
    def parts(self) -> tuple[str, ...]:
        """Titles of the parts chosen, in their order."""
        return tuple(action.text() for action in self._parts.actions() if action.isChecked())

    def choose_part(self, title: str, *, is_chosen: bool) -> None:
        """Take a part in or leave it out."""
        for action in self._parts.actions():
            if action.text() == title:
                action.setChecked(is_chosen)

    def _show_chosen(self) -> None:
        """The last part cannot be left out: there is always something to look at."""
        if not self.parts:
            self._parts.actions()[0].setChecked(True)
            return
        self.view.show_pages([page for page in self._all_pages if page.part in self.parts])
        self._refresh()

    def _refresh(self) -> None:
        count, number = len(self.view.pages), self.view.number
        name = self.view.pages[number].name if count else ""
        self._where.setText(f"Page {number + 1} of {count}  {name}" if count else "")
        self._back.setEnabled(number > 0)
        self._next.setEnabled(number + 1 < count)
