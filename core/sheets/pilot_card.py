"""The pilot card: each leg in large letters, then ship and radar.

Everything on it is large enough to be read when the sheet is printed on A5, at 71 % (trade note
1.11.1, common practice, no source); nine legs fit on one side.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.passage.passage import Side
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.page import Item, Measure, Page, Stroke, Text, Tone
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    RIGHT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.short_names import shortened, used_objects
from core.sheets.watch_blocks import moved
from core.sheets.wrapping import line_mm, set_in, wrap
from core.words import quantities
from core.words.bridge_words import Bridge
from core.words.messages import Say
from core.words.pilot_words import ship_facts, side_words, turn_words

LEAST_PT = 12.8
"""9 pt on A5: nine over the root of one half."""
_LEAD_PT = 15.0
_LEADING = 0.95
"""Lines of one cell stand closer than those of a text."""
_COLUMNS_MM = (13.0, 31.0, 46.0, 46.0, 52.0)
_TOP_MM = TOP_MM + 20.0
_PAD_MM = 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Items of a leg from the top of its row."""

    items: tuple[Item, ...]
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PilotLayout:
    """Rows of legs, a tuple a sheet; the facts stand below the last."""

    sheets: tuple[tuple[_Row, ...], ...]
    facts: tuple[str, ...]

    @property
    def page_count(self) -> int:
        """How many sheets it fills."""
        return len(self.sheets)


def lay_out_pilot_card(outcome: Outcome, measure: Measure) -> PilotLayout:
    """Legs from the first on, ship and radar on the last sheet or on one of their own."""
    shorts = _shorts(outcome)
    facts = _fact_lines(outcome, measure)
    facts_mm = line_mm(_LEAD_PT) + len(facts) * line_mm(LEAST_PT) + 2.0
    room = foot(outcome, measure)[1] - _TOP_MM - _head_mm() - 1.0
    sheets: list[list[_Row]] = [[]]
    used = 0.0
    for leg in outcome.plan.legs:
        row = _row(leg, shorts, measure)
        if sheets[-1] and used + row.height_mm > room:
            sheets.append([])
            used = 0.0
        sheets[-1].append(row)
        used += row.height_mm
    if used + facts_mm > room:
        sheets.append([])
    return PilotLayout(sheets=tuple(tuple(rows) for rows in sheets), facts=facts)


def _shorts(outcome: Outcome) -> dict[str, str]:
    return shortened(thing.id for leg in outcome.plan.legs for thing in used_objects(leg))


def _fact_lines(outcome: Outcome, measure: Measure) -> tuple[str, ...]:
    shorts = _shorts(outcome)
    names = ", ".join(f"{short} {name}" for name, short in shorts.items() if short != name)
    facts = [*ship_facts(outcome)]
    if names:
        facts.append(Bridge.NAMES_OF.format(names=names))
    return tuple(
        line for fact in facts for line in wrap(fact, CONTENT_MM, measure, size_pt=LEAST_PT)
    )


def _head_mm() -> float:
    return line_mm(LEAST_PT) + 1.4


def _row(leg: LegPlan, shorts: Mapping[str, str], measure: Measure) -> _Row:
    cells: tuple[Sequence[str], ...] = (
        (str(leg.leg_index + 1),),
        (
            quantities.track(leg.course_deg).removesuffix(" T"),
            quantities.miles(leg.distance_m),
        ),
        side_words(leg, Side.PORT, shorts) or (quantities.DASH,),
        side_words(leg, Side.STARBOARD, shorts) or (quantities.DASH,),
        turn_words(leg.wheel_over, shorts),
    )
    items: list[Item] = []
    x = LEFT_MM
    height = 0.0
    for lines, width in zip(cells, _COLUMNS_MM, strict=True):
        y = 0.0
        for number, words in enumerate(lines):
            is_lead = number == 0
            sizes = (_LEAD_PT, 14.0, 13.4, LEAST_PT) if is_lead else (LEAST_PT,)
            laid, size_pt = set_in(words, width - 2.0, measure, sizes_pt=sizes, is_bold=is_lead)
            for line in laid:
                y += line_mm(size_pt) * _LEADING
                items.append(
                    Text(
                        x_mm=x,
                        y_mm=y + _PAD_MM - 1.2,
                        text=line,
                        size_pt=size_pt,
                        is_bold=is_lead,
                        reference=f"leg:{leg.leg_index}",
                    )
                )
        height = max(height, y)
        x += width
    bottom = height + _PAD_MM + 0.6
    items.append(
        Stroke(points=((LEFT_MM, bottom), (RIGHT_MM, bottom)), width_mm=0.3, tone=Tone.RULE)
    )
    return _Row(items=tuple(items), height_mm=bottom)


