"""Warning time of craft from behind a head, by the worked figures of job.md T24."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.units import m_from_nm, mps_from_kn, nm_from_m
from core.plan.emergence_time import bearing_off_bow_deg, dog_leg_m, offing_for_m, warning_s

_OWN = mps_from_kn(12.0)


@pytest.mark.parametrize(
    ("offing_nm", "pass_off_nm", "craft_kn", "minutes"),
    [
        (0.5, 0.5, 20.0, 4.0),
        (0.5, 0.5, 10.0, 5.5),
        (0.5, 0.5, 30.0, 3.5),
        (0.5, 0.0, 20.0, 1.5),
        (0.5, 0.0, 10.0, 3.0),
        (0.5, 0.0, 30.0, 1.0),
        (1.0, 0.5, 20.0, 5.5),
        (1.0, 0.5, 10.0, 8.5),
        (1.0, 0.5, 30.0, 4.5),
        (1.0, 0.0, 20.0, 3.0),
        (1.0, 0.0, 10.0, 6.0),
        (1.0, 0.0, 30.0, 2.0),
    ],
)
def test_twelve_figures_and_back(
    offing_nm: float, pass_off_nm: float, craft_kn: float, minutes: float
) -> None:
    # job.md T24 (computed by hand there): t = p / 12 h + offing / craft speed; C2 turns it round
    pass_off_m, craft_mps = m_from_nm(pass_off_nm), mps_from_kn(craft_kn)
    time_s = warning_s(
        offing_m=m_from_nm(offing_nm),
        pass_off_m=pass_off_m,
        own_speed_mps=_OWN,
        craft_speed_mps=craft_mps,
    )
    assert time_s / 60.0 == pytest.approx(minutes, abs=1e-9)
    back_m = offing_for_m(
        wanted_s=time_s, pass_off_m=pass_off_m, own_speed_mps=_OWN, craft_speed_mps=craft_mps
    )
    assert nm_from_m(back_m) == pytest.approx(offing_nm, abs=1e-9)


def test_sample_leg_of_the_trade_note() -> None:
    # job.md 14.11 (invented leg, its own figures): 1.8 min for 20 kn at p 0.05 NM; at 12 kn the
    # head then lies 0.517 NM off, and six minutes want 1.92 NM: 5.75 min at 20 kn (by hand)
    offing_m = offing_for_m(
        wanted_s=108.0,
        pass_off_m=m_from_nm(0.05),
        own_speed_mps=_OWN,
        craft_speed_mps=mps_from_kn(20.0),
    )
    assert nm_from_m(offing_m) == pytest.approx(0.517, abs=0.001)
    wanted_m = offing_for_m(
        wanted_s=360.0,
        pass_off_m=m_from_nm(0.05),
        own_speed_mps=_OWN,
        craft_speed_mps=mps_from_kn(20.0),
    )
    assert nm_from_m(wanted_m) == pytest.approx(5.75 / 60.0 * 20.0, abs=1e-9)


def test_bearings_of_ten_twenty_and_thirty_knots() -> None:
    # atan(craft / own) by hand: 10 / 12 is 39.8, 20 / 12 is 59.0, 30 / 12 is 68.2 deg
    found = [
        bearing_off_bow_deg(own_speed_mps=_OWN, craft_speed_mps=mps_from_kn(kn))
        for kn in (10.0, 20.0, 30.0)
    ]
    assert found == pytest.approx([39.8, 59.0, 68.2], abs=0.05)


def test_bend_of_three_four_five_triangles() -> None:
    # 3 aside, 4 before and after: 2 x 5 - 8 = 2 longer (Pythagoras)
    assert dog_leg_m(leg_m=8000.0, abeam_m=4000.0, aside_m=3000.0) == pytest.approx(2000.0)


@given(
    st.floats(0.0, 5.0), st.floats(0.0, 1.0), st.floats(4.0, 30.0), st.floats(5.0, 45.0),
    st.floats(1.01, 2.0),
)  # fmt: skip
def test_more_offing_more_passing_distance_slower_craft_give_more_time(
    offing_nm: float, pass_off_nm: float, own_kn: float, craft_kn: float, factor: float
) -> None:
    def time_s(offing: float, pass_off: float, craft: float) -> float:
        return warning_s(
            offing_m=m_from_nm(offing),
            pass_off_m=m_from_nm(pass_off),
            own_speed_mps=mps_from_kn(own_kn),
            craft_speed_mps=mps_from_kn(craft),
        )

    here = time_s(offing_nm, pass_off_nm, craft_kn)
    assert time_s(offing_nm + 0.1, pass_off_nm, craft_kn) > here
    assert time_s(offing_nm, pass_off_nm + 0.1, craft_kn) > here
    assert time_s(offing_nm + 0.1, pass_off_nm, craft_kn * factor) < time_s(
        offing_nm + 0.1, pass_off_nm, craft_kn
    )
