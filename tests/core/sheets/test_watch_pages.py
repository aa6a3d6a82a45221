"""The call-the-master card and the next four hours as printed."""

import re
from dataclasses import replace

from core.plan.landfall import landfalls_of
from core.plan.master_calls import master_calls
from core.plan.outcome import Outcome
from core.plan.plan_result import HandOver, IndexGap
from core.plan.watch_events import WatchEvent, WatchKind, watch_events
from core.sheets.book import make_book
from core.sheets.master_card import master_rows
from core.sheets.page import Page, Text
from core.sheets.short_names import used_objects
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.watch_words import watch_words
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import overlaps, texts_of, words_of
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints


def _pages(outcome: Outcome, part: str) -> list[Page]:
    return [page for page in make_book(outcome, FixedMeasure()) if page.part == part]


def _calls(outcome: Outcome) -> tuple[WatchEvent, ...]:
    marks = {mark.name for mark in outcome.request.marks if mark.is_fixed}
    return master_calls(outcome.plan, landfalls_of(outcome.plan, outcome.coverage), marks)


def _reading_order(pages: list[Page]) -> list[Text]:
    """Texts column by column, from the top of each."""
    middle = 105.0
    found: list[Text] = []
    for page in pages:
        texts = sorted(texts_of(page.items), key=lambda t: (t.x_mm > middle, t.y_mm, t.x_mm))
        found += texts
    return found


def _check_watch(outcome: Outcome) -> None:
    """Each event of the plan stands once on the pages, and times never go back."""
    plan = outcome.plan
    pages = _pages(outcome, Bridge.NEXT_HOURS)
    words = re.sub(r"\s+", " ", " ".join(text.text for text in _reading_order(pages)))
    used = [{thing.id for thing in used_objects(leg)} for leg in plan.legs]
    paints = (WatchKind.PAINT_BY, WatchKind.PAINT_FROM)
    for event in watch_events(plan):
        said = watch_words(event, plan.timetable)
        if event.kind in paints and said.object_id not in used[event.leg_index]:
            wanted = f"{said.time} {said.kind} {said.lead} {said.range} NM {said.bearing}°"
            assert wanted in words, wanted
    large = [text for text in _reading_order(pages) if text.size_pt == 12.0 and text.is_bold]
    told = [text.text for text in large if re.fullmatch(r"\d{4}|[+]\d+:\d\d", text.text)]
    assert told
    minutes = [int(t[:-2].strip("+:")) * 60 + int(t[-2:]) for t in told]
    assert minutes == sorted(minutes)


def test_every_event_stands_on_the_pages_in_order_of_time() -> None:
    _check_watch(with_paints(sample_outcome()))


def test_without_a_start_time_the_hours_count_from_the_start() -> None:
    outcome = with_paints(sample_outcome())
    timetable = replace(outcome.plan.timetable, start_utc=None)
    outcome = replace(outcome, plan=replace(outcome.plan, timetable=timetable))
    _check_watch(outcome)
    words = words_of(*_pages(outcome, Bridge.NEXT_HOURS))
    assert "Next four hours, +0:00–+4:00 from start" in words
    assert "UTC" not in words


def test_the_watch_pages_hold_as_many_entries_as_the_plan_has_events() -> None:
    for outcome in (with_paints(sample_outcome()), demo_outcome()):
        events = watch_events(outcome.plan, _calls(outcome))
        words = words_of(*_pages(outcome, Bridge.NEXT_HOURS)).replace("\n", " ")
        for kind, pattern in (
            (WatchKind.WHEEL_OVER, r"\bWHEEL\b"),
            (WatchKind.PRE_ALERT, r"\bmin to wheel-over"),
            (WatchKind.OVERDUE, r"OVERDUE(?!: call)"),
            (WatchKind.GAP, r"\bNO INDEX\b"),
            (WatchKind.HAND_OVER, r"\bhand over\b"),
            (WatchKind.EMERGENCE, r"second scan"),
        ):
            assert len(re.findall(pattern, words)) == sum(e.kind is kind for e in events), kind


