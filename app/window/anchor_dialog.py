"""Whether the passage ends at anchor, and what the anchoring card needs to know."""

from PySide6.QtWidgets import (
    QCheckBox,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.window.careful_dialog import CarefulDialog
from app.window.conditions_dialog import parse_number
from core.base.language import tr
from core.base.units import kn_from_mps, nm_from_m
from core.files.anchorage_json import anchorage_with, speeds_in_text
from core.plan.anchoring_result import Anchorage


class AnchorDialog(CarefulDialog):
    """A waypoint as an anchorage; checked before it closes."""

    def __init__(self, anchorage: Anchorage | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("End at anchor"))
        self._anchorage = anchorage
        given = anchorage or Anchorage()
        self._ends = QCheckBox(tr("The ship &anchors on this passage"), self)
        self._ends.setChecked(anchorage is not None)
        self._waypoint = QLineEdit(given.waypoint, self)
        self._waypoint.setPlaceholderText(tr("the last one"))
        self._waypoint.setAccessibleName(tr("Waypoint"))
        self._cable = self._edit(
            given.cable_m, tr("not given: no limits for the swing"), tr("Cable")
        )
        self._hawse = self._edit(given.hawse_m, tr("from the ship, else none"), tr("Hawse"))
        self._speeds = QLineEdit(
            " ".join(
                f"{nm_from_m(s.from_to_go_m):.4g}:{kn_from_mps(s.speed_mps):.4g}"
                for s in given.speeds
            ),
            self,
        )
        self._speeds.setPlaceholderText(tr("3:8 1.5:6 0.8:4 0.3:2, the usual"))
        self._speeds.setAccessibleName(tr("Speeds of the approach"))
        form = QFormLayout()
        form.addRow(tr("At &waypoint"), self._waypoint)
        form.addRow(tr("&Cable to veer, m"), self._cable)
        form.addRow(tr("Radar reference point to &hawse, m"), self._hawse)
        form.addRow(tr("&Speeds, NM to go : kn"), self._speeds)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.setMinimumHeight(self._trouble.fontMetrics().lineSpacing() * 2)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel, self
        )
        buttons.accepted.connect(self._try)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self._ends)
        layout.addLayout(form)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        for edit in (self._waypoint, self._cable, self._hawse, self._speeds):
            edit.setMinimumWidth(260)
            edit.setEnabled(self._ends.isChecked())
            self._ends.toggled.connect(edit.setEnabled)
        SoftCaret(self)

    @property
    def anchorage(self) -> Anchorage | None:
        """What was accepted."""
        return self._anchorage

    def _edit(self, value: float | None, hint: str, name: str) -> QLineEdit:
        edit = QLineEdit("" if value is None else f"{value:g}", self)
        edit.setPlaceholderText(hint)
        edit.setAccessibleName(name)
        return edit

    def _try(self) -> None:
        try:
            self._anchorage = self._read() if self._ends.isChecked() else None
        except ValueError as exc:
            sentence = str(exc).rstrip(".")
            self._trouble.setText(f"{sentence[0].upper()}{sentence[1:]}.")
            return
        self.accept()

    def _read(self) -> Anchorage:
        return anchorage_with(
            waypoint=self._waypoint.text(),
            cable_m=parse_number(self._cable.text(), tr("Cable"), 1.0, 1000.0),
            hawse_m=parse_number(self._hawse.text(), tr("Hawse"), 0.0, 500.0),
            speeds_nm_kn=speeds_in_text(self._speeds.text()),
        )
