"""The hand-made land that other tests stand on is where its numbers say."""

import numpy as np
import pytest

from core.geodesy import geodesic
from core.land.land_model import Cell
from tests.helpers.islands import CENTRE, NM, box, flat_sea, islet, place, track


def _range_bearing(east_m: float, north_m: float) -> tuple[float, float]:
    there = place(east_m, north_m)
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=CENTRE.lat_deg,
        from_lon_deg=CENTRE.lon_deg,
        to_lat_deg=there.lat_deg,
        to_lon_deg=there.lon_deg,
    )
    return float(distance), float(bearing)


def test_places_lie_at_their_plane_distance_and_bearing() -> None:
    assert _range_bearing(0.0, 10_000.0) == pytest.approx((10_000.0, 0.0), abs=0.02)
    assert _range_bearing(24.0 * NM, 0.0) == pytest.approx((24.0 * NM, 90.0), abs=0.02)
    distance, bearing = _range_bearing(3000.0, -4000.0)
    assert distance == pytest.approx(5000.0, abs=0.05)
    assert bearing == pytest.approx(143.130, abs=0.002)


def test_cells_carry_the_shapes_height_and_kind() -> None:
    sea = flat_sea(half_width_m=3000.0, cell_m=60.0).land(box(600.0, -300.0, 1200.0, 300.0), 40.0)
    model = sea.without_heights(box(-1200.0, 0.0, -600.0, 300.0), Cell.MISSING).model()
    row, col = model.lattice.row_col(np.array([0.0]), np.array([CENTRE.lon_deg]))
    assert (float(row[0]), float(col[0])) == pytest.approx((50.0, 50.0), abs=1e-6)
    assert model.cell[50, 50] == Cell.SEA
    assert model.cell[50, 65] == Cell.LAND  # 900 m east
    assert model.heights_m[50, 65] == 40.0
    assert model.cell[48, 35] == Cell.MISSING  # 900 m west, 120 m north
    assert np.isnan(model.heights_m[48, 35])
    # 9 by 9 cell centres lie strictly inside 600 m by 600 m
    assert int((model.cell == Cell.LAND).sum()) == 81


def test_coast_points_stand_for_the_whole_outline_with_the_height_behind() -> None:
    model = flat_sea(half_width_m=3000.0).land(box(600.0, -300.0, 1200.0, 300.0), 40.0).model()
    assert float(model.points.length_m.sum()) == pytest.approx(2400.0, rel=1e-3)
    assert set(model.points.height_m) == {40.0}
    assert int(model.points.is_line_start.sum()) == 1


def test_shape_smaller_than_a_cell_takes_one_cell() -> None:
    model = flat_sea(half_width_m=3000.0).land(islet(1010.0, 990.0, width_m=20.0), 10.0).model()
    assert int((model.cell == Cell.LAND).sum()) == 1


def test_track_runs_through_its_points() -> None:
    passage = track((0.0, 0.0), (0.0, 2.0 * NM), (2.0 * NM, 2.0 * NM))
    assert passage.line(0).length_m == pytest.approx(3704.0, abs=0.1)
    assert passage.line(1).course_deg == pytest.approx(90.0, abs=1e-3)
