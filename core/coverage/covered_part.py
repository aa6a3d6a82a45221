"""A stretch of a leg that is covered already, as the first leg of another passage."""

from dataclasses import replace

from core.coverage.coverage_result import LegCoverage
from core.coverage.painted_edge import painted_edge_of
from core.land.land_model import LandModel


def covered_part(
    leg: LegCoverage, land: LandModel, *, from_m: float, to_m: float, leg_index: int = 0
) -> LegCoverage:
    """Viewpoints between two distances along a leg, and one place beyond on either side.

    Parameters
    ----------
    leg : LegCoverage
        The whole leg.
    land : LandModel
        The land it was covered on.
    from_m, to_m : float
        Distances along, m.
    leg_index : int
        Of the leg in the other passage; distances along stay as they are.
    """
    nodes = sorted({view.viewpoint.along_m for view in leg.viewpoints})
    first = max((m for m in nodes if m <= from_m), default=nodes[0])
    last = min((m for m in nodes if m >= to_m), default=nodes[-1])
    views = tuple(
        replace(view, viewpoint=replace(view.viewpoint, leg_index=leg_index))
        for view in leg.viewpoints
        if first <= view.viewpoint.along_m <= last
    )
    return replace(
        leg,
        leg_index=leg_index,
        viewpoints=views,
        gaps=tuple(gap for gap in leg.gaps if gap.from_along_m <= last),
        shadows=tuple(one for one in leg.shadows if one.from_along_m <= last),
        painted_edge=None
        if leg.painted_edge is None
        else painted_edge_of(land.points, tuple(v for v in views if v.viewpoint.cross_m == 0.0)),
    )
