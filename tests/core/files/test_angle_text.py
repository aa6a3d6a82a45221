"""Angles and positions as people write them.

The notations are common practice, no source; expected degrees computed by hand.
"""

import contextlib
import time

import pytest

from core.files.angle_text import AngleError, Axis, angle_deg, position_in_text

_LAT = 56 + 12.34 / 60
_LON = -(5 + 45.6 / 60)


@pytest.mark.parametrize(
    ("text", "axis", "expected_deg"),
    [
        ("56.2057", Axis.LAT, 56.2057),
        ("-5,76", Axis.LON, -5.76),
        ("+5.76", Axis.LON, 5.76),
        ("−5.76", Axis.LON, -5.76),
        ("56 12.34N", Axis.LAT, _LAT),
        ("N 56 12.34", Axis.LAT, _LAT),
        ("n56°12,34'", Axis.LAT, _LAT),
        ("56-12.34N", Axis.LAT, _LAT),
        ("56º 12.34′ N", Axis.LAT, _LAT),
        ("56 deg 12.34 min N", Axis.LAT, _LAT),
        ("005-45.6W", Axis.LON, _LON),
        ("-5 45.6", Axis.LON, _LON),
        ("-0 30", Axis.LAT, -0.5),
        ("0°30'S", Axis.LAT, -0.5),
        ("5:45:36 W", Axis.LON, _LON),
        ("5° 45' 36\" W", Axis.LON, _LON),
        ("5°45′36.0″W", Axis.LON, _LON),
        ("180 00.0 E", Axis.LON, 180.0),
        ("90S", Axis.LAT, -90.0),
    ],
)
def test_notations(text: str, axis: Axis, expected_deg: float) -> None:
    assert angle_deg(text, axis) == pytest.approx(expected_deg, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "axis", "message"),
    [
        ("", Axis.LAT, "latitude “” cannot be read"),
        ("abc", Axis.LAT, "latitude “abc” cannot be read"),
        ("nan", Axis.LAT, "latitude “nan” cannot be read"),
        ("1e1", Axis.LAT, "latitude “1e1” cannot be read"),
        ("5612.34N", Axis.LAT, "latitude “5612.34N” cannot be read"),
        ("56 12.34E", Axis.LAT, "latitude “56 12.34E” has the letter E"),
        ("-56 12.34N", Axis.LAT, "latitude “-56 12.34N” has both a sign and a letter"),
        ("56.5 12.34N", Axis.LAT, "latitude “56.5 12.34N” has a fraction before the last number"),
        ("56 60.0N", Axis.LAT, "latitude “56 60.0N” has 60 or more minutes or seconds"),
        ("56 10 61N", Axis.LAT, "latitude “56 10 61N” has 60 or more minutes or seconds"),
        ("90 0.1 N", Axis.LAT, "latitude “90 0.1 N” is more than 90 degrees"),
        ("180.1", Axis.LON, "longitude “180.1” is more than 180 degrees"),
        ("1 2 3 4", Axis.LON, "longitude “1 2 3 4” cannot be read"),
    ],
)
def test_what_is_no_angle(text: str, axis: Axis, message: str) -> None:
    with pytest.raises(AngleError) as caught:
        angle_deg(text, axis)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("56 12.34N 005 45.6W", ""),
        ("56°12.34'N 5°45.6'W", ""),
        ("56°12.34′N, 005°45.6′W", ""),
        ("56-12.34N/005-45.6W", ""),
        ("N56 12.34 W005 45.6", ""),
        ("N 56° 12,34' W 5° 45,6'", ""),
        ("005 45.6W 56 12.34N", ""),
        ("56 12 20.4 N, 005 45 36 W", ""),
        ("56:12:20.4N 5:45:36W", ""),
        ("56 12.34n 5 45.6w", ""),
        ("Start 56 12.34N 005 45.6W", "Start"),
        ("Start: 56 12.34N 005 45.6W", "Start"),
        ("56 12.34N 005 45.6W Start", "Start"),
        ("N56 12.34 W5 45.6 Pilot station", "Pilot station"),
        ("WP 1 56 12.34N 005 45.6W", "WP 1"),
        ("WP 1 56-12.34N 005-45.6W", "WP 1"),
        ("WP 1 56°12.34'N 5°45.6'W", "WP 1"),
        ("1. 56 12.34N 005 45.6W", "1"),
        ("1\t56 12.34N\t005 45.6W", "1"),
        ("S1 56 12.34N 005 45.6W", "S1"),
        ("Cape 5 N 56 12.34N 005 45.6W", "Cape 5 N"),
        ('"Berth 4, N side"; 56 12.34N; 005 45.6W', "Berth 4, N side"),
        ("WP-1 56 12.34N 005 45.6W", "WP-1"),
        ("56 12.34, -5 45.6", ""),
        ("56 12.34 -5 45.6", ""),
    ],
)
def test_positions_with_and_without_names(line: str, name: str) -> None:
    written = position_in_text(line)
    assert written.name == name
    assert written.lat_deg == pytest.approx(_LAT, abs=1e-9)
    assert written.lon_deg == pytest.approx(_LON, abs=1e-9)


@pytest.mark.parametrize(
    "line",
    [
        "56.25, -5.75",
        "56.25 -5.75",
        "56,25; -5,75",
        "56,25 -5,75",
        "56,25, -5,75",
        "WP1,56.25,-5.75",
        "1,56.25,-5.75",
        "WP1 56.25 -5.75",
        "WP1\t56.25\t-5.75",
        "56.25,-5.75,WP1",
        "Start 56.25, -5.75",
        "56.25N 5.75W",
        "WP1 56,25N 5,75W",
    ],
)
def test_decimal_positions(line: str) -> None:
    written = position_in_text(line)
    assert (written.lat_deg, written.lon_deg) == (56.25, -5.75)


@pytest.mark.parametrize(
    "line",
    [
        # Each could be read in two ways; a wrong guess would be a wrong waypoint.
        "1 56 12.34N 005 45.6W",
        "WP 1 56N 5W",
        "56 12.34N 5W",
        "56,2057,-5,76",
        "56.1,-5.2,10",
        "1 56.2 -5.76",
        "WP 1 56.2 -5.76",
        "56.5 5.5 10.5",
        # These cannot be read at all.
        "hello",
        "56.2057",
        "5612.34N 00545.6W",
        "56 12.34N 56 12.34N",
        "56 12.34N 5 45.6W 12.5",
        "x" * 301,
        "١٢.٥, ١٣.٥",
    ],
)
def test_what_is_not_plain_is_refused(line: str) -> None:
    with pytest.raises(AngleError):
        position_in_text(line)


@pytest.mark.parametrize(
    "line",
    [
        ("1" + " " * 70) * 4 + "x",
        "1 " * 149 + "N",
        "1-" * 149 + "N 1W",
        "°'" * 149,
        "N1" * 149,
        "1N" * 149,
        "1,1 " * 74,
    ],
)
def test_no_line_takes_long(line: str) -> None:
    started = time.perf_counter()
    with contextlib.suppress(AngleError):
        position_in_text(line)
    assert time.perf_counter() - started < 0.5
