"""The form of conditions: what the officer sets by hand; an empty field leaves it to the files."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime

from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.window.careful_dialog import CarefulDialog
from core.base.language import tr
from core.base.units import (
    kn_from_mps,
    m_from_nm,
    mps_from_kn,
    nm_from_m,
)
from core.files.project import Options

_EDIT_PX = 190
_TIME = "%Y-%m-%d %H:%M"


def _same(value: float) -> float:
    return value


def _seconds(minutes: float) -> float:
    return minutes * 60.0


def _minutes(seconds: float) -> float:
    return seconds / 60.0


_MINUTES = (_seconds, _minutes)


@dataclass(frozen=True, slots=True)
class _Field:
    name: str
    label: str
    hint: str
    low: float
    high: float
    to_si: Callable[[float], float] = _same
    from_si: Callable[[float], float] = _same


_FIELDS = (
    _Field("tide_m", tr("&Tide above chart datum, m"), tr("not given"), -20.0, 20.0),
    _Field(
        "mean_sea_level_m", tr("&Mean sea level above chart datum, m"), tr("not given"), -20.0, 20.0
    ),
    _Field("tidal_range_m", tr("Tidal ra&nge, m"), tr("4, for how far shores move"), 0.1, 20.0),
    _Field(
        "low_water_m", tr("&Low water above chart datum, m"), tr("half the range down"), -20.0, 20.0
    ),
    _Field(
        "high_water_m", tr("H&igh water above chart datum, m"), tr("half the range up"), -20.0, 20.0
    ),
    _Field("draught_forward_m", tr("&Draught forward now, m"), tr("from the ship"), 0.05, 40.0),
    _Field("draught_aft_m", tr("Draught aft now, m"), tr("from the ship"), 0.05, 40.0),
    _Field(
        "antenna_height_m", tr("&Antenna above the water now, m"), tr("from the ship"), 1.0, 150.0
    ),
    _Field(
        "speed_mps",
        tr("&Speed, kn"),
        tr("from the route, else 12"),
        0.2,
        100.0,
        mps_from_kn,
        kn_from_mps,
    ),
    _Field("set_deg", tr("Stream: set to&wards, ° T"), tr("none"), 0.0, 360.0),
    _Field(
        "drift_mps",
        tr("Stream: &drift, kn"),
        tr("none"),
        0.0,
        20.0,
        mps_from_kn,
        kn_from_mps,
    ),
    _Field("leeway_port_deg", tr("Leeway to &port, up to, °"), tr("none"), 0.0, 45.0),
    _Field("leeway_starboard_deg", tr("Leeway to star&board, up to, °"), tr("none"), 0.0, 45.0),
    _Field(
        "corridor_m",
        tr("&Corridor each side, NM"),
        tr("from the route, else 0.25"),
        0.01,
        20.0,
        m_from_nm,
        nm_from_m,
    ),
    _Field("radius_m", tr("Sweep &radius, NM"), "24", 0.5, 48.0, m_from_nm, nm_from_m),
    _Field("refraction_k", tr("Refraction factor &k"), tr("1.33, the standard"), 0.5, 10.0),
    _Field("craft_height_m", tr("&Height of craft for hidden water, m"), "5", 0.0, 100.0),
    _Field("height_error_m", tr("&Error of elevation data (95 %), m"), "5", 0.0, 200.0),
    _Field("sea_state", tr("Sea &state"), tr("0, glassy"), 0.0, 6.0),
    _Field("rain_mm_h", tr("Rai&n, mm/h"), "0", 0.0, 150.0),
    _Field(
        "traffic_speed_mps",
        tr("Speed of other craft, at &least, kn"),
        "15",
        1.0,
        100.0,
        mps_from_kn,
        kn_from_mps,
    ),
    _Field(
        "decision_time_s",
        tr("Ti&me in hand to decide, min"),
        tr("6 coastal, 15 open sea"),
        1.0,
        60.0,
        *_MINUTES,
    ),
    _Field("fix_interval_s", tr("Radar fi&x every, min"), "6", 1.0, 120.0, *_MINUTES),
    _Field(
        "pass_off_m",
        tr("Craft from behind a head &pass it by, NM"),
        "0.05",
        0.0,
        5.0,
        m_from_nm,
        nm_from_m,
    ),
    _Field("overlap_s", tr("Both lines at a hand-o&ver, min"), "3", 1.0, 60.0, *_MINUTES),
    _Field("coast_height_m", tr("Height where only coast is &given, m"), tr("none"), 0.0, 1000.0),
)


def parse_number(text: str, label: str, low: float, high: float) -> float | None:
    """A number as officers type it, comma or point; None where the field is empty.

    Raises
    ------
    ValueError
        One sentence about what is wrong with it.
    """
    text = text.strip().replace(",", ".")
    if not text:
        return None
    name = label.replace("&", "")
    try:
        value = float(text)
    except ValueError as exc:
        raise ValueError(tr("{name}: «{text}» is not a number.", name=name, text=text)) from exc
    if not low <= value <= high:
        raise ValueError(
            tr(
                "{name}: {value:g} is not between {low:g} and {high:g}.",
                name=name,
                value=value,
                low=low,
                high=high,
            )
        )
    return value


def parse_time(text: str) -> datetime | None:
    """A start time in UTC, such as ``2026-03-14 05:00``; None where the field is empty."""
    text = text.strip().rstrip("Zz").strip()
    if not text:
        return None
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as exc:
        raise ValueError(
            tr("Start: «{text}» is not a time such as 2026-03-14 05:00.", text=text)
        ) from exc
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)


_TIPS = {"drift_mps": tr("With a stream the speeds of the passage count through the water.")}


class ConditionsDialog(CarefulDialog):
    """Tide, refraction, times and heights; checked before it closes."""

    def __init__(self, options: Options, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Conditions"))
        self._options = options
        forms = (QFormLayout(), QFormLayout())
        self._start = QLineEdit(
            "" if options.start_utc is None else options.start_utc.astimezone(UTC).strftime(_TIME),
            self,
        )
        self._start.setPlaceholderText(tr("times from the start"))
        forms[0].addRow(tr("St&art, UTC (year-month-day hour:minute)"), self._start)
        self._edits: dict[str, QLineEdit] = {}
        for number, field in enumerate(_FIELDS):
            value = getattr(options, field.name)
            edit = QLineEdit("" if value is None else f"{field.from_si(value):.6g}", self)
            edit.setObjectName(field.name)
            edit.setPlaceholderText(field.hint)
            edit.setMinimumWidth(_EDIT_PX)
            edit.setToolTip(_TIPS.get(field.name, ""))
            # In two columns, or the form is higher than a small screen.
            forms[number >= len(_FIELDS) // 2].addRow(field.label, edit)
            self._edits[field.name] = edit
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
        layout.addWidget(
            QLabel(
                tr("An empty field leaves the value to the files or to the default shown."), self
            )
        )
        columns = QHBoxLayout()
        for form in forms:
            columns.addLayout(form)
            columns.setSpacing(24)
        layout.addLayout(columns)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        SoftCaret(self)

    @property
    def options(self) -> Options:
        """The conditions as accepted."""
        return self._options

    def _try(self) -> None:
        try:
            self._options = self._read()
        except ValueError as exc:
            self._trouble.setText(str(exc))
            return
        self.accept()

    def _read(self) -> Options:
        numbers: dict[str, float | None] = {}
        for field in _FIELDS:
            value = parse_number(self._edits[field.name].text(), field.label, field.low, field.high)
            before = getattr(self._options, field.name)
            if value is not None and before is not None:
                is_same = f"{field.from_si(before):.6g}" == f"{value:.6g}"
                numbers[field.name] = before if is_same else field.to_si(value)
            else:
                numbers[field.name] = None if value is None else field.to_si(value)
        if (numbers["tide_m"] is None) != (numbers["mean_sea_level_m"] is None):
            raise ValueError(
                tr("Tide and mean sea level go together: give both above chart datum, or neither.")
            )
        low_m, high_m = numbers["low_water_m"], numbers["high_water_m"]
        if (low_m is None) != (high_m is None):
            raise ValueError(tr("Low and high water go together: give both, or neither."))
        if low_m is not None and high_m is not None:
            if numbers["mean_sea_level_m"] is None:
                raise ValueError(
                    tr("Low and high water need tide and mean sea level: give them too.")
                )
            if low_m >= high_m:
                raise ValueError(
                    tr(
                        "Low water {low_m:g} m is not below high water {high_m:g} m.",
                        low_m=low_m,
                        high_m=high_m,
                    )
                )
        if (numbers["draught_forward_m"] is None) != (numbers["draught_aft_m"] is None):
            raise ValueError(tr("Draughts go together: give both, or neither."))
        if numbers["draught_forward_m"] is not None and numbers["antenna_height_m"] is not None:
            raise ValueError(tr("Give draughts or the antenna height, not both."))
        if (numbers["set_deg"] is None) != (numbers["drift_mps"] is None):
            raise ValueError(tr("Set and drift go together: give both, or neither."))
        return Options(start_utc=parse_time(self._start.text()), **numbers)
