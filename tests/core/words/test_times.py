"""Times into words. Four figures and the zone in the head: common practice, no source."""

from datetime import UTC, datetime

from core.passage.timetable import Timetable
from core.words import times

_SIX = datetime(2026, 3, 14, 6, 41, 40, tzinfo=UTC)
_WITH_TIME = Timetable(start_utc=_SIX, leg_start_s=(0.0,), leg_speed_mps=(6.0,))
_WITHOUT = Timetable(start_utc=None, leg_start_s=(0.0,), leg_speed_mps=(6.0,))


def test_clock_is_four_figures_to_the_nearest_minute() -> None:
    assert times.clock(_SIX) == "0642"
    assert times.day_clock(_SIX) == "14 0642"


def test_moments_that_must_warn_early_round_down() -> None:
    assert times.clock_early(_SIX) == "0641"
    assert times.when_early(_WITHOUT, 0, 6.0 * 119.0) == "+0:01"
    assert times.minutes_early(2.99) == "2 min"


def test_without_a_start_time_nothing_says_now() -> None:
    assert times.when(_WITHOUT, 0, 6.0 * 3900.0) == "+1:05"
    assert times.zone_words(_WITHOUT) == "from start"
    assert times.zone_short(_WITHOUT) == "+h:mm"


def test_span_runs_from_first_to_last_time() -> None:
    assert times.span(_WITH_TIME, 0, 0.0, 6.0 * 600.0) == "0642–0652"
    assert times.zone_short(_WITH_TIME) == "UTC"


def test_durations_grow_from_tenths_to_hours() -> None:
    assert times.duration(3.04) == "3.0 min"
    assert times.duration(13.2) == "13 min"
    assert times.duration(65.0) == "1 h 05 min"


def test_midnight_rounds_into_the_next_day() -> None:
    late = datetime(2026, 3, 14, 23, 59, 45, tzinfo=UTC)
    assert times.day_clock(late) == "15 0000"
    assert times.date(late) == "14 Mar 2026"
