"""Speeds, corridors and times a route file leaves open; all numbers computed by hand."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from core.base.findings import Finding, Severity
from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.position import Position
from core.passage.defaults import resolve_passage
from core.passage.passage import Leg, Passage, Waypoint
from core.passage.timetable import Timetable

_START = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


def _passage(legs: int = 3) -> Passage:
    """Legs of one tenth of a degree along the equator: 11 131.949 m each (WGS-84 a x 0.1 deg)."""
    return Passage(
        name="invented",
        waypoints=tuple(
            Waypoint(name=f"WP{i + 1}", position=Position(lat_deg=0.0, lon_deg=-30.0 + 0.1 * i))
            for i in range(legs + 1)
        ),
        legs=tuple(Leg() for _ in range(legs)),
    )


def _with_times(passage: Passage, minutes: list[float | None], stay_min: float = 0.0) -> Passage:
    """Arrival after the minutes given, departure a stay later; None leaves the waypoint open."""
    waypoints = []
    for waypoint, after in zip(passage.waypoints, minutes, strict=True):
        if after is None:
            waypoints.append(waypoint)
            continue
        arrives = _START + timedelta(minutes=after)
        leaves = arrives + timedelta(minutes=stay_min if after else 0.0)
        waypoints.append(replace(waypoint, eta_utc=arrives, etd_utc=leaves))
    return replace(passage, waypoints=tuple(waypoints))


def _resolve(
    passage: Passage,
    *,
    speed_kn: float | None = None,
    corridor_nm: float | None = None,
    start_utc: datetime | None = None,
) -> tuple[Passage, Timetable, dict[str, Finding]]:
    filled, timetable, findings = resolve_passage(
        passage,
        speed_mps=None if speed_kn is None else mps_from_kn(speed_kn),
        corridor_m=None if corridor_nm is None else m_from_nm(corridor_nm),
        default_speed_mps=mps_from_kn(12.0),
        default_corridor_m=m_from_nm(0.25),
        start_utc=start_utc,
    )
    return filled, timetable, {finding.code: finding for finding in findings}


def test_without_speed_anywhere_twelve_knots_are_assumed_with_a_finding() -> None:
    filled, timetable, findings = _resolve(_passage())
    assert [leg.speed_mps for leg in filled.legs] == pytest.approx([6.173333] * 3, abs=1e-6)
    assert findings["speed-assumed"].severity is Severity.CHECK
    assert "any leg; 12.0 kn" in findings["speed-assumed"].what
    # 11 131.949 m at 6.17333 m/s is 1803.23 s a leg
    assert timetable.leg_start_s == pytest.approx((0.0, 1803.23, 3606.46), abs=0.01)


def test_only_silent_legs_get_the_assumed_speed_and_are_named() -> None:
    passage = _passage(4)
    legs = list(passage.legs)
    legs[1] = Leg(speed_mps=8.0)
    filled, timetable, findings = _resolve(replace(passage, legs=tuple(legs)))
    assert filled.legs[1].speed_mps == 8.0
    assert "for legs 1, 3-4;" in findings["speed-assumed"].what
    assert timetable.leg_speed_mps == tuple(leg.speed_mps for leg in filled.legs)


def test_given_speed_overrides_the_file_and_says_so() -> None:
    passage = _passage()
    passage = replace(passage, legs=(Leg(speed_mps=8.0), Leg(speed_mps=9.0), Leg()))
    filled, _timetable, findings = _resolve(passage, speed_kn=10.0)
    assert {leg.speed_mps for leg in filled.legs} == {mps_from_kn(10.0)}
    assert "speed-assumed" not in findings
    assert findings["speed-overridden"].severity is Severity.NOTE


def test_corridor_is_the_files_then_the_officers_then_assumed() -> None:
    passage = _passage()
    passage = replace(
        passage,
        legs=(
            Leg(corridor_port_m=300.0, corridor_starboard_m=200.0),
            Leg(corridor_port_m=90.0),
            Leg(),
        ),
    )
    given, _timetable, findings = _resolve(passage, corridor_nm=0.1)
    assert [(g.corridor_port_m, g.corridor_starboard_m) for g in given.legs] == [
        (300.0, 200.0),
        (90.0, pytest.approx(185.2)),
        (pytest.approx(185.2), pytest.approx(185.2)),
    ]
    assert "corridor-assumed" not in findings
    assumed, _timetable, findings = _resolve(passage)
    assert assumed.legs[1].corridor_starboard_m == 463.0
    assert "for legs 2-3; 0.25 NM" in findings["corridor-assumed"].what


def test_without_start_time_no_utc_is_invented() -> None:
    _filled, timetable, findings = _resolve(_passage())
    assert timetable.start_utc is None
    assert timetable.utc_at(1, 0.0) is None
    assert timetable.seconds_at(1, 617.3333) == pytest.approx(1903.23, abs=0.01)
    assert findings["no-start-time"].severity is Severity.NOTE


def test_given_start_time_sets_the_clock() -> None:
    _filled, timetable, findings = _resolve(_passage(), start_utc=_START)
    reached = timetable.utc_at(1, 0.0)
    assert reached is not None
    assert (reached - _START).total_seconds() == pytest.approx(1803.23, abs=0.01)
    assert "no-start-time" not in findings


def test_schedule_gives_start_speeds_and_stays() -> None:
    # arrivals after 30, 65 and 100 min, 5 min stay at each: 30 min under way on every leg
    passage = _with_times(_passage(), [0.0, 30.0, 65.0, 100.0], stay_min=5.0)
    passage = replace(passage, legs=tuple(Leg(speed_mps=3.0) for _ in passage.legs))
    filled, timetable, findings = _resolve(passage)
    assert timetable.start_utc == _START
    assert timetable.leg_start_s == pytest.approx((0.0, 35 * 60.0, 70 * 60.0))
    assert [leg.speed_mps for leg in filled.legs] == pytest.approx([11131.949 / 1800.0] * 3)
    assert not {"speed-assumed", "no-start-time", "schedule-too-early"} & findings.keys()


def test_given_start_leaves_the_schedules_times_but_the_legs_own_speed() -> None:
    passage = _with_times(_passage(), [0.0, 30.0, 60.0, 90.0])
    passage = replace(passage, legs=(Leg(speed_mps=3.0), Leg(), Leg()))
    other = _START + timedelta(days=1)
    filled, timetable, findings = _resolve(passage, start_utc=other)
    assert timetable.start_utc == other
    assert filled.legs[0].speed_mps == 3.0
    assert filled.legs[1].speed_mps == pytest.approx(11131.949 / 1800.0)
    assert "speed-assumed" not in findings


def test_given_speed_keeps_the_schedules_start_but_not_its_times() -> None:
    passage = _with_times(_passage(), [0.0, 30.0, 65.0, 100.0], stay_min=5.0)
    _filled, timetable, _findings = _resolve(passage, speed_kn=12.0)
    assert timetable.start_utc == _START
    assert timetable.leg_start_s == pytest.approx((0.0, 1803.23, 3606.46), abs=0.01)


def test_schedule_that_cannot_be_is_not_used_and_named() -> None:
    # leg 2 would take one minute (360 kn), leg 3 would arrive before it leaves
    passage = _with_times(_passage(), [0.0, 30.0, 31.0, 20.0])
    filled, timetable, findings = resolve_passage(
        passage,
        speed_mps=None,
        corridor_m=400.0,
        default_speed_mps=6.0,
        default_corridor_m=463.0,
        start_utc=None,
    )
    implausible = [f for f in findings if f.code == "schedule-implausible"]
    assert [f.where.leg_number for f in implausible] == [2, 3]
    assert "361 kn" in implausible[0].what
    assert "arrival before departure" in implausible[1].what
    assert filled.legs[1].speed_mps == filled.legs[2].speed_mps == 6.0
    assert sorted(timetable.leg_start_s) == list(timetable.leg_start_s)
    assert "schedule-too-early" in {f.code for f in findings}


def test_waypoint_without_time_in_a_schedule_follows_from_the_speed() -> None:
    passage = _with_times(_passage(), [0.0, None, 60.0, 90.0])
    passage = replace(passage, legs=(Leg(speed_mps=6.0), Leg(speed_mps=7.0), Leg(speed_mps=2.0)))
    filled, timetable, _findings = _resolve(passage)
    assert [leg.speed_mps for leg in filled.legs] == pytest.approx([6.0, 7.0, 11131.949 / 1800.0])
    assert timetable.leg_start_s == pytest.approx((0.0, 1855.32, 3600.0), abs=0.01)
