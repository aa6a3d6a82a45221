"""Heading to steer and speed over the ground. Answers by hand from the plane vector triangle."""

import math
from datetime import UTC, datetime

import pytest

from core.base.errors import InputError
from core.base.units import kn_from_mps, m_from_nm, mps_from_kn
from core.geodesy.position import Position
from core.passage.defaults import resolve_passage
from core.passage.motion import LegMotion, leg_motion, still_water
from core.passage.off_track import noticed_s, off_track_s
from core.passage.passage import Leg, Passage, Waypoint
from core.passage.stream import Leeway, LegStream, PassageStreams, Stream
from core.passage.timetable import Timetable

START = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


def moved(
    course_deg: float,
    speed_kn: float,
    set_deg: float | None = None,
    drift_kn: float = 0.0,
    leeway: Leeway | None = None,
) -> LegMotion:
    stream = None
    if set_deg is not None:
        stream = Stream(set_deg=set_deg, drift_mps=mps_from_kn(drift_kn))
    return leg_motion(
        LegStream(stream=stream, leeway=leeway),
        course_deg=course_deg,
        speed_mps=mps_from_kn(speed_kn),
        leg_number=3,
    )


@pytest.mark.parametrize(
    ("set_deg", "drift_kn", "heading_deg", "ground_kn"),
    [
        # Course 000 at 12 kn through the water. Abeam: sin crab = 2/12, sqrt(144 - 4) over ground.
        (90.0, 2.0, 350.4059, math.sqrt(140.0)),
        (270.0, 2.0, 9.5941, math.sqrt(140.0)),
        # Fair and foul: no crab, sum and difference.
        (0.0, 2.0, 0.0, 14.0),
        (180.0, 2.0, 0.0, 10.0),
        # On the quarter, 2 kn at 45: across 1.4142, along 1.4142; asin(0.11785) = 6.7682.
        (45.0, 2.0, 353.2318, 12.0 * math.cos(math.asin(math.sqrt(2.0) / 12.0)) + math.sqrt(2.0)),
        (45.0, 0.0, 0.0, 12.0),
    ],
)
def test_the_triangle(
    set_deg: float, drift_kn: float, heading_deg: float, ground_kn: float
) -> None:
    motion = moved(0.0, 12.0, set_deg, drift_kn)
    assert motion.heading_deg(0.0) == pytest.approx(heading_deg, abs=1e-4)
    assert kn_from_mps(motion.ground_speed_mps) == pytest.approx(ground_kn)
    assert kn_from_mps(motion.water_speed_mps) == pytest.approx(12.0)


@pytest.mark.parametrize("course_deg", [0.0, 37.0, 214.5, 359.0])
@pytest.mark.parametrize("set_deg", [3.0, 120.0, 251.0])
def test_way_through_the_water_and_stream_add_up_to_the_course(
    course_deg: float, set_deg: float
) -> None:
    motion = moved(course_deg, 9.0, set_deg, 3.5)
    head, sets = math.radians(motion.heading_deg(course_deg)), math.radians(set_deg)
    north = 9.0 * math.cos(head) + 3.5 * math.cos(sets)
    east = 9.0 * math.sin(head) + 3.5 * math.sin(sets)
    assert math.degrees(math.atan2(east, north)) % 360.0 == pytest.approx(course_deg)
    assert math.hypot(east, north) == pytest.approx(kn_from_mps(motion.ground_speed_mps))


def test_leeway_is_allowed_for_where_its_side_is_known() -> None:
    # The wind pushes her to starboard by 4: she heads 4 to port of her way, or less if it blows
    # less; from either side nothing is allowed for, and she may head 4 to either side.
    stated = moved(90.0, 12.0, leeway=Leeway(to_starboard_deg=4.0))
    assert stated.heading_deg(90.0) == pytest.approx(86.0)
    assert (stated.least_heading_off_deg, stated.most_heading_off_deg) == (-4.0, 0.0)
    port = moved(90.0, 12.0, leeway=Leeway(to_port_deg=4.0))
    assert port.heading_deg(90.0) == pytest.approx(94.0)
    either = moved(90.0, 12.0, leeway=Leeway(to_port_deg=4.0, to_starboard_deg=4.0))
    assert either.heading_deg(90.0) == pytest.approx(90.0)
    assert (either.least_heading_off_deg, either.most_heading_off_deg) == (-4.0, 4.0)
    assert either.ground_speed_mps == either.water_speed_mps


