"""The findings, worst first; choosing one leads to its place."""

from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import QAbstractItemView, QWidget

from app.base.throttle import LatestCall
from app.state.document import Document
from app.views.table_fit import FittedTable
from app.views.table_model import Row, WordsTable
from core.base.findings import Finding, Severity
from core.base.language import tr

HEADS = (tr("How bad"), tr("Leg"), tr("What, and what to do"))


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
                tr("line {line}", line=finding.where.line)
                if finding.where.line is not None
                else "",
                tr("waypoint {waypoint}", waypoint=finding.where.waypoint)
                if finding.where.waypoint
                else "",
            )
            if part
        )
        what = f"{place}: {finding.what}" if place else finding.what
        # The name of a file stays as it is.
        if not finding.where.file:
            what = what[:1].upper() + what[1:]
        rows.append(
            Row(
                cells=(
                    finding.severity.shown.upper()
                    if finding.severity is Severity.MUST_FIX
                    else finding.severity.shown,
                    tr("all") if number is None else str(number),
                    what.rstrip(".") + "." + todo,
                ),
                tip=str(finding),
                is_alert=finding.severity is Severity.MUST_FIX,
                subject=finding,
            )
        )
    return tuple(rows)


class FindingList(FittedTable):
    """Findings of the passage; a click or Enter goes to the leg, or to the waypoint."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(WordsTable(HEADS), parent)
        self._document = document
        self.setAccessibleName(tr("Findings"))
        self.verticalHeader().hide()
        head = self.horizontalHeader()
        head.setHighlightSections(False)
        self.setWordWrap(True)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.clicked.connect(self._go)
        self.activated.connect(self._go)
        self._later = LatestCall(self._refresh, 0, self)
        document.outcome_changed.connect(self._later.request)
        self._refresh()

    def _refresh(self) -> None:
        outcome = self._document.outcome
        self.table.set_rows(finding_rows(outcome.findings) if outcome is not None else ())
        self.fit_anew()

    def _go(self, index: QModelIndex) -> None:
        if self._later.settle():
            # The row that was acted on is of another plan.
            return
        row = self.table.row(index.row())
        if row is None or not isinstance(row.subject, Finding):
            return
        document, where = self._document, row.subject.where
        at = self._waypoint(where.waypoint)
        if at is not None:
            # The end of the leg that leads there, or the start of the first.
            document.set_leg(max(at - 1, 0))
            document.set_cursor(document.leg_length_m() if at > 0 else 0.0)
        elif where.leg_number is not None and where.leg_number - 1 != document.leg_index:
            document.set_leg(where.leg_number - 1)

    def _waypoint(self, name: str) -> int | None:
        passage = self._document.passage
        if not name or passage is None:
            return None
        names = [waypoint.name for waypoint in passage.waypoints]
        return names.index(name) if name in names else None
