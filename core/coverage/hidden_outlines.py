"""Outlines of the water hidden from one viewpoint."""

import math

import numpy as np
import shapely

from core.base.arrays import FloatArray
from core.coverage.coverage_result import ViewpointCoverage
from core.geodesy import geodesic

Ring = tuple[FloatArray, FloatArray]
"""Latitudes and longitudes of a closed line, deg; longitudes run on past 180."""


def hidden_outlines(
    coverage: ViewpointCoverage, *, least_m2: float = 0.0
) -> tuple[tuple[Ring, ...], ...]:
    """Outlines of the water hidden from one viewpoint, pieces smaller than an area left out.

    Returns
    -------
    tuple of tuples of (lat_deg, lon_deg) arrays
        One entry for each connected piece: its outer line, then those of the holes in it, each
        ending where it began. They hold exactly what ``hidden_from`` says, a ray standing for
        half a step to each side; water hidden all round is in two pieces.
    """
    hidden = coverage.hidden
    rays = hidden.offsets.size - 1
    counts = np.diff(hidden.offsets)
    if not counts.any():
        return ()
    # In a plane of ray number and range each stretch is a box; it is cut open at a clear ray.
    first = int(np.argmin(counts))
    ray = (np.repeat(np.arange(rays), counts) - first) % rays
    boxes = shapely.box(ray - 0.5, hidden.from_m, ray + 0.5, hidden.to_m)
    whole = shapely.union_all(boxes)
    if counts[first] > 0:
        half = shapely.box(-1.0, 0.0, rays / 2.0, 2.0 * float(hidden.to_m.max()))
        whole = shapely.GeometryCollection([whole & half, whole - half])
    return tuple(
        tuple(
            _on_earth(coverage, np.asarray(line.coords), first, rays)
            for line in (piece.exterior, *piece.interiors)
        )
        for piece in _polygons(whole)
        # The integral of the range over the piece is its area on the water.
        if piece.area * piece.centroid.y * 2.0 * math.pi / rays >= least_m2
    )


def _polygons(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Every polygon of a shape however nested."""
    if isinstance(shape, shapely.Polygon):
        return [] if shape.is_empty else [shape]
    return [piece for part in shapely.get_parts(shape) for piece in _polygons(part)]


def _on_earth(coverage: ViewpointCoverage, places: FloatArray, first_ray: int, rays: int) -> Ring:
    """A line in ray numbers and ranges as positions; arcs keep a place at every ray."""
    steps = np.maximum(np.ceil(np.abs(np.diff(places[:, 0])) - 1e-9).astype(np.int64), 1)
    start = np.repeat(np.arange(steps.size), steps)
    share = (np.arange(start.size) - np.repeat(np.cumsum(steps) - steps, steps)) / steps[start]
    line = places[start] + share[:, None] * (places[start + 1] - places[start])
    own = coverage.viewpoint.position
    lat, lon, _course = geodesic.direct(
        lat_deg=own.lat_deg,
        lon_deg=own.lon_deg,
        bearing_deg=(line[:, 0] + first_ray) * 360.0 / rays,
        distance_m=line[:, 1],
    )
    lon = own.lon_deg + np.mod(lon - own.lon_deg + 180.0, 360.0) - 180.0
    return np.append(lat, lat[0]), np.append(lon, lon[0])
