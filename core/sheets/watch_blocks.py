"""Entries of the next four hours as blocks of items, each from its own top left corner.

Times, objects, ranges and bearings are in letters for the night; what belongs to a figure stands
beside or below it in body size.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from core.coverage.first_paint_result import FirstPaint
from core.plan.look_on import look_on
from core.plan.outcome import Outcome
from core.plan.watch_events import WatchEvent, WatchKind
from core.sheets.page import Anchor, Item, Measure, Stroke, Text, Tone
from core.sheets.sheet_frame import CONTENT_MM
from core.sheets.short_names import shortened, used_objects
from core.sheets.wrapping import BODY_PT, line_mm, set_in, wrap
from core.words.bridge_words import Bridge
from core.words.look_words import look_words
from core.words.messages import Say
from core.words.watch_words import WatchWords, watch_words

NIGHT_PT = 12.0
"""Numbers read at night (trade note 9.2)."""
COLUMNS = 2
GUTTER_MM = 5.0
COLUMN_MM = (CONTENT_MM - GUTTER_MM) / COLUMNS
LEAD_MM = 38.0
RANGE_END_MM = 62.0
BEARING_END_MM = 72.5
_TIME_GAP_MM = 2.4
"""Between a time and what it is the time of; times from the start are wider than those of a
clock."""
_MORE_MM = 74.0
_GAP_MM = 0.5
_MOST_TOGETHER = 12
"""Entries of one paragraph: more would not break well over columns."""
_PAINTS = (WatchKind.PAINT_BY, WatchKind.PAINT_FROM, WatchKind.SIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One entry of a column: its items from its own top, and its height."""

    items: tuple[Item, ...]
    height_mm: float
    is_heading: bool = False


def watch_blocks(
    outcome: Outcome, events: Sequence[WatchEvent], measure: Measure
) -> tuple[Block, ...]:
    """Blocks of one watch, a heading where a leg begins.

    First paints between two entries that matter more stand in one paragraph, but for those of
    objects a leg uses and of the officer's marks.
    """
    legs = outcome.plan.legs
    marks = {mark.name for mark in outcome.request.marks}
    used = [{thing.id for thing in used_objects(leg)} | marks for leg in legs]
    said = [(event, _said(outcome, event)) for event in events]
    shorts = shortened(words.object_id for _event, words in said if words.object_id)

    def together(one: tuple[WatchEvent, WatchWords]) -> tuple[int, bool]:
        event, words = one
        is_minor = event.kind in _PAINTS and words.object_id not in used[event.leg_index]
        return event.leg_index, is_minor

    found: list[Block] = []
    leg_index = -1
    for (index, is_minor), group in groupby(said, key=together):
        # What is rounded up may be told when the next leg has begun: it has no heading then.
        if index > leg_index:
            found.append(_heading(outcome, index, measure))
            leg_index = index
        own = [words for _event, words in group]
        if not is_minor:
            found += [
                _event(words, shorts, words.object_id in used[index], measure) for words in own
            ]
            continue
        for start in range(0, len(own), _MOST_TOGETHER):
            part = own[start : start + _MOST_TOGETHER]
            found.append(_paragraph(part, measure))
    return tuple(found)


def _said(outcome: Outcome, event: WatchEvent) -> WatchWords:
    """The words of an event; of what is overdue with the screen to look on."""
    words, paint = watch_words(event, outcome.plan.timetable), event.matter
    if event.kind is not WatchKind.OVERDUE or not isinstance(paint, FirstPaint):
        return words
    leg, ship = outcome.plan.legs[event.leg_index], outcome.request.ship
    line = outcome.plan.passage.line(leg.leg_index)
    look = look_words(look_on(leg, line, ship, paint), ship)
    return replace(words, more="; ".join(part for part in (look, words.more) if part))


def _heading(outcome: Outcome, leg_index: int, measure: Measure) -> Block:
    """Which leg it is, from where to where."""
    waypoints = outcome.plan.passage.waypoints
    names = Say.FROM_TO.format(start=waypoints[leg_index].name, stop=waypoints[leg_index + 1].name)
    lines, size_pt = set_in(
        f"{Say.LEG} {leg_index + 1}, {names}",
        COLUMN_MM,
        measure,
        sizes_pt=(10.5, 10.0, 9.5, BODY_PT),
        is_bold=True,
    )
    items: list[Item] = []
    y = 1.0
    for line in lines:
        y += line_mm(size_pt)
        items.append(Text(x_mm=0.0, y_mm=y - 0.8, text=line, size_pt=size_pt, is_bold=True))
    items.append(
        Stroke(points=((0.0, y + 0.5), (COLUMN_MM, y + 0.5)), width_mm=0.35, tone=Tone.RULE)
    )
    return Block(items=tuple(items), height_mm=y + 1.0, is_heading=True)


