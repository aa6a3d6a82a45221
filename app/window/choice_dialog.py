"""The officer's own choice of an index object for one leg and use."""

import math

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

from app.views.plan_rows import to_go
from app.views.soft_caret import SoftCaret
from core.base.language import tr
from core.plan.choices import part_of, with_own_lines
from core.plan.object_result import ObjectLook
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Override
from core.words.kept_words import shown
from core.words.quantities import distance, height, side
from core.words.reasons import beside_name

_ROLES = ("primary", "check")


def _at(look: ObjectLook) -> str:
    return f"{side(look.side)} {distance(look.cross_index_range_m, 2)}   "


def _named(thing: IndexObject) -> str:
    """Its name, and its height where the name does not say it."""
    high = height(thing.height_above_water_m)
    return thing.name if f" {high}" in thing.name else f"{thing.name}, {high}"


class ChoiceDialog(QDialog):
    """Choose object, use, lock and remark; or leave the choice to the plan again."""

    def __init__(
        self,
        leg: LegPlan,
        overrides: tuple[Override, ...],
        line: IndexLine | None,
        parent: QWidget | None = None,
        *,
        typed: str = "",
    ) -> None:
        super().__init__(parent)
        self._number, self._lines = leg.leg_index + 1, leg.lines
        self._overrides = tuple(o for o in overrides if o.leg_number == self._number)
        self.is_cleared = False
        self.setWindowTitle(tr("Index object of leg {number}", number=self._number))
        self._role = QComboBox(self)
        role = "primary" if line is None else line.role.value
        for one in _ROLES:
            self._role.addItem(shown(one), one)
        self._role.setCurrentIndex(max(self._role.findData(role), 0))
        self._part = QComboBox(self)
        part_m = None if line is None or role not in _ROLES else part_of(leg.lines, line)
        if line is not None and part_m is not None:
            words = tr(
                "{to_go} NM to go, where {object_id} serves now",
                to_go=to_go(leg, *part_m),
                object_id=line.object.id,
            )
            self._part.addItem(words, part_m)
        self._part.addItem(tr("the whole leg"), None)
        if any(o.role == role and o.part_m is None for o in self._overrides):
            self._part.setCurrentIndex(self._part.count() - 1)
        self._objects = QListWidget(self)
        self._objects.setWordWrap(True)
        self._objects.setAccessibleName(tr("Objects, best first"))
        at = {look.object.id: _at(look) for look in leg.looks}
        for candidate, reason in leg.candidates:
            confirm = tr("; confirm on the chart") if candidate.confirm_on_chart else ""
            item = QListWidgetItem(
                f"{candidate.id}   {at.get(candidate.id, '')}{_named(candidate)}: "
                f"{beside_name(reason, candidate.name)}{confirm}"
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
        if part_m is not None:
            form.addRow(tr("O&ver"), self._part)
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
        self._role.currentIndexChanged.connect(self._show_choice)
        self._part.currentIndexChanged.connect(self._show_choice)
        self._objects.currentRowChanged.connect(self._check)
        self._show_choice()
        if self._objects.currentRow() < 0 and self._objects.count():
            self._objects.setCurrentRow(0)
            self._choose("" if line is None else line.object.id)
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
        object_id = str(item.data(Qt.ItemDataRole.UserRole))
        return Override(
            leg_number=self._number,
            role=self.role,
            object_id=object_id,
            is_locked=self._lock.isChecked(),
            remark=self._remark.text().strip(),
            part_m=with_own_lines(self.part_m, self._lines, self.role, object_id),
        )

    @property
    def part_m(self) -> tuple[float, float] | None:
        """The part of the leg that is chosen for, m along; None for the whole leg."""
        part: tuple[float, float] | None = self._part.currentData()
        return part

    @property
    def role(self) -> str:
        """The use that is chosen for."""
        return str(self._role.currentData())

    def _show_choice(self) -> None:
        part_m = self.part_m or (-math.inf, math.inf)
        earlier = [o for o in self._overrides if o.role == self.role and o.is_for(*part_m)]
        override = earlier[0] if earlier else None
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
