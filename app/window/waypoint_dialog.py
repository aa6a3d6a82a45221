"""The waypoints and legs of the passage as a table; checked before it closes."""

from collections.abc import Callable

from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.views.waypoint_rows import CellError, drafts_of, edit_of, leg_words, turned
from app.views.waypoint_table import WaypointTable
from app.window.careful_dialog import CarefulDialog
from core.base.language import tr
from core.passage.edit_passage import PassageEdit
from core.passage.passage import Passage

_ABOUT = tr(
    "Leg, corridor, speed and note are of the leg that leads to the "
    "waypoint of the row. Empty cells leave the value to the "
    "conditions or the default. Return types, Insert and Delete put "
    "rows in and take them out."
)


class WaypointDialog(CarefulDialog):
    """All of a passage that is typed; nothing is changed before it is taken over."""

    def __init__(self, passage: Passage, row: int = 0, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Waypoints and legs"))
        self._passage = passage
        self._edit: PassageEdit | None = None
        self.is_turned = False
        """Whether the passage is to be planned the other way."""
        self.table = WaypointTable(drafts_of(passage), self)
        about = QLabel(_ABOUT, self)
        about.setWordWrap(True)
        self._leg = QLabel(self)
        rows = QHBoxLayout()
        for text, do in (
            (tr("Insert row &below"), self.table.insert),
            (tr("Insert row &above"), lambda: self.table.insert(is_above=True)),
            (tr("&Delete row"), self.table.delete),
            (tr("&Reverse"), self._turn),
        ):
            button = QPushButton(text, self)
            button.setAutoDefault(False)
            button.clicked.connect(lambda _checked, do=do: self._do(do))
            rows.addWidget(button)
        rows.addWidget(self._leg, 1)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.setMinimumHeight(self._trouble.fontMetrics().lineSpacing() * 2)
        buttons = QDialogButtonBox(self)
        take = self._take = buttons.addButton(
            tr("Take &over"), QDialogButtonBox.ButtonRole.AcceptRole
        )
        leave = buttons.addButton(tr("&Cancel"), QDialogButtonBox.ButtonRole.RejectRole)
        for button in (take, leave):
            button.setAutoDefault(False)
            button.setDefault(False)
        buttons.accepted.connect(self._try)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(about)
        layout.addWidget(self.table, 1)
        layout.addLayout(rows)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        self.resize(1000, 480)
        self.table.selectionModel().currentChanged.connect(self._show_leg)
        self.table.draft.dataChanged.connect(self._show_leg)
        self.table.draft.modelReset.connect(self._show_leg)
        self.table.show_cell(row, 0)

    @property
    def edit(self) -> PassageEdit | None:
        """What was taken over, the way the passage is planned now."""
        return self._edit

    def state(self) -> object:
        """All rows, and which way they run."""
        return self.table.draft.rows, self.is_turned

    def _do(self, change: Callable[[], None]) -> None:
        self._end_typing()
        change()
        self.table.setFocus()

    def _turn(self) -> None:
        self.table.turn()
        self.is_turned = not self.is_turned

    def _show_leg(self) -> None:
        row = self.table.currentIndex().row()
        words = leg_words(self.table.draft.rows, row)
        self._leg.setText(
            tr("Leg to row {row_number}: {leg_words}", row_number=row + 1, leg_words=words)
            if words
            else ""
        )

    def _end_typing(self) -> None:
        """Take what stands in an open edit into its cell: it does so when it loses the keyboard."""
        self._take.setFocus()

    def _try(self) -> None:
        self._end_typing()
        rows = self.table.draft.rows
        try:
            edit_of(self._passage, rows)
            # Checked by the rows that are seen, taken over the way the passage is planned now.
            self._edit = edit_of(self._passage, turned(rows) if self.is_turned else rows)
        except CellError as exc:
            self._trouble.setText(str(exc))
            self.table.show_cell(exc.row, exc.column)
            return
        except ValueError as exc:
            words = str(exc)
            self._trouble.setText(f"{words[0].upper()}{words[1:]}.")
            return
        self.accept()
