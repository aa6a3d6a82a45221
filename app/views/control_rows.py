"""The set-up of the expected picture as labelled rows under their trade names."""

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDoubleSpinBox,
    QFormLayout,
    QLineEdit,
    QPushButton,
    QWidget,
)

from app.views.picture_work import UPS, ControlValues
from app.views.set_up_presets import OWN, PRESETS
from core.base.language import tr
from core.base.units import nm_from_m

_PLANNED = tr("as planned")
_BY_SCALE = tr("by scale")


_UP_WORDS = {
    "course-up": tr("course up"),
    "north-up": tr("north up"),
    "head-up": tr("head up"),
}


class ControlRows(QWidget):
    """Rows to see what a set-up makes of a picture; nothing here is a knob."""

    choice_changed = Signal()
    """Radar, scale, pulse, what is up or the place: the view itself."""
    controls_changed = Signal()
    """A control: the same view, shown otherwise."""
    preset_chosen = Signal(str)
    """A set-up by its name."""
    beside_asked = Signal(bool)
    """Whether the set-up as it is now is to be kept beside what follows."""
    save_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        rows = QFormLayout(self)
        rows.setContentsMargins(4, 2, 4, 2)
        rows.setVerticalSpacing(1)
        self._place = QLineEdit()
        self._place.setPlaceholderText(tr("at the cursor"))
        self._place.setToolTip(
            tr("Latitude and longitude of a place off the route; empty: the cursor")
        )
        self._radar, self._scale = QComboBox(), QComboBox()
        self._pulse, self._up = QComboBox(), QComboBox()
        self._presets = QComboBox()
        self._presets.addItems([*PRESETS, OWN])
        self._presets.setToolTip(
            tr("A good set-up for this place, and the usual ways to be out of it")
        )
        for box in (self._radar, self._scale, self._pulse, self._up, self._presets):
            # Long names are cut before they widen the rows.
            box.setSizeAdjustPolicy(
                QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            box.setMinimumContentsLength(7)
        self._up.addItems([_UP_WORDS[up] for up in UPS])
        self._gain = _spin(-40.0, 15.0, "dB", tr("Against light speckle"))
        self._tuning = _spin(0.0, 40.0, tr("dB lost"), tr("What mistuning loses"))
        self._sea = _spin(0.0, 100.0, "%", tr("0 is off"), step=2.0)
        self._rain = _spin(0.0, 100.0, "%", tr("0 is off"), step=5.0)
        self._rejection, self._stretch = QCheckBox(tr("on")), QCheckBox(tr("on"))
        self._beside, self._save = QPushButton(tr("&Hold above")), QPushButton(tr("Save…"))
        self._beside.setCheckable(True)
        self._beside.setToolTip(tr("Keep this set-up and radar above the picture, to compare"))
        for label, row in (
            (tr("&Place"), self._place),
            (tr("&Radar"), self._radar),
            (tr("Range s&cale"), self._scale),
            (tr("&Up"), self._up),
            (tr("Pu&lse"), self._pulse),
            (tr("Set-up"), self._presets),
            (tr("&Gain"), self._gain),
            (tr("&Tuning"), self._tuning),
            (tr("&Sea clutter"), self._sea),
            (tr("Rain clutt&er"), self._rain),
            (tr("&Interference rej."), self._rejection),
            (tr("Ec&ho stretch"), self._stretch),
        ):
            row.setAccessibleName(label.replace("&", ""))
            rows.addRow(label, row)
        rows.addRow(self._beside, self._save)
        self._place.editingFinished.connect(self.choice_changed)
        for box in (self._radar, self._scale, self._pulse, self._up):
            box.currentIndexChanged.connect(self.choice_changed)
        for spin in (self._gain, self._tuning, self._sea, self._rain):
            spin.valueChanged.connect(self.controls_changed)
        for check in (self._rejection, self._stretch):
            check.toggled.connect(self.controls_changed)
        self._presets.activated.connect(
            lambda _index: self.preset_chosen.emit(self._presets.currentText())
        )
        self._beside.toggled.connect(self.beside_asked)
        self._save.clicked.connect(self.save_asked)

    def offer(self, radars: Sequence[str], scales_m: Sequence[float]) -> None:
        """Radars and scales to choose from; choices that are still there stay."""
        _fill(self._radar, [(name, number) for number, name in enumerate(radars)])
        scales: list[tuple[str, object]] = [(_PLANNED, None)]
        scales += [(f"{nm_from_m(scale_m):g} NM", scale_m) for scale_m in scales_m]
        _fill(self._scale, scales)
        if self._pulse.count() == 0:
            self.offer_pulses(())

    def offer_pulses(self, names: Sequence[str]) -> None:
        """Pulses of the radar chosen."""
        pulses: list[tuple[str, object]] = [(_BY_SCALE, None)]
        _fill(self._pulse, pulses + [(name, name) for name in names])

    def show_preset(self, name: str) -> None:
        """Name the set-up shown."""
        with QSignalBlocker(self._presets):
            self._presets.setCurrentText(name)

    def show_controls(self, values: ControlValues) -> None:
        """Put the rows to a set-up without a word to anybody."""
        for spin, value in (
            (self._gain, values.gain_db),
            (self._tuning, values.mistuning_db),
            (self._sea, 100.0 * values.sea_clutter),
            (self._rain, 100.0 * values.rain_clutter),
        ):
            with QSignalBlocker(spin):
                spin.setValue(value)
        for check, is_on in (
            (self._rejection, values.interference_rejection),
            (self._stretch, values.echo_stretch),
        ):
            with QSignalBlocker(check):
                check.setChecked(is_on)

    @property
    def place_text(self) -> str:
        """The place typed, empty for the cursor."""
        return self._place.text().strip()

    @property
    def radar_index(self) -> int:
        """Which of the ship's radars."""
        return max(self._radar.currentIndex(), 0)

    @property
    def scale_m(self) -> float | None:
        """The scale chosen; None for the planned one."""
        chosen = self._scale.currentData()
        return float(chosen) if chosen is not None else None

    @property
    def pulse(self) -> str | None:
        """The pulse chosen; None for the one of the scale."""
        chosen = self._pulse.currentData()
        return str(chosen) if chosen is not None else None

    @property
    def up(self) -> str:
        """What points up."""
        return UPS[max(self._up.currentIndex(), 0)]

    def let_go(self) -> None:
        """Nothing is held beside."""
        self._beside.setChecked(False)

    @property
    def values(self) -> ControlValues:
        """The controls as they stand."""
        return ControlValues(
            gain_db=self._gain.value(),
            mistuning_db=self._tuning.value(),
            sea_clutter=self._sea.value() / 100.0,
            rain_clutter=self._rain.value() / 100.0,
            interference_rejection=self._rejection.isChecked(),
            echo_stretch=self._stretch.isChecked(),
        )


def _spin(low: float, high: float, unit: str, tip: str, step: float = 1.0) -> QDoubleSpinBox:
    spin = QDoubleSpinBox()
    spin.setRange(low, high)
    spin.setDecimals(0)
    spin.setSingleStep(step)
    spin.setSuffix(f" {unit}")
    spin.setToolTip(tip)
    spin.setKeyboardTracking(False)
    return spin


def _fill(box: QComboBox, items: Sequence[tuple[str, object]]) -> None:
    """Items with their data; the one chosen before stays chosen where it is still there."""
    if [box.itemText(i) for i in range(box.count())] == [text for text, _data in items]:
        return
    before = box.currentText()
    with QSignalBlocker(box):
        box.clear()
        for text, data in items:
            box.addItem(text, data)
        box.setCurrentIndex(max(box.findText(before), 0))
