"""Coast geometry as cut from one file, before it is brought together with heights."""

from dataclasses import dataclass

import shapely

from core.geodesy.position import Bounds
from core.land.sources import DataSource


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CoastData:
    """Coast of one file near a box.

    ``polygons`` are land, ``lines`` shorelines; coordinates are (longitude, latitude) in deg,
    longitudes continuous near the box (they may pass 180). ``declared`` is the area the file
    says it covers, ``cut_boxes`` (west, south, east, north) the edges along which geometry was
    cut, ``spacing_m`` the median distance between vertices.
    """

    source: DataSource
    polygons: tuple[shapely.Polygon, ...]
    lines: tuple[shapely.LineString, ...]
    declared: tuple[Bounds, ...]
    cut_boxes: tuple[tuple[float, float, float, float], ...]
    spacing_m: float
    rules: bool
    """Whether the file tells land from sea by polygons, so that no land in its area means sea."""
