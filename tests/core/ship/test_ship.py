"""Antenna height over draught and trim, turn radius by speed; all values computed by hand."""

import math

import pytest

from core.ship.ship import Band, Radar, Ship, ShipPoint, TurnAtSpeed


def a_ship(**changes: object) -> Ship:
    values: dict[str, object] = {
        "name": "test ship",
        "length_m": 100.0,
        "beam_m": 16.0,
        "draught_forward_m": 5.0,
        "draught_aft_m": 5.0,
        "turn_radius_m": 500.0,
        "response_distance_m": 80.0,
        "radars": (a_radar(),),
    }
    return Ship(**(values | changes))  # type: ignore[arg-type]  # a builder for tests


def a_radar(**changes: object) -> Radar:
    values: dict[str, object] = {"name": "X", "band": Band.X, "antenna_above_keel_m": 30.0}
    return Radar(**(values | changes))  # type: ignore[arg-type]  # a builder for tests


def test_on_even_keel_the_height_is_keel_height_less_draught() -> None:
    ship = a_ship()
    assert ship.antenna_height_above_water_m(ship.radars[0]) == 25.0


def test_with_trim_an_antenna_amidships_takes_the_mean_draught() -> None:
    ship = a_ship(draught_forward_m=4.0, draught_aft_m=6.0)
    assert ship.draught_mean_m == 5.0
    assert ship.antenna_height_above_water_m(ship.radars[0]) == 25.0


@pytest.mark.parametrize(
    ("place_m", "height_m"),
    [
        (0.0, 24.0),  # over the aft marks: 30 - 6
        (80.0, 26.0),  # over the forward marks: 30 - 4
        (20.0, 24.5),  # a quarter of the way: 30 - (6 - 2/4)
        (-4.0, 23.9),  # 4 m abaft the aft marks: 30 - (6 + 4 x 2/80)
        (100.0, 26.5),  # 20 m ahead of the forward marks: 30 - (4 - 20 x 2/80)
    ],
)
def test_the_waterline_runs_straight_through_both_marks(place_m: float, height_m: float) -> None:
    ship = a_ship(draught_forward_m=4.0, draught_aft_m=6.0, length_between_marks_m=80.0)
    radar = a_radar(antenna_from_aft_perpendicular_m=place_m)
    assert ship.antenna_height_above_water_m(radar) == pytest.approx(height_m, abs=1e-12)


def test_a_height_above_water_wins_over_the_keel_height() -> None:
    ship = a_ship()
    assert ship.antenna_height_above_water_m(a_radar(antenna_above_water_m=19.5)) == 19.5


def test_five_metres_of_draught_move_the_horizon_by_a_mile() -> None:
    # job.md T16b: antenna 30 against 25 m above water gives 1.05 NM more horizon, at the
    # coefficient 2.21 NM per square root of a metre.
    light = a_ship(draught_forward_m=4.0, draught_aft_m=4.0)
    deep = a_ship(draught_forward_m=9.0, draught_aft_m=9.0)
    radar = a_radar(antenna_above_keel_m=34.0)
    high_m = light.antenna_height_above_water_m(radar)
    low_m = deep.antenna_height_above_water_m(radar)
    assert (high_m, low_m) == (30.0, 25.0)
    assert 2.21 * (math.sqrt(high_m) - math.sqrt(low_m)) == pytest.approx(1.05, abs=0.006)


def test_turn_radius_lies_between_the_speeds_of_the_table_in_proportion() -> None:
    ship = a_ship(
        turns=(
            TurnAtSpeed(speed_mps=4.0, radius_m=400.0),
            TurnAtSpeed(speed_mps=8.0, radius_m=800.0),
            TurnAtSpeed(speed_mps=10.0, radius_m=900.0),
        )
    )
    assert ship.turn_radius_at_m(4.0) == 400.0
    assert ship.turn_radius_at_m(5.0) == 500.0
    assert ship.turn_radius_at_m(9.0) == 850.0


def test_outside_the_table_the_radius_of_the_nearest_speed_holds() -> None:
    ship = a_ship(
        turns=(
            TurnAtSpeed(speed_mps=4.0, radius_m=400.0),
            TurnAtSpeed(speed_mps=8.0, radius_m=800.0),
        )
    )
    assert ship.turn_radius_at_m(1.0) == 400.0
    assert ship.turn_radius_at_m(20.0) == 800.0


def test_without_a_table_one_radius_holds_at_every_speed() -> None:
    assert a_ship().turn_radius_at_m(3.0) == 500.0


def test_bow_offset_is_the_length_ahead_of_the_reference_point() -> None:
    assert a_ship(reference=ShipPoint(from_stern_m=30.0)).bow_offset_m == 70.0
    assert a_ship().bow_offset_m is None


def test_range_error_is_a_share_of_the_scale_but_at_least_thirty_metres() -> None:
    # IMO MSC.192(79): 1 % of the range scale or 30 m, whichever is greater; job.md T20 gives
    # 0.16 cables on 1.5 NM and 0.60 cables on 6 NM (1 cable 185.2 m).
    ship = a_ship()
    assert ship.range_error_m(1.5 * 1852.0) / 185.2 == pytest.approx(0.16, abs=0.005)
    assert ship.range_error_m(6.0 * 1852.0) / 185.2 == pytest.approx(0.60, abs=0.005)


@pytest.mark.parametrize("height_m", [0.0, -3.0, 150.0])
def test_a_radar_of_impossible_height_is_refused(height_m: float) -> None:
    with pytest.raises(ValueError, match="is not between 0 and 150"):
        a_radar(antenna_above_keel_m=height_m)


def test_a_ship_without_radar_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one radar"):
        a_ship(radars=())
