"""The fitted map agrees with WGS-84 geodesics wherever a ship may be."""

import numpy as np
import pytest

from core.base.errors import InputError
from core.coverage.local_map import local_map
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.lattice import Lattice

RADIUS_M = 24 * 1852.0

PLACES = [
    ("EPSG:4326", 56.2, -5.6),
    ("EPSG:4326", 0.0, 0.0),
    ("EPSG:4326", 70.0, 179.95),
    ("EPSG:4326", -70.0, -179.95),
    ("EPSG:4326", -28.5, -71.6),
    ("EPSG:4326", 80.0, 12.0),
    ("EPSG:4326", 88.0, 12.0),
    ("EPSG:32630", 56.2, -5.6),
    ("EPSG:32719", -28.5, -71.6),
    ("EPSG:3035", 40.7, 14.1),
    ("EPSG:3857", 70.0, 25.0),
]


def _lattice(crs: str, lat_deg: float, lon_deg: float) -> Lattice:
    if crs == "EPSG:4326":
        cell = 1 / 1200
        return Lattice(
            crs=crs,
            left_x=lon_deg - 1000.3 * cell,
            top_y=lat_deg + 800.7 * cell,
            cell_x=cell,
            cell_y=cell,
            rows=1600,
            cols=2000,
        )
    probe = Lattice(crs=crs, left_x=0.0, top_y=0.0, cell_x=30.0, cell_y=30.0, rows=1, cols=1)
    row, col = probe.row_col(np.array([lat_deg]), np.array([lon_deg]))
    return probe.part(row=int(row[0]) - 1500, col=int(col[0]) - 1500, rows=3000, cols=3000)


@pytest.mark.parametrize(("crs", "lat_deg", "lon_deg"), PLACES)
def test_ranges_and_bearings_are_those_of_geodesics(
    crs: str, lat_deg: float, lon_deg: float
) -> None:
    lattice = _lattice(crs, lat_deg, lon_deg)
    here = local_map(lattice, Position(lat_deg=lat_deg, lon_deg=lon_deg), RADIUS_M)
    random = np.random.default_rng(1)
    range_m = RADIUS_M * np.sqrt(random.random(2000))
    bearing_deg = random.uniform(0.0, 360.0, 2000)
    lat, lon, _course = geodesic.direct(
        lat_deg=lat_deg, lon_deg=lon_deg, bearing_deg=bearing_deg, distance_m=range_m
    )
    row, col = lattice.row_col(lat, lon)
    got_row, got_col = here.row_col(range_m, bearing_deg)
    got_range_m, got_bearing_deg = here.range_bearing(row, col)
    assert np.max(np.abs(got_range_m - range_m)) < 0.05
    turned = np.radians(np.abs((got_bearing_deg - bearing_deg + 180.0) % 360.0 - 180.0))
    assert np.max(turned * range_m) < 0.05
    assert np.max(np.abs(got_row - row)) * RADIUS_M / here.half_rows < 0.05
    assert np.max(np.abs(got_col - col)) * RADIUS_M / here.half_cols < 0.05


def test_places_far_outside_are_infinitely_far() -> None:
    lattice = _lattice("EPSG:4326", 56.2, -5.6)
    here = local_map(lattice, Position(lat_deg=56.2, lon_deg=-5.6), RADIUS_M)
    range_m, _bearing = here.range_bearing(np.array([0.0, -9000.0]), np.array([1e6, 0.0]))
    assert np.all(np.isinf(range_m))


def test_shorter_side_of_a_cell_is_known() -> None:
    # Lengths of 3 arc-seconds at 56.2 N on WGS-84, from the radii of curvature:
    # parallel 6 392 865 m x cos(56.2) x 1.45444e-5 = 51.7 m (computed by hand).
    here = local_map(
        _lattice("EPSG:4326", 56.2, -5.6), Position(lat_deg=56.2, lon_deg=-5.6), RADIUS_M
    )
    assert here.least_cell_m == pytest.approx(51.7, abs=0.1)


def test_round_a_pole_the_map_is_refused_in_one_sentence() -> None:
    lattice = _lattice("EPSG:4326", 89.5, 0.0)
    with pytest.raises(InputError, match="too distorted round 89"):
        local_map(lattice, Position(lat_deg=89.9, lon_deg=0.0), RADIUS_M)
