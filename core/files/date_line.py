"""Geometry cut at the antimeridian, as GeoJSON asks for (RFC 7946 section 3.1.9)."""

import math
from collections.abc import Iterator
from typing import Any

import shapely
from shapely.geometry import mapping, shape

_DIGITS = 7
_SINGLE = {"LineString": "MultiLineString", "Polygon": "MultiPolygon"}


def cut_at_date_line(geometry: dict[str, Any]) -> dict[str, Any]:
    """A geometry with every longitude in [-180, 180], in parts where it crosses 180.

    Parameters
    ----------
    geometry : dict
        Of GeoJSON, longitudes running on past 180 rather than jumping.

    Returns
    -------
    dict
        The geometry itself where it does not cross.
    """
    lons = list(_lons(geometry["coordinates"]))
    if not lons or (min(lons) >= -180.0 and max(lons) <= 180.0):
        return geometry
    whole = shapely.make_valid(shape(geometry))
    first, last = (math.floor((lon + 180.0) / 360.0) for lon in (min(lons), max(lons)))
    parts = []
    for turn in range(first, last + 1):
        west = -180.0 + 360.0 * turn
        inside = whole.intersection(shapely.box(west, -90.0, west + 360.0, 90.0))
        moved = shapely.transform(inside, lambda xy, by=360.0 * turn: xy - [by, 0.0])
        parts += [part for part in shapely.get_parts(moved) if not part.is_empty]
    wanted = geometry["type"].removeprefix("Multi")
    kept = [mapping(part)["coordinates"] for part in parts if part.geom_type == wanted]
    coordinates = [_rounded(part) for part in kept]
    if wanted == "Point":
        return {"type": "Point", "coordinates": coordinates[0]}
    return {"type": _SINGLE[wanted], "coordinates": coordinates}


def _lons(node: Any) -> Iterator[float]:  # noqa: ANN401 - a tree of lists
    if node and isinstance(node[0], int | float):
        yield float(node[0])
        return
    for part in node:
        yield from _lons(part)


def _rounded(node: Any) -> Any:  # noqa: ANN401 - a tree of lists
    if isinstance(node, int | float):
        return round(float(node), _DIGITS)
    return [_rounded(part) for part in node]
