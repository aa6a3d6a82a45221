"""Holes in land polygons: lakes above the sea are land to a radar, lagoons are sea."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely

from core.base.arrays import Float32Array
from core.land.land_raster import IntegerArray, ring_coordinates, winding
from core.land.lattice import Lattice

LAKE_HEIGHT_M = 2.0
"""Water standing higher than this above mean sea level is a lake, m."""


def water_at_sea_level(
    lattice: Lattice, polygons: Sequence[shapely.Polygon], heights_m: Float32Array
) -> list[shapely.LinearRing]:
    """Holes whose water stands at sea level, as far as heights tell.

    A lake keeps its own height and has no sea coast. A hole without known heights is sea, since
    the coast data shows no land there.
    """
    holes = [hole for polygon in polygons for hole in polygon.interiors]
    if not holes:
        return []
    rings = [ring_coordinates(lattice, hole) for hole in holes]
    label = winding(lattice, rings, list(range(1, len(rings) + 1)))
    return [
        hole
        for hole, height in zip(holes, _medians(label, heights_m, len(holes)), strict=True)
        if not height > LAKE_HEIGHT_M
    ]


def _medians(label: IntegerArray, heights_m: Float32Array, count: int) -> list[float]:
    """Median known height of the cells of each label from 1, NaN without any."""
    used = (label >= 1) & (label <= count) & ~np.isnan(heights_m)
    of, height = label[used], heights_m[used]
    order = np.argsort(of, kind="stable")
    of, height = of[order], height[order]
    edges = np.searchsorted(of, np.arange(1, count + 2))
    return [float(np.median(height[a:b])) if b > a else float("nan") for a, b in pairwise(edges)]
