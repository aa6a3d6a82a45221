"""The numbers of a ship and of one radar as forms."""

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from app.window.number_form import NumberField, NumberForm
from core.base.language import tr
from core.base.units import kn_from_mps, mps_from_kn
from core.ship.ship import Band, Radar, Ship, ShipPoint, TurnAtSpeed
from core.words.kept_words import shown

_SIZE = (
    NumberField("length_m", tr("&Length over all, m"), 5.0, 500.0, is_needed=True),
    NumberField("beam_m", tr("&Beam, m"), 1.0, 100.0, is_needed=True),
    NumberField("aft_marks_from_stern_m", tr("Aft draught &marks from the stern, m"), 0.0, 250.0),
    NumberField("length_between_marks_m", tr("Bet&ween draught marks, m"), 1.0, 500.0),
    NumberField("draught_forward_m", tr("Draught &forward, m"), 0.05, 40.0, is_needed=True),
    NumberField("draught_aft_m", tr("Draught &aft, m"), 0.05, 40.0, is_needed=True),
    NumberField("conning_stern_m", tr("&Conning position from the stern, m"), 0.0, 500.0),
    NumberField("conning_side_m", tr("... and to starboard, m"), -100.0, 100.0),
    NumberField("reference_stern_m", tr("Radar reference &point from the stern, m"), 0.0, 500.0),
    NumberField("reference_side_m", tr("... and to starboard, m"), -100.0, 100.0),
)
_WORK = (
    NumberField(
        "turn_radius_m", tr("&Turn radius at passage speed, m"), 5.0, 20_000.0, is_needed=True
    ),
    NumberField("response_distance_m", tr("&Response distance, m"), 0.0, 5000.0, is_needed=True),
    NumberField(
        "gyro_error_deg", tr("Known &gyro error, ° (high is +)"), -30.0, 30.0, is_needed=True
    ),
    NumberField(
        "heading_error_deg", tr("&Heading uncertain by, ° (95 %)"), 0.01, 10.0, is_needed=True
    ),
    NumberField(
        "range_error_ratio",
        tr("Ranges uncertain by, % of sca&le"),
        0.01,
        10.0,
        is_needed=True,
        si=0.01,
    ),
    NumberField("range_error_least_m", tr("... and at least, m"), 1.0, 500.0, is_needed=True),
)
_RADAR = (
    NumberField("antenna_above_keel_m", tr("Antenna above the &keel, m"), 0.1, 149.9),
    NumberField("antenna_above_water_m", tr("... or above the &water, m"), 0.1, 149.9),
    NumberField("antenna_from_stern_m", tr("Antenna from the &stern, m"), 0.0, 500.0),
    NumberField(
        "antenna_to_starboard_m", tr("... and to starboard, m"), -100.0, 100.0, is_needed=True
    ),
    NumberField(
        "horizontal_beamwidth_deg", tr("&Horizontal beamwidth, °"), 0.05, 20.0, is_needed=True
    ),
    NumberField("vertical_beamwidth_deg", tr("&Vertical beamwidth, °"), 1.0, 90.0),
    NumberField("rotation_rpm", tr("Turns of the antenna a &minute"), 5.0, 120.0),
)
_SET = (
    NumberField("peak_power_w", tr("&Peak power, kW"), 0.0001, 1000.0, si=1000.0),
    NumberField("antenna_gain_db", tr("Antenna &gain, dB"), 5.0, 60.0),
    NumberField("frequency_hz", tr("&Frequency, GHz"), 2.9, 9.5, si=1e9),
    NumberField("noise_figure_db", tr("&Noise figure, dB"), 0.5, 20.0),
    NumberField("losses_db", tr("&Losses both ways, dB"), 0.0, 50.0),
    NumberField(
        "range_index_error_m",
        tr("Known &range error, m (long is +)"),
        -1000.0,
        1000.0,
        is_needed=True,
    ),
    NumberField(
        "heading_marker_error_deg",
        tr("Known h&eading marker error, °"),
        -30.0,
        30.0,
        is_needed=True,
    ),
)
_PRESETS = ("", "typical", "minimum standard")