def test_each_four_hours_begin_a_sheet_and_the_last_minute_begins_none() -> None:
    outcome = demo_outcome()
    titles = [
        text.text
        for page in _pages(outcome, Bridge.NEXT_HOURS)
        for text in texts_of(page.items)
        if text.size_pt == 14.0 and "continued" not in text.text
    ]
    # The demo starts at 0230 and takes 7 h 10 min.
    assert titles == [
        "Next four hours, 14 0230–14 0630 UTC",
        "Next four hours, 14 0630–14 1030 UTC",
    ]


def test_the_master_card_prints_overdue_limits_of_the_legs_that_the_plan_leans_on() -> None:
    # Capability C3: «identical to A3 limits», which of them in tests/core/plan/test_master_calls.
    for outcome in (with_paints(sample_outcome()), demo_outcome()):
        plan, timetable = outcome.plan, outcome.plan.timetable
        wanted = [
            (
                times.when_late(timetable, leg.leg_index, moment.along_m),
                str(leg.leg_index + 1),
                paint.object_id,
                quantities.radar_range(moment.range_m).removesuffix(" NM"),
                quantities.whole_degrees(moment.bearing_deg),
            )
            for leg in plan.legs
            for paint in (*leg.first_paints, *leg.coast_paints)
            if (moment := paint.overdue.moment) is not None
            and any(call.matter is paint for call in _calls(outcome))
        ]
        assert wanted
        rows = [row for row in master_rows(outcome, _calls(outcome)) if row.cells]
        found = [tuple(cell.text.removesuffix(" *") for cell in row.cells[:5]) for row in rows]
        assert sorted(found) == sorted(wanted)
        assert [row[0] for row in found] == sorted(row[0] for row in wanted)
        assert all(row.cells[7].is_blank_box for row in rows)
        notes = " ".join(row.note for row in master_rows(outcome, _calls(outcome)))
        without = [n for n in range(1, len(plan.legs) + 1) if str(n) not in {r[1] for r in wanted}]
        assert without
        assert f"None of these on leg {', '.join(map(str, without))}:" in notes


def test_numbers_read_at_night_are_in_twelve_points() -> None:
    # Trade note 9.2, common practice, no source.
    outcome = with_paints(sample_outcome())
    for part in (Bridge.MASTER_CARD, Bridge.NEXT_HOURS):
        for page in _pages(outcome, part):
            times_told = [
                text
                for text in texts_of(page.items)
                if text.is_bold and re.fullmatch(r"\d{4}", text.text)
            ]
            assert times_told
            assert all(text.size_pt >= 12.0 for text in times_told)


def test_times_from_the_start_of_a_long_passage_do_not_run_into_words() -> None:
    outcome = with_paints(sample_outcome())
    late = tuple(start + 11.0 * 3600.0 for start in outcome.plan.timetable.leg_start_s)
    timetable = replace(outcome.plan.timetable, start_utc=None, leg_start_s=late)
    outcome = replace(outcome, plan=replace(outcome.plan, timetable=timetable))
    for page in _pages(outcome, Bridge.NEXT_HOURS):
        assert overlaps(page.items, FixedMeasure()) == []
    assert "+11:" in words_of(*_pages(outcome, Bridge.NEXT_HOURS))


def test_a_stretch_has_the_same_times_here_as_on_the_leg_sheet() -> None:
    # A speed that puts hardly any end on a whole minute.
    outcome = sample_outcome()
    timetable = replace(
        outcome.plan.timetable,
        start_utc=None,
        leg_speed_mps=tuple(0.83 * one for one in outcome.plan.timetable.leg_speed_mps),
    )
    plan = replace(outcome.plan, timetable=timetable)
    told = 0
    for event in watch_events(plan):
        stretch = event.matter
        if not isinstance(stretch, HandOver | IndexGap):
            continue
        said = watch_words(event, timetable)
        span = times.span(timetable, event.leg_index, stretch.from_along_m, stretch.to_along_m)
        start, stop = span.split(quantities.DASH)
        assert said.time == start
        assert f"till {stop}" in f"{said.lead} {said.more}"
        told += 1
    assert told > 1
