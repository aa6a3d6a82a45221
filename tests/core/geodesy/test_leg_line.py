import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.geodesy import rhumb
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Bounds, Position, bounds_of

LATS = st.floats(-75.0, 75.0)
LONS = st.floats(-180.0, 179.9)


def _line(kind: LegKind, lat: float, lon: float, course: float, length_m: float) -> LegLine:
    to_lat, to_lon = rhumb.direct(lat_deg=lat, lon_deg=lon, course_deg=course, distance_m=length_m)
    return LegLine(
        kind=kind,
        start=Position(lat_deg=lat, lon_deg=lon),
        end=Position(lat_deg=to_lat, lon_deg=(to_lon + 180.0) % 360.0 - 180.0),
    )


@given(
    kind=st.sampled_from(LegKind),
    lat=LATS,
    lon=LONS,
    course=st.floats(0.0, 359.9),
    length=st.floats(500.0, 80_000.0),
    along=st.floats(-20_000.0, 90_000.0),
    cross=st.floats(-40_000.0, 40_000.0),
)
def test_track_coordinates_undo_offset(
    kind: LegKind,
    lat: float,
    lon: float,
    course: float,
    length: float,
    along: float,
    cross: float,
) -> None:
    line = _line(kind, lat, lon, course, length)
    lats, lons = line.offset(np.array([along]), np.array([cross]))
    found_along, found_cross = line.track_coordinates(lats, lons)
    assert found_along[0] == pytest.approx(along, abs=0.05)
    assert found_cross[0] == pytest.approx(cross, abs=0.05)


def test_rhumb_line_crosses_the_antimeridian_the_short_way() -> None:
    line = LegLine(
        kind=LegKind.RHUMB,
        start=Position(lat_deg=-17.0, lon_deg=179.9),
        end=Position(lat_deg=-17.0, lon_deg=-179.9),
    )
    assert line.course_deg == pytest.approx(90.0)
    assert line.length_m == pytest.approx(21_300.0, abs=50.0)
    assert line.position_at(line.length_m / 2.0).lon_deg == pytest.approx(-180.0, abs=1e-9)


def test_many_points_agree_with_few() -> None:
    line = _line(LegKind.RHUMB, 63.0, 10.0, 37.0, 60_000.0)
    lats, lons = line.offset(np.linspace(-5_000, 70_000, 400), np.linspace(-9_000, 9_000, 400))
    many = line.track_coordinates(lats, lons)
    few = [line.track_coordinates(lats[i : i + 1], lons[i : i + 1]) for i in range(0, 400, 37)]
    for number, (along, cross) in enumerate(few):
        assert many[0][37 * number] == pytest.approx(along[0], abs=0.02)
        assert many[1][37 * number] == pytest.approx(cross[0], abs=0.02)


def test_last_point_of_a_line_is_the_second_waypoint() -> None:
    for kind in LegKind:
        line = _line(kind, -40.0, 170.0, 301.0, 55_000.0)
        end = line.position_at(line.length_m)
        assert end.lat_deg == pytest.approx(line.end.lat_deg, abs=1e-9)
        assert end.lon_deg == pytest.approx(line.end.lon_deg, abs=1e-9)


def test_a_rhumb_line_over_the_pole_is_refused() -> None:
    with pytest.raises(ValueError, match="over the pole"):
        rhumb.direct(lat_deg=89.0, lon_deg=0.0, course_deg=0.0, distance_m=400_000.0)


def test_bounds_cross_the_antimeridian() -> None:
    box = bounds_of((Position(lat_deg=1.0, lon_deg=179.0), Position(lat_deg=-1.0, lon_deg=-179.0)))
    assert box == Bounds(south_deg=-1.0, west_deg=179.0, north_deg=1.0, east_deg=181.0)
    assert box.contains(Position(lat_deg=0.0, lon_deg=180.0))
    assert not box.contains(Position(lat_deg=0.0, lon_deg=0.0))


@pytest.mark.parametrize("lat", [float("nan"), 91.0, -90.5, float("inf")])
def test_a_latitude_that_is_none_is_refused(lat: float) -> None:
    with pytest.raises(ValueError, match="lat_deg"):
        Position(lat_deg=lat, lon_deg=0.0)
