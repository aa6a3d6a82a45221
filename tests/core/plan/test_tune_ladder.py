"""The four echoes of a tune check, chosen from echoes made by hand.

That a check needs a steady ship, a known position and echoes from strong to absent is common
practice, no source; the steps in dB are this program's own.
"""

from dataclasses import replace

import pytest

from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.plan import setup_codes as codes
from core.plan.leg_setup import check_scales
from core.plan.plan_result import ScaleStretch
from core.plan.reason import Reason
from core.plan.rules import DEFAULT_RULES
from core.plan.tune_ladder import CheckStretch, choose_tune_check
from core.plan.tune_result import LadderEcho, Rung, TuneCheck, TuneReading
from core.plan.tune_rungs import by_rung, rung_of
from core.radar.radar_set import RadarPulse
from tests.helpers.sample_outcome import sample_outcome

NM = 1852.0
SPEED = 12.0 * NM / 3600.0
LINE = LegLine(
    kind=LegKind.RHUMB,
    start=Position(lat_deg=10.0, lon_deg=-30.0),
    end=Position(lat_deg=10.2, lon_deg=-30.0),
)
STRETCH = CheckStretch(
    line=LINE,
    steady_from_m=1.0 * NM,
    steady_to_m=9.0 * NM,
    needed_m=6.0 * NM,
    check_m=0.6 * NM,
    speed_mps=SPEED,
)


def scale(scale_nm: float, *, start_nm: float = 0.0, stop_nm: float = 12.0) -> ScaleStretch:
    return ScaleStretch(
        from_along_m=start_nm * NM,
        to_along_m=stop_nm * NM,
        radar="main",
        scale_m=scale_nm * NM,
        off_centre_ratio=0.0,
        off_centre_direction=None,
        pulse="short",
        reason=Reason(code="look-out"),
    )


def echo(
    object_id: str,
    margin_db: float | None,
    *,
    at_nm: float = 3.0,
    range_nm: float = 2.0,
    bearing_deg: float = 45.0,
    masked: bool = False,
    blind: bool = False,
) -> LadderEcho:
    return LadderEcho(
        object_id=object_id,
        name=object_id,
        position=Position(lat_deg=10.05, lon_deg=-29.97),
        along_m=at_nm * NM,
        range_m=range_nm * NM,
        bearing_deg=bearing_deg,
        margin_db=margin_db,
        is_masked_by_land=masked,
        masked_by="land 84 m high, 1.1 NM off" if masked else "",
        in_blind_sector=blind,
    )


def four(at_nm: float = 3.0) -> tuple[LadderEcho, ...]:
    return (
        echo("S", 32.0, at_nm=at_nm, range_nm=1.2, bearing_deg=20.0),
        echo("M", 15.0, at_nm=at_nm, range_nm=1.8, bearing_deg=110.0),
        echo("W", 4.0, at_nm=at_nm, range_nm=2.4, bearing_deg=300.0),
        echo("N", None, at_nm=at_nm, range_nm=2.2, bearing_deg=200.0, masked=True),
    )


def chosen(echoes: tuple[LadderEcho, ...], stretch: CheckStretch = STRETCH) -> TuneCheck:
    check, reason = choose_tune_check(echoes, stretch, (scale(3.0),), DEFAULT_RULES)
    assert check is not None, reason
    return check


def ids(check: TuneCheck) -> list[str | None]:
    return [None if step.echo is None else step.echo.object_id for step in check.rungs]


def why_not(
    echoes: tuple[LadderEcho, ...] | None, stretch: CheckStretch = STRETCH, scale_nm: float = 3.0
) -> str:
    check, reason = choose_tune_check(echoes, stretch, (scale(scale_nm),), DEFAULT_RULES)
    assert check is None
    assert reason is not None
    return reason.code


def test_a_full_ladder_has_strong_medium_weak_and_absent_in_this_order() -> None:
    check = chosen(four())
    assert ids(check) == ["S", "M", "W", "N"]
    assert [step.rung for step in check.rungs] == list(Rung)
    assert check.along_m == 3.0 * NM
    assert check.position == LINE.position_at(3.0 * NM)
    assert (check.radar, check.scale_m) == ("main", 3.0 * NM)


def test_the_time_in_hand_is_that_to_where_the_radar_is_needed() -> None:
    # 3 NM at 12 kn are 15 minutes, by hand.
    check = chosen(four())
    assert check.reason.code == codes.TUNE_PLACE
    assert dict(check.reason.values)["before_minutes"] == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("margin_db", "rung"),
    [
        (20.1, Rung.STRONG),
        (20.0, Rung.MEDIUM),
        (10.0, Rung.MEDIUM),
        (9.9, Rung.WEAK),
        (3.0, Rung.WEAK),
        (2.9, None),
        (-8.0, None),
        (None, None),
        (float("nan"), None),
    ],
)
def test_the_margin_gives_the_step(margin_db: float | None, rung: Rung | None) -> None:
    assert rung_of(echo("A", margin_db), DEFAULT_RULES.tune) is rung


