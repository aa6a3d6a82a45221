"""Windows by error, screen and sight. Answers by hand; land is invented."""

import numpy as np
import pytest

from core.base.arrays import BoolArray, Float32Array
from core.coverage.coverage_result import CoastState, LegCoverage, Viewpoint, ViewpointCoverage
from core.geodesy.position import Position
from core.plan.error_budget import ErrorBudget
from core.plan.feature import Feature
from core.plan.leg_sight import FeatureSight, LegSight, leg_sight
from core.plan.plan_result import Edge, ObjectKind
from core.plan.rules import DEFAULT_RULES
from core.plan.screen import Screen
from core.plan.usable_window import (
    FeatureTrack,
    ScaleSpan,
    Setting,
    UsableWindow,
    geometric_window,
    geometric_windows,
    greatest_error_m,
    track_window,
)
from tests.helpers.islands import NM


def setting(scale_nm: float, *, off_centre: float = 0.0, limit_m: float = 400.0) -> Setting:
    return Setting(
        screen=Screen(scale_m=scale_nm * NM, off_centre_ratio=off_centre),
        budget=ErrorBudget(
            range_error_m=60.0, bearing_error_deg=0.7, fixed_error_m=0.0, limit_m=limit_m
        ),
    )


def window_nm(along_nm: float, cross_nm: float, rule: Setting, end_nm: float = 20.0) -> object:
    window = geometric_window(
        along_m=along_nm * NM, cross_m=cross_nm * NM, setting=rule, end_m=end_nm * NM
    )
    return None if window is None else pytest.approx((window[0] / NM, window[1] / NM))


def test_screen_cuts_the_window_with_a_tenth_to_its_edge() -> None:
    # 2.7^2 - 1.62^2 = 2.16^2.
    assert window_nm(10.0, 1.62, setting(3.0)) == (7.84, 12.16)


def test_error_limit_cuts_the_window_where_it_is_narrower() -> None:
    # 0.7 deg over x is 122 m at 9987 m with the range error of 60 m sin b next to nothing there.
    window = geometric_window(
        along_m=30_000.0, cross_m=500.0, setting=setting(12.0, limit_m=122.0), end_m=60_000.0
    )
    assert window is not None
    assert 30_000.0 - window[0] == pytest.approx(9_985.0, abs=5.0)
    assert window[1] - 30_000.0 == pytest.approx(30_000.0 - window[0])


def test_windows_end_with_the_leg_and_begin_with_it() -> None:
    assert window_nm(0.5, 1.62, setting(3.0), 2.0) == (0.0, 2.0)
    assert window_nm(-5.0, 1.62, setting(3.0), 2.0) is None


def test_an_object_farther_off_than_the_screen_shows_has_no_window() -> None:
    assert window_nm(5.0, 2.8, setting(3.0)) is None


def test_off_centring_sees_ahead_what_it_loses_astern() -> None:
    # Middle 1.5 NM ahead: ahead to 1.5 + 2.16, astern to 2.16 - 1.5.
    assert window_nm(10.0, 1.62, setting(3.0, off_centre=0.5)) == (10.0 - 3.66, 10.0 + 0.66)


def test_windows_of_two_scales_join_where_the_scale_changes() -> None:
    spans = (
        ScaleSpan(from_along_m=0.0, to_along_m=9.0 * NM, setting=setting(6.0)),
        ScaleSpan(from_along_m=9.0 * NM, to_along_m=20.0 * NM, setting=setting(3.0)),
    )
    (window,) = geometric_windows(along_m=10.0 * NM, cross_m=1.62 * NM, spans=spans)
    assert window[0] / NM == pytest.approx(10.0 - np.sqrt(5.4**2 - 1.62**2))
    assert window[1] / NM == pytest.approx(12.16)
    assert greatest_error_m(
        along_m=10.0 * NM, cross_m=1.62 * NM, windows=(window,), spans=spans
    ) == pytest.approx(
        np.hypot(60.0 * 1.62 / 5.4, (10.0 * NM - window[0]) * np.radians(0.7)), rel=1e-3
    )


