"""Rhumb lines and geodesics against GeographicLib.

Source of the rhumb lines: GeographicLib 2.1.2 (Debian geographiclib-tools), RhumbSolve -i and
RhumbSolve; values printed to 1e-6 m and 1e-8 deg. Source of the geodesics: worked examples of
Karney, Algorithms for geodesics (2013); values and table numbers from memory, and PROJ, which is
checked here, has the same author's code, so they hold our order of arguments and units rather
than its formulas. Tolerances asked for: 0.01 m and 1e-6 deg.
"""

import numpy as np
import pytest

from core.geodesy import geodesic, rhumb
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position

RHUMB_INVERSE = [
    ((40.6, -73.8, 51.6, -0.5), 77.76838971, 5771083.383328),
    ((50.0, -5.5, 49.5, -6.5), 232.34322561, 91028.637683),
    ((24.0, -74.25, 46.0, -94.75), 322.86483789, 3061660.380023),
    ((53.5, 7.9, 54.2, 7.9), 0.0, 77911.541022),
    ((36.0, -5.6, 36.0, -5.2), 90.0, 36065.475129),
]


@pytest.mark.parametrize(("ends", "course_deg", "distance_m"), RHUMB_INVERSE)
def test_rhumb_inverse_agrees_with_rhumbsolve(
    ends: tuple[float, float, float, float], course_deg: float, distance_m: float
) -> None:
    found_m, found_deg = rhumb.inverse(
        from_lat_deg=ends[0], from_lon_deg=ends[1], to_lat_deg=ends[2], to_lon_deg=ends[3]
    )
    assert found_m == pytest.approx(distance_m, abs=1e-4)
    assert found_deg == pytest.approx(course_deg, abs=1e-7)


def test_rhumb_inverse_of_degrees_and_minutes_agrees_with_rhumbsolve() -> None:
    # 32d14.7'N 66d28.9'W to 36d58.7'N 75d42.2'W; RhumbSolve was fed seven decimals, hence 0.1 m.
    found_m, found_deg = rhumb.inverse(
        from_lat_deg=32.245,
        from_lon_deg=-66.4816667,
        to_lat_deg=36.9783333,
        to_lon_deg=-75.7033333,
    )
    assert found_m == pytest.approx(995124.949566, abs=0.1)
    assert found_deg == pytest.approx(301.84738926, abs=1e-6)


def test_rhumb_direct_agrees_with_rhumbsolve() -> None:
    lat, lon = rhumb.direct(lat_deg=50.0, lon_deg=-5.5, course_deg=245.0, distance_m=55560.0)
    assert lat == pytest.approx(49.78889420246, abs=1e-10)
    assert lon == pytest.approx(-6.20080370904, abs=1e-10)


def test_geodesic_inverse_agrees_with_karney_2013() -> None:
    # Karney 2013, table 3 (example of the inverse problem): 30 deg S to 29.9 deg N, 179.8 deg E;
    # s12 = 19989832.827610 m, azi1 = 161.890524736 deg, azi2 = 18.090737246 deg.
    distance, first, last = geodesic.inverse(
        from_lat_deg=-30.0, from_lon_deg=0.0, to_lat_deg=29.9, to_lon_deg=179.8
    )
    assert float(distance) == pytest.approx(19989832.827610, abs=1e-3)
    assert float(first) == pytest.approx(161.890524736, abs=1e-6)
    assert float(last) == pytest.approx(18.090737246, abs=1e-6)


def test_geodesic_direct_agrees_with_karney_2013() -> None:
    # Karney 2013, table 2 (direct problem): 40 deg N, azimuth 30 deg, 10 000 km;
    # lat2 = 41.793310205 deg, lon12 = 137.844900044 deg, azi2 = 149.090169318 deg.
    lat, lon, course = geodesic.direct(
        lat_deg=40.0, lon_deg=0.0, bearing_deg=30.0, distance_m=10_000_000.0
    )
    assert float(lat) == pytest.approx(41.793310205, abs=1e-8)
    assert float(lon) == pytest.approx(137.844900044, abs=1e-8)
    assert float(course) == pytest.approx(149.090169318, abs=1e-6)


def test_track_coordinates_of_the_handbook_mark() -> None:
    # Definition check value: leg 50N 5.5W to 49.9N 6W, mark 49.97N 5.75W reads 9.7824 NM along
    # and 1.1458 NM to starboard (computed: foot by WGS-84 geodesic on the rhumb line).
    line = LegLine(
        kind=LegKind.RHUMB,
        start=Position(lat_deg=50.0, lon_deg=-5.5),
        end=Position(lat_deg=49.9, lon_deg=-6.0),
    )
    along, cross = line.track_coordinates(np.array([49.97]), np.array([-5.75]))
    assert along[0] / 1852.0 == pytest.approx(9.7824, abs=1e-4)
    assert cross[0] / 1852.0 == pytest.approx(1.1458, abs=1e-4)