def test_what_is_over_the_horizon_or_too_weak_is_never_the_absent_echo() -> None:
    unseen = (*four()[:3], echo("H", None, range_nm=2.2, bearing_deg=200.0))
    weak = (*four()[:3], echo("T", -30.0, range_nm=2.2, bearing_deg=200.0))
    for echoes in (unseen, weak):
        check = chosen(echoes)
        assert ids(check) == ["S", "M", "W", None]
        assert check.rungs[3].reason.code == codes.TUNE_NO_MASKED
        assert TuneReading.ABSENT_SEEN not in check.readings


def test_nothing_in_a_blind_sector_is_used() -> None:
    blind = tuple(replace(one, in_blind_sector=one.object_id in "SN") for one in four())
    check = chosen(blind)
    assert ids(check) == [None, "M", "W", None]
    assert TuneReading.STRONG_MISSING not in check.readings
    # Masked and blind at once shows nothing either way.
    assert rung_of(echo("N", None, masked=True, blind=True), DEFAULT_RULES.tune) is None


def test_what_lies_off_the_screen_or_close_in_is_not_used() -> None:
    far = replace(four()[0], range_m=2.8 * NM)  # 0.1 of the scale is kept free
    near = replace(four()[1], range_m=0.2 * NM)
    assert ids(chosen((far, near, *four()[2:]))) == [None, None, "W", "N"]


def test_an_off_centred_screen_reaches_farther_ahead_and_less_astern() -> None:
    ahead = echo("S", 32.0, range_nm=4.0, bearing_deg=0.0)
    astern = echo("M", 15.0, range_nm=2.0, bearing_deg=180.0)
    off = replace(scale(3.0), off_centre_ratio=0.5, off_centre_direction="astern")
    check, _reason = choose_tune_check((ahead, astern), STRETCH, (off,), DEFAULT_RULES)
    assert check is not None
    assert ids(check) == ["S", None, None, None]


def test_the_weakest_clear_of_the_error_is_the_weak_one() -> None:
    more = (echo("V", 8.0, range_nm=2.4, bearing_deg=300.0), echo("U", 2.0, bearing_deg=250.0))
    assert ids(chosen((*more, *four())))[2] == "W"


def test_two_echoes_that_could_be_taken_for_each_other_do_not_stand_together() -> None:
    beside = replace(four()[2], range_m=1.25 * NM, bearing_deg=23.0)
    check = chosen((four()[0], beside))
    assert ids(check) in (["S", None, None, None], [None, None, "W", None])
    missing = check.rungs[2 if check.rungs[2].echo is None else 0]
    assert missing.reason.code == codes.TUNE_NOT_APART
    apart = replace(beside, bearing_deg=27.0)
    assert ids(chosen((four()[0], apart))) == ["S", None, "W", None]


def test_one_object_stands_on_one_step_even_when_given_twice() -> None:
    twice = (echo("S", 32.0, bearing_deg=20.0), echo("S", 15.0, bearing_deg=90.0))
    check = chosen(twice)
    assert sum(step.echo is not None for step in check.rungs) == 1


def test_spread_over_the_screen_is_preferred() -> None:
    # Of two as good for the step the letter would go to the first.
    near_by = echo("B", 15.0, range_nm=1.2, bearing_deg=30.0)
    assert ids(chosen((near_by, *four())))[1] == "M"


def test_more_steps_go_before_an_earlier_place() -> None:
    early = four(2.0)[:2]
    assert chosen((*early, *four(5.0))).along_m == 5.0 * NM


def test_of_equal_ladders_the_one_before_the_radar_is_needed_then_the_earliest() -> None:
    late = four(7.0)
    assert chosen((*late, *four(5.0), *four(4.0))).along_m == 4.0 * NM
    only_late = chosen(late)
    assert only_late.reason.code == codes.TUNE_PLACE_LATE
    # Begun half a mile before, the check is not done in time: it takes 0.6 NM.
    assert chosen(four(5.5)).reason.code == codes.TUNE_PLACE_LATE


def test_an_absent_echo_that_stays_absent_is_preferred_and_one_at_its_edge_is_said() -> None:
    seen_soon = echo("N", 25.0, at_nm=4.0, range_nm=1.6, bearing_deg=190.0)
    check = chosen((*four(3.0), seen_soon))
    assert ids(check)[3] == "N"
    assert check.rungs[3].reason.code == codes.TUNE_ABSENT_MARGINAL
    other = echo("O", None, range_nm=2.0, bearing_deg=230.0, masked=True)
    better = chosen((*four(3.0), seen_soon, other))
    assert ids(better)[3] == "O"
    assert better.rungs[3].reason.code == codes.TUNE_ABSENT


