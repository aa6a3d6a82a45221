"""One mark or place given by hand, with what the plan has to know of it."""

from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QWidget

from app.views.waypoint_rows import position_text
from app.window.conditions_dialog import parse_number
from app.window.form_dialog import FormDialog
from core.base.language import tr
from core.files.angle_text import AngleError, position_in_text
from core.files.marks_file import (
    ASSUMED_HEIGHT_M,
    LONGEST_NAME,
    PLACE_KINDS,
    TALLEST_M,
    is_floating_kind,
    is_place,
)
from core.geodesy.position import Position
from core.plan.plan_result import Mark
from core.words.kept_words import kept, shown

_KINDS = (
    "beacon",
    "lighthouse",
    "breakwater end",
    "pier end",
    "tower",
    "racon",
    "buoy",
    "mark",
    *PLACE_KINDS,
)
_FIXED, _FLOATING = tr("fixed"), tr("floating")


class MarkDialog(FormDialog):
    """A mark that is new, or one that is changed."""

    def __init__(
        self,
        mark: Mark | None,
        position: Position | None,
        taken: frozenset[str],
        parent: QWidget | None = None,
    ) -> None:
        """``taken`` are names of other marks, in small letters."""
        super().__init__(tr("New mark") if mark is None else tr("Mark"), parent)
        self._was = mark
        self._start = mark.position if mark is not None else position
        self._taken = taken
        self._mark = mark
        self._name = QLineEdit(mark.name if mark else "", self)
        self._place = QLineEdit(position_text(self._start) if self._start else "", self)
        self._place.setPlaceholderText(tr("such as 55 20.15 N 005 10.30 W"))
        self._kind = QComboBox(self)
        self._kind.setEditable(True)
        self._kind.addItems([shown(kind) for kind in _KINDS])
        self._kind.setCurrentText(shown(mark.kind if mark else "beacon"))
        self._height = QLineEdit(f"{mark.height_above_water_m:g}" if mark else "", self)
        self._height.setPlaceholderText(
            tr(
                "{assumed_height_m:g}, low: not taken as in sight early",
                assumed_height_m=ASSUMED_HEIGHT_M,
            )
        )
        self._stands = QComboBox(self)
        self._stands.addItems((_FIXED, _FLOATING))
        self._stands.setCurrentText(_FLOATING if mark and not mark.is_fixed else _FIXED)
        self._on_chart = QCheckBox(tr("The &chart has it"), self)
        self._on_chart.setChecked(mark.is_on_chart if mark else False)
        self.row(tr("&Name"), self._name)
        self.row(tr("&Position"), self._place)
        self.row(tr("&Kind"), self._kind)
        self.row(tr("&Height above water, m"), self._height)
        self.row(tr("Fixed or &floating"), self._stands)
        self.form.addRow("", self._on_chart)
        self._kind.currentTextChanged.connect(self._kind_changed)
        self._kind_changed(self._kind.currentText())
        self.finish()

    @property
    def mark(self) -> Mark | None:
        """What was accepted."""
        return self._mark

    def _kind_changed(self, kind: str) -> None:
        kind = kept(kind.strip())
        is_thing = not is_place(kind)
        self._height.setEnabled(is_thing)
        self._stands.setEnabled(is_thing)
        if is_floating_kind(kind):
            self._stands.setCurrentText(_FLOATING)

    def take(self) -> None:
        """Read the form."""
        name = self._name.text().strip()
        if not name:
            raise ValueError(tr("Give the mark a name: its lines are named after it"))
        if len(name) > LONGEST_NAME or not name.isprintable():
            raise ValueError(
                tr(
                    "The name is longer than {longest_name} letters: shorten it",
                    longest_name=LONGEST_NAME,
                )
            )
        if name.casefold() in self._taken:
            raise ValueError(
                tr("There is already a mark called «{name}»: give it another name", name=name)
            )
        kind = kept(self._kind.currentText().strip()) or "mark"
        is_fixed = self._stands.currentText() == _FIXED
        height_m = parse_number(self._height.text(), tr("Height above water"), 0.0, TALLEST_M)
        if is_place(kind):
            is_fixed, height_m = True, 0.0
        elif is_floating_kind(kind) and is_fixed:
            raise ValueError(tr("A {kind} floats: choose floating, or another kind", kind=kind))
        self._mark = Mark(
            name=name,
            position=self._position(),
            height_above_water_m=ASSUMED_HEIGHT_M if height_m is None else height_m,
            is_fixed=is_fixed,
            kind=kind,
            is_on_chart=self._on_chart.isChecked(),
        )

    def _position(self) -> Position:
        text = self._place.text().strip()
        if self._start is not None and text == position_text(self._start):
            return self._start
        if not text:
            raise ValueError(tr("Give the position, such as 55 20.15 N 005 10.30 W"))
        try:
            written = position_in_text(text)
        except AngleError as exc:
            raise ValueError(tr("Position: {reason}", reason=exc)) from exc
        return Position(lat_deg=written.lat_deg, lon_deg=written.lon_deg)
