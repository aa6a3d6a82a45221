"""Dead ranges and check spots of whole legs over invented land."""

from dataclasses import replace

import pytest

from core.geodesy import geodesic
from core.geodesy.position import Position
from core.plan.index_spot import range_index_error_m
from core.plan.leg_check_result import LegChecks
from core.plan.plan_result import Plan
from core.ship.ship import BlindSector
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import SHIP, covered, mark, planned

BEACONS = (
    mark("West Beacon", -0.8 * NM, 0.5 * NM, kind="beacon"),
    mark("East Beacon", 0.9 * NM, 1.5 * NM, kind="beacon"),
    mark("Head Beacon", 0.05 * NM, 7.0 * NM, kind="beacon"),
    mark("Buoy", 0.0, 6.9 * NM, is_fixed=False, kind="buoy"),
)


def checks_of(plan: Plan, leg_index: int = 0) -> LegChecks:
    checks = plan.legs[leg_index].checks
    assert checks is not None
    return checks


def distance_m(one: Position, other: Position) -> float:
    metres, _there, _back = geodesic.inverse(
        from_lat_deg=one.lat_deg,
        from_lon_deg=one.lon_deg,
        to_lat_deg=other.lat_deg,
        to_lon_deg=other.lon_deg,
    )
    return float(metres)


def plan_with(*, sectors: tuple[BlindSector, ...] = (), second_leg: bool = True) -> Plan:
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=200.0)
    land = sea.land(islet(3.0 * NM, -3.0 * NM, width_m=800.0), 40.0).model()
    ends = [(0.0, -4.0 * NM), (0.0, 5.0 * NM)]
    passage = track(*ends, *([(4.0 * NM, 8.0 * NM)] if second_leg else []))
    main = replace(SHIP.radars[0], blind_sectors=sectors)
    ship = replace(SHIP, radars=(main, *SHIP.radars[1:]))
    return planned(land, passage, covered(land, passage), ship=ship, marks=BEACONS)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_with()


def test_ranges_at_the_spot_add_up_by_geodesics(plan: Plan) -> None:
    # job.md 6.3.3, T21: on the line that joins them the sum of the ranges is their distance.
    spot = checks_of(plan).index_spot
    assert spot is not None
    assert (spot.port_id, spot.starboard_id) == ("West Beacon", "East Beacon")
    own = plan.passage.line(0).position_at(spot.along_m)
    west, east = (BEACONS[n].position for n in (0, 1))
    first, second, apart = distance_m(own, west), distance_m(own, east), distance_m(west, east)
    assert range_index_error_m(first, second, apart_m=apart) == pytest.approx(0.0, abs=2.0)
    assert [spot.port_range_m, spot.starboard_range_m] == pytest.approx([first, second], abs=5.0)
    assert spot.apart_m == pytest.approx(apart, abs=5.0)


def test_the_spot_lies_where_the_ship_is_steady(plan: Plan) -> None:
    for leg in plan.legs:
        checks = checks_of(plan, leg.leg_index)
        for spot in (checks.index_spot, checks.heading_spot):
            if spot is not None and leg.wheel_over is not None:
                assert spot.along_m <= min(leg.wheel_over.pre_alert_along_m) + 1.0


def test_the_beacon_ahead_counts_down_and_the_buoy_never_does(plan: Plan) -> None:
    leg, checks = plan.legs[0], checks_of(plan)
    ids = [dead.object_id for dead in checks.dead_ranges]
    assert "Head Beacon" in ids
    assert "Buoy" not in ids
    dead = checks.dead_ranges[ids.index("Head Beacon")]
    assert leg.wheel_over is not None
    last = dead.countdown[-1]
    assert (last.before_minutes, last.along_m) == pytest.approx((0.0, leg.wheel_over.along_m))
    for one in dead.countdown:
        own = plan.passage.line(0).position_at(one.along_m)
        assert one.range_m == pytest.approx(distance_m(own, BEACONS[2].position), abs=5.0)
    assert dead.least_rate_mps <= leg.speed_mps


def test_the_heading_marker_is_checked_on_something_small_and_far_out(plan: Plan) -> None:
    spot = checks_of(plan).heading_spot
    assert spot is not None
    assert spot.object_id.endswith("Beacon")
    assert 0.5 * spot.scale_m < spot.range_m <= 1.5 * spot.scale_m
    line = plan.passage.line(0)
    own, place = line.position_at(spot.along_m), {m.name: m.position for m in BEACONS}
    _m, bearing, _back = geodesic.inverse(
        from_lat_deg=own.lat_deg,
        from_lon_deg=own.lon_deg,
        to_lat_deg=place[spot.object_id].lat_deg,
        to_lon_deg=place[spot.object_id].lon_deg,
    )
    assert spot.bearing_deg == pytest.approx(float(bearing) % 360.0, abs=0.2)


def test_no_check_in_a_blind_sector() -> None:
    # Nothing at all to port: no pair, and no dead range on what lies a little to port.
    blind = plan_with(sectors=(BlindSector(from_relative_deg=180.0, to_relative_deg=359.9),))
    checks = checks_of(blind)
    assert checks.index_spot is None
    assert checks.index_spot_reason is not None


def test_open_sea_has_none_and_says_why() -> None:
    land = flat_sea(half_width_m=6.0 * NM, cell_m=400.0).model()
    passage = track((0.0, -2.0 * NM), (0.0, 2.0 * NM))
    checks = checks_of(planned(land, passage, covered(land, passage)))
    assert checks.dead_ranges == ()
    assert checks.dead_ranges_reason is not None
    assert checks.index_spot is None
    assert checks.index_spot_reason is not None
    assert checks.heading_spot is None
    assert checks.heading_spot_reason is not None
