"""Over which stretches of a leg one place is hidden by land, from anywhere in the corridor."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, FloatArray
from core.coverage.coverage_result import SweepSettings
from core.coverage.profiles import Grid, Pairs, PairState, sight_of_pairs
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position

_STEP_M = 50.0
_HALVINGS = 6
"""Ends of spells are known to 50 m / 2**6, under a metre."""

Spell = tuple[float, float]
"""From and to along the leg, m."""
_Look = Callable[[FloatArray, FloatArray], ByteArray]


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenSpells:
    """Stretches of a leg over which one place is hidden, for each cross-track position asked."""

    cross_m: tuple[float, ...]
    within: tuple[Spell, ...]
    """Stretches of the track within the range asked for; spells lie inside them."""
    hidden: tuple[tuple[Spell, ...], ...]
    """One entry a cross-track position: hidden by land that is known."""
    unknown: tuple[tuple[Spell, ...], ...]
    """One entry a cross-track position: heights in front are not known and may hide it."""


def hidden_spells(
    place: Position,
    line: LegLine,
    grid: Grid,
    settings: SweepSettings,
    *,
    height_m: float,
    cross_m: tuple[float, ...],
    within_m: float,
    own_ground_m: float = 0.0,
) -> HiddenSpells:
    """Look at a place from all along a leg.

    Parameters
    ----------
    place : Position
        The place.
    line : LegLine
        The leg.
    grid : Grid
        The land.
    settings : SweepSettings
        Antenna height and refraction.
    height_m : float
        Height of what is looked at above the water, m.
    cross_m : tuple of float
        Cross-track positions of own ship, starboard positive, m.
    within_m : float
        Only from places on the track within this range of it, m.
    own_ground_m : float
        The last part of each line of sight that belongs to the place and hides nothing, m.

    Returns
    -------
    HiddenSpells
        Ends of spells to a metre; spells and openings shorter than 50 m may be missed. What the
        Earth alone hides does not count as hidden.
    """
    along, cross = (float(v[0]) for v in line.track_coordinates(*_one(place)))
    half_m = (within_m**2 - cross**2) ** 0.5 if abs(cross) < within_m else 0.0
    start, stop = max(along - half_m, 0.0), min(along + half_m, line.length_m)
    if stop <= start:
        none: tuple[tuple[Spell, ...], ...] = tuple(() for _ in cross_m)
        return HiddenSpells(cross_m=cross_m, within=(), hidden=none, unknown=none)
    count = max(2, int(np.ceil((stop - start) / _STEP_M)) + 1)
    places_m = np.linspace(start, stop, count)

    def look(along_m: FloatArray, at_cross_m: FloatArray) -> ByteArray:
        lat, lon, course = line.many_at(along_m)
        own_lat, own_lon, _final = geodesic.direct(
            lat_deg=lat, lon_deg=lon, bearing_deg=course + 90.0, distance_m=at_cross_m
        )
        return sight_of_pairs(
            Pairs(
                from_lat_deg=own_lat,
                from_lon_deg=own_lon,
                to_lat_deg=np.full(along_m.shape, place.lat_deg),
                to_lon_deg=np.full(along_m.shape, place.lon_deg),
                to_height_m=np.full(along_m.shape, height_m),
                margin_m=np.full(along_m.shape, own_ground_m),
            ),
            grid,
            None,
            antenna_height_m=settings.antenna_height_m,
            refraction_k=settings.refraction_k,
        ).state

    found: dict[PairState, list[tuple[Spell, ...]]] = {
        PairState.HIDDEN_BY_LAND: [],
        PairState.HIDDEN_IF_UNKNOWN_IS_HIGH: [],
    }
    for one in cross_m:
        state = look(places_m, np.full(count, one))
        for code, spells in found.items():
            spells.append(_spells(places_m, one, state, code, look))
    return HiddenSpells(
        cross_m=cross_m,
        within=((start, stop),),
        hidden=tuple(found[PairState.HIDDEN_BY_LAND]),
        unknown=tuple(found[PairState.HIDDEN_IF_UNKNOWN_IS_HIGH]),
    )


def _one(place: Position) -> tuple[FloatArray, FloatArray]:
    return np.array([place.lat_deg]), np.array([place.lon_deg])


def _spells(
    places_m: FloatArray, cross_m: float, state: ByteArray, code: PairState, look: _Look
) -> tuple[Spell, ...]:
    """Runs of places in one state, their ends found between the places."""
    inside = state == code
    turns = np.flatnonzero(inside[1:] != inside[:-1])
    low, high = places_m[turns].copy(), places_m[turns + 1].copy()
    was = inside[turns]
    for _ in range(_HALVINGS if turns.size else 0):
        middle = (low + high) / 2.0
        is_same = (look(middle, np.full(middle.shape, cross_m)) == code) == was
        low, high = np.where(is_same, middle, low), np.where(is_same, high, middle)
    ends = [float(end) for end in (low + high) / 2.0]
    if inside[0]:
        ends.insert(0, float(places_m[0]))
    if inside[-1]:
        ends.append(float(places_m[-1]))
    return tuple(zip(ends[::2], ends[1::2], strict=True))
