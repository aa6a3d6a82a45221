"""The officer's own choice of an index object for one leg and use."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from core.base.language import tr
from core.plan.object_result import ObjectLook
from core.plan.plan_result import LegPlan, Override
from core.words.kept_words import shown
from core.words.quantities import distance, height, side
from core.words.reasons import sentence

_ROLES = ("primary", "check")


def _at(look: ObjectLook) -> str:
    return f"{side(look.side)} {distance(look.cross_index_range_m, 2)}   "


class ChoiceDialog(QDialog):
    """Choose object, use, lock and remark; or leave the choice to the plan again."""

    def __init__(
        self,
        leg: LegPlan,
        overrides: tuple[Override, ...],
        role: str,
        object_id: str,
        parent: QWidget | None = None,
        *,
        typed: str = "",
    ) -> None:
        super().__init__(parent)
        self._number = leg.leg_index + 1
        self._overrides = {o.role: o for o in overrides if o.leg_number == self._number}
        self.is_cleared = False
        self.setWindowTitle(tr("Index object of leg {number}", number=self._number))
        self._role = QComboBox(self)
        for one in _ROLES:
            self._role.addItem(shown(one), one)
        self._role.setCurrentIndex(max(self._role.findData(role), 0))
        self._objects = QListWidget(self)
        self._objects.setWordWrap(True)
        self._objects.setAccessibleName(tr("Objects, best first"))
        at = {look.object.id: _at(look) for look in leg.looks}
        for candidate, reason in leg.candidates:
            confirm = tr("; confirm on the chart") if candidate.confirm_on_chart else ""
            item = QListWidgetItem(
                f"{candidate.id}   {at.get(candidate.id, '')}{candidate.name}, "
                f"{height(candidate.height_above_water_m)}: {sentence(reason)}{confirm}"
            )
            item.setData(Qt.ItemDataRole.UserRole, candidate.id)
            self._objects.addItem(item)
        self._lock = QCheckBox(tr("&Lock: keep it when the plan is computed again"), self)
        self._lock.setChecked(True)
        self._remark = QLineEdit(self)
        self._remark.setPlaceholderText(tr("why, for the sheet"))
        buttons = QDialogButtonBox(self)
        self._ok = buttons.addButton(tr("&Choose"), QDialogButtonBox.ButtonRole.AcceptRole)
        self._free = buttons.addButton(
            tr("Leave to the &plan"), QDialogButtonBox.ButtonRole.DestructiveRole
        )
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self._free.clicked.connect(self._clear)
        form = QFormLayout()
        form.addRow(tr("&Use as"), self._role)
        form.addRow(tr("&Object"), self._objects)
        form.addRow("", self._lock)
        form.addRow(tr("&Remark"), self._remark)
        layout = QVBoxLayout(self)
        if not leg.candidates:
            layout.addWidget(QLabel(tr("Nothing on this leg can be indexed."), self))
        layout.addLayout(form)
        layout.addWidget(buttons)
        SoftCaret(self)
        self.resize(620, 420)
        self._role.currentIndexChanged.connect(lambda _index: self._show_role(self.role))
        self._objects.currentRowChanged.connect(self._check)
        self._show_role(self.role)
        if self._objects.currentRow() < 0 and self._objects.count():
            self._objects.setCurrentRow(0)
            self._choose(object_id)
        if typed:
            self._objects.keyboardSearch(typed)
        self._objects.setFocus()
        self._check()

    @property
    def override(self) -> Override | None:
        """The choice as accepted; None where nothing is chosen."""
        item = self._objects.currentItem()
        if item is None:
            return None
        return Override(
            leg_number=self._number,
            role=self.role,
            object_id=str(item.data(Qt.ItemDataRole.UserRole)),
            is_locked=self._lock.isChecked(),
            remark=self._remark.text().strip(),
        )

    @property
    def role(self) -> str:
        """The use that is chosen for."""
        return str(self._role.currentData())

    def _show_role(self, role: str) -> None:
        override = self._overrides.get(role)
        self._free.setEnabled(override is not None)
        if override is not None:
            self._choose(override.object_id)
            self._lock.setChecked(override.is_locked)
            self._remark.setText(override.remark)

    def _choose(self, object_id: str) -> None:
        for number in range(self._objects.count()):
            if self._objects.item(number).data(Qt.ItemDataRole.UserRole) == object_id:
                self._objects.setCurrentRow(number)

    def _check(self) -> None:
        self._ok.setEnabled(self._objects.currentItem() is not None)

    def _clear(self) -> None:
        self.is_cleared = True
        self.accept()
