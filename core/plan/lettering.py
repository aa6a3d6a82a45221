"""Letters and names of objects, the same whenever the same objects are found."""

from collections.abc import Sequence

import numpy as np

from core.base.language import tr
from core.base.units import nm_from_m
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.plan.feature import Feature

FirstPlace = tuple[int, float, float, float]
"""First leg an object is a candidate on, its distance along that leg, m, and its position, deg."""

HEIGHT_NAME = tr("{kind} {height_m:.0f} m high, {place}")
_POINTS = (tr("N"), tr("NE"), tr("E"), tr("SE"), tr("S"), tr("SW"), tr("W"), tr("NW"))


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
    kind, place = feature.kind.shown, place_name(position, passage)
    if feature.height_m < 1.0:
        return tr("low {kind}, {place}", kind=kind, place=place)
    return height_name(kind, feature.height_m, place)


def height_name(kind: str, height_m: float, place: str) -> str:
    """Name of an object whose height is known."""
    return HEIGHT_NAME.format(kind=kind, height_m=height_m, place=place)


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
    waypoint = passage.waypoints[nearest].name or tr(
        "waypoint {waypoint_number}", waypoint_number=nearest + 1
    )
    return tr(
        "{distance_nm:.1f} NM {point} of {waypoint}",
        distance_nm=nm_from_m(float(distance[nearest])),
        point=point,
        waypoint=waypoint,
    )