def _event(words: WatchWords, shorts: Mapping[str, str], is_used: bool, measure: Measure) -> Block:
    """Time, kind and lead on one line; what else there is beside the figures or below."""
    step = line_mm(NIGHT_PT)
    base = step - 1.0
    is_deed = not words.object_id
    items: list[Item] = [
        Text(x_mm=0.0, y_mm=base, text=words.time, size_pt=NIGHT_PT, is_bold=True),
        Text(
            x_mm=measure.width_mm(words.time, size_pt=NIGHT_PT, is_bold=True) + _TIME_GAP_MM,
            y_mm=base,
            text=words.kind,
            size_pt=BODY_PT,
            is_bold=is_deed or words.kind == Bridge.EVENT_OVERDUE,
        ),
    ]
    lead, more = words.lead, words.more
    if words.object_id:
        room = RANGE_END_MM - measure.width_mm(words.range, size_pt=NIGHT_PT) - 1.5 - LEAD_MM
        if measure.width_mm(lead, size_pt=BODY_PT, is_bold=is_used) > room:
            lead = shorts[lead]
        items += _figures(words, base)
        beside_mm = measure.width_mm(more, size_pt=BODY_PT)
        if more and beside_mm <= COLUMN_MM - _MORE_MM:
            items.append(Text(x_mm=_MORE_MM, y_mm=base, text=more, size_pt=BODY_PT))
            more = ""
        if lead != words.lead:
            more = "; ".join(part for part in (words.lead, more) if part)
    else:
        room = COLUMN_MM - LEAD_MM
    lines, size_pt = set_in(
        lead,
        room,
        measure,
        sizes_pt=(NIGHT_PT, 11.0, 10.0, BODY_PT),
        is_bold=is_deed or is_used,
    )
    y = base
    for number, line in enumerate(lines):
        y = base + number * line_mm(size_pt)
        items.append(
            Text(
                x_mm=LEAD_MM,
                y_mm=y,
                text=line,
                size_pt=size_pt,
                is_bold=is_deed or is_used,
                reference=f"watch:{words.object_id or words.kind}",
            )
        )
    for line in wrap(more, COLUMN_MM - LEAD_MM, measure):
        y += line_mm(BODY_PT)
        items.append(Text(x_mm=LEAD_MM, y_mm=y, text=line, size_pt=BODY_PT))
    return Block(items=tuple(items), height_mm=y + 1.0 + _GAP_MM)


def _figures(words: WatchWords, base: float) -> list[Item]:
    return [
        Text(x_mm=end, y_mm=base, text=figure, size_pt=NIGHT_PT, anchor=Anchor.END)
        for end, figure in ((RANGE_END_MM, words.range), (BEARING_END_MM, words.bearing))
    ]


def _paragraph(said: Sequence[WatchWords], measure: Measure) -> Block:
    """Several of less weight, each with its own time."""
    parts = [f"{w.time} {w.kind} {w.lead} {w.range} NM {w.bearing}°" for w in said]
    start = str(Bridge.ALSO)
    start_mm = measure.width_mm(start, size_pt=BODY_PT, is_bold=True) + 1.5
    lines = wrap("; ".join(parts), COLUMN_MM, measure, first_mm=COLUMN_MM - start_mm)
    items: list[Item] = [
        Text(x_mm=0.0, y_mm=line_mm(BODY_PT) - 0.6, text=start, size_pt=BODY_PT, is_bold=True)
    ]
    y = 0.0
    for number, line in enumerate(lines):
        y += line_mm(BODY_PT)
        x = 0.0 if number else start_mm
        items.append(Text(x_mm=x, y_mm=y - 0.6, text=line, size_pt=BODY_PT, reference="watch:also"))
    return Block(items=tuple(items), height_mm=y + 1.0)


def moved(item: Item, x: float, y: float) -> Item:
    """An item of a block in its place on the page."""
    if isinstance(item, Text):
        return replace(item, x_mm=item.x_mm + x, y_mm=item.y_mm + y)
    if isinstance(item, Stroke):
        return replace(item, points=tuple((px + x, py + y) for px, py in item.points))
    raise TypeError(f"blocks hold no {type(item).__name__}")
