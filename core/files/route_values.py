"""Optional values of a route file: used where sound, left out with a finding where not."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import m_from_nm, mps_from_kn
from core.files.route_parts import clean_text
from core.geodesy.leg_line import LegKind

_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_TIME = re.compile(
    r"(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2})(:\d{2})?(\.\d{1,6})?\d*\s*(Z|UTC|[+-]\d{2}:?\d{2})?",
    re.ASCII | re.IGNORECASE,
)
_SHOWN = 3

_KINDS = {
    "loxodrome": LegKind.RHUMB,
    "rhumb": LegKind.RHUMB,
    "rhumbline": LegKind.RHUMB,
    "rl": LegKind.RHUMB,
    "orthodrome": LegKind.GEODESIC,
    "greatcircle": LegKind.GEODESIC,
    "geodesic": LegKind.GEODESIC,
    "gc": LegKind.GEODESIC,
}


def number_in(text: str) -> float | None:
    """A plain decimal number, else None; «nan», «inf» and digit groups are no numbers here."""
    text = text.strip()
    return float(text) if len(text) <= 40 and _NUMBER.fullmatch(text) else None


def utc_in(text: str) -> datetime | None:
    """A time in ISO 8601 with date, UTC unless an offset stands behind it, else None."""
    match = _TIME.fullmatch(text.strip()) if len(text) <= 60 else None
    if match is None:
        return None
    day, minute, second, fraction, zone = match.groups()
    if zone is None or zone.upper() in {"Z", "UTC"}:
        zone = "+00:00"
    try:
        time = datetime.fromisoformat(f"{day}T{minute}{second or ':00'}{fraction or ''}{zone}")
        return time.astimezone(UTC)
    except (ValueError, OverflowError):
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Quantity:
    """An optional quantity: its unit and limit as files give it."""

    code: str
    unit: str
    most: int
    to_si: Callable[[float], float]


_RADIUS = _Quantity(code="turn-radius", unit="NM", most=10, to_si=m_from_nm)
_CORRIDOR = _Quantity(code="corridor", unit="NM", most=50, to_si=m_from_nm)
_SPEED = _Quantity(code="speed", unit="kn", most=100, to_si=mps_from_kn)
_UNSOUND = {
    "turn-radius": tr(
        "turn radius “{value}” is not above 0 and at most {most} {unit} and was left out"
    ),
    "corridor": tr(
        "cross-track limit “{value}” is not above 0 and at most {most} {unit} and was left out"
    ),
    "speed": tr("speed “{value}” is not above 0 and at most {most} {unit} and was left out"),
    "time": tr("time “{value}” is no date and time like 2030-01-31T12:00:00Z and was left out"),
    "leg-kind": tr("leg kind “{value}” is neither rhumb line nor great circle and was left out"),
}
"""What is said of a value that cannot be used, by the code of its finding."""


@dataclass(slots=True)
class RouteValues:
    """Reads optional values of one file and remembers what it had to leave out.

    Limits: above 0 and at most 10 NM for a turn radius (the schema of RTZ 1.0 ends there),
    50 NM for a cross-track limit, 100 kn for a speed.
    """

    file: str
    _dropped: dict[str, list[tuple[str, str]]] = field(default_factory=dict)

    def radius_m(self, text: str | None, *, waypoint: str) -> float | None:
        """A turn radius given in nautical miles."""
        return self._quantity(_RADIUS, text, waypoint)

    def corridor_m(self, text: str | None, *, waypoint: str) -> float | None:
        """A cross-track limit given in nautical miles."""
        return self._quantity(_CORRIDOR, text, waypoint)

    def speed_mps(self, text: str | None, *, waypoint: str) -> float | None:
        """A speed given in knots."""
        return self._quantity(_SPEED, text, waypoint)

    def time_utc(self, text: str | None, *, waypoint: str) -> datetime | None:
        """A time of the schedule."""
        if text is None or not text.strip():
            return None
        time = utc_in(text)
        if time is None:
            self.drop("time", text, waypoint)
        return time

    def kind(self, text: str | None, *, waypoint: str) -> LegKind | None:
        """How a leg is steered."""
        if text is None or not text.strip():
            return None
        kind = _KINDS.get(re.sub(r"[^a-z]", "", text.lower()))
        if kind is None:
            self.drop("leg-kind", text, waypoint)
        return kind

    def drop(self, code: str, text: str, waypoint: str) -> None:
        """Remember a value that was left out."""
        self._dropped.setdefault(code, []).append((clean_text(text)[:30], waypoint))

    def findings(self) -> tuple[Finding, ...]:
        """One finding for each way in which values were unsound."""
        return tuple(self._finding(code, entries) for code, entries in self._dropped.items())

    def _finding(self, code: str, entries: list[tuple[str, str]]) -> Finding:
        quantity = next((one for one in (_RADIUS, _CORRIDOR, _SPEED) if one.code == code), None)
        limit = {} if quantity is None else {"most": quantity.most, "unit": quantity.unit}
        what = _UNSOUND[code].format(value=entries[0][0], **limit)
        names = [waypoint for _text, waypoint in entries]
        if len(names) > 1:
            shown = ", ".join(names[:_SHOWN])
            if len(names) > _SHOWN:
                shown = tr(
                    "{names} and {more_count} more", names=shown, more_count=len(names) - _SHOWN
                )
            what = tr(
                "{finding}; the like at {count} places ({names})",
                finding=what,
                count=len(names),
                names=shown,
            )
        return Finding(
            severity=Severity.CHECK,
            code=f"{code}-dropped",
            what=what,
            where=Where(file=self.file, waypoint=names[0] if len(names) == 1 else ""),
            todo=tr("Correct it in the route if it is needed"),
        )

    def _quantity(self, quantity: _Quantity, text: str | None, waypoint: str) -> float | None:
        if text is None or not text.strip():
            return None
        number = number_in(text)
        if number is None or not 0.0 < number <= quantity.most:
            self.drop(quantity.code, text, waypoint)
            return None
        return quantity.to_si(number)
