"""What paints from a corridor edge: its own sight, the track's strength of echo."""

import numpy as np

from core.coverage.coast_paint import painted_beside
from core.coverage.coverage_result import CoastPaint, CoastState, PaintedCoast
from core.land.coast import CoastPoints

_TRACK = (CoastPaint.PAINTED, CoastPaint.UNPAINTED, CoastPaint.PAINTED_BEHIND, CoastPaint.PAINTED,
          CoastPaint.UNKNOWN, CoastPaint.OUTSIDE)  # fmt: skip
_EDGE = (CoastState.IN_SIGHT, CoastState.IN_SIGHT, CoastState.IN_SIGHT, CoastState.HIDDEN,
         CoastState.IN_SIGHT, CoastState.IN_SIGHT)  # fmt: skip


def test_sight_is_the_edges_own_and_weakness_is_the_tracks() -> None:
    count = len(_TRACK)
    points = CoastPoints(
        lat_deg=np.linspace(50.0, 50.1, count),
        lon_deg=np.zeros(count),
        length_m=np.full(count, 100.0),
        height_m=np.full(count, 10.0, dtype=np.float32),
        line=np.zeros(count, dtype=np.int64),
        is_line_start=np.zeros(count, dtype=np.bool_),
    )
    track = PaintedCoast(
        state=np.array([int(s) for s in _TRACK], dtype=np.uint8),
        inland_m=np.array([0.0, np.nan, 400.0, 0.0, np.nan, np.nan], dtype=np.float32),
        margin_db=np.zeros(count, dtype=np.float32),
        painted_fraction=0.4,
        behind_fraction=0.2,
        first_paint_inland_m=100.0,
    )
    edge = painted_beside(points, np.array([int(s) for s in _EDGE], dtype=np.uint8), track)
    assert [CoastPaint(int(s)) for s in edge.state] == [
        CoastPaint.PAINTED,
        CoastPaint.UNPAINTED,
        CoastPaint.PAINTED_BEHIND,
        CoastPaint.UNPAINTED,
        CoastPaint.PAINTED,
        CoastPaint.PAINTED,
    ]
    assert edge.painted_fraction == 0.5
    assert np.isnan(edge.inland_m[3])
