"""Viewpoints stand where the rule says."""

from itertools import pairwise

import numpy as np
import pytest

from core.coverage.nearby import blocks_of
from core.coverage.viewpoints import SPACING_M, along_of, viewpoints_of
from tests.helpers.islands import NM, box, flat_sea, track


def test_places_are_at_most_a_quarter_mile_apart_and_hold_both_ends() -> None:
    for length_m in (100.0, 463.0, 463.1, 5.0 * NM, 7777.7):
        along = along_of(length_m)
        assert along[0] == 0.0
        assert along[-1] == length_m
        gaps = [b - a for a, b in pairwise(along)]
        assert max(gaps) <= SPACING_M + 0.01
    assert len(along_of(5.0 * NM)) == 21


def test_open_sea_needs_no_corridor_edges() -> None:
    passage = track((0.0, 0.0), (0.0, 2.0 * NM))
    viewpoints = viewpoints_of(passage, 0, blocks_of(flat_sea(half_width_m=8000.0).model()))
    assert len(viewpoints) == 9
    assert {v.cross_m for v in viewpoints} == {0.0}


def test_edges_are_taken_more_often_the_nearer_the_land() -> None:
    # corridor 185.2 m: land begins 300 m (1.6 corridors) to starboard of the first viewpoints,
    # and ends 1000 m along; 12 corridors are 2222 m
    shore = box(300.0, -3000.0, 3000.0, 1000.0)
    blocks = blocks_of(flat_sea(half_width_m=9000.0, cell_m=30.0).land(shore, 20.0).model())
    viewpoints = viewpoints_of(track((0.0, 0.0), (0.0, 4.0 * NM)), 0, blocks)
    crosses: dict[float, list[float]] = {}
    for viewpoint in viewpoints:
        crosses.setdefault(viewpoint.along_m, []).append(viewpoint.cross_m)
    rows = [crosses[along] for along in sorted(crosses)]
    both = [-185.2, 0.0, 185.2]
    assert rows[0] == rows[1] == rows[2] == both
    # every second one between 4 and 12 corridors off
    assert rows[4] == both
    assert rows[5] == [0.0]
    assert all(row == [0.0] for row in rows[9:])
    order = [(v.along_m, v.cross_m) for v in viewpoints]
    assert order == sorted(order)


def test_legs_share_the_position_of_their_waypoint() -> None:
    passage = track((0.0, 0.0), (0.0, 2.0 * NM), (2.0 * NM, 2.0 * NM))
    blocks = blocks_of(flat_sea(half_width_m=8000.0).model())
    end = viewpoints_of(passage, 0, blocks)[-1]
    start = viewpoints_of(passage, 1, blocks)[0]
    assert end.position == start.position == passage.waypoints[1].position
    assert (end.leg_index, start.leg_index) == (0, 1)
    assert end.along_m == pytest.approx(2.0 * NM, abs=0.1)


def test_edge_viewpoints_lie_square_off_the_track() -> None:
    shore = box(300.0, -3000.0, 3000.0, 6000.0)
    blocks = blocks_of(flat_sea(half_width_m=9000.0).land(shore, 20.0).model())
    passage = track((0.0, 0.0), (0.0, 2.0 * NM))
    line = passage.line(0)
    for viewpoint in viewpoints_of(passage, 0, blocks):
        along, cross = line.track_coordinates(
            np.array([viewpoint.position.lat_deg]), np.array([viewpoint.position.lon_deg])
        )
        assert float(along[0]) == pytest.approx(viewpoint.along_m, abs=0.1)
        assert float(cross[0]) == pytest.approx(viewpoint.cross_m, abs=0.1)