def viewpoints(*places: tuple[float, float]) -> LegCoverage:
    """Coverage whose viewpoints stand at (along NM, cross m); coast states are set apart."""
    nothing = np.zeros(0, dtype=np.float32)
    return LegCoverage(
        leg_index=0,
        viewpoints=tuple(
            ViewpointCoverage(
                viewpoint=Viewpoint(
                    leg_index=0,
                    along_m=along * NM,
                    cross_m=cross,
                    position=Position(lat_deg=0.0, lon_deg=0.0),
                ),
                nearest_land_range_m=None,
                nearest_land_bearing_deg=None,
                coast_state=np.zeros(0, dtype=np.uint8),
                coast_inland_m=nothing,
                coast_in_sight_fraction=None,
                first_land_inland_m=None,
                horizon_slope=nothing,
                hidden=None,  # type: ignore[arg-type]  # not looked at here
                shadows=(),
            )
            for along, cross in places
        ),
        is_complete=True,
        gaps=(),
        shadows=(),
        crosses_land=False,
    )


def on_track(count: int) -> LegSight:
    coverage = viewpoints(*((float(i), 0.0) for i in range(count)))
    return leg_sight(coverage, lambda _feature, _view: CoastState.HIDDEN, 30.0)


def test_sight_is_granted_only_between_places_that_both_see() -> None:
    sight = on_track(6)
    seen = np.array([True, True, False, True, True, True])
    assert sight.stretches(seen) == ((0.0, NM), (3.0 * NM, 5.0 * NM))


def test_corridor_edges_must_see_as_well() -> None:
    coverage = viewpoints((0.0, 0.0), (1.0, -185.0), (1.0, 0.0), (1.0, 185.0), (2.0, 0.0))
    sight = leg_sight(coverage, lambda _feature, _view: CoastState.HIDDEN, 30.0)
    all_see = np.ones(5, dtype=np.bool_)
    assert sight.stretches(all_see) == ((0.0, 2.0 * NM),)
    one_edge_blind = all_see.copy()
    one_edge_blind[1] = False
    assert sight.stretches(one_edge_blind) == ()


def track_of(
    points: list[tuple[float, float]],
    seen: BoolArray,
    extent_m: float,
    inland_m: Float32Array | None = None,
) -> FeatureTrack:
    """A feature with waterline points at (along NM, cross NM)."""
    along = np.array([p[0] for p in points]) * NM
    cross = np.array([p[1] for p in points]) * NM
    feature = Feature(
        key="line 0",
        kind=ObjectKind.ISLET,
        lat_deg=along / NM / 60.0,
        lon_deg=cross / NM / 60.0,
        point_index=np.arange(len(points)),
        height_m=20.0,
        rise=None,
        extent_m=extent_m,
        rounding_m=100.0,
        isolation_m=5000.0,
    )
    return FeatureTrack(
        feature=feature,
        along_m=along,
        cross_m=cross,
        sight=FeatureSight(
            seen=seen,
            unknown=np.zeros_like(seen),
            inland_m=np.zeros(seen.shape, np.float32) if inland_m is None else inland_m,
        ),
    )


def uniform(rule: Setting, end_nm: float) -> tuple[ScaleSpan, ...]:
    return (ScaleSpan(from_along_m=0.0, to_along_m=end_nm * NM, setting=rule),)


def test_edge_is_the_nearest_waterline_point_in_sight() -> None:
    # The nearest point of all, 1.0 NM off, is never in sight; the one at 1.1 NM is.
    seen = np.ones((11, 3), dtype=np.bool_)
    seen[:, 0] = False
    track = track_of([(5.0, 1.0), (5.3, 1.1), (5.6, 1.2)], seen, 800.0)
    window = track_window(
        track, on_track(11), spans=uniform(setting(6.0), 10.0), near_m=100.0, rules=DEFAULT_RULES
    )
    assert window is not None
    assert window.edge.edge is Edge.NEAR_SIDE
    assert window.edge.cross_m / NM == pytest.approx(1.1)


def test_an_object_narrower_than_half_a_cable_counts_by_its_position() -> None:
    seen = np.ones((11, 2), dtype=np.bool_)
    track = track_of([(5.0, 1.00), (5.0, 1.04)], seen, 0.04 * NM)
    window = track_window(
        track, on_track(11), spans=uniform(setting(6.0), 10.0), near_m=100.0, rules=DEFAULT_RULES
    )
    assert window is not None
    assert window.edge.edge is Edge.POSITION
    assert window.edge.cross_m / NM == pytest.approx(1.02)


