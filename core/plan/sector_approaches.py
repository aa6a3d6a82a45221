"""Which crossing traffic own structure hides on a steady bearing, and the weave that shows it.

A target on a steady bearing that closes is one to be collided with, and while it is steady a blind
sector hides it all the way (job.md 5.6).
"""

import math
from collections.abc import Sequence

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.plan.sector_result import HiddenSector, SteadyApproach
from core.ship.ship import BlindSector, Radar

_STEP_DEG = 0.25
_WEAVE_STEP_DEG = 5.0
_MOST_WEAVE_DEG = 60.0
_WEAVE_SPARE_DEG = 1.0
"""Half a beam and a little yaw past the edge of the sector."""
_CLEAR, _SHADOW, _BLIND = 0, 1, 2


def hidden_sectors(
    radars: Sequence[Radar],
    *,
    headings_deg: tuple[float, float],
    course_deg: float,
    speed_mps: float,
    target_speeds_mps: Sequence[float],
    decision_s: float,
) -> tuple[HiddenSector, ...] | None:
    """Arcs that at least one radar does not see, and what stays in them.

    Parameters
    ----------
    radars : sequence of Radar
        With their blind and shadow sectors as the ship is loaded now.
    headings_deg : tuple of float
        True, clockwise from and to: all that the leeway leaves possible. Sectors go with it.
    course_deg : float
        True; own way over the ground.
    speed_mps : float
        Own speed over the ground.
    target_speeds_mps : sequence of float
        Of targets, over the ground.
    decision_s : float
        How often the sector is to be opened, s.

    Returns
    -------
    tuple of HiddenSector or None
        What no radar sees first, then clockwise from the bow; None where no radar states
        sectors.
    """
    if not any(radar.blind_sectors for radar in radars):
        return None
    found = [
        _sector(
            arc, radars, headings_deg, course_deg, speed_mps, tuple(target_speeds_mps), decision_s
        )
        for arc in _arcs(radars)
    ]
    return tuple(sorted(found, key=lambda s: (bool(s.seen_by), s.from_relative_deg)))


def steady_courses_deg(
    *,
    bearing_deg: FloatArray,
    course_deg: float,
    speed_mps: float,
    target_speed_mps: float,
) -> tuple[FloatArray, FloatArray]:
    """True courses of targets that close on a steady bearing.

    Parameters
    ----------
    bearing_deg : (n,) array
        True bearings of the target from own ship.
    course_deg, speed_mps : float
        Of own ship, over the ground.
    target_speed_mps : float
        Of the target.

    Returns
    -------
    course_deg, closing_mps : (2, n) arrays
        Both solutions, NaN where there is none or it does not close: across the bearing the two
        move alike, ``v sin(course - bearing)`` is the same for both (plain geometry). The first
        comes towards own ship, the second is overtaken by her.
    """
    off = np.radians(course_deg - bearing_deg)
    across = speed_mps * np.sin(off) / target_speed_mps
    lean = np.degrees(np.arcsin(np.where(np.abs(across) <= 1.0, across, np.nan)))
    courses = np.stack([bearing_deg + 180.0 - lean, bearing_deg + lean])
    closing = speed_mps * np.cos(off) - target_speed_mps * np.cos(np.radians(courses - bearing_deg))
    is_closing = closing > 0.0
    return np.where(is_closing, courses % 360.0, np.nan), np.where(is_closing, closing, np.nan)


def weave_deg(
    arc: tuple[float, float], hidden: Sequence[tuple[float, float]]
) -> tuple[float | None, str]:
    """The least alteration, in steps of 5 deg, that brings an arc clear of what is hidden.

    Parameters
    ----------
    arc : tuple of float
        Relative bearings clockwise from and to, deg.
    hidden : sequence of such
        All arcs that are hidden as much, the arc itself among them.

    Returns
    -------
    alteration, side
        None and nothing where none up to 60 deg does. To starboard relative bearings fall.
    """
    for steps in range(1, round(_MOST_WEAVE_DEG / _WEAVE_STEP_DEG) + 1):
        turn = steps * _WEAVE_STEP_DEG
        is_open = {
            side: not any(
                _overlap(
                    (
                        arc[0] + sign * turn - _WEAVE_SPARE_DEG,
                        arc[1] + sign * turn + _WEAVE_SPARE_DEG,
                    ),
                    other,
                )
                for other in hidden
            )
            for side, sign in (("starboard", -1.0), ("port", 1.0))
        }
        if all(is_open.values()):
            return turn, "either side"
        for side, opens in is_open.items():
            if opens:
                return turn, side
    return None, ""


