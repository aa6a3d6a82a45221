"""From which places on a leg the parts of a waterline paint, or are in sight at least."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.coverage.coverage_result import CoastState, LegCoverage, Viewpoint
from core.plan.feature import Feature
from core.plan.intervals import Intervals, union

MarkSight = Callable[[Feature, Viewpoint], CoastState]
"""Whether a mark's top is in sight from a viewpoint."""

_SAME_PLACE_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FeatureSight(HoldsArrays):
    """How one feature's waterline (n places) stands to the m viewpoints of a leg.

    seen, unknown : (m, n) bool arrays
    inland_m : (m, n) float32
        How far behind each place its painted edge lies, m; 0 for marks and where only lines of
        sight were worked out, NaN where it does not paint.
    """

    seen: BoolArray
    unknown: BoolArray
    inland_m: Float32Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegSight:
    """Viewpoints of a leg, grouped by their distance along it.

    ``node_along_m`` (k,) are the distances, ascending; ``node_of`` (m,) the group of each
    viewpoint, ``is_on_track`` (m,) whether it is on the planned line. ``view_along_m`` and
    ``view_cross_m`` (m,) are track coordinates of the viewpoints, ``cell_m`` is the longer side
    of an elevation cell.
    """

    coverage: LegCoverage
    mark_sight: MarkSight
    cell_m: float
    view_along_m: FloatArray
    view_cross_m: FloatArray
    node_along_m: FloatArray
    node_of: IntArray
    is_on_track: BoolArray

    def of(self, feature: Feature) -> FeatureSight:
        """How every place of a feature's waterline shows from every viewpoint.

        Where the radar was worked out a place counts that paints, else one in sight.
        """
        views = self.coverage.viewpoints
        inland_m = np.zeros((len(views), feature.lat_deg.size), dtype=np.float32)
        if feature.mark is not None:
            states = np.array([[self.mark_sight(feature, v.viewpoint)] for v in views])
        else:
            states = np.array([v.shown_state[feature.point_index] for v in views])
            for row, view in zip(inland_m, views, strict=True):
                if view.paint is not None:
                    row[:] = view.paint.inland_m[feature.point_index]
        states = states.reshape(inland_m.shape)
        return FeatureSight(
            seen=states == CoastState.IN_SIGHT,
            unknown=states == CoastState.UNKNOWN,
            inland_m=inland_m,
        )

    def stretches(self, is_seen: BoolArray) -> Intervals:
        """Where along the leg something is in sight.

        Parameters
        ----------
        is_seen : (m,) bool array
            For each viewpoint.

        Returns
        -------
        Intervals
            Between neighbouring places from all of whose viewpoints (track and both corridor
            edges) it is in sight; nothing is granted beyond them.
        """
        is_good = self.nodes_where_all(is_seen)
        parts = tuple(
            (float(self.node_along_m[i]), float(self.node_along_m[i + 1]))
            for i in range(is_good.size - 1)
            if is_good[i] and is_good[i + 1]
        )
        return union(parts, join_m=_SAME_PLACE_M)

    def nodes_where_all(self, is_seen: BoolArray) -> BoolArray:
        """For each distance along, whether all of its viewpoints are true."""
        hidden = np.zeros(self.node_along_m.size, dtype=np.int64)
        np.add.at(hidden, self.node_of, ~is_seen)
        return np.asarray(hidden == 0)

    def sees_any(self, points: IntArray, views: BoolArray) -> bool:
        """Whether any of some coast points is in sight from any of some viewpoints."""
        return any(
            bool(np.any(view.shown_state[points] == CoastState.IN_SIGHT))
            for view, is_chosen in zip(self.coverage.viewpoints, views, strict=True)
            if is_chosen
        )

    def on_track_within(self, from_along_m: float, to_along_m: float) -> BoolArray:
        """For each viewpoint, whether it is on the track between two distances along."""
        along = self.node_along_m[self.node_of]
        return np.asarray(
            self.is_on_track
            & (along >= from_along_m - _SAME_PLACE_M)
            & (along <= to_along_m + _SAME_PLACE_M)
        )


def leg_sight(coverage: LegCoverage, mark_sight: MarkSight, cell_m: float) -> LegSight:
    """Group the viewpoints of a leg by their distance along."""
    along = np.array([v.viewpoint.along_m for v in coverage.viewpoints], dtype=np.float64)
    order = np.argsort(along, kind="stable")
    node_of = np.zeros(along.size, dtype=np.int64)
    nodes: list[float] = []
    for i in order:
        if not nodes or along[i] > nodes[-1] + _SAME_PLACE_M:
            nodes.append(float(along[i]))
        node_of[i] = len(nodes) - 1
    return LegSight(
        coverage=coverage,
        mark_sight=mark_sight,
        cell_m=cell_m,
        view_along_m=along,
        view_cross_m=np.array([v.viewpoint.cross_m for v in coverage.viewpoints], np.float64),
        node_along_m=np.array(nodes, dtype=np.float64),
        node_of=node_of,
        is_on_track=np.array([v.viewpoint.cross_m == 0.0 for v in coverage.viewpoints]),
    )
