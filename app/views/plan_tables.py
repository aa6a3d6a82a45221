"""The plan of the chosen leg as tables on tabs: index lines, turn, scales, set-up, sight, gaps."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QMenu,
    QTabWidget,
    QToolButton,
    QWidget,
)

from app.base.throttle import LatestCall
from app.state.document import Document
from app.views import paint_rows, plan_rows
from app.views.abort_rows import abort_rows
from app.views.check_rows import check_rows
from app.views.fix_rows import FIX_HEADS, fix_rows
from app.views.index_rows import INDEX_HEADS, index_rows
from app.views.input_rows import INPUT_HEADS, input_rows
from app.views.motion_rows import motion_rows
from app.views.object_rows import OBJECT_HEADS, object_rows
from app.views.setup_rows import SETUP_HEADS, setup_rows
from app.views.table_fit import FittedTable
from app.views.table_model import Row, WordsTable
from app.views.turn_card_rows import turn_card_rows
from app.views.waters_rows import WATERS_HEADS, waters_rows
from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, Role

_Rows = Callable[[Outcome, LegPlan], tuple[Row, ...]]


class WordsView(FittedTable):
    """A table of words that can be typed at."""

    typed = Signal(str)
    """A letter or figure typed on a row."""

    def __init__(
        self,
        name: str,
        heads: tuple[str, ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(WordsTable(heads), parent)
        self.setAccessibleName(name)
        self.verticalHeader().hide()
        head = self.horizontalHeader()
        head.setMinimumSectionSize(28)
        head.setHighlightSections(False)
        self.setWordWrap(True)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)

    def show_rows(self, rows: tuple[Row, ...]) -> None:
        """Show other rows; notes take the whole width."""
        self.clearSpans()
        self.table.set_rows(rows)
        for number, row in enumerate(rows):
            if row.is_note:
                self.setSpan(number, 0, 1, self.table.columnCount())
        self.fit_anew()

    def keyboardSearch(self, search: str) -> None:
        """Pass on what is typed; rows are gone through by arrows."""
        self.typed.emit(search)

    def chosen(self) -> Row | None:
        """The row the cursor is on."""
        return self.table.row(self.currentIndex().row())


class PlanTables(QTabWidget):
    """Tables of the chosen leg.

    ``choice_asked`` when an index line is to be changed, ``limit_asked`` when a margin is; both
    with what was typed on its row.
    """

    choice_asked = Signal(str)
    limit_asked = Signal(object, str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setDocumentMode(True)
        self._index = self._add(tr("Inde&x"), INDEX_HEADS)
        self._objects = self._add(tr("&Objects"), OBJECT_HEADS)
        self._turn = self._add(tr("&Turn"), plan_rows.TURN_HEADS)
        self._scales = self._add(tr("S&cales"), plan_rows.SCALE_HEADS)
        self._setup = self._add(tr("&Radar set-up"), SETUP_HEADS)
        self._fixes = self._add(tr("Fixes, chec&ks"), FIX_HEADS)
        self._sights = self._add(tr("&First paint"), paint_rows.PAINT_HEADS)
        self._must_not = self._add(tr("&Must not"), paint_rows.MUST_NOT_HEADS)
        self._what_if = self._add(tr("&What if"), paint_rows.WHAT_IF_HEADS)
        self._waters = self._add(tr("Hidde&n water"), WATERS_HEADS)
        self._cover = self._add(tr("In si&ght"), plan_rows.COVER_HEADS)
        self._gaps = self._add(tr("&Data gaps"), plan_rows.GAP_HEADS)
        self._inputs = self._add(tr("Inp&uts"), INPUT_HEADS)
        self._tables: tuple[tuple[WordsView, _Rows], ...] = (
            (
                self._index,
                lambda outcome, leg: index_rows(outcome, leg, document.project.overrides),
            ),
            (self._objects, object_rows),
            (
                self._turn,
                lambda outcome, leg: (
                    *motion_rows(leg),
                    *plan_rows.turn_rows(outcome, leg),
                    *abort_rows(outcome, leg),
                    *turn_card_rows(leg),
                ),
            ),
            (self._scales, plan_rows.scale_rows),
            (self._setup, setup_rows),
            (
                self._fixes,
                lambda outcome, leg: (*fix_rows(outcome, leg), *check_rows(outcome, leg)),
            ),
            (self._sights, paint_rows.paint_rows),
            (self._must_not, paint_rows.must_not_rows),
            (self._what_if, paint_rows.what_if_rows),
            (self._waters, waters_rows),
            (self._cover, plan_rows.cover_rows),
            (self._gaps, lambda _outcome, leg: plan_rows.gap_rows(leg)),
        )
        self._list_all()
        self._filled: set[WordsView] = set()
        self._shown: tuple[Outcome | None, int] = (None, -1)
        self.currentChanged.connect(self._fill_front)
        self._index.activated.connect(self._ask)
        self._index.typed.connect(self._change)
        self._index.doubleClicked.connect(self._ask)
        self._cover.clicked.connect(self._go_there)
        self._cover.activated.connect(self._go_there)
        # A moment later, so that leg list, area and strip are painted first, and apart from it.
        self._later = LatestCall(self._refresh, 0, self)
        document.outcome_changed.connect(self._later.request)
        document.leg_changed.connect(self._later.request)
        document.project_changed.connect(self._refresh_edits)
        self._refresh()
        self._refresh_inputs()

    def chosen_line(self) -> IndexLine | None:
        """The index line the cursor is on; None on any other row."""
        self._later.settle()
        row = self._index.chosen()
        return row.subject if row is not None and isinstance(row.subject, IndexLine) else None

    def chosen_margin(self) -> IndexLine | None:
        """The margin line the cursor is on in front; None on any other row."""
        self._later.settle()
        row = self._index.chosen() if self.currentWidget() is self._index else None
        line = None if row is None else row.subject
        return line if isinstance(line, IndexLine) and line.role is Role.MARGIN else None

    def show_index(self) -> None:
        """Bring the index lines to the front."""
        self.setCurrentWidget(self._index)
        self._index.setFocus()

    def _list_all(self) -> None:
        """A button that lists all tables, since their tabs do not all fit beside each other."""
        button = QToolButton(self)
        button.setText(tr("All tables"))
        button.setAccessibleName(tr("All tables"))
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(button)
        for number in range(self.count()):
            action = menu.addAction(self.tabText(number))
            action.triggered.connect(partial(self._bring, number))
        button.setMenu(menu)
        self.setCornerWidget(button, Qt.Corner.TopRightCorner)

    def _bring(self, number: int, _checked: bool = False) -> None:
        self.setCurrentIndex(number)
        self.currentWidget().setFocus()

    def _add(self, title: str, heads: tuple[str, ...]) -> WordsView:
        view = WordsView(title.replace("&", ""), heads, self)
        self.addTab(view, title)
        return view

    def _refresh(self) -> None:
        """Fill the table in front; the others when they come to the front."""
        outcome, leg_index = self._document.outcome, self._document.leg_index
        if self._filled and self._shown[0] is outcome and self._shown[1] == leg_index:
            return
        self._shown = outcome, leg_index
        self._filled.clear()
        self._fill_front()

    def _fill_front(self) -> None:
        outcome, leg = self._document.outcome, self._document.leg_plan
        for view, rows in self._tables:
            if view is self.currentWidget() and view not in self._filled:
                self._filled.add(view)
                view.show_rows(rows(outcome, leg) if outcome is not None and leg else ())

    def _refresh_edits(self) -> None:
        here = self._index.currentIndex().row()
        self._filled.discard(self._index)
        self._fill_front()
        if self.currentWidget() is self._index:
            self._index.setCurrentIndex(self._index.table.index(here, 0))
        self._refresh_inputs()

    def _refresh_inputs(self) -> None:
        self._inputs.show_rows(input_rows(self._document))

    def _ask(self, _index: QModelIndex) -> None:
        self._change("")

    def _change(self, typed: str) -> None:
        if self._later.settle():
            # The row that was acted on is of another leg or plan.
            return
        margin = self.chosen_margin()
        if margin is not None:
            self.limit_asked.emit(margin, typed)
        elif self._document.leg_plan is not None:
            self.choice_asked.emit(typed)

    def _go_there(self, index: QModelIndex) -> None:
        if self._later.settle():
            return
        row = self._cover.table.row(index.row())
        if row is not None and isinstance(row.subject, float):
            self._document.set_cursor(row.subject)
