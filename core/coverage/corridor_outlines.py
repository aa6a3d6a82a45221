"""Outlines of the water hidden from anywhere in the corridor at one place along a leg."""

import numpy as np
import shapely

from core.coverage.coverage_result import ViewpointCoverage
from core.coverage.hidden_outlines import Ring, hidden_outlines


def corridor_outlines(
    views: tuple[ViewpointCoverage, ...], *, least_m2: float = 0.0
) -> tuple[tuple[Ring, ...], ...]:
    """Outlines of water hidden from one viewpoint at least, as ``hidden_outlines`` gives them.

    Parameters
    ----------
    views : tuple of ViewpointCoverage
        Those on the track and at the corridor's edges at one distance along; one is enough.
    least_m2 : float
        Pieces of one viewpoint smaller than this are left out.
    """
    if len(views) == 1:
        return hidden_outlines(views[0], least_m2=least_m2)
    middle = views[0].viewpoint.position.lon_deg
    polygons = []
    for view in views:
        for outer, *holes in hidden_outlines(view, least_m2=least_m2):
            polygons.append(
                shapely.Polygon(_line(outer, middle), [_line(hole, middle) for hole in holes])
            )
    # Rays of neighbouring stretches may meet in a point, which union refuses without a repair.
    whole = shapely.union_all(shapely.make_valid(np.array(polygons, dtype=object)))
    return tuple(
        tuple(_ring(line) for line in (piece.exterior, *piece.interiors))
        for piece in shapely.get_parts(whole)
        if isinstance(piece, shapely.Polygon) and not piece.is_empty
    )


def _line(ring: Ring, middle_lon_deg: float) -> np.ndarray:
    """Longitude and latitude, all on one side of the date line with the ship."""
    lat, lon = ring
    shift = round((float(lon[0]) - middle_lon_deg) / 360.0) * 360.0
    return np.column_stack([lon - shift, lat])


def _ring(line: shapely.LinearRing) -> Ring:
    at = shapely.get_coordinates(line)
    return at[:, 1].copy(), at[:, 0].copy()
