"""Which coast begins to paint on a leg, from hand-made states."""

from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import CoastPaint, LegCoverage, PaintedCoast
from core.plan.coast_stretches import MOST_A_LEG, coast_targets
from tests.helpers.sample_outcome import sample_outcome


def _coverage(first_seen: dict[int, range]) -> LegCoverage:
    """The first leg with coast points that paint from a viewpoint on; keys count viewpoints."""
    outcome = sample_outcome()
    leg = outcome.coverage.legs[0]
    count = outcome.land.points.lat_deg.size
    views = []
    number = 0
    for view in leg.viewpoints:
        if view.viewpoint.cross_m != 0.0:
            continue
        state = np.full(count, CoastPaint.UNPAINTED, dtype=np.uint8)
        for begins, points in first_seen.items():
            if number >= begins:
                state[list(points)] = CoastPaint.PAINTED
        nan = np.full(count, np.nan, dtype=np.float32)
        paint = PaintedCoast(
            state=state,
            inland_m=nan,
            margin_db=nan,
            painted_fraction=None,
            behind_fraction=None,
            first_paint_inland_m=None,
        )
        views.append(replace(view, paint=paint))
        number += 1
    return replace(leg, viewpoints=tuple(views))


def _points_of_first_line() -> int:
    points = sample_outcome().land.points
    return int(np.count_nonzero(points.line == points.line[0]))


def test_what_paints_from_the_start_is_no_news() -> None:
    outcome = sample_outcome()
    run = range(_points_of_first_line())
    passage = outcome.plan.passage
    assert coast_targets(_coverage({0: run}), outcome.land.points, passage) == ()
    (target,) = coast_targets(_coverage({1: run}), outcome.land.points, passage)
    assert target.sight.object_id == "coast 1"


def test_a_stretch_stands_by_its_highest_ground_and_says_how_long_it_is() -> None:
    outcome = sample_outcome()
    count = _points_of_first_line()
    points = outcome.land.points
    heights = points.height_m.copy()
    heights[count // 2] = 321.0
    higher = replace(points, height_m=heights)
    (target,) = coast_targets(_coverage({1: range(count)}), higher, outcome.plan.passage)
    assert target.sight.height_above_water_m == pytest.approx(321.0)
    assert target.sight.position.lat_deg == pytest.approx(float(points.lat_deg[count // 2]))
    length_nm = float(points.length_m[:count].sum()) / 1852.0
    assert f"{length_nm:.1f} NM of it" in target.sight.name


def test_points_that_begin_far_apart_are_stretches_of_their_own_in_their_order() -> None:
    outcome = sample_outcome()
    count = _points_of_first_line()
    half = count // 2
    views = len(_coverage({}).viewpoints)
    coverage = _coverage({views - 1: range(half), 1: range(half, count)})
    targets = coast_targets(coverage, outcome.land.points, outcome.plan.passage)
    assert [target.sight.object_id for target in targets] == ["coast 1", "coast 2"]
    lat = outcome.land.points.lat_deg
    assert targets[0].sight.position.lat_deg in {float(v) for v in lat[half:count]}
    assert targets[1].sight.position.lat_deg in {float(v) for v in lat[:half]}
    assert len(targets) < MOST_A_LEG


def test_a_point_of_unknown_height_does_not_stand_for_its_stretch() -> None:
    # Ground behind may paint where nothing is known of the height at the shore.
    outcome = sample_outcome()
    count = _points_of_first_line()
    heights = np.full_like(outcome.land.points.height_m, np.nan)
    passage = outcome.plan.passage
    unknown = replace(outcome.land.points, height_m=heights.copy())
    (target,) = coast_targets(_coverage({1: range(count)}), unknown, passage)
    assert target.sight.height_above_water_m == 1.0
    heights[count // 2] = 30.0
    known = replace(outcome.land.points, height_m=heights)
    (target,) = coast_targets(_coverage({1: range(count)}), known, passage)
    assert target.sight.height_above_water_m == pytest.approx(30.0)
