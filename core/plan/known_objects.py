"""Objects keep their letters from one revision of a plan to the next: matched by their place."""

from collections.abc import Sequence

import numpy as np

from core.base.arrays import FloatArray
from core.geodesy import geodesic
from core.geodesy.position import Position, wrap_lon_deg
from core.plan.feature import Feature
from core.plan.plan_result import KnownObject, ObjectKind

_SMALL = frozenset({ObjectKind.ISLET, ObjectKind.ROCK})
_SHORE = frozenset({ObjectKind.HEADLAND, ObjectKind.STEEP_SHORE})
_SAME_M = ((_SMALL, 200.0), (_SHORE, 300.0), (frozenset({ObjectKind.PEAK}), 1_000.0))
"""Kinds that may be one thing seen through other data, and how far its place may move, m.

Tips of a headland found from two legs lie up to 300 m apart and count as one; a summit read from
cells of a kilometre moves by a cell; the middle of an islet moves little.
"""


_DECIMALS = 7
"""Of degrees, as in files (about 1 cm): what was saved and read is the same place again."""


def known_place(lat_deg: float, lon_deg: float) -> Position:
    """A position as files keep it."""
    return Position(
        lat_deg=round(lat_deg, _DECIMALS), lon_deg=round(wrap_lon_deg(lon_deg), _DECIMALS)
    )


def place_of(seen: Sequence[Feature]) -> Position:
    """Where a feature is, whatever leg it is looked at from.

    Parameters
    ----------
    seen : sequence of Feature
        One feature, of one key, as it is looked at from one leg or several.

    Returns
    -------
    Position
        The point of the coast that a headland is known by; the middle of any other waterline.
    """
    number = seen[0].key.removeprefix("point ")
    if number != seen[0].key:
        for feature in seen:
            at = np.flatnonzero(feature.point_index == int(number))
            if at.size:
                return known_place(float(feature.lat_deg[at[0]]), float(feature.lon_deg[at[0]]))
    lat, lon = seen[0].lat_deg, seen[0].lon_deg
    turned = np.mod(lon - lon[0] + 180.0, 360.0) - 180.0
    return known_place(float(np.mean(lat)), float(lon[0] + np.mean(turned)))


def kept_letters(
    found: dict[str, tuple[ObjectKind, Position]], known: Sequence[KnownObject]
) -> dict[str, str]:
    """Letters that found objects had before.

    Parameters
    ----------
    found : dict
        Kind and place by feature key.
    known : sequence of KnownObject
        Objects of earlier plans, each id once.

    Returns
    -------
    dict
        Id by feature key, for those found again. Nearest pairs first, each object once.
    """
    pairs: list[tuple[float, str, str]] = []
    keys = sorted(found)
    if not keys or not known:
        return {}
    lat = np.array([found[k][1].lat_deg for k in keys])
    lon = np.array([found[k][1].lon_deg for k in keys])
    for thing in known:
        apart_m = _apart_m(thing.position, lat, lon)
        pairs += [
            (round(float(apart_m[i]), 1), thing.id, keys[i])
            for i in np.flatnonzero(apart_m <= _most_m(thing.kind))
            if _same_kind(thing.kind, found[keys[i]][0])
        ]
    letters: dict[str, str] = {}
    given: set[str] = set()
    for _apart, letter, key in sorted(pairs):
        if key not in letters and letter not in given:
            letters[key] = letter
            given.add(letter)
    return letters


def all_known(before: Sequence[KnownObject], now: Sequence[KnownObject]) -> tuple[KnownObject, ...]:
    """Objects of before, found now or not, then the new ones of now.

    What is known keeps the place where it got its letter: following every small move, a letter
    could wander from revision to revision to its neighbour.
    """
    ids = {thing.id for thing in before}
    return (*before, *(thing for thing in now if thing.id not in ids))


def moved_m(now: dict[str, Position], before: Sequence[KnownObject]) -> dict[str, float]:
    """How far objects of now, by id, lie from where an earlier plan had that id, m."""
    known = {thing.id.casefold(): thing.position for thing in before}
    moved = {}
    for letter, position in now.items():
        place = known.get(letter.casefold())
        if place is not None:
            lat, lon = np.array([position.lat_deg]), np.array([position.lon_deg])
            moved[letter] = float(_apart_m(place, lat, lon)[0])
    return moved


def _apart_m(place: Position, lat_deg: FloatArray, lon_deg: FloatArray) -> FloatArray:
    apart_m, _bearing, _final = geodesic.inverse(
        from_lat_deg=place.lat_deg,
        from_lon_deg=place.lon_deg,
        to_lat_deg=lat_deg,
        to_lon_deg=lon_deg,
    )
    return apart_m


def _most_m(kind: ObjectKind) -> float:
    return next((most_m for kinds, most_m in _SAME_M if kind in kinds), 0.0)


def _same_kind(one: ObjectKind, other: ObjectKind) -> bool:
    return any(one in kinds and other in kinds for kinds, _most in _SAME_M)
