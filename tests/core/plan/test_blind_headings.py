"""Blind sectors turn with the heading. Answers by hand; ship and places are invented."""

import math

import pytest

from core.base.units import mps_from_kn
from core.passage.motion import LegMotion, leg_motion
from core.passage.stream import Leeway, LegStream, Stream
from core.plan.blind_sectors import blind_spans, is_blind, sectors_about_course
from core.ship.ship import BlindSector
from tests.helpers.islands import NM

T14 = BlindSector(from_relative_deg=255.0, to_relative_deg=262.0)
ALL = ((-50.0 * NM, 50.0 * NM),)


def moved(leeway: Leeway | None = None, stream: Stream | None = None) -> LegMotion:
    return leg_motion(
        LegStream(stream=stream, leeway=leeway),
        course_deg=0.0,
        speed_mps=mps_from_kn(12.0),
        leg_number=1,
    )


def hidden_nm(motion: LegMotion, *sectors: BlindSector, cross_nm: float = -2.0) -> list[float]:
    """Where the object is hidden, miles after it comes abeam; one stretch."""
    (span,) = blind_spans(
        along_m=0.0,
        cross_m=cross_nm * NM,
        sectors=sectors_about_course(sectors or (T14,), motion),
        within=ALL,
    )
    assert span.sector in (*sectors, T14)
    return [span.from_along_m / NM, span.to_along_m / NM]


def after_abeam(off_bow_deg: float, cross_nm: float = 2.0) -> float:
    return -cross_nm / math.tan(math.radians(off_bow_deg))


def test_t14_exact_with_zero_leeway() -> None:
    # T14, by hand: 0.28 to 0.54 NM after abeam.
    assert hidden_nm(moved(Leeway())) == pytest.approx([0.28, 0.54], abs=5e-3)


def test_t14_with_leeway_of_either_sign_is_the_union() -> None:
    # 255 to 262 rel on headings 4 to either side: 251 to 266 off the course, so 94 to 109 deg off
    # the bow to port: 0.14 to 0.69 NM after abeam.
    found = hidden_nm(moved(Leeway(to_port_deg=4.0, to_starboard_deg=4.0)))
    assert found == pytest.approx([after_abeam(94.0), after_abeam(109.0)])
    assert found == pytest.approx([0.140, 0.689], abs=5e-4)


@pytest.mark.parametrize(
    ("leeway", "off_deg"),
    [
        # Pushed to starboard she heads to port: the sector comes round to port with her.
        (Leeway(to_starboard_deg=4.0), (98.0, 109.0)),
        (Leeway(to_port_deg=4.0), (94.0, 105.0)),
    ],
)
def test_leeway_to_one_side_turns_the_sector_one_way(
    leeway: Leeway, off_deg: tuple[float, float]
) -> None:
    assert hidden_nm(moved(leeway)) == pytest.approx([after_abeam(a) for a in off_deg])


def test_a_stream_turns_the_sector_by_the_crab_angle() -> None:
    # 2 kn setting 090 at 12 kn: she heads 9.594 to port, the sector 245.41 to 252.41.
    crab = math.degrees(math.asin(1.0 / 6.0))
    found = hidden_nm(moved(stream=Stream(set_deg=90.0, drift_mps=mps_from_kn(2.0))))
    assert found == pytest.approx([after_abeam(98.0 + crab), after_abeam(105.0 + crab)])


@pytest.mark.parametrize("leeway_deg", [0.0, 3.0, 12.0])
def test_the_stretch_is_the_union_over_all_headings(leeway_deg: float) -> None:
    own = (T14, BlindSector(from_relative_deg=172.0, to_relative_deg=188.0))
    about = sectors_about_course(
        own, moved(Leeway(to_port_deg=leeway_deg, to_starboard_deg=leeway_deg))
    )
    for tenths in range(3600):
        off_deg = tenths / 10.0
        ahead, cross = math.cos(math.radians(off_deg)), math.sin(math.radians(off_deg))
        steps = [leeway_deg * n / 20.0 for n in range(-20, 21)]
        by_heading = any(
            (off_deg - turn - one.from_relative_deg) % 360.0
            <= one.to_relative_deg - one.from_relative_deg
            for turn in steps
            for one in own
        )
        ends = (one.from_off_deg for one in about), (one.to_off_deg for one in about)
        if min(abs(off_deg - end) for group in ends for end in group) > 0.35:
            assert is_blind(ahead_m=ahead, cross_m=cross, sectors=about) == by_heading, off_deg


def test_a_sector_that_leeway_makes_wider_than_all_round_hides_everything() -> None:
    wide = BlindSector(from_relative_deg=20.0, to_relative_deg=340.0)
    about = sectors_about_course((wide,), moved(Leeway(to_port_deg=30.0, to_starboard_deg=30.0)))
    assert is_blind(ahead_m=1.0, cross_m=0.0, sectors=about)
    assert len(blind_spans(along_m=0.0, cross_m=NM, sectors=about, within=ALL)) == 1
