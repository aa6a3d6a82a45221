"""First paints that were seen beside those of the plan."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.views.seen_rows import SEEN_HEADS, seen_rows
from app.views.table_model import WordsTable
from core.base.language import tr
from core.plan.observed_result import ObservedReport
from core.words.observed_words import OBSERVED_NOTES, radar_lines


class SeenDialog(QDialog):
    """A table of ratios, what they speak for radar by radar, and how far that goes."""

    def __init__(self, report: ObservedReport, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Seen against expected: {name}", name=report.plan.name))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.model = WordsTable(SEEN_HEADS, self)
        self.model.set_rows(seen_rows(report))
        self._table = table = QTableView(self)
        table.setModel(self.model)
        table.setWordWrap(True)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.verticalHeader().hide()
        table.setAccessibleName(tr("Seen against expected"))
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(len(SEEN_HEADS) - 1, QHeaderView.ResizeMode.Stretch)
        records = QLabel("\n".join(radar_lines(report)), self)
        records.setObjectName("records")
        notes = QLabel("\n".join(OBSERVED_NOTES), self)
        for label in (records, notes):
            label.setWordWrap(True)
        buttons = QDialogButtonBox(self)
        close = buttons.addButton(tr("&Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setDefault(True)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(table, 1)
        layout.addWidget(records)
        layout.addWidget(notes)
        layout.addWidget(buttons)
        table.setFocus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let rows follow the width of their columns."""
        super().resizeEvent(event)
        self._table.resizeRowsToContents()