def _with_edge(at_nm: float) -> tuple[LadderEcho, ...]:
    """A full ladder whose absent echo shows half a mile on."""
    shows = echo("N", 25.0, at_nm=at_nm + 0.5, range_nm=1.6, bearing_deg=190.0)
    return (*four(at_nm), shows)


def test_before_the_need_goes_before_an_absent_echo_that_stays() -> None:
    later = (echo("N", None, at_nm=7.0, range_nm=2.2, bearing_deg=200.0, masked=True), *four(7.5))
    assert chosen((*_with_edge(3.0), *later)).along_m == 3.0 * NM


def test_a_later_place_is_taken_where_the_absent_echo_stays_absent() -> None:
    still = echo("N", None, at_nm=4.0, range_nm=2.2, bearing_deg=200.0, masked=True)
    check = chosen((*_with_edge(2.0), still, *four(5.0)))
    assert check.along_m == 5.0 * NM
    assert check.rungs[3].reason.code == codes.TUNE_ABSENT


def test_turns_are_kept_clear_of() -> None:
    assert why_not((*four(0.5), *four(9.5))) == codes.TUNE_NO_STEADY


def test_every_reason_for_no_check() -> None:
    assert why_not(None) == codes.TUNE_NOT_WORKED_OUT
    assert why_not(()) == codes.TUNE_NO_OBJECTS
    assert why_not((four()[3],)) == codes.TUNE_NOTHING_SEEN
    assert why_not(four(), scale_nm=0.75) == codes.TUNE_NOTHING_SEEN


def test_the_scale_is_one_that_holds_there_the_preferred_first() -> None:
    in_use = (scale(3.0, stop_nm=4.0), scale(6.0, start_nm=4.0))
    check, _reason = choose_tune_check(four(5.0), STRETCH, in_use, DEFAULT_RULES)
    assert check is not None
    assert check.scale_m == 6.0 * NM
    longer = (scale(3.0), scale(12.0), scale(6.0))
    check, _reason = choose_tune_check(four(5.0), STRETCH, longer, DEFAULT_RULES)
    assert check is not None
    assert check.scale_m == 3.0 * NM
    # Echoes spread farther over the shorter screen, but what is preferred comes first.
    check, _reason = choose_tune_check(four(5.0), STRETCH, (scale(6.0), scale(3.0)), DEFAULT_RULES)
    assert check is not None
    assert check.scale_m == 6.0 * NM


def test_a_longer_scale_is_taken_where_it_gives_more_steps() -> None:
    # Close in all is strong; the weak one lies beyond the scale in use.
    far = replace(four()[2], range_m=5.0 * NM)
    echoes = (four()[0], far)
    check, _reason = choose_tune_check(
        echoes, STRETCH, (scale(3.0), scale(6.0), scale(12.0)), DEFAULT_RULES
    )
    assert check is not None
    assert check.scale_m == 6.0 * NM
    assert ids(check) == ["S", None, "W", None]


def test_scales_of_a_check_are_those_of_the_pulse_that_the_margins_hold_for() -> None:
    leg = sample_outcome().plan.legs[0]  # the 3 NM scale all along
    radar = sample_outcome().request.ship.radars[0]
    long = RadarPulse(
        name="long",
        length_s=0.6e-6,
        repetition_hz=1000.0,
        bandwidth_hz=3e6,
        from_scale_m=6.0 * NM,
        to_scale_m=96.0 * NM,
    )
    found = check_scales(leg, radar, long, DEFAULT_RULES.tune)
    assert [round(one.scale_m / NM) for one in found] == [6, 12, 24]
    assert {one.pulse for one in found} == {"long"}
    wide = replace(long, from_scale_m=NM)
    found = check_scales(leg, radar, wide, DEFAULT_RULES.tune)
    assert [round(one.scale_m / NM) for one in found] == [3, 6, 12, 24]
    assert check_scales(leg, radar, None, DEFAULT_RULES.tune) == leg.scales


def test_readings_speak_only_of_echoes_that_were_found() -> None:
    full = chosen(four()).readings
    assert {TuneReading.WEAK_MISSING, TuneReading.STRONG_MISSING, TuneReading.ABSENT_SEEN} < set(
        full
    )
    lone = chosen(four()[2:3]).readings
    assert TuneReading.WEAK_MISSING not in lone
    assert TuneReading.AS_EXPECTED in lone


def test_the_order_of_the_echoes_does_not_matter() -> None:
    echoes = (*four(3.0), *four(4.0), echo("V", 8.0, bearing_deg=250.0))
    assert chosen(echoes) == chosen(tuple(reversed(echoes)))


def test_an_islet_that_may_lie_under_water_stands_on_a_step_only_where_nothing_else_does() -> None:
    sure, stronger = echo("S", 25.0), replace(echo("D", 50.0), is_doubtful=True)
    assert by_rung((sure, stronger), DEFAULT_RULES.tune)[Rung.STRONG] == [sure]
    assert by_rung((stronger,), DEFAULT_RULES.tune)[Rung.STRONG] == [stronger]
