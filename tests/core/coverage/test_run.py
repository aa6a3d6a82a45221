"""Coverage of whole passages over hand-made land."""

import threading
import time
from dataclasses import fields

import numpy as np
import pytest

from core.base.errors import Cancelled
from core.base.findings import Severity
from core.base.progress import Quiet
from core.coverage.coverage_result import (
    Cause,
    CoastState,
    Coverage,
    LegCoverage,
    SweepSettings,
    ViewpointCoverage,
)
from core.coverage.hidden_water import hidden_from, hidden_through_leg
from core.coverage.nearby import blocks_of
from core.coverage.place import Lookout
from core.coverage.polar import sweep_polar
from core.coverage.run import cover_passage
from core.coverage.terrain import prepare_terrain
from core.geodesy.position import Position
from core.land.land_model import Cell, LandModel
from core.passage.passage import Passage, Side
from tests.helpers.islands import (
    NM,
    Sea,
    box,
    flat_sea,
    headland_with_bay,
    islet,
    place,
    ridge_across,
    track,
)


def _settings(
    radius_nm: float = 8.0, antenna_m: float = 25.0, craft_m: float = 5.0
) -> SweepSettings:
    return SweepSettings(
        antenna_height_m=antenna_m,
        refraction_k=4.0 / 3.0,
        radius_m=radius_nm * NM,
        craft_height_m=craft_m,
    )


def _cover(passage: Passage, land: LandModel, settings: SweepSettings | None = None) -> Coverage:
    return cover_passage(passage, land, settings or _settings(), Quiet())


def _sea(cell_m: float = 60.0) -> Sea:
    return flat_sea(half_width_m=12.0 * NM, cell_m=cell_m)


_NORTH = track((0.0, 0.0), (0.0, 2.0 * NM))
_SHORE = box(3.0 * NM, -4.0 * NM, 5.0 * NM, 6.0 * NM)
"""A coast to starboard of the way north."""


# Status: the controls of definitions.md.


def test_unharmed_leg_is_complete() -> None:
    coverage = _cover(_NORTH, _sea().land(_SHORE, 40.0).model())
    assert coverage.legs[0].is_complete
    assert coverage.legs[0].gaps == ()
    assert coverage.findings == ()


def test_void_in_reach_makes_the_leg_incomplete() -> None:
    sea = _sea().land(_SHORE, 40.0)
    patch = box(3.0 * NM, 1.0 * NM, 3.5 * NM, 1.5 * NM)
    coverage = _cover(_NORTH, sea.without_heights(patch, Cell.VOID).model())
    (leg,) = coverage.legs
    assert not leg.is_complete
    (gap,) = leg.gaps
    assert gap.cause is Cause.VOID
    assert (gap.from_along_m, gap.to_along_m) == pytest.approx((0.0, 2.0 * NM), abs=1.0)
    assert gap.range_from_m == pytest.approx(3.0 * NM, abs=120.0)
    # from the start its north-west corner bears atan2(3, 1.5) = 063.4, from the end its
    # south-west corner 180 - atan(3) = 108.4; a ray stands for a quarter of a degree more
    assert gap.bearing_from_deg == pytest.approx(63.4, abs=1.5)
    assert gap.bearing_to_deg == pytest.approx(108.4, abs=1.5)
    (finding,) = coverage.findings
    assert finding.code == "coverage-incomplete"
    assert finding.where.leg_number == 1
    assert "(a void) from 3.0 NM off, bearing 063 to 109" in finding.what


def test_void_behind_a_nearer_ridge_leaves_the_leg_complete() -> None:
    # antenna 25 m, ridge 60 m at 3 NM: at 5 NM all under 25 + 35 * 5 / 3 = 83 m is hidden, so
    # the 50 m of an unknown cell are
    patch = box(5.0 * NM, 0.8 * NM, 5.5 * NM, 1.2 * NM)
    sea = _sea().without_heights(patch, Cell.VOID)
    hidden = sea.land(box(3.0 * NM, -4.0 * NM, 3.2 * NM, 6.0 * NM), 60.0)
    coverage = _cover(_NORTH, hidden.model())
    assert coverage.legs[0].is_complete
    assert coverage.legs[0].gaps == ()
    # a 20 m ridge hides only what is under 20 m there
    low = sea.land(box(3.0 * NM, -4.0 * NM, 3.2 * NM, 6.0 * NM), 20.0)
    assert not _cover(_NORTH, low.model()).legs[0].is_complete


