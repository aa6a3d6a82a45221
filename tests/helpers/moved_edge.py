"""A plan whose coast is said to paint a way north of itself, for tests of what shows the edge."""

from dataclasses import replace

import numpy as np

from core.coverage.coverage_result import CoastPaint, PaintedEdge
from core.plan.outcome import Outcome


def with_moved_edge(outcome: Outcome, leg_index: int, north_deg: float) -> Outcome:
    """The outcome with that one leg's whole coast painting a way north of where it is charted."""
    points = outcome.land.points
    count = points.lat_deg.size
    edge = PaintedEdge(
        state=np.full(count, int(CoastPaint.PAINTED_BEHIND), dtype=np.uint8),
        inland_m=np.full(count, north_deg * 111_000.0, dtype=np.float32),
        lat_deg=points.lat_deg + north_deg,
        lon_deg=points.lon_deg.copy(),
    )
    legs = tuple(
        replace(leg, painted_edge=edge if leg.leg_index == leg_index else None)
        for leg in outcome.coverage.legs
    )
    return replace(outcome, coverage=replace(outcome.coverage, legs=legs))
