"""Letters and names of objects, the same whenever the same objects are found."""

from collections.abc import Sequence

import numpy as np

from core.base.units import nm_from_m
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.plan.feature import Feature
from core.plan.plan_result import ObjectKind

FirstPlace = tuple[int, float, float, float]
"""First leg an object is a candidate on, its distance along that leg, m, and its position, deg."""

_POINTS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
_WORDS = {
    ObjectKind.ISLET: "islet",
    ObjectKind.ROCK: "rock",
    ObjectKind.HEADLAND: "headland",
    ObjectKind.STEEP_SHORE: "steep shore",
    ObjectKind.PEAK: "peak",
}


def letter(number: int) -> str:
    """``A`` for 0, ``Z`` for 25, ``AA`` for 26."""
    text = ""
    number += 1
    while number > 0:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def letters_for(first_places: dict[str, FirstPlace], taken: frozenset[str]) -> dict[str, str]:
    """Letters for features.

    Parameters
    ----------
    first_places : dict
        For each feature key, in the order of which letters are given, so that changes late in a
        passage leave the letters before them alone.
    taken : frozenset of str
        Names of marks and letters of earlier plans, in capitals, which no letter may repeat.
    """
    letters: dict[str, str] = {}
    number = 0
    for key in sorted(first_places, key=lambda k: (first_places[k], k)):
        while letter(number) in taken:
            number += 1
        letters[key] = letter(number)
        number += 1
    return letters


def peak_numbers_for(keys: Sequence[str], taken: frozenset[str]) -> dict[str, str]:
    """``P1``, ``P2`` and so on for summits in the order given, passing over what is taken."""
    numbers: dict[str, str] = {}
    number = 1
    for key in keys:
        while f"P{number}" in taken:
            number += 1
        numbers[key] = f"P{number}"
        number += 1
    return numbers


def object_name(feature: Feature, position: Position, passage: Passage) -> str:
    """What a person calls it: a mark's name, else kind, height and place by a waypoint."""
    if feature.mark is not None:
        return feature.mark.name
    kind = _WORDS.get(feature.kind, feature.kind.value)
    if feature.height_m < 1.0:
        return f"low {kind}, {place_name(position, passage)}"
    return f"{kind} {feature.height_m:.0f} m high, {place_name(position, passage)}"


def place_name(position: Position, passage: Passage) -> str:
    """Distance and direction from the nearest waypoint, such as ``1.4 NM NE of WP3``."""
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=np.array([w.position.lat_deg for w in passage.waypoints]),
        from_lon_deg=np.array([w.position.lon_deg for w in passage.waypoints]),
        to_lat_deg=position.lat_deg,
        to_lon_deg=position.lon_deg,
    )
    nearest = int(distance.argmin())
    point = _POINTS[round(float(bearing[nearest]) / 45.0) % 8]
    waypoint = passage.waypoints[nearest].name or f"waypoint {nearest + 1}"
    return f"{nm_from_m(float(distance[nearest])):.1f} NM {point} of {waypoint}"
