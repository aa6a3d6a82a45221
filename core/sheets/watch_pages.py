"""The pages of the next four hours: whatever comes up, in order of time, four hours at a time."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import groupby

from core.plan.outcome import Outcome
from core.plan.watch_events import WatchEvent, watch_events
from core.sheets.page import Anchor, Item, Measure, Page, Stroke, Text, Tone
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.watch_blocks import (
    BEARING_END_MM,
    COLUMN_MM,
    COLUMNS,
    GUTTER_MM,
    LEAD_MM,
    RANGE_END_MM,
    Block,
    moved,
    watch_blocks,
)
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import times
from core.words.bridge_words import Bridge
from core.words.messages import Say
from core.words.quantities import DASH

HOURS = 4
_SPAN = 60 * HOURS
_HEAD_MM = 4.6


@dataclass(frozen=True, slots=True, kw_only=True)
class WatchLayout:
    """Pages of columns of blocks, each page with its title."""

    pages: tuple[tuple[str, tuple[tuple[Block, ...], ...]], ...]

    @property
    def page_count(self) -> int:
        """How many sheets they fill."""
        return len(self.pages)


def lay_out_watch(outcome: Outcome, calls: Sequence[WatchEvent], measure: Measure) -> WatchLayout:
    """Break the events of every four hours over columns; each four hours begin a sheet.

    ``calls`` are the overdue limits that call the master.
    """
    events = watch_events(outcome.plan, calls)
    _foot, foot_top = foot(outcome, measure)
    room_mm = foot_top - _top_mm(measure) - _HEAD_MM - 1.0
    last = _last_watch(outcome)
    found = []
    for number, group in groupby(events, key=lambda event: min(event.minute // _SPAN, last)):
        blocks = watch_blocks(outcome, tuple(group), measure)
        columns = _filled(blocks, room_mm)
        title = Bridge.NEXT_HOURS_OF.format(
            span=_span(outcome, number), zone=times.zone_words(outcome.plan.timetable)
        )
        for start in range(0, len(columns), COLUMNS):
            said = title if start == 0 else f"{title}, {Say.CONTINUED}"
            found.append((said, tuple(columns[start : start + COLUMNS])))
    return WatchLayout(pages=tuple(found))


def _last_watch(outcome: Outcome) -> int:
    """The four hours in which the passage ends: what is told as it ends begins no other."""
    legs = outcome.plan.legs
    seconds = outcome.plan.timetable.seconds_at(len(legs) - 1, legs[-1].distance_m)
    return max(math.ceil(seconds / 60.0) - 1, 0) // _SPAN


def _span(outcome: Outcome, number: int) -> str:
    """From when to when, with the day where a start time is known."""
    timetable = outcome.plan.timetable
    seconds = (number * HOURS * 3600.0, (number + 1) * HOURS * 3600.0)
    start = timetable.start_utc
    if start is None:
        words = [times.from_start(one) for one in seconds]
    else:
        minute = start.replace(second=0, microsecond=0)
        words = [times.day_clock(minute + timedelta(seconds=one)) for one in seconds]
    return DASH.join(words)


def _filled(blocks: Sequence[Block], room_mm: float) -> list[tuple[Block, ...]]:
    """Columns of blocks; a heading never stands last in one."""
    columns: list[list[Block]] = [[]]
    used = 0.0
    for number, block in enumerate(blocks):
        after = blocks[number + 1].height_mm if block.is_heading and number + 1 < len(blocks) else 0
        if columns[-1] and used + block.height_mm + after > room_mm:
            columns.append([])
            used = 0.0
        columns[-1].append(block)
        used += block.height_mm
    return [tuple(column) for column in columns]


def _top_mm(measure: Measure) -> float:
    intro = wrap(str(Bridge.NEXT_HOURS_MEAN), CONTENT_MM, measure)
    return TOP_MM + 14.0 + len(intro) * line_mm(BODY_PT) + 1.0


def watch_pages(
    outcome: Outcome, layout: WatchLayout, *, first_number: int, page_count: int, measure: Measure
) -> tuple[Page, ...]:
    """The sheets, numbered from ``first_number``."""
    intro = wrap(str(Bridge.NEXT_HOURS_MEAN), CONTENT_MM, measure)
    top = _top_mm(measure)
    zone = times.zone_short(outcome.plan.timetable)
    pages = []
    for number, (title, columns) in enumerate(layout.pages):
        items: list[Item] = [
            *head_line(
                outcome, page_number=first_number + number, page_count=page_count, measure=measure
            ),
            Text(x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=title, size_pt=14.0, is_bold=True),
            *(
                Text(
                    x_mm=LEFT_MM,
                    y_mm=TOP_MM + 13.0 + (n + 1) * line_mm(BODY_PT) + 0.6,
                    text=line,
                    size_pt=BODY_PT,
                )
                for n, line in enumerate(intro)
            ),
            *foot(outcome, measure)[0],
        ]
        for place, blocks in enumerate(columns):
            x = LEFT_MM + place * (COLUMN_MM + GUTTER_MM)
            items += _column_head(x, top, zone)
            y = top + _HEAD_MM
            for block in blocks:
                items += [moved(item, x, y) for item in block.items]
                y += block.height_mm
        pages.append(
            Page(
                width_mm=WIDTH_MM,
                height_mm=HEIGHT_MM,
                items=tuple(items),
                name=str(Bridge.NEXT_HOURS),
            )
        )
    return tuple(pages)


def _column_head(x: float, top: float, zone: str) -> list[Item]:
    y = top + _HEAD_MM - 1.6
    return [
        Text(x_mm=x, y_mm=y, text=zone, size_pt=BODY_PT),
        Text(x_mm=x + LEAD_MM, y_mm=y, text=str(Say.COLUMN_OBJECT), size_pt=BODY_PT),
        Text(x_mm=x + RANGE_END_MM, y_mm=y, text="NM", size_pt=BODY_PT, anchor=Anchor.END),
        Text(x_mm=x + BEARING_END_MM, y_mm=y, text="° T", size_pt=BODY_PT, anchor=Anchor.END),
        Stroke(
            points=((x, top + _HEAD_MM - 0.4), (x + COLUMN_MM, top + _HEAD_MM - 0.4)),
            width_mm=0.35,
            tone=Tone.RULE,
        ),
    ]
