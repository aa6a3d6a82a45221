"""The painted edge in track coordinates: the charted coast moved to where its echo begins.

Every place of the charted coast is moved as the coast points on both sides of it are, so that the
edge keeps the shape of the coast. It breaks where a point does not paint and where it steps.
"""

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry import LineString

from core.base.arrays import FloatArray, IntArray
from core.coverage.coverage_result import PaintedEdge
from core.coverage.painted_edge import runs_on
from core.geodesy.leg_line import LegLine
from core.land.coast import CoastPoints
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_plain import plain_places

_SPECK_MM = 0.75
"""Shorter stretches, and farther inland than this, are a dot in the land that says nothing."""


class MovedCoast:
    """Ways from coast points near a strip to their painted edges, plain millimetres."""

    def __init__(
        self,
        frame: StripFrame,
        line: LegLine,
        points: CoastPoints,
        edge: PaintedEdge,
        numbers: IntArray,
        places_mm: FloatArray,
    ) -> None:
        """``numbers`` (n,) of the coast points near the strip, ``places_mm`` (n, 2) of them."""
        self._at = places_mm
        self._line = points.line[numbers]
        self._per_m = np.array([frame.cross_mm_per_m, frame.along_mm_per_m])
        self._way = np.full(places_mm.shape, np.nan)
        has = np.flatnonzero(np.isfinite(edge.lat_deg[numbers]))
        if has.size:
            lat, lon = edge.lat_deg[numbers[has]], edge.lon_deg[numbers[has]]
            self._way[has] = plain_places(frame, line, lat, lon) - places_mm[has]

    def lines(self, places_mm: FloatArray, nearest: IntArray) -> Iterator[LineString]:
        """The painted edge of a stretch of charted coast.

        Parameters
        ----------
        places_mm : (m, 2) array
            Places along the coast, close together.
        nearest : (m,) array
            For each the coast point nearest to it, -1 where none is near.
        """
        way = self._ways(places_mm, nearest)
        moved = places_mm + way
        has = np.isfinite(moved[:, 0])
        step_m = np.hypot(*(np.diff(way, axis=0) / self._per_m).T)
        way_m = np.hypot(*(np.diff(places_mm, axis=0) / self._per_m).T)
        goes_on = has[1:] & has[:-1]
        goes_on[goes_on] = runs_on(step_m[goes_on], way_m[goes_on])
        edges = np.flatnonzero(np.diff(np.concatenate([[False], goes_on, [False]]).astype(np.int8)))
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            run = LineString(moved[start : stop + 1])
            if run.length > _SPECK_MM or np.hypot(*way[start]) <= _SPECK_MM:
                yield run

    def _ways(self, places_mm: FloatArray, nearest: IntArray) -> FloatArray:
        """How each place is moved: between two points of one line that run on, in between."""
        way = np.full(places_mm.shape, np.nan)
        near = np.flatnonzero(nearest >= 0)
        way[near] = self._way[nearest[near]]
        best = np.zeros(near.size)
        for step in (-1, 1):
            here = nearest[near]
            other = np.clip(here + step, 0, len(self._at) - 1)
            along = self._at[other] - self._at[here]
            square = np.maximum((along**2).sum(axis=1), 1e-12)
            share = ((places_mm[near] - self._at[here]) * along).sum(axis=1) / square
            change = self._way[other] - self._way[here]
            joins = (self._line[other] == self._line[here]) & (share > best) & (share <= 1.0)
            joins &= runs_on(
                np.hypot(*(change / self._per_m).T), np.hypot(*(along / self._per_m).T)
            )
            best[joins] = share[joins]
            way[near[joins]] = (self._way[here] + share[:, None] * change)[joins]
        return way


def nearest_points(tree: shapely.STRtree, places_mm: FloatArray, reach_mm: float) -> IntArray:
    """Number of the coast point nearest to each place (m,), -1 where none is within reach."""
    found = np.full(len(places_mm), -1, dtype=np.int64)
    if len(tree):
        which, nearest = tree.query_nearest(
            shapely.points(places_mm), max_distance=reach_mm, all_matches=False
        )
        found[which] = nearest
    return found
