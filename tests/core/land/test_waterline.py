import numpy as np
import pytest
import shapely

from core.geodesy import geodesic
from core.land.lattice import Lattice
from core.land.waterline import waterline


def _lattice(rows: int, cols: int, left: float = -30.0) -> Lattice:
    return Lattice(
        crs="EPSG:4326", left_x=left, top_y=0.5, cell_x=0.001, cell_y=0.001, rows=rows, cols=cols
    )


def _length_m(line: shapely.LineString) -> float:
    at = shapely.get_coordinates(line)
    steps, _, _ = geodesic.inverse(
        from_lat_deg=at[:-1, 1], from_lon_deg=at[:-1, 0],
        to_lat_deg=at[1:, 1], to_lon_deg=at[1:, 0],
    )  # fmt: skip
    return float(steps.sum())


def test_round_island_has_one_closed_shore_of_sensible_length() -> None:
    rows, cols = np.mgrid[0:201, 0:201]
    island = np.hypot(rows - 100, cols - 100) < 80.0
    (shore,) = waterline(island, np.ones_like(island), _lattice(201, 201))
    assert shore.is_closed
    # Marching squares on a mask is up to 8 % long on a slope of 22.5 deg, computed by hand:
    # cos(22.5) + (sqrt 2 - 1) sin(22.5) = 1.0824, mean over all slopes 1.0548.
    around = 2.0 * np.pi * 80.0 * 111.0
    assert _length_m(shore) == pytest.approx(1.055 * around, rel=0.01)


def test_single_cell_island_is_closed() -> None:
    land = np.zeros((5, 5), dtype=np.bool_)
    land[2, 2] = True
    (shore,) = waterline(land, np.ones_like(land), _lattice(5, 5))
    assert shore.is_closed
    assert shapely.get_num_coordinates(shore) == 5


def test_islands_touching_by_a_corner_have_a_shore_each() -> None:
    land = np.zeros((6, 6), dtype=np.bool_)
    land[2, 2] = land[3, 3] = True
    assert len(waterline(land, np.ones_like(land), _lattice(6, 6))) == 2


def test_shore_ends_at_the_rim_and_at_unknown_cells() -> None:
    land = np.zeros((10, 10), dtype=np.bool_)
    land[:5] = True
    counted = np.ones_like(land)
    (across,) = waterline(land, counted, _lattice(10, 10))
    assert not across.is_closed
    counted[4:6, 4] = False
    assert len(waterline(land, counted, _lattice(10, 10))) == 2


def test_no_land_has_no_shore() -> None:
    sea = np.zeros((4, 4), dtype=np.bool_)
    assert waterline(sea, ~sea, _lattice(4, 4)) == []


def test_shore_lies_halfway_between_centres() -> None:
    land = np.zeros((4, 4), dtype=np.bool_)
    land[:2] = True
    (shore,) = waterline(land, np.ones_like(land), _lattice(4, 4))
    assert shapely.get_coordinates(shore)[:, 1] == pytest.approx(0.5 - 0.002)


def test_longitudes_run_on_over_the_antimeridian() -> None:
    land = np.zeros((6, 40), dtype=np.bool_)
    land[:3] = True
    (shore,) = waterline(land, np.ones_like(land), _lattice(6, 40, left=179.98))
    lons = shapely.get_coordinates(shore)[:, 0]
    assert float(np.ptp(lons)) == pytest.approx(0.039)
