"""Courses, bearings and distances in the area view, and the steps of its keys."""

from dataclasses import dataclass

from core.base.language import tr
from core.base.units import m_from_nm
from core.geodesy import geodesic
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.words import quantities

_STEPS_NM = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
_LEAST_PX = 3.5
_FINE_DECIMALS = 3
_MOST_LAT_DEG = 85.0


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyStep:
    """How far one press of an arrow key goes, m; with Shift a tenth of it."""

    coarse_m: float

    @property
    def fine_m(self) -> float:
        """With Shift."""
        return self.coarse_m / 10.0

    @property
    def words(self) -> str:
        """Both steps: ``arrows 0.05 NM, Shift 0.005 NM``."""
        coarse, fine = (_short(v) for v in (self.coarse_m, self.fine_m))
        return tr("arrows {coarse} NM, Shift {fine} NM", coarse=coarse, fine=fine)


def _short(distance_m: float) -> str:
    return f"{distance_m / m_from_nm(1.0):.4g}"


def key_step(m_per_px: float) -> KeyStep:
    """A round step that can just be seen at a scale."""
    wanted_m = m_per_px * _LEAST_PX
    fitting = [nm for nm in _STEPS_NM if m_from_nm(nm) >= wanted_m]
    return KeyStep(coarse_m=m_from_nm(fitting[0] if fitting else _STEPS_NM[-1]))


def stepped(place: Position, bearing_deg: float, distance_m: float) -> Position:
    """The place a distance away on a bearing; none is taken near the poles."""
    lats, lons, _final = geodesic.direct(
        lat_deg=place.lat_deg, lon_deg=place.lon_deg, bearing_deg=bearing_deg, distance_m=distance_m
    )
    lat_deg = float(lats)
    return place if abs(lat_deg) > _MOST_LAT_DEG else Position(lat_deg=lat_deg, lon_deg=float(lons))


def between_words(start: Position, end: Position) -> str:
    """Bearing by rhumb line and distance from one place to another; a dash at the place itself."""
    line = LegLine(kind=LegKind.RHUMB, start=start, end=end)
    if line.length_m < 1.0:
        return quantities.DASH
    return f"{quantities.track(line.course_deg)}   {_distance(line.length_m)}"


def _distance(distance_m: float) -> str:
    return quantities.distance(distance_m, 2 if distance_m >= m_from_nm(0.1) else _FINE_DECIMALS)


def moved_words(passage: Passage, index: int, place: Position) -> tuple[str, ...]:
    """What moving a waypoint makes of the legs at it, one line each, beside what they are."""
    lines = [
        tr(
            "{name}: {position}, moved {distance}",
            name=passage.waypoints[index].name,
            position=quantities.position(place),
            distance=_distance(_apart_m(passage.waypoints[index].position, place)),
        )
    ]
    for leg_index in (index - 1, index):
        if not 0 <= leg_index < len(passage.legs):
            continue
        ends = [w.position for w in passage.waypoints[leg_index : leg_index + 2]]
        was = passage.line(leg_index)
        ends[index - leg_index] = place
        now = LegLine(kind=was.kind, start=ends[0], end=ends[1])
        lines.append(
            tr(
                "Leg {leg_number}: {line}   (was {line_before})",
                leg_number=leg_index + 1,
                line=_line_words(now),
                line_before=_line_words(was),
            )
        )
    return tuple(lines)


def _apart_m(one: Position, other: Position) -> float:
    return LegLine(kind=LegKind.RHUMB, start=one, end=other).length_m


def _line_words(line: LegLine) -> str:
    if line.length_m < 1.0:
        return tr("no length")
    return f"{quantities.track(line.course_deg)} {quantities.distance(line.length_m, 2)}"
