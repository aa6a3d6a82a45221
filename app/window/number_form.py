"""Rows of numbers with labels: what a table of fields says, read back checked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtWidgets import QFormLayout, QLineEdit, QWidget

from app.window.conditions_dialog import parse_number
from core.base.language import tr

_EDIT_PX = 120


@dataclass(frozen=True, slots=True)
class NumberField:
    """One number: its name, label, limits, and how it is turned into SI and back."""

    name: str
    label: str
    low: float
    high: float
    is_needed: bool = False
    si: float = 1.0
    """One of the unit shown, in SI."""


class NumberForm:
    """Line edits for some fields of one object; unchanged text keeps the number as it was."""

    def __init__(
        self,
        fields: tuple[NumberField, ...],
        values: Mapping[str, float | None],
        layout: QFormLayout,
        parent: QWidget,
    ) -> None:
        self._fields = fields
        self._values = dict(values)
        self.edits: dict[str, QLineEdit] = {}
        for field in fields:
            edit = QLineEdit(self._shown(field), parent)
            edit.setObjectName(field.name)
            edit.setMinimumWidth(_EDIT_PX)
            edit.setPlaceholderText("" if field.is_needed else tr("not stated"))
            layout.addRow(field.label, edit)
            self.edits[field.name] = edit

    def _shown(self, field: NumberField) -> str:
        value = self._values.get(field.name)
        return "" if value is None else f"{value / field.si:.6g}"

    def read(self) -> dict[str, float | None]:
        """The numbers in SI, by name.

        Raises
        ------
        ValueError
            One sentence about the first that cannot be used.
        """
        found: dict[str, float | None] = {}
        for field in self._fields:
            text = self.edits[field.name].text()
            if text.strip() == self._shown(field):
                found[field.name] = self._values.get(field.name)
            else:
                value = parse_number(text, field.label, field.low, field.high)
                found[field.name] = None if value is None else value * field.si
            if field.is_needed and found[field.name] is None:
                label = field.label.replace("&", "")
                raise ValueError(tr("{label}: a number is needed.", label=label))
        return found


def call(function: Callable[[], None]) -> Callable[..., None]:
    """A slot that passes over what the signal hands it."""
    return lambda *_given: function()