def test_missing_tile_in_reach_makes_the_leg_incomplete() -> None:
    tile = box(4.0 * NM, -12.0 * NM, 12.0 * NM, 12.0 * NM)
    coverage = _cover(_NORTH, _sea().without_heights(tile, Cell.MISSING).model())
    assert not coverage.legs[0].is_complete
    assert {gap.cause for gap in coverage.legs[0].gaps} == {Cause.MISSING}
    assert "no elevation file from 4.0 NM off" in coverage.findings[0].what


def test_tile_missing_because_it_is_all_sea_marks_nothing() -> None:
    # the land model calls such cells sea; only one islet is in the files
    coverage = _cover(_NORTH, _sea().land(islet(2.0 * NM, NM, width_m=300.0), 12.0).model())
    assert coverage.legs[0].is_complete
    assert coverage.findings == ()


def test_data_that_ends_past_12_miles_is_a_note() -> None:
    sea = flat_sea(half_width_m=20.0 * NM, cell_m=200.0).without_heights(
        box(13.0 * NM, -20.1 * NM, 20.1 * NM, 20.1 * NM), Cell.BEYOND
    )
    coverage = _cover(_NORTH, sea.model(), _settings(radius_nm=16.0))
    (leg,) = coverage.legs
    assert leg.is_complete
    assert {gap.cause for gap in leg.gaps} == {Cause.BEYOND_DATA}
    assert min(gap.range_from_m for gap in leg.gaps) == pytest.approx(13.0 * NM, abs=400.0)
    (finding,) = coverage.findings
    assert (finding.severity, finding.code) == (Severity.NOTE, "data-ends-in-reach")


def test_data_that_ends_within_12_miles_makes_the_leg_incomplete() -> None:
    sea = flat_sea(half_width_m=20.0 * NM, cell_m=200.0).without_heights(
        box(11.0 * NM, -20.1 * NM, 20.1 * NM, 20.1 * NM), Cell.BEYOND
    )
    assert not _cover(_NORTH, sea.model(), _settings(radius_nm=16.0)).legs[0].is_complete


def test_leg_outside_all_data_is_incomplete_without_a_sweep() -> None:
    passage = track((0.0, 100.0 * NM), (0.0, 102.0 * NM))
    coverage = _cover(passage, _sea().model())
    assert coverage.sweep_count == 0
    assert not coverage.legs[0].is_complete
    (gap,) = coverage.legs[0].gaps
    assert (gap.cause, gap.range_from_m) == (Cause.BEYOND_DATA, 0.0)


# What is seen.


def _abreast(leg: LegCoverage, along_nm: float) -> ViewpointCoverage:
    return min(leg.on_track(), key=lambda v: abs(v.viewpoint.along_m - along_nm * NM))


def test_straight_coast_is_in_sight_and_lies_where_it_is() -> None:
    coverage = _cover(_NORTH, _sea().land(_SHORE, 40.0).model())
    view = _abreast(coverage.legs[0], 1.0)
    assert view.nearest_land_range_m == pytest.approx(3.0 * NM, abs=60.0)
    assert view.nearest_land_bearing_deg == pytest.approx(90.0, abs=1.0)
    # the west side, 10 NM, is in sight, of which 8 NM radius take in y -6.4 to 8.4: all of it,
    # and of the rest of the outline (north, south and east sides) nothing or little
    state = view.coast_state
    assert int((state == CoastState.IN_SIGHT).sum()) > 150
    assert view.coast_in_sight_fraction is not None
    assert 0.4 < view.coast_in_sight_fraction < 0.8
    assert view.first_land_inland_m is not None


