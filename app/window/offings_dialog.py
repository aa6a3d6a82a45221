"""A leg beside the same leg at other offings: computed in the worker, shown side by side."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.state.document import Document
from app.state.notices import NoticeKind
from app.views.job_bar import JobBar
from app.views.offing_rows import offing_heads, offing_table_rows
from app.views.soft_caret import SoftCaret
from app.views.table_model import WordsTable
from core.base.errors import LegsheetError
from core.base.language import tr
from core.jobs.offing_shifts import check_shifts, shifts_in_text
from core.plan.offing_result import OffingTable
from core.words.offing_words import OFFING_NOTES

_USUAL = "0.5, 1.0, 1.5"
_TO_BOTH, _TO_PORT, _TO_STARBOARD = tr("to both sides"), tr("to PORT"), tr("to STARBOARD")

Compare = Callable[[tuple[float, ...], Callable[[OffingTable], None]], None]
"""Starts the comparison of shifts (m, starboard positive); hands the table over when it is made."""


def parse_shifts(text: str, way: str) -> tuple[float, ...]:
    """Distances in NM as shifts in m, starboard positive, to the side or sides chosen.

    Raises
    ------
    ValueError
        One sentence about what is wrong with them.
    """
    distances_m = shifts_in_text(text)
    port_m = tuple(-distance_m for distance_m in distances_m)
    if way == _TO_BOTH:
        shifts_m = (*port_m, *distances_m)
    else:
        shifts_m = port_m if way == _TO_PORT else distances_m
    try:
        return check_shifts(shifts_m)
    except LegsheetError as exc:
        raise ValueError(str(exc)) from exc


class OffingsDialog(QDialog):
    """Which offings, a button to compute, and the table."""

    def __init__(
        self,
        document: Document,
        compare: Compare,
        stop: Callable[[], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document = document
        self._compare = compare
        self._stop = stop
        self._leg_number = document.leg_index + 1
        self.setWindowTitle(tr("Offings of leg {leg_number}", leg_number=self._leg_number))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self._distances = QLineEdit(_USUAL, self)
        label = QLabel(tr("&Offings from the planned leg, NM"), self)
        label.setBuddy(self._distances)
        self._way = QComboBox(self)
        self._way.addItems((_TO_STARBOARD, _TO_PORT, _TO_BOTH))
        self._way.setAccessibleName(tr("To which side"))
        self._start = QPushButton(tr("Com&pare"), self)
        self._start.setDefault(True)
        self._start.clicked.connect(self._begin)
        closes = QPushButton(tr("&Close"), self)
        closes.setAutoDefault(False)
        closes.clicked.connect(self.reject)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._bar = JobBar(document, self)
        self._bar.stop_asked.connect(stop)
        self.model = WordsTable((), self)
        self._table = QTableView(self)
        self._table.setModel(self.model)
        self._table.setWordWrap(True)
        self._table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self._table.verticalHeader().hide()
        self._table.setAccessibleName(tr("Offings side by side"))
        notes = QLabel("\n".join(OFFING_NOTES), self)
        notes.setWordWrap(True)
        row = QHBoxLayout()
        for widget in (label, self._distances, self._way, self._start):
            row.addWidget(widget)
        row.addStretch(1)
        row.addWidget(closes)
        layout = QVBoxLayout(self)
        layout.addLayout(row)
        layout.addWidget(self._trouble)
        layout.addWidget(self._bar)
        layout.addWidget(self._table, 1)
        layout.addWidget(notes)
        document.job.turned.connect(self._refresh)
        document.notices.changed.connect(self._show_trouble)
        self.finished.connect(self._leave)
        SoftCaret(self)
        self._distances.setFocus()
        self._refresh()

    def show_table(self, table: OffingTable) -> None:
        """Show a finished comparison."""
        self.model.set_rows(offing_table_rows(table), offing_heads(table))
        header = self._table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        self._table.resizeRowsToContents()
        self._table.setFocus()

    def _begin(self) -> None:
        self._trouble.clear()
        try:
            shifts_m = parse_shifts(self._distances.text(), self._way.currentText())
        except ValueError as exc:
            self._trouble.setText(str(exc))
            return
        self._compare(shifts_m, self.show_table)

    def _refresh(self) -> None:
        is_running = self._document.job.is_running
        self._bar.setVisible(is_running)
        self._start.setEnabled(not is_running)

    def _show_trouble(self) -> None:
        """What went wrong, since the window's own notice is behind this dialog."""
        troubles = [n.text for n in self._document.notices.waiting if n.kind is NoticeKind.TROUBLE]
        if troubles:
            self._trouble.setText(troubles[-1])

    def _leave(self) -> None:
        document = self._document
        document.job.turned.disconnect(self._refresh)
        document.notices.changed.disconnect(self._show_trouble)
        if document.job.is_running:
            self._stop()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let rows follow the width of their columns."""
        super().resizeEvent(event)
        self._table.resizeRowsToContents()
