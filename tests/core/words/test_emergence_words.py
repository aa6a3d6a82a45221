"""Words of emerging craft, places in hidden water and blind sectors, and how they are rounded."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.position import Position
from core.passage.passage import Side
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm, CraftRun, Emergence, NoOffing
from core.plan.sector_result import HiddenSector, SteadyApproach
from core.plan.waters_result import HiddenMark
from core.words.emergence_words import (
    approaches_words,
    emergence_line,
    emergence_time,
    head_name,
    hidden_mark_words,
    minutes_down,
    offing_words,
    runs_words,
    sector_line,
)

_TIMES = Timetable(start_utc=None, leg_start_s=(0.0,), leg_speed_mps=(mps_from_kn(12.0),))
_TIP = Position(lat_deg=47.0, lon_deg=-31.0)


def _run(knots: float, minutes: float | None, alarm: Alarm = Alarm.SHORT) -> CraftRun:
    return CraftRun(
        craft_speed_mps=mps_from_kn(knots),
        warning_s=None if minutes is None else minutes * 60.0,
        at_edge_s=None if minutes is None else minutes * 48.0,
        own_along_m=None if minutes is None else m_from_nm(1.0),
        position=None if minutes is None else _TIP,
        relative_deg=59.0,
        alarm=alarm,
    )


# The sample of job.md 14.11 (invented leg, its own figures).
_HEAD = Emergence(
    number=1,
    object_id="Head E",
    side=Side.STARBOARD,
    tip=_TIP,
    tip_along_m=m_from_nm(2.0),
    offing_m=m_from_nm(0.517),
    pass_off_m=m_from_nm(0.05),
    hidden_m2=m_from_nm(0.5) ** 2,
    is_behind_unknown=False,
    relative_from_deg=30.2,
    relative_to_deg=59.7,
    runs=(_run(10.0, 3.35), _run(20.0, 1.89), _run(30.0, None)),
    decision_s=360.0,
    needed_offing_m=m_from_nm(1.9167),
    extra_offing_m=m_from_nm(1.4),
    extra_distance_m=m_from_nm(0.41),
    no_offing=None,
)


def test_line_of_a_flagged_head_as_in_the_trade_note() -> None:
    # job.md 14.11: rel 030-060, warning 1.8 min for 20 kn at p 0.05 NM, flag; rounded down
    assert emergence_line(_HEAD) == ("rel 030° to 060°, 1.8 min at 20 kn, pass-off 0.05 NM: FLAG")
    assert head_name(_HEAD) == "Head E"
    assert emergence_time(_HEAD, 0, _TIMES) == "+0:05"


def test_head_without_a_letter_and_without_a_flag() -> None:
    enough = replace(
        _HEAD, object_id="", runs=tuple(replace(r, alarm=Alarm.NONE) for r in _HEAD.runs)
    )
    assert head_name(enough) == "head 0.52 NM off"
    assert emergence_line(enough).endswith("pass-off 0.05 NM")


def test_warning_that_the_edge_of_the_corridor_alone_makes_short_says_so() -> None:
    edge = replace(_HEAD, decision_s=100.0)
    assert "1.8 min (1.5 at the corridor's edge) at 20 kn" in emergence_line(edge)


def test_all_speeds_and_the_offing_wanted_rounded_up() -> None:
    assert runs_words(_HEAD) == "10 kn 3.3 (2.6), 20 kn 1.8 (1.5), 30 kn –"
    assert offing_words(_HEAD) == (
        "6 min want 2.0 NM off, 1.4 NM more; one bend there lengthens the leg by 0.5 NM"
    )
    shut = replace(
        _HEAD, extra_offing_m=None, extra_distance_m=None, no_offing=NoOffing.OTHER_SHORE
    )
    assert offing_words(shut) == (
        "6 min want 2.0 NM off; land on the other side leaves no room for it"
    )
    assert offing_words(replace(_HEAD, needed_offing_m=None)) == ""


@pytest.mark.parametrize(("time_s", "words"), [(108.0, "1.8"), (107.9, "1.7"), (0.0, "0.0")])
def test_warning_is_never_told_longer_than_it_is(time_s: float, words: str) -> None:
    assert minutes_down(time_s) == words


def test_place_that_opens_and_one_that_does_not() -> None:
    mouth = HiddenMark(
        name="Mouth",
        kind="harbour mouth",
        is_place=True,
        side=Side.STARBOARD,
        abeam_m=m_from_nm(5.5),
        off_track_m=m_from_nm(2.0),
        within_m=m_from_nm(6.0),
        near=(0.0, m_from_nm(8.0)),
        hidden=((0.0, m_from_nm(2.5)),),
        hidden_somewhere=((0.0, m_from_nm(2.5)),),
        unknown=(),
        opens_m=m_from_nm(2.5),
        hidden_s=750.0,
        track_hidden_s=750.0,
        open_before_abeam_s=900.0,
    )
    # job.md T25: 15.0 min before it is abeam
    assert hidden_mark_words(mouth, 0, _TIMES) == (
        "hidden 13 min while within 6 NM; opens +0:13, 15.0 min before abeam"
    )
    shut = replace(mouth, opens_m=None, open_before_abeam_s=None, track_hidden_s=0.0)
    assert hidden_mark_words(shut, 0, _TIMES) == (
        "hidden 13 min while within 6 NM; not from the track itself; does not open on this leg "
        "before it is abeam"
    )


def test_sector_that_no_radar_sees_and_one_that_another_does() -> None:
    gap = HiddenSector(
        from_relative_deg=255.0,
        to_relative_deg=262.0,
        radars=("X band",),
        seen_by=(),
        is_shadow=False,
        causes=("aft mast",),
        from_true_deg=255.0,
        to_true_deg=262.0,
        approaches=(
            SteadyApproach(speed_mps=mps_from_kn(10.0), courses_deg=(), closing_mps=None),
            SteadyApproach(
                speed_mps=mps_from_kn(20.0), courses_deg=((39.6, 45.5),), closing_mps=(1.0, 2.0)
            ),
        ),
        weave_deg=10.0,
        weave_to="either side",
        weave_every_s=360.0,
    )
    # job.md 14.12: weave 10 deg once each 6 min
    assert sector_line(gap) == ("rel 255° to 262°: no radar sees there; weave 10° once each 6 min")
    assert approaches_words(gap) == "stays there on a steady bearing: 20 kn on 040–046 T"
    seen = replace(gap, seen_by=("S band",), weave_deg=None)
    assert sector_line(seen) == "rel 255° to 262°: read on S band"
    port = replace(gap, weave_to="port", is_shadow=True)
    assert sector_line(port).endswith(
        "small targets lost, no radar sees there; weave 10° to port once each 6 min"
    )
