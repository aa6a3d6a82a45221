"""The findings, worst first; choosing one leads to its leg."""

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.state.document import Document
from app.views.table_model import Row, WordsTable
from core.base.findings import Finding, Severity

HEADS = ("How bad", "Leg", "What, and what to do")


def finding_rows(findings: tuple[Finding, ...]) -> tuple[Row, ...]:
    """Findings in words, severity first."""
    rows = []
    for finding in findings:
        number = finding.where.leg_number
        todo = f" {finding.todo.rstrip('.')}." if finding.todo else ""
        place = ", ".join(
            part
            for part in (
                finding.where.file,
                f"line {finding.where.line}" if finding.where.line is not None else "",
                f"waypoint {finding.where.waypoint}" if finding.where.waypoint else "",
            )
            if part
        )
        what = f"{place}: {finding.what}" if place else finding.what
        rows.append(
            Row(
                cells=(
                    finding.severity.value.upper()
                    if finding.severity is Severity.MUST_FIX
                    else finding.severity.value,
                    "all" if number is None else str(number),
                    what[:1].upper() + what[1:].rstrip(".") + "." + todo,
                ),
                tip=str(finding),
                is_alert=finding.severity is Severity.MUST_FIX,
                subject=finding,
            )
        )
    return tuple(rows)


class FindingList(QTableView):
    """Findings of the passage; a click or Enter goes to the leg."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._table = WordsTable(HEADS, self)
        self.setModel(self._table)
        self.setAccessibleName("Findings")
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head = self.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        head.setHighlightSections(False)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.setWordWrap(True)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.clicked.connect(self._go)
        self.activated.connect(self._go)
        document.outcome_changed.connect(self._refresh)
        self._refresh()

    def _refresh(self) -> None:
        outcome = self._document.outcome
        self._table.set_rows(finding_rows(outcome.findings) if outcome is not None else ())
        self.resizeRowsToContents()

    def _go(self, index: QModelIndex) -> None:
        row = self._table.row(index.row())
        if row is None or not isinstance(row.subject, Finding):
            return
        number = row.subject.where.leg_number
        if number is not None and number - 1 != self._document.leg_index:
            self._document.set_leg(number - 1)
