import numpy as np
import pytest

from core.geodesy import geodesic
from core.land.coast import CoastLine
from core.land.coast_points import coast_points
from core.land.lattice import Lattice

LATTICE = Lattice(
    crs="EPSG:4326", left_x=-30.0, top_y=40.0, cell_x=0.001, cell_y=0.001, rows=100, cols=100
)


def _line(lat: list[float], lon: list[float], *, is_closed: bool = False) -> CoastLine:
    return CoastLine(lat_deg=np.array(lat), lon_deg=np.array(lon), is_closed=is_closed)


def test_pieces_are_at_most_100_m_and_add_up_to_the_geodesic_length() -> None:
    lines = (
        _line([39.95, 39.97, 39.96], [-29.95, -29.94, -29.92]),
        _line([39.91, 39.9101], [-29.99, -29.99]),
    )
    points = coast_points(lines, np.zeros((100, 100), dtype=np.float32), LATTICE)
    assert points.length_m.max() <= 100.0
    for number, line in enumerate(lines):
        steps, _, _ = geodesic.inverse(
            from_lat_deg=line.lat_deg[:-1], from_lon_deg=line.lon_deg[:-1],
            to_lat_deg=line.lat_deg[1:], to_lon_deg=line.lon_deg[1:],
        )  # fmt: skip
        mine = points.line == number
        assert points.length_m[mine].sum() == pytest.approx(steps.sum(), abs=1e-6)
    assert points.is_line_start.sum() == 2
    assert points.is_line_start[0]


def test_points_lie_on_the_line() -> None:
    line = _line([39.95, 39.95], [-29.95, -29.90])
    points = coast_points((line,), np.zeros((100, 100), dtype=np.float32), LATTICE)
    assert points.lat_deg == pytest.approx(39.95)
    assert points.lon_deg[0] > -29.95
    assert points.lon_deg[-1] < -29.90
    assert np.all(np.diff(points.lon_deg) > 0.0)


def test_height_is_the_greatest_within_a_cell_or_100_m() -> None:
    heights = np.zeros((100, 100), dtype=np.float32)
    heights[50, 51] = 30.0  # one cell east of the point, 85 m
    heights[48, 50] = 80.0  # two cells north, 222 m: too far
    line = _line([40.0 - 0.0505, 40.0 - 0.0505], [-29.94955, -29.94945])
    points = coast_points((line,), heights, LATTICE)
    assert points.height_m.tolist() == [30.0]


def test_height_is_unknown_only_where_nothing_near_is_known() -> None:
    heights = np.full((100, 100), np.nan, dtype=np.float32)
    line = _line([39.9495, 39.9495], [-29.9496, -29.9494])
    assert np.isnan(coast_points((line,), heights, LATTICE).height_m).all()
    heights[49, 50] = 4.0
    assert coast_points((line,), heights, LATTICE).height_m.tolist() == [4.0]


def test_no_coast_has_no_points() -> None:
    points = coast_points((), np.zeros((100, 100), dtype=np.float32), LATTICE)
    assert points.lat_deg.size == 0


def test_longitudes_of_points_are_wrapped() -> None:
    line = _line([0.0, 0.0], [179.99, 180.01])
    lattice = Lattice(
        crs="EPSG:4326", left_x=179.9, top_y=0.1, cell_x=0.01, cell_y=0.01, rows=20, cols=20
    )
    points = coast_points((line,), np.ones((20, 20), dtype=np.float32), lattice)
    assert points.lon_deg.min() >= -180.0
    assert points.lon_deg.max() < 180.0
    assert points.length_m.sum() == pytest.approx(0.02 * 111_319.49, rel=1e-4)