def test_window_is_cut_where_the_edge_is_hidden_and_what_is_lost_is_known() -> None:
    seen = np.ones((11, 1), dtype=np.bool_)
    seen[:5] = False
    track = track_of([(5.0, 1.0)], seen, 200.0)
    window = track_window(
        track, on_track(11), spans=uniform(setting(12.0), 10.0), near_m=100.0, rules=DEFAULT_RULES
    )
    assert window is not None
    assert window.windows == ((5.0 * NM, 10.0 * NM),)
    assert window.masked_m == pytest.approx(5.0 * NM)


def test_an_object_never_in_sight_has_no_window() -> None:
    track = track_of([(5.0, 1.0)], np.zeros((11, 1), dtype=np.bool_), 200.0)
    assert (
        track_window(
            track,
            on_track(11),
            spans=uniform(setting(6.0), 10.0),
            near_m=100.0,
            rules=DEFAULT_RULES,
        )
        is None
    )


def _paints(inland_m: Float32Array, *points: tuple[float, float]) -> UsableWindow:
    track = track_of([*points], np.isfinite(inland_m), 800.0, inland_m)
    window = track_window(
        track, on_track(11), spans=uniform(setting(6.0), 10.0), near_m=100.0, rules=DEFAULT_RULES
    )
    assert window is not None
    return window


def test_the_edge_is_the_painted_one_where_that_lies_more_than_half_a_cell_inside() -> None:
    # The coast is 1 NM off, abeam at 5 NM; from every mile of the leg it paints 80 m behind. On
    # the 6 NM scale all of the leg is in the window. From either end, 5 NM before or after abeam,
    # 80 m behind is 80 / sqrt(26) = 15.7 m farther off the track and 78.4 m farther along: the
    # least. Abeam it is all of the 80 m, so it paints up to 64.3 m farther off than the edge.
    window = _paints(np.full((11, 1), 80.0, np.float32), (5.0, 1.0))
    assert window.edge.cross_m == pytest.approx(NM + 15.69, abs=0.01)
    assert window.edge.along_m == pytest.approx(5.0 * NM + 78.45, abs=0.01)
    assert window.edge.inside_m == pytest.approx(80.0)
    assert window.spread_m == pytest.approx(80.0 - 15.69, abs=0.01)


def test_less_than_half_a_cell_inside_the_edge_stays_and_the_error_grows() -> None:
    # Half of 30 m.
    window = _paints(np.full((11, 1), 14.0, np.float32), (5.0, 1.0))
    assert window.edge.cross_m == NM
    assert window.edge.inside_m == 0.0
    assert window.spread_m == pytest.approx(14.0)


def test_an_edge_that_paints_at_the_waterline_from_anywhere_stays_there() -> None:
    inland_m = np.full((11, 1), 60.0, np.float32)
    inland_m[2] = 0.0
    window = _paints(inland_m, (5.0, 1.0))
    assert (window.edge.cross_m, window.edge.inside_m) == (NM, 0.0)
    assert window.spread_m == pytest.approx(60.0)
    steady = _paints(np.zeros((11, 1), np.float32), (5.0, 1.0))
    assert steady.spread_m == 0.0
    assert steady.windows == window.windows


def test_of_two_places_the_one_that_paints_nearer_is_the_edge() -> None:
    # The nearer one paints 90 m behind and from abeam alone, the other at the waterline.
    inland_m = np.full((11, 2), np.nan, np.float32)
    inland_m[:, 1] = 0.0
    inland_m[5, 0] = 90.0
    window = _paints(inland_m, (5.0, 1.0), (5.03, 1.03))
    assert window.edge.cross_m == pytest.approx(1.03 * NM)
    assert window.spread_m == 0.0


def test_what_counts_by_its_position_is_not_moved() -> None:
    track = track_of(
        [(5.0, 1.00), (5.0, 1.04)],
        np.ones((11, 2), dtype=np.bool_),
        0.04 * NM,
        np.full((11, 2), 60.0, np.float32),
    )
    window = track_window(
        track, on_track(11), spans=uniform(setting(6.0), 10.0), near_m=100.0, rules=DEFAULT_RULES
    )
    assert window is not None
    assert window.edge.cross_m / NM == pytest.approx(1.02)
    assert (window.edge.inside_m, window.spread_m) == (0.0, 0.0)
