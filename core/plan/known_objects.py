"""Objects keep their letters from one revision of a plan to the next: matched by their place."""

from collections.abc import Sequence

import numpy as np

from core.geodesy import geodesic
from core.geodesy.position import Position
from core.plan.feature import Feature
from core.plan.plan_result import KnownObject, ObjectKind

_SMALL = frozenset({ObjectKind.ISLET, ObjectKind.ROCK})
_SHORE = frozenset({ObjectKind.HEADLAND, ObjectKind.STEEP_SHORE})
_SAME_M = ((_SMALL, 200.0), (_SHORE, 300.0), (frozenset({ObjectKind.PEAK}), 1_000.0))
"""Kinds that may be one thing seen through other data, and how far its place may move, m.

Tips of a headland found from two legs lie up to 300 m apart and count as one; a summit read from
cells of a kilometre moves by a cell; the middle of an islet moves little.
"""


def place_of(feature: Feature) -> Position:
    """Where a feature is, whatever leg it is seen from."""
    number = feature.key.removeprefix("point ")
    if number != feature.key:
        at = np.flatnonzero(feature.point_index == int(number))
        if at.size:
            return Position(
                lat_deg=float(feature.lat_deg[at[0]]), lon_deg=float(feature.lon_deg[at[0]])
            )
    lon0 = float(feature.lon_deg[0])
    turned = np.mod(feature.lon_deg - lon0 + 180.0, 360.0) - 180.0
    lon = (lon0 + float(np.mean(turned)) + 180.0) % 360.0 - 180.0
    return Position(lat_deg=float(np.mean(feature.lat_deg)), lon_deg=lon)


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
        most_m = _most_m(thing.kind)
        apart_m, _bearing, _final = geodesic.inverse(
            from_lat_deg=thing.position.lat_deg,
            from_lon_deg=thing.position.lon_deg,
            to_lat_deg=lat,
            to_lon_deg=lon,
        )
        pairs += [
            (round(float(apart_m[i]), 1), thing.id, keys[i])
            for i in np.flatnonzero(apart_m <= most_m)
            if _same_kind(thing.kind, found[keys[i]][0])
        ]
    letters: dict[str, str] = {}
    given: set[str] = set()
    for _apart, letter, key in sorted(pairs):
        if key not in letters and letter not in given:
            letters[key] = letter
            given.add(letter)
    return letters


def all_known(now: Sequence[KnownObject], before: Sequence[KnownObject]) -> tuple[KnownObject, ...]:
    """Objects of now, then those of before that were not found: their letters stay reserved."""
    ids = {thing.id for thing in now}
    return (*now, *(thing for thing in before if thing.id not in ids))


def _most_m(kind: ObjectKind) -> float:
    return next((most_m for kinds, most_m in _SAME_M if kind in kinds), 0.0)


def _same_kind(one: ObjectKind, other: ObjectKind) -> bool:
    return any(one in kinds and other in kinds for kinds, _most in _SAME_M)