class ShipForm(QWidget):
    """Size, places on board, draughts, turning and errors."""

    def __init__(self, ship: Ship, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._ship = ship
        self.name = QLineEdit(ship.name, self)
        values: dict[str, float | None] = {
            field.name: getattr(ship, field.name)
            for field in (*_SIZE, *_WORK)
            if hasattr(ship, field.name)
        }
        for what, point in (("conning", ship.conning), ("reference", ship.reference)):
            values[f"{what}_stern_m"] = None if point is None else point.from_stern_m
            values[f"{what}_side_m"] = None if point is None else point.to_starboard_m
        left, right = QFormLayout(), QFormLayout()
        left.addRow(tr("&Name"), self.name)
        self._size = NumberForm(_SIZE, values, left, self)
        self._work = NumberForm(_WORK, values, right, self)
        self._turns_shown = "\n".join(
            f"{kn_from_mps(turn.speed_mps):.6g} kn  {turn.radius_m:.6g} m" for turn in ship.turns
        )
        self.turns = QPlainTextEdit(self._turns_shown, self)
        self.turns.setTabChangesFocus(True)
        self.turns.setPlaceholderText(tr("10 kn  800 m"))
        self.turns.setMaximumHeight(self.turns.fontMetrics().lineSpacing() * 6)
        right.addRow(tr("Radius b&y speed, a line each"), self.turns)
        self.name.setCursorPosition(0)
        layout = QHBoxLayout(self)
        layout.addLayout(left, 1)
        layout.addLayout(right, 1)

    def read(self) -> Ship:
        """The ship as it stands here, the radars as they were.

        Raises
        ------
        ValueError
            One sentence about what cannot be used.
        """
        size, work = self._size.read(), self._work.read()
        name = self.name.text().strip()
        if not name:
            raise ValueError(tr("The ship needs a name, it stands on every sheet."))
        given: dict[str, Any] = {
            what: _point(size.pop(f"{what}_stern_m"), size.pop(f"{what}_side_m"))
            for what in ("conning", "reference")
        }
        return replace(self._ship, name=name, turns=self._read_turns(), **(given | size | work))

    def _read_turns(self) -> tuple[TurnAtSpeed, ...]:
        text = self.turns.toPlainText().strip()
        if text == self._turns_shown:
            return self._ship.turns
        turns = []
        for line in text.splitlines():
            words = line.replace(",", ".").replace("kn", " ").split()
            numbers = [word for word in words if word != "m"]
            try:
                speed_kn, radius_m = (float(word) for word in numbers)
            except ValueError as exc:
                raise ValueError(
                    tr("Radius by speed: «{line}» is not like 10 kn  800 m.", line=line.strip())
                ) from exc
            turns.append(TurnAtSpeed(speed_mps=mps_from_kn(speed_kn), radius_m=radius_m))
        return tuple(sorted(turns, key=lambda turn: turn.speed_mps))


def _point(stern_m: float | None, side_m: float | None) -> ShipPoint | None:
    if stern_m is None:
        return None
    return ShipPoint(from_stern_m=stern_m, to_starboard_m=side_m or 0.0)


class RadarForm(QWidget):
    """One radar: antenna, set, known errors."""

    def __init__(self, radar: Radar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._radar = radar
        values = {field.name: getattr(radar, field.name) for field in (*_RADAR, *_SET)}
        left, right = QFormLayout(), QFormLayout()
        self.name = QLineEdit(radar.name, self)
        self.band = QComboBox(self)
        self.band.addItems([band.value for band in Band])
        self.band.setCurrentText(radar.band.value)
        self.preset = QComboBox(self)
        for preset in _PRESETS:
            self.preset.addItem(shown(preset), preset)
        self.preset.setCurrentIndex(max(self.preset.findData(radar.preset), 0))
        self.standard = QLineEdit(radar.installation_standard, self)
        self.standard.setPlaceholderText(tr("such as MSC.192(79)"))
        self.vertical = QCheckBox(tr("Vertical p&olarisation"), self)
        self.vertical.setChecked(radar.polarisation == "V")
        left.addRow(tr("N&ame"), self.name)
        left.addRow(tr("&Band"), self.band)
        self._antenna = NumberForm(_RADAR, values, left, self)
        right.addRow(tr("Pre&set of the set"), self.preset)
        right.addRow(tr("Approved &to"), self.standard)
        self._set = NumberForm(_SET, values, right, self)
        right.addRow("", self.vertical)
        self.standard.setCursorPosition(0)
        layout = QHBoxLayout(self)
        layout.addLayout(left, 1)
        layout.addLayout(right, 1)
        layout.setAlignment(Qt.AlignmentFlag.AlignTop)

    def read(self, ship: Ship) -> Radar:
        """The radar as it stands here, her sectors and pulses as they were.

        Raises
        ------
        ValueError
            One sentence about what cannot be used.
        """
        numbers: dict[str, Any] = {**self._antenna.read(), **self._set.read()}
        if numbers["antenna_above_keel_m"] is None and numbers["antenna_above_water_m"] is None:
            raise ValueError(
                tr("{radar_name}: give the antenna's height.", radar_name=self._radar.name)
            )
        stern_m, marks_m = numbers["antenna_from_stern_m"], ship.aft_marks_from_stern_m
        was = self._radar.polarisation
        polarisation = "V" if self.vertical.isChecked() else ("H" if was == "V" else was)
        return replace(
            self._radar,
            name=self.name.text().strip() or self._radar.name,
            band=Band(self.band.currentText()),
            preset=str(self.preset.currentData()),
            installation_standard=self.standard.text().strip(),
            polarisation=polarisation,
            antenna_from_aft_perpendicular_m=(
                None if stern_m is None else stern_m - (marks_m or 0.0)
            ),
            **numbers,
        )
