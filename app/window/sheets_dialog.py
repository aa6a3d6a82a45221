"""Looking at the sheets before they are printed."""

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.paint.palette import Palette
from app.views.open_menu import OpenMenu
from app.views.sheet_area import SheetArea
from app.views.sheet_view import SheetView
from app.window.page_choice import typed_pages
from core.base.errors import InputError
from core.base.language import tr
from core.sheets.page import Page, part_titles

_TYPED_LETTERS = 14


class SheetsDialog(QDialog):
    """Pages one at a time, parts and pages of the book to choose, print and PDF beside them.

    Parameters
    ----------
    print_them : callable
        Prints the pages chosen, given by their numbers in the book.
    export_them : callable
        Writes the pages chosen as PDF, given likewise.
    """

    def __init__(
        self,
        palette: Palette,
        *,
        print_them: Callable[[tuple[int, ...]], None],
        export_them: Callable[[tuple[int, ...]], None],
        is_stale: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Sheets"))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.view = SheetView(palette, self)
        self.area = SheetArea(self.view, self)
        self._where = QLabel(self)
        self._back = QPushButton(tr("Page &before"), self)
        self._next = QPushButton(tr("&Next page"), self)
        self._parts = OpenMenu(self)
        self._part_actions: list[QAction] = []
        self._is_choosing = False
        self._all_pages: tuple[Page, ...] = ()
        self._numbers_shown: tuple[int, ...] = ()
        chooses = QPushButton(tr("P&arts"), self)
        chooses.setMenu(self._parts)
        chooses.setToolTip(tr("Which parts of the book to look at, print and write"))
        self._typed = QLineEdit(self)
        self._typed.setPlaceholderText(tr("all pages"))
        self._typed.setToolTip(tr("Pages of the whole book to look at, print and write, as 1-3, 7"))
        self._typed.setAccessibleName(tr("Pages"))
        self._typed.setFixedWidth(_TYPED_LETTERS * self.fontMetrics().averageCharWidth())
        typed_label = QLabel(tr("Pa&ges"), self)
        typed_label.setBuddy(self._typed)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.hide()
        prints = QPushButton(tr("&Print…"), self)
        exports = QPushButton("PD&F…", self)
        closes = QPushButton(tr("&Close"), self)
        row = QHBoxLayout()
        row.addStretch(1)
        for button in (self._back, self._next, chooses, prints, exports, closes):
            button.setAutoDefault(False)
            row.addWidget(button)
            if button is chooses:
                row.addWidget(typed_label)
                row.addWidget(self._typed)
        self._typed.editingFinished.connect(self._show_chosen)
        self._back.clicked.connect(lambda: self.view.turn_to(self.view.number - 1))
        self._next.clicked.connect(lambda: self.view.turn_to(self.view.number + 1))
        prints.clicked.connect(lambda: self._hand_to(print_them))
        exports.clicked.connect(lambda: self._hand_to(export_them))
        closes.clicked.connect(self.accept)
        layout = QVBoxLayout(self)
        if is_stale:
            warning = QLabel(
                tr("OUT OF DATE: the inputs changed after this plan was computed"), self
            )
            warning.setObjectName("trouble")
            layout.addWidget(warning)
        layout.addLayout(self._sizes())
        layout.addWidget(self.area, 1)
        layout.addWidget(self._trouble)
        layout.addLayout(row)
        self.view.page_changed.connect(self._refresh)
        self.finished.connect(self.view.close_threads)
        self.view.setFocus()
        self._refresh()

    def _sizes(self) -> QHBoxLayout:
        """Which page it is, and buttons for its size."""
        row = QHBoxLayout()
        row.addWidget(self._where, 1)
        self._percent = QLabel(self)
        row.addWidget(self._percent)
        for text, tip, act in (
            (tr("Wh&ole page"), tr("All of the page; key 0"), self.area.show_page),
            (tr("Page &width"), tr("As wide as there is room; key W"), self.area.show_width),
            ("&100 %", tr("As it will print; key 1"), lambda: self.area.show_factor(1.0)),
            ("&+", tr("Larger; key +, or Ctrl with the wheel"), lambda: self.area.step(1)),
            ("&\u2212", tr("Smaller; key -, or Ctrl with the wheel"), lambda: self.area.step(-1)),
        ):
            button = QPushButton(text, self)
            button.setAutoDefault(False)
            button.setToolTip(tip)
            button.clicked.connect(act)
            if len(text) == len("&+"):
                button.setMaximumWidth(2 * button.sizeHint().height())
            row.addWidget(button)
        self.area.size_changed.connect(self._refresh_size)
        return row

    def show_pages(self, pages: Sequence[Page]) -> None:
        """Show the sheets of a plan, with every part chosen."""
        self._all_pages = tuple(pages)
        self._parts.clear()
        for text, is_chosen in ((tr("&All parts"), True), (tr("&No part"), False)):
            self._parts.addAction(text).triggered.connect(partial(self._choose_all, is_chosen))
        self._parts.addSeparator()
        self._part_actions = [
            QAction(title, self._parts, checkable=True, checked=True)
            for title in part_titles(pages)
        ]
        for action in self._part_actions:
            action.toggled.connect(self._show_chosen)
            self._parts.addAction(action)
        self._numbers_shown = self.numbers
        self.view.show_pages(pages)

    @property
    def where(self) -> str:
        """Which page is looked at, in words."""
        return self._where.text()

    @property
    def parts(self) -> tuple[str, ...]:
        """Titles of the parts chosen, in their order."""
        return tuple(action.text() for action in self._part_actions if action.isChecked())

    def choose_part(self, title: str, *, is_chosen: bool) -> None:
        """Take a part in or leave it out."""
        for action in self._part_actions:
            if action.text() == title:
                action.setChecked(is_chosen)

    def _choose_all(self, is_chosen: bool, _checked: bool = False) -> None:
        """All parts, or none to begin choosing from."""
        self._is_choosing = True
        for action in self._part_actions:
            action.setChecked(is_chosen)
        self._is_choosing = False
        self._show_chosen()

    def type_pages(self, text: str) -> None:
        """Choose pages by their numbers in the book, as typed."""
        self._typed.setText(text)
        self._show_chosen()

    @property
    def numbers(self) -> tuple[int, ...]:
        """Numbers in the book of the pages chosen; none if what is typed says nothing."""
        try:
            typed = typed_pages(self._typed.text(), len(self._all_pages))
        except InputError:
            return ()
        return tuple(n for n in typed if self._all_pages[n - 1].part in self.parts)

    def _show_chosen(self) -> None:
        """Where nothing is chosen, why is told, and what was looked at stays."""
        if self._is_choosing:
            return
        numbers = self.numbers
        self._trouble.setVisible(not numbers)
        if not numbers:
            self._trouble.setText(self._why_none())
            return
        self._numbers_shown = numbers
        self.view.show_pages([self._all_pages[number - 1] for number in numbers])
        self._refresh()

    def _why_none(self) -> str:
        try:
            typed_pages(self._typed.text(), len(self._all_pages))
        except InputError as error:
            return str(error)
        if not self.parts:
            return tr("No part is chosen: choose one under Parts")
        return tr("None of these pages is in the parts chosen: choose other parts or pages")

    def _hand_to(self, take: Callable[[tuple[int, ...]], None]) -> None:
        self._show_chosen()
        if self.numbers:
            take(self.numbers)

    def _refresh(self) -> None:
        count, number = len(self.view.pages), self.view.number
        whole, numbers = len(self._all_pages), self._numbers_shown
        words = ""
        if count and count == whole:
            words = tr("Page {number} of {count}", number=number + 1, count=whole)
        elif count:
            words = tr(
                "Page {number} of {count}, {place} of {chosen_count} chosen",
                number=numbers[number],
                count=whole,
                place=number + 1,
                chosen_count=count,
            )
        self._where.setText(f"{words}  {self.view.pages[number].name}" if count else "")
        self._refresh_size()
        self._back.setEnabled(number > 0)
        self._next.setEnabled(number + 1 < count)

    def _refresh_size(self) -> None:
        self._percent.setText(f"{self.area.percent} %" if self.view.pages else "")