def test_low_foreshore_is_hidden_and_land_begins_inland() -> None:
    # job.md 4.3.5: at 20 NM with a 25 m antenna everything under 16 m is hidden (2.21; 15.9 m
    # at k 4/3), so on a 5 % slope land is first in sight 320 m inland
    shore_m = 20.0 * NM
    slope = flat_sea(half_width_m=23.0 * NM, cell_m=60.0).land(
        box(-3.0 * NM, shore_m, 3.0 * NM, shore_m + 2000.0),
        lambda east, north: 0.05 * (north - shore_m),
    )
    passage = track((0.0, 0.0), (0.0, 400.0))
    view = _cover(passage, slope.model(), _settings(radius_nm=24.0)).legs[0].viewpoints[0]
    points_lon, points_lat = slope.model().points.lon_deg, slope.model().points.lat_deg
    south = points_lat < place(0.0, shore_m + 50.0).lat_deg
    middle = south & (np.abs(points_lon - place(0.0, 0.0).lon_deg) < 0.01)
    assert set(view.coast_state[middle]) == {CoastState.LAND_BEHIND}
    assert float(np.median(view.coast_inland_m[middle])) == pytest.approx(318.0, abs=60.0)


def test_obstacle_lower_than_the_antenna_hides_water_up_to_the_ray() -> None:
    # job.md T8: antenna 40 m, obstacle 20 m at 1.0 NM: a boat 5 m high is hidden to 1.76 NM
    # (the far edge of its top decides: the last row of cells, 1860 m off)
    wall = ridge_across(range_m=NM - 70.0, half_length_m=NM, thickness_m=80.0)
    land = flat_sea(half_width_m=6.0 * NM, cell_m=20.0).land(wall, 20.0).model()
    passage = track((0.0, 0.0), (0.0, 100.0))
    view = _cover(passage, land, _settings(5.0, antenna_m=40.0)).legs[0].viewpoints[0]
    along = np.arange(1.04, 3.0, 0.01)
    spots = [place(0.0, float(y) * NM) for y in along]
    hidden = hidden_from(
        view, np.array([s.lat_deg for s in spots]), np.array([s.lon_deg for s in spots])
    )
    assert float(along[hidden].max()) == pytest.approx(1.76, abs=0.03)
    assert hidden[along < 1.7].all()


def test_islet_shadow_for_a_low_boat_reaches_by_the_curved_rule() -> None:
    # job.md T8: antenna 30 m, islet 15 m at 2 NM, boat 2 m: hidden to 3.94 NM (curved)
    # (the far edge of its top decides: the last row of cells, 3700 m off)
    wall = ridge_across(range_m=2.0 * NM - 70.0, half_length_m=NM, thickness_m=80.0)
    land = flat_sea(half_width_m=8.0 * NM, cell_m=20.0).land(wall, 15.0).model()
    settings = _settings(6.0, antenna_m=30.0, craft_m=2.0)
    view = _cover(track((0.0, 0.0), (0.0, 100.0)), land, settings).legs[0].viewpoints[0]
    (shadow,) = view.shadows
    first, past = view.hidden.offsets[:2]
    assert past - first == 1  # one stretch due north
    assert view.hidden.from_m[first] == pytest.approx(3710.0, abs=20.0)
    assert view.hidden.to_m[first] / NM == pytest.approx(3.94, abs=0.04)
    assert shadow.range_from_m == pytest.approx(3710.0, abs=20.0)
    # to its ends the wall is 2.236 NM off, so the shadow is longer there
    assert shadow.range_to_m > view.hidden.to_m[first]
    # the wall spans atan(1 / 2) = 26.6 deg each side
    assert shadow.bearing_from_deg == pytest.approx(333.4, abs=1.0)
    assert shadow.bearing_to_deg == pytest.approx(26.6, abs=1.0)


def test_harbour_behind_a_headland_opens_3_miles_before_it_is_abeam() -> None:
    # job.md T25: head at (1.0, 0), mouth at (2.0, 1.5), ship on x = 0: opens at y = -1.5
    head = headland_with_bay(tip_east_m=1.0 * NM, tip_north_m=0.0)
    passage = track((0.0, -4.0 * NM), (0.0, 1.0 * NM))
    (leg,) = _cover(passage, _sea(30.0).land(head, 60.0).model()).legs
    mouth = place(2.0 * NM, 1.5 * NM)
    opens_m = next(
        v.viewpoint.along_m
        for v in leg.on_track()
        if not hidden_from(v, np.array([mouth.lat_deg]), np.array([mouth.lon_deg]))[0]
    )
    # 2.5 NM along, known to one viewpoint
    assert 2.5 * NM - 60.0 <= opens_m <= 2.75 * NM + 60.0