def _overlap(one: tuple[float, float], other: tuple[float, float]) -> bool:
    width, other_width = (one[1] - one[0]) % 360.0, (other[1] - other[0]) % 360.0
    return (other[0] - one[0]) % 360.0 < width or (one[0] - other[0]) % 360.0 < other_width


class _Arc:
    """A run of relative bearings over which every radar is in one state."""

    def __init__(self, start_deg: float, stop_deg: float, states: tuple[int, ...]) -> None:
        self.pair = (start_deg, stop_deg)
        self.states = states

    @property
    def level(self) -> int:
        """State of the radar that sees best."""
        return min(self.states)


def _state(radar: Radar, relative_deg: float) -> int:
    states = [
        _SHADOW if sector.is_shadow else _BLIND
        for sector in radar.blind_sectors
        if _holds(sector, relative_deg)
    ]
    return max(states, default=_CLEAR)


def _holds(sector: BlindSector, relative_deg: float) -> bool:
    width = (sector.to_relative_deg - sector.from_relative_deg) % 360.0
    return (relative_deg - sector.from_relative_deg) % 360.0 < width


def _arcs(radars: Sequence[Radar]) -> list[_Arc]:
    """The circle cut at every edge, like neighbours joined; arcs that all see are left out."""
    edges = sorted(
        {
            edge % 360.0
            for radar in radars
            for sector in radar.blind_sectors
            for edge in (sector.from_relative_deg, sector.to_relative_deg)
        }
    )
    arcs: list[_Arc] = []
    for start, stop in zip(edges, (*edges[1:], edges[0] + 360.0), strict=True):
        states = tuple(_state(radar, (start + stop) / 2.0) for radar in radars)
        if arcs and arcs[-1].states == states:
            arcs[-1] = _Arc(arcs[-1].pair[0], stop, states)
        else:
            arcs.append(_Arc(start, stop, states))
    if len(arcs) > 1 and arcs[0].states == arcs[-1].states:
        last = arcs.pop()
        arcs[0] = _Arc(last.pair[0] - 360.0, arcs[0].pair[1], last.states)
    return [arc for arc in arcs if max(arc.states) != _CLEAR]


def _sector(
    arc: _Arc,
    radars: Sequence[Radar],
    headings_deg: tuple[float, float],
    course_deg: float,
    speed_mps: float,
    target_speeds_mps: tuple[float, ...],
    decision_s: float,
) -> HiddenSector:
    start, stop = arc.pair
    middle = (start + stop) / 2.0
    turn, side = (None, "")
    if arc.level != _CLEAR:
        alike = [other.pair for other in _arcs(radars) if other.level != _CLEAR]
        turn, side = weave_deg(arc.pair, alike)
    spread = (headings_deg[1] - headings_deg[0]) % 360.0
    first, last = headings_deg[0] + start, headings_deg[0] + spread + stop
    bearings = np.linspace(first, last, max(2, math.ceil((last - first) / _STEP_DEG) + 1))
    causes = {
        sector.cause: None
        for radar in radars
        for sector in radar.blind_sectors
        if sector.cause and _holds(sector, middle)
    }
    return HiddenSector(
        from_relative_deg=start % 360.0,
        to_relative_deg=stop % 360.0,
        radars=tuple(r.name for r, s in zip(radars, arc.states, strict=True) if s != _CLEAR),
        seen_by=tuple(r.name for r, s in zip(radars, arc.states, strict=True) if s == _CLEAR),
        is_shadow=arc.level == _SHADOW or (arc.level == _CLEAR and _BLIND not in arc.states),
        causes=tuple(causes),
        from_true_deg=first % 360.0,
        to_true_deg=last % 360.0,
        approaches=tuple(
            _approach(bearings, course_deg, speed_mps, target) for target in target_speeds_mps
        ),
        weave_deg=turn,
        weave_to=side,
        weave_every_s=decision_s,
    )


def _approach(
    bearings_deg: FloatArray, course_deg: float, speed_mps: float, target_mps: float
) -> SteadyApproach:
    courses, closing = steady_courses_deg(
        bearing_deg=bearings_deg,
        course_deg=course_deg,
        speed_mps=speed_mps,
        target_speed_mps=target_mps,
    )
    spans = [
        (float(part.min()) % 360.0, float(part.max()) % 360.0)
        for branch in courses
        for run in _runs(~np.isnan(branch))
        for part in (np.degrees(np.unwrap(np.radians(branch[run]))),)
    ]
    return SteadyApproach(
        speed_mps=target_mps,
        courses_deg=tuple(spans),
        closing_mps=(float(np.nanmin(closing)), float(np.nanmax(closing))) if spans else None,
    )


def _runs(wanted: BoolArray) -> list[slice]:
    edges = np.flatnonzero(np.diff(np.r_[False, wanted, False].astype(np.int8)))
    return [slice(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]
