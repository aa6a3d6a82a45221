"""A danger limit typed by hand: how far off an object, on one leg or on every leg."""

from collections.abc import Iterable

from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.views.strip_drag import LIMITS_FROM_CHART
from app.window.conditions_dialog import parse_number
from core.base.units import m_from_nm, nm_from_m
from core.jobs.edit_limits import FARTHEST_M, LEAST_M, limit_behind
from core.plan.plan_result import DangerLimit, IndexLine, LegPlan, Limit

_EVERY_LEG = "every leg that uses it"


class MarginDialog(QDialog):
    """Object, distances, leg and why; or take the limit out."""

    def __init__(
        self,
        leg: LegPlan,
        limits: Iterable[DangerLimit],
        line: IndexLine | None = None,
        typed: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._number = leg.leg_index + 1
        self._limits = tuple(limits)
        self._loaded: DangerLimit | None = None
        self.limit: DangerLimit | None = None
        """The limit as kept; None while none is, or where it is taken out."""
        self.is_taken_out = False
        self.setWindowTitle(f"Danger limit, leg {self._number}")
        self._object = QComboBox(self)
        self._object.addItems(self._names(leg, line))
        self._least, self._most = QLineEdit(self), QLineEdit(self)
        self._leg = QComboBox(self)
        self._leg.addItems((f"leg {self._number} alone", _EVERY_LEG))
        self._note = QLineEdit(self)
        self._note.setPlaceholderText("what lies there, by the chart")
        for edit, name in ((self._least, "Not less than, NM"), (self._most, "Not more than, NM")):
            edit.setPlaceholderText("none")
            edit.setAccessibleName(name)
        warning = QLabel(
            f"{LIMITS_FROM_CHART} Depth, under-keel clearance and room to answer the helm are "
            "yours to allow for.",
            self,
        )
        warning.setObjectName("trouble")
        warning.setWordWrap(True)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        buttons = QDialogButtonBox(self)
        buttons.addButton("&Keep limit", QDialogButtonBox.ButtonRole.AcceptRole)
        self._out = buttons.addButton("&Take out", QDialogButtonBox.ButtonRole.DestructiveRole)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._keep)
        buttons.rejected.connect(self.reject)
        self._out.clicked.connect(self._take_out)
        form = QFormLayout()
        form.addRow("&Off object", self._object)
        form.addRow("Not &less than, NM", self._least)
        form.addRow("Not &more than, NM", self._most)
        form.addRow("&For", self._leg)
        form.addRow("&Why", self._note)
        layout = QVBoxLayout(self)
        layout.addWidget(warning)
        layout.addLayout(form)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        SoftCaret(self)
        self.resize(460, 300)
        self._object.currentTextChanged.connect(self._load)
        if line is not None:
            self._object.setCurrentText(line.object.id)
            self._loaded = limit_behind(self._limits, line, self._number)
        self._load(self._object.currentText())
        is_most = line is not None and line.limit is Limit.NOT_MORE_THAN
        edit = self._most if is_most else self._least
        if typed:
            edit.setText(typed)
        else:
            edit.selectAll()
        edit.setFocus()

    @property
    def replaced(self) -> DangerLimit | None:
        """The limit that was shown first and is changed; None for a new one."""
        return self._loaded

    def _names(self, leg: LegPlan, line: IndexLine | None) -> list[str]:
        """Objects that a line can be laid on, best first, then others with limits."""
        known = [look.object.id for look in leg.looks]
        known += [one.object.id for one in leg.lines if one.limit is not None]
        if line is not None:
            known.append(line.object.id)
        lower = {name.casefold() for name in known}
        known += [x.object_id for x in self._limits if x.object_id.casefold() not in lower]
        return list(dict.fromkeys(known))

    def _load(self, object_id: str) -> None:
        """Show the limit that there is off an object, that of the leg first."""
        found = [
            limit
            for number in (self._number, None)
            for limit in self._limits
            if limit.object_id.casefold() == object_id.casefold() and limit.leg_number == number
        ]
        if self._loaded not in found:
            self._loaded = found[0] if found else None
        limit = self._loaded
        self._out.setEnabled(limit is not None)
        self._least.setText(_miles(None if limit is None else limit.least_m))
        self._most.setText(_miles(None if limit is None else limit.most_m))
        self._note.setText("" if limit is None else limit.note)
        self._leg.setCurrentIndex(1 if limit is not None and limit.leg_number is None else 0)

    def _distances(self) -> tuple[float | None, float | None]:
        """Not less than and not more than, NM; ValueError says what is wrong."""
        low, high = round(nm_from_m(LEAST_M), 6), nm_from_m(FARTHEST_M)
        least = parse_number(self._least.text(), "Not less than", low, high)
        most = parse_number(self._most.text(), "Not more than", low, high)
        if least is None and most is None:
            raise ValueError("Give not less than, not more than, or both; or take it out.")
        if least is not None and most is not None and least >= most:
            raise ValueError("Not less than must be below not more than.")
        if not self._object.currentText():
            raise ValueError("There is no object on this leg to set a limit off.")
        return least, most

    def _keep(self) -> None:
        self._trouble.clear()
        try:
            least, most = self._distances()
        except ValueError as exc:
            self._trouble.setText(str(exc))
            return
        self.limit = DangerLimit(
            object_id=self._object.currentText(),
            leg_number=self._number if self._leg.currentIndex() == 0 else None,
            least_m=None if least is None else m_from_nm(least),
            most_m=None if most is None else m_from_nm(most),
            note=" ".join(self._note.text().split())[:200],
        )
        self.accept()

    def _take_out(self) -> None:
        self.is_taken_out = True
        self.accept()


def _miles(distance_m: float | None) -> str:
    return "" if distance_m is None else f"{nm_from_m(distance_m):.4f}".rstrip("0").rstrip(".")