def test_bay_is_hidden_through_the_leg_only_where_no_viewpoint_sees_it() -> None:
    head = headland_with_bay(tip_east_m=1.0 * NM, tip_north_m=0.0)
    passage = track((0.0, -5.0 * NM), (0.0, -2.5 * NM))
    (leg,) = _cover(passage, _sea(30.0).land(head, 60.0).model()).legs
    # at 3 NM off the track: in the bay just behind the head, and far out abreast of the ship
    along = np.array([5.5, 4.0, 5.5, 4.0]) * NM
    cross = np.array([-2.0, -2.0, 3.0, 3.0]) * NM
    lat, lon = passage.line(0).offset(along, cross)
    through = hidden_through_leg(
        leg, along_m=along, cross_m=cross, lat_deg=lat, lon_deg=lon, radius_m=12.0 * NM
    )
    assert through.hidden.tolist() == [False, False, True, False]
    assert through.computed.all()


def test_shadow_is_followed_with_side_and_cause() -> None:
    passage = track((0.0, 0.0), (0.0, 2.0 * NM))
    sea = _sea(30.0).land(islet(1.5 * NM, 1.0 * NM, width_m=900.0), 60.0)
    (leg,) = _cover(passage, sea.model()).legs
    (shadow,) = leg.shadows
    assert shadow.side is Side.STARBOARD
    assert (shadow.from_along_m, shadow.to_along_m) == pytest.approx((0.0, 2.0 * NM), abs=1.0)
    assert shadow.cause.startswith("land 60 m high, 1.")
    # from the start the islet bears 50 to 65, from the end 115 to 130
    assert shadow.bearing_from_deg == pytest.approx(44.0, abs=6.0)
    assert shadow.bearing_to_deg == pytest.approx(136.0, abs=6.0)
    (port,) = _cover(track((0.0, 2.0 * NM), (0.0, 0.0)), sea.model()).legs[0].shadows
    assert port.side is Side.PORT


# Findings.


def test_leg_across_land_is_marked_and_must_be_fixed() -> None:
    land = _sea().land(box(-NM, 0.8 * NM, NM, 1.2 * NM), 50.0).model()
    coverage = _cover(_NORTH, land)
    assert coverage.legs[0].crosses_land
    assert [f.code for f in coverage.findings if f.severity is Severity.MUST_FIX] == [
        "leg-across-land"
    ]


# How it runs.


def test_open_ocean_costs_no_sweeps() -> None:
    passage = track((0.0, 0.0), (0.0, 4.0 * NM))
    coverage = _cover(passage, flat_sea(half_width_m=14.0 * NM, cell_m=120.0).model())
    (leg,) = coverage.legs
    assert coverage.sweep_count == 0
    assert len(leg.viewpoints) == 17
    assert leg.is_complete
    assert {v.coast_in_sight_fraction for v in leg.viewpoints} == {None}
    assert all(np.isnan(v.horizon_slope).all() for v in leg.viewpoints)


def test_open_sea_answer_is_what_a_sweep_would_say() -> None:
    land = flat_sea(half_width_m=14.0 * NM, cell_m=120.0).model()
    terrain = prepare_terrain(land)
    spared = Lookout(land, terrain, blocks_of(land), _settings()).look(place(0.0, 0.0))
    swept = sweep_polar(terrain, place(0.0, 0.0), _settings())
    assert not spared.is_swept
    assert np.array_equal(spared.horizon_slope, swept.horizon_slope, equal_nan=True)
    assert np.array_equal(spared.hidden.offsets, swept.hidden.offsets)
    assert spared.nearest_land_range_m is swept.nearest_land_range_m is None
    assert not np.isfinite(swept.unknown_from_m).any()


