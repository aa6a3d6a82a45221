"""Times into words. Four figures and the zone in the head: common practice, no source."""

from datetime import UTC, datetime

from core.passage.timetable import Timetable
from core.words import times

_SIX = datetime(2026, 3, 14, 6, 41, 40, tzinfo=UTC)
_WITH_TIME = Timetable(start_utc=_SIX, leg_start_s=(0.0,), leg_speed_mps=(6.0,))
_WITHOUT = Timetable(start_utc=None, leg_start_s=(0.0,), leg_speed_mps=(6.0,))


def test_clock_is_four_figures_rounded_down() -> None:
    assert times.clock(_SIX) == "0641"
    assert times.day_clock(_SIX) == "14 0641"
    # A whole minute is itself, however its last bits fell; so is one by which something is due.
    sharp = Timetable(start_utc=_SIX.replace(second=0), leg_start_s=(0.0,), leg_speed_mps=(0.1,))
    for bits in (-1e-7, 0.0, 1e-7):
        assert times.when(sharp, 0, 6.0 + bits) == "0642"
        assert times.when_late(sharp, 0, 6.0 + bits) == "0642"
    assert times.when_late(sharp, 0, 6.1) == "0643"


def test_one_event_has_one_time_wherever_it_stands() -> None:
    for timetable in (_WITH_TIME, _WITHOUT):
        for seconds in range(0, 240, 7):
            along_m = 6.0 * seconds
            once = times.when(timetable, 0, along_m)
            assert times.when_early(timetable, 0, along_m) == once
            assert times.span(timetable, 0, along_m, along_m) == f"{once}–{once}"


def test_moments_that_must_warn_early_round_down() -> None:
    assert times.when_early(_WITHOUT, 0, 6.0 * 119.0) == "+0:01"
    assert times.minutes_early(2.99) == "2 min"


def test_without_a_start_time_nothing_says_now() -> None:
    assert times.when(_WITHOUT, 0, 6.0 * 3900.0) == "+1:05"
    assert times.zone_words(_WITHOUT) == "from start"
    assert times.zone_short(_WITHOUT) == "+h:mm"


def test_span_runs_from_first_to_last_time() -> None:
    assert times.span(_WITH_TIME, 0, 0.0, 6.0 * 600.0) == "0641–0651"
    assert times.zone_short(_WITH_TIME) == "UTC"


def test_durations_grow_from_tenths_to_hours() -> None:
    assert times.duration(3.04) == "3.0 min"
    assert times.duration(13.2) == "13 min"
    assert times.duration(65.0) == "1 h 05 min"


def test_the_day_goes_with_the_minute() -> None:
    late = datetime(2026, 3, 14, 23, 59, 45, tzinfo=UTC)
    assert times.day_clock(late) == "14 2359"
    assert times.date(late) == "14 Mar 2026"
