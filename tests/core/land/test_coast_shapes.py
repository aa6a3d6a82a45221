import numpy as np
import pytest
import shapely

from core.land.coast_shapes import clipped, joined, merged_lines, outside, shorelines, without_cuts

BOX = (-30.0, 39.0, -29.0, 40.0)


def _coordinates(*points: tuple[float, float]) -> np.ndarray:
    return np.array(points, dtype=np.float64)


def test_land_cut_off_at_the_box_has_no_shore_along_it() -> None:
    land = _coordinates((-29.5, 39.5), (-29.0, 39.4), (-29.0, 39.8), (-29.5, 39.5))
    (shore,) = without_cuts(land, [BOX])
    assert shore.tolist() == [[-29.0, 39.8], [-29.5, 39.5], [-29.0, 39.4]]


def test_whole_box_of_land_has_no_shore() -> None:
    assert shorelines([shapely.box(*BOX)], [BOX]) == []


def test_corner_of_land_is_cut_along_both_edges() -> None:
    land = _coordinates((-29.5, 40.0), (-29.0, 39.5), (-29.0, 40.0), (-29.5, 40.0))
    (shore,) = without_cuts(land, [BOX])
    assert shore.tolist() == [[-29.5, 40.0], [-29.0, 39.5]]


def test_short_step_on_the_edge_is_coast() -> None:
    # 0.0005 deg of latitude is about 56 m, less than the 100 m of the definition.
    land = _coordinates((-29.5, 39.5), (-29.0, 39.5), (-29.0, 39.5005), (-29.5, 39.5))
    (shore,) = without_cuts(land, [BOX])
    assert len(shore) == 4


def test_many_short_steps_along_the_edge_are_one_cut() -> None:
    edge = [(-29.0, lat) for lat in np.arange(39.5, 39.6, 0.0005)]
    land = _coordinates((-29.5, 39.5), *edge, (-29.5, 39.5))
    (shore,) = without_cuts(land, [BOX])
    assert len(shore) == 3


def test_long_straight_coast_inside_the_box_stays() -> None:
    land = _coordinates((-29.6, 39.2), (-29.4, 39.2), (-29.4, 39.4), (-29.6, 39.4), (-29.6, 39.2))
    (shore,) = without_cuts(land, [BOX])
    assert shore.tolist() == land.tolist()


def test_ring_that_starts_on_the_cut_is_not_split_there() -> None:
    land = _coordinates(
        (-29.0, 39.5), (-29.0, 39.8), (-29.5, 39.7), (-29.6, 39.6), (-29.0, 39.4), (-29.0, 39.5)
    )
    (shore,) = without_cuts(land, [BOX])
    assert shore.tolist() == [[-29.0, 39.8], [-29.5, 39.7], [-29.6, 39.6], [-29.0, 39.4]]


def test_island_touching_two_edges_leaves_two_shores() -> None:
    land = _coordinates((-30.0, 39.4), (-29.0, 39.4), (-29.0, 39.6), (-30.0, 39.6), (-30.0, 39.4))
    assert len(without_cuts(land, [BOX])) == 2


def test_tiles_of_one_island_are_joined() -> None:
    one, other = shapely.box(-29.6, 39.2, -29.5, 39.4), shapely.box(-29.5, 39.2, -29.4, 39.4)
    apart = shapely.box(-29.3, 39.2, -29.2, 39.4)
    whole = joined([one, other, apart])
    assert sorted(round(p.area, 4) for p in whole) == [0.02, 0.04]
    assert all(len(p.interiors) == 0 for p in whole)


def test_ring_inside_stays_closed_and_ring_across_is_one_open_line() -> None:
    inside = shapely.LinearRing([(-29.6, 39.6), (-29.5, 39.6), (-29.5, 39.7)])
    # Starts inside, leaves and comes back: two pieces of the cut belong together.
    across = shapely.LinearRing([(-29.9, 39.2), (-30.1, 39.2), (-30.1, 39.3), (-29.9, 39.3)])
    kept = clipped([shapely.LineString(inside), shapely.LineString(across)], shapely.box(*BOX))
    assert [line.is_closed for line in kept] == [True, False]
    assert kept[1].length == pytest.approx(0.3)


def test_coarser_shore_is_kept_only_outside_the_finer_area() -> None:
    line = shapely.LineString([(-30.5, 39.5), (-29.5, 39.5)])
    (kept,) = outside([line], [BOX])
    assert kept.bounds == (-30.5, 39.5, -30.0, 39.5)


def test_lines_that_meet_end_to_end_close_a_ring() -> None:
    parts = [
        shapely.LineString([(0, 0), (1, 0), (1, 1)]),
        shapely.LineString([(0, 0), (0, 1), (1, 1)]),
    ]
    (ring,) = merged_lines(parts)
    assert ring.is_closed