def test_leeway_comes_on_top_of_the_crab_angle() -> None:
    motion = moved(0.0, 12.0, 90.0, 2.0, Leeway(to_port_deg=3.0, to_starboard_deg=3.0))
    assert motion.heading_deg(0.0) == pytest.approx(350.4059, abs=1e-4)
    assert motion.least_heading_off_deg == pytest.approx(-12.5941, abs=1e-4)
    assert motion.drift_angle_deg == pytest.approx(12.5941, abs=1e-4)
    assert kn_from_mps(motion.set_across_mps) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("set_deg", "sentence"),
    [
        (
            90.0,
            "leg 3: at 4.0 kn the ship cannot be held on her course against a stream of 4.0 kn "
            "setting 090°. Give more speed, or correct set and drift.",
        ),
        (
            180.0,
            "leg 3: at 4.0 kn the ship cannot be made to gain ground against a stream of 4.0 kn "
            "setting 180°. Give more speed, or correct set and drift.",
        ),
    ],
)
def test_a_stream_that_cannot_be_stemmed_is_one_sentence(set_deg: float, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        moved(0.0, 4.0, set_deg, 4.0)
    assert str(error.value) == sentence


def two_legs(streams: PassageStreams) -> tuple[Timetable, set[str]]:
    """Two legs of 0.1 deg along the equator, 6.0108 NM each, at 12 kn."""
    passage = Passage(
        name="invented",
        waypoints=tuple(
            Waypoint(name=f"WP{i + 1}", position=Position(lat_deg=0.0, lon_deg=-30.0 + 0.1 * i))
            for i in range(3)
        ),
        legs=(Leg(), Leg()),
    )
    _passage, timetable, findings = resolve_passage(
        passage,
        speed_mps=mps_from_kn(12.0),
        corridor_m=m_from_nm(0.25),
        default_speed_mps=mps_from_kn(12.0),
        default_corridor_m=m_from_nm(0.25),
        start_utc=START,
        streams=streams,
    )
    return timetable, {finding.code for finding in findings}


def test_the_timetable_runs_on_the_speed_over_the_ground() -> None:
    # Second leg alone with 3 kn fair: 11131.949 m at 12 kn, then at 15 kn.
    fair = LegStream(stream=Stream(set_deg=90.0, drift_mps=mps_from_kn(3.0)))
    still, codes = two_legs(PassageStreams())
    assert still.leg_motion == ()
    assert "speed-through-water" not in codes
    timetable, codes = two_legs(PassageStreams(by_leg=((2, fair),)))
    assert "speed-through-water" in codes
    length_m = 11_131.949
    first_s = length_m / mps_from_kn(12.0)
    assert timetable.seconds_at(1, 0.0) == pytest.approx(first_s, abs=0.01)
    assert timetable.seconds_at(1, length_m) - first_s == pytest.approx(
        length_m / mps_from_kn(15.0), abs=0.01
    )
    assert timetable.motion_of(0) == still_water(mps_from_kn(12.0))
    assert kn_from_mps(timetable.motion_of(1).water_speed_mps) == pytest.approx(12.0)


def test_what_a_leg_has_of_its_own_goes_before_the_passage() -> None:
    foul = Stream(set_deg=270.0, drift_mps=mps_from_kn(2.0))
    wide = Leeway(to_port_deg=5.0, to_starboard_deg=5.0)
    streams = PassageStreams(
        everywhere=LegStream(stream=foul, leeway=wide),
        by_leg=((1, LegStream(leeway=Leeway(to_port_deg=2.0))),),
    )
    assert streams.on(1) == LegStream(stream=foul, leeway=Leeway(to_port_deg=2.0))
    assert streams.on(2) == LegStream(stream=foul, leeway=wide)


def test_t29_five_degrees_wrong_at_twelve_knots() -> None:
    # T29, computed by hand: 3 cables off after 17.2 min.
    seconds = off_track_s(angle_deg=5.0, speed_mps=mps_from_kn(12.0), off_m=m_from_nm(0.3))
    assert seconds / 60.0 == pytest.approx(17.2, abs=0.05)


@pytest.mark.parametrize(
    ("threshold_nm", "minutes"), [(30.0 / 1852.0, 1.0), (0.06, 3.6), (0.12, 7.2)]
)
def test_a_set_of_one_knot_shows_after(threshold_nm: float, minutes: float) -> None:
    # Job note 2.9.9, computed by hand: on the 1.5, 6 and 12 NM scales.
    seconds = noticed_s(across_mps=mps_from_kn(1.0), threshold_m=m_from_nm(threshold_nm))
    assert seconds / 60.0 == pytest.approx(minutes, abs=0.05)