def test_waypoint_is_swept_once_but_stands_on_both_legs() -> None:
    passage = track((0.0, 0.0), (0.0, NM), (NM, NM))
    coverage = _cover(passage, _sea().land(islet(6.0 * NM, 0.0, width_m=600.0), 30.0).model())
    places = [v.viewpoint.position for leg in coverage.legs for v in leg.viewpoints]
    assert len(places) == 10
    assert coverage.sweep_count == len(set(places)) == 9
    before, after = coverage.legs[0].viewpoints[-1], coverage.legs[1].viewpoints[0]
    assert before.horizon_slope is after.horizon_slope
    assert (before.viewpoint.leg_index, after.viewpoint.leg_index) == (0, 1)


def test_one_thread_and_two_give_the_same_bits() -> None:
    land = _sea().land(headland_with_bay(tip_east_m=NM, tip_north_m=0.0), 60.0).model()
    passage = track((0.0, -3.0 * NM), (0.0, 0.0), (-2.0 * NM, 1.0 * NM))
    one, two = (cover_passage(passage, land, _settings(), Quiet(), thread_count=n) for n in (1, 2))
    assert one.sweep_count == two.sweep_count
    assert one.findings == two.findings
    for leg_one, leg_two in zip(one.legs, two.legs, strict=True):
        assert (leg_one.gaps, leg_one.shadows) == (leg_two.gaps, leg_two.shadows)
        for a, b in zip(leg_one.viewpoints, leg_two.viewpoints, strict=True):
            for field in fields(a):
                left, right = getattr(a, field.name), getattr(b, field.name)
                if isinstance(left, np.ndarray):
                    assert left.tobytes() == right.tobytes(), field.name
                elif field.name == "hidden":
                    assert left.from_m.tobytes() == right.from_m.tobytes()
                    assert left.to_m.tobytes() == right.to_m.tobytes()
                    assert left.offsets.tobytes() == right.offsets.tobytes()
                else:
                    assert left == right, field.name


def test_legs_are_handed_over_in_order_and_named_in_the_progress() -> None:
    class Listening:
        def __init__(self) -> None:
            self.texts: list[str] = []
            self.fractions: list[float] = []

        def report(self, fraction: float, text: str = "") -> None:
            self.texts.append(text)
            self.fractions.append(fraction)

    progress, handed = Listening(), list[int]()
    passage = track((0.0, 0.0), (0.0, NM), (NM, NM), (NM, 0.0))
    land = _sea().land(_SHORE, 40.0).model()
    coverage = cover_passage(
        passage, land, _settings(), progress, leg_done=lambda leg: handed.append(leg.leg_index)
    )
    assert handed == [0, 1, 2] == [leg.leg_index for leg in coverage.legs]
    assert "Coverage: leg 2 of 3" in progress.texts
    assert progress.fractions == sorted(progress.fractions)
    assert progress.fractions[-1] == 1.0


def test_stop_is_obeyed_at_once_and_leaves_nothing_running() -> None:
    class Stopping:
        def __init__(self) -> None:
            self.asked_at: float | None = None

        def report(self, fraction: float, text: str = "") -> None:
            del text
            if fraction > 0.05:
                self.asked_at = self.asked_at or time.perf_counter()
                raise Cancelled

    land = _sea(30.0).land(headland_with_bay(tip_east_m=NM, tip_north_m=0.0), 60.0).model()
    passage = track((0.0, -5.0 * NM), (0.0, 5.0 * NM))
    progress = Stopping()
    with pytest.raises(Cancelled):
        cover_passage(passage, land, _settings(), progress)
    assert progress.asked_at is not None
    assert time.perf_counter() - progress.asked_at < 0.2
    assert not [t for t in threading.enumerate() if t.name.startswith("sweep")]


def test_failure_in_a_sweep_is_raised_and_leaves_nothing_running(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("invented failure")

    monkeypatch.setattr("core.coverage.place.sweep_polar", broken)
    with pytest.raises(RuntimeError, match="invented failure"):
        _cover(_NORTH, _sea().land(_SHORE, 40.0).model())
    assert not [t for t in threading.enumerate() if t.name.startswith("sweep")]


def test_positions_of_viewpoints_are_positions() -> None:
    coverage = _cover(_NORTH, _sea().land(_SHORE, 40.0).model())
    assert all(isinstance(v.viewpoint.position, Position) for v in coverage.legs[0].viewpoints)
