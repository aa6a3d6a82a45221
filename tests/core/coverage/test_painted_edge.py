"""The painted edge of a leg: which viewpoint it is taken from, where it lies, where it breaks."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.progress import Quiet
from core.coverage.coverage_result import (
    CoastPaint,
    HiddenWater,
    PaintedCoast,
    PaintedEdge,
    SweepSettings,
    Viewpoint,
    ViewpointCoverage,
)
from core.coverage.painted_edge import edge_runs, painted_edge_of
from core.coverage.run import cover_passage
from core.land.coast import CoastPoints
from core.land.land_model import LandModel
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.beaches import beach, plane_m
from tests.helpers.islands import NM, Sea, box, place, track

_NAN = float("nan")


def _points(*east_north_m: tuple[float, float], starts: tuple[int, ...] = (0,)) -> CoastPoints:
    places = [place(*at) for at in east_north_m]
    count = len(places)
    return CoastPoints(
        lat_deg=np.array([p.lat_deg for p in places]),
        lon_deg=np.array([p.lon_deg for p in places]),
        length_m=np.full(count, 100.0),
        height_m=np.full(count, 10.0, dtype=np.float32),
        line=np.cumsum([i in starts for i in range(count)]).astype(np.int64) - 1,
        is_line_start=np.array([i in starts for i in range(count)]),
    )


def _view(north_m: float, *found: tuple[CoastPaint, float]) -> ViewpointCoverage:
    """A viewpoint on a track that runs north through the centre, and what paints from it."""
    count = len(found)
    return ViewpointCoverage(
        viewpoint=Viewpoint(
            leg_index=0, along_m=north_m, cross_m=0.0, position=place(0.0, north_m)
        ),
        nearest_land_range_m=None,
        nearest_land_bearing_deg=None,
        coast_state=np.ones(count, dtype=np.uint8),
        coast_inland_m=np.zeros(count, dtype=np.float32),
        coast_in_sight_fraction=None,
        first_land_inland_m=None,
        horizon_slope=np.zeros(1, dtype=np.float32),
        hidden=HiddenWater(
            offsets=np.zeros(2, dtype=np.int64),
            from_m=np.zeros(0, dtype=np.float32),
            to_m=np.zeros(0, dtype=np.float32),
        ),
        shadows=(),
        paint=PaintedCoast(
            state=np.array([int(state) for state, _m in found], dtype=np.uint8),
            inland_m=np.array([m for _state, m in found], dtype=np.float32),
            margin_db=np.zeros(count, dtype=np.float32),
            painted_fraction=None,
            behind_fraction=None,
            first_paint_inland_m=None,
        ),
    )


def _made(points: CoastPoints, *views: ViewpointCoverage) -> PaintedEdge:
    edge = painted_edge_of(points, views)
    assert edge is not None
    return edge


def test_it_lies_least_inland_and_on_the_bearing_of_the_nearest_that_says_so() -> None:
    points = _points((3000.0, 4000.0))
    behind, painted = CoastPaint.PAINTED_BEHIND, CoastPaint.PAINTED
    # From 5000 m on a slant 520 m, abeam 500 m: one edge to a range cell, the nearer one's.
    edge = _made(points, _view(0.0, (behind, 480.0)), _view(4000.0, (behind, 500.0)))
    east, north = plane_m(edge.lat_deg, edge.lon_deg)
    assert east[0] == pytest.approx(3500.0, abs=0.1)
    assert north[0] == pytest.approx(4000.0, abs=0.1)
    # From the slant it paints much nearer to the water: that is what the leg gets of it.
    edge = _made(points, _view(0.0, (painted, 50.0)), _view(4000.0, (behind, 500.0)))
    east, north = plane_m(edge.lat_deg, edge.lon_deg)
    assert east[0] == pytest.approx(3000.0 + 50.0 * 0.6, abs=0.1)
    assert north[0] == pytest.approx(4000.0 + 50.0 * 0.8, abs=0.1)
    assert edge.state[0] == painted
    assert edge.inland_m[0] == 50.0


def test_what_nowhere_paints_has_no_edge_and_unknown_is_not_called_unpainted() -> None:
    points = _points((3000.0, 0.0), (3000.0, 100.0), (3000.0, 200.0), (3000.0, 300.0))
    no, unknown, out = CoastPaint.UNPAINTED, CoastPaint.UNKNOWN, CoastPaint.OUTSIDE
    paints = (CoastPaint.PAINTED_BEHIND, 200.0)
    edge = _made(
        points,
        _view(0.0, (no, _NAN), (no, _NAN), (out, _NAN), (unknown, _NAN)),
        _view(400.0, (out, _NAN), (unknown, _NAN), (out, _NAN), paints),
    )
    assert [CoastPaint(int(s)) for s in edge.state] == [no, unknown, out, paints[0]]
    assert list(np.isfinite(edge.lat_deg)) == [False, False, False, True]
    assert list(np.isfinite(edge.inland_m)) == [False, False, False, True]
    silent = replace(_view(0.0, (no, _NAN)), paint=None)
    assert painted_edge_of(points, (silent,)) is None


def test_it_breaks_where_nothing_paints_where_it_steps_and_at_the_end_of_a_coast() -> None:
    points = _points(*((3000.0, 100.0 * i) for i in range(11)), starts=(0, 9))
    inland_m = (0.0, 40.0, 150.0, 400.0, 430.0, _NAN, 430.0, 430.0, 430.0, 430.0, 430.0)
    behind = CoastPaint.PAINTED_BEHIND
    views = [
        _view(100.0 * i, *((behind, m if j == i else _NAN) for j, m in enumerate(inland_m)))
        for i in range(11)
    ]
    runs = [list(run) for run in edge_runs(points, _made(points, *views))]
    assert runs == [[0, 1, 2], [3, 4], [6, 7, 8], [9, 10]]


def _covered_edge(
    land: LandModel, preset: Preset = Preset.TYPICAL, pulse: int = -1
) -> tuple[PaintedEdge, np.ndarray]:
    """The edge from a track that passes a shore 4000 m to the east, and that shore's points."""
    radar = preset_set(Band.X, preset)
    budget = EchoBudget(
        radar=radar, pulse=radar.pulses[pulse], antenna_height_m=15.0, conditions=Conditions()
    )
    settings = SweepSettings(
        antenna_height_m=15.0,
        refraction_k=budget.conditions.refraction_k,
        radius_m=5.0 * NM,
    )
    passage = track((0.0, -1500.0), (0.0, 1500.0))
    coverage = cover_passage(passage, land, settings, Quiet(), budget=budget)
    edge = coverage.legs[0].painted_edge
    assert edge is not None
    east, north = plane_m(land.points.lat_deg, land.points.lon_deg)
    return edge, np.asarray((np.abs(east - 4000.0) < 1.0) & (np.abs(north) < 800.0))