def pilot_pages(
    outcome: Outcome, layout: PilotLayout, *, first_number: int, page_count: int, measure: Measure
) -> tuple[Page, ...]:
    """The card's sheets, numbered from ``first_number``."""
    pages = []
    for number, rows in enumerate(layout.sheets):
        items = [
            *head_line(
                outcome, page_number=first_number + number, page_count=page_count, measure=measure
            ),
            *_title(outcome, is_again=number > 0, measure=measure),
            *foot(outcome, measure)[0],
        ]
        y = _TOP_MM
        if rows:
            items += _heads(y)
            y += _head_mm()
        for row in rows:
            items += [moved(item, 0.0, y) for item in row.items]
            y += row.height_mm
        if number == layout.page_count - 1:
            items += _facts(layout.facts, y)
        pages.append(
            Page(
                width_mm=WIDTH_MM,
                height_mm=HEIGHT_MM,
                items=tuple(items),
                name=str(Bridge.PILOT_CARD),
            )
        )
    return tuple(pages)


def _title(outcome: Outcome, *, is_again: bool, measure: Measure) -> list[Item]:
    title = Bridge.PILOT_OF.format(ship=outcome.request.ship.name)
    if is_again:
        title = f"{title}, {Say.CONTINUED}"
    lines, size_pt = set_in(
        title, CONTENT_MM, measure, sizes_pt=(16.0, 14.0, LEAST_PT), is_bold=True
    )
    return [
        Text(x_mm=LEFT_MM, y_mm=TOP_MM + 12.2, text=lines[0], size_pt=size_pt, is_bold=True),
        Text(x_mm=LEFT_MM, y_mm=TOP_MM + 18.2, text=str(Bridge.PILOT_MEANS), size_pt=LEAST_PT),
    ]


def _heads(top: float) -> list[Item]:
    heads = (
        Say.COLUMN_LEG,
        Bridge.COLUMN_COURSE_DIST,
        Bridge.COLUMN_PORT,
        Bridge.COLUMN_STARBOARD,
        Bridge.COLUMN_WHEEL,
    )
    items: list[Item] = []
    x = LEFT_MM
    y = top + line_mm(LEAST_PT) - 0.6
    for head, width in zip(heads, _COLUMNS_MM, strict=True):
        items.append(Text(x_mm=x, y_mm=y, text=str(head), size_pt=LEAST_PT))
        x += width
    items.append(
        Stroke(points=((LEFT_MM, y + 1.0), (RIGHT_MM, y + 1.0)), width_mm=0.5, tone=Tone.INK)
    )
    return items


def _facts(facts: Sequence[str], top: float) -> list[Item]:
    y = top + line_mm(_LEAD_PT)
    items: list[Item] = [
        Text(
            x_mm=LEFT_MM, y_mm=y - 0.6, text=str(Bridge.SHIP_FACTS), size_pt=_LEAD_PT, is_bold=True
        )
    ]
    for fact in facts:
        y += line_mm(LEAST_PT)
        items.append(Text(x_mm=LEFT_MM, y_mm=y - 0.4, text=fact, size_pt=LEAST_PT))
    return items