def _sea() -> Sea:
    return Sea(half_width_m=6.0 * NM, cell_m=25.0)


def test_the_edge_of_a_beach_stands_at_its_bank_and_moves_with_the_tide() -> None:
    # Handbook 8: the beach itself is too weak for the lesser set, the bank 600 m in paints.
    shore = box(4000.0, -3000.0, 5200.0, 3000.0)
    land = _sea().land(shore, beach(0.0)).model()
    points = land.points
    edge, front = _covered_edge(land, Preset.MINIMUM, 0)
    east, north = plane_m(edge.lat_deg[front], edge.lon_deg[front])
    assert set(edge.state[front]) == {CoastPaint.PAINTED_BEHIND}
    assert np.median(east) == pytest.approx(4600.0, abs=60.0)
    # Square off from the viewpoint abeam, at most half of 0.25 NM away, not from one far ahead.
    _east, charted = plane_m(points.lat_deg[front], points.lon_deg[front])
    assert np.abs(north - charted).max() < 600.0 * (NM / 8.0) / 4000.0 + 5.0
    # job.md T13: 1:50 and 5 m of tide, 250 m, with the set that paints the beach itself.
    edges = []
    for water_m in (0.0, 5.0):
        edge, front = _covered_edge(_sea().land(shore, beach(water_m)).model())
        edges.append(float(np.median(plane_m(edge.lat_deg[front], edge.lon_deg[front])[0])))
    assert edges[1] - edges[0] == pytest.approx(250.0, abs=60.0)


def test_the_edge_of_a_cliff_is_the_waterline() -> None:
    land = _sea().land(box(4000.0, -3000.0, 5000.0, 3000.0), 40.0).model()
    edge, front = _covered_edge(land)
    east, _north = plane_m(edge.lat_deg[front], edge.lon_deg[front])
    assert set(edge.state[front]) == {CoastPaint.PAINTED}
    assert np.abs(east - 4000.0).max() <= 30.0
