"""The anchoring card on one sheet: approach, countdown and picture, drag watch."""

from collections.abc import Sequence

from core.plan.anchoring_result import AnchoringCard
from core.plan.outcome import Outcome
from core.sheets.anchor_tables import approach_table, countdown_table, watch_table
from core.sheets.check_picture import CheckPicture, plane_of
from core.sheets.page import Item, Measure, Page, Rectangle, Text
from core.sheets.picture_labels import RingMark, marked_picture
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.short_names import shortened
from core.sheets.tables import Table, table_items
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import quantities
from core.words.anchor_words import (
    APPROACH_HEAD,
    CAUTION,
    NO_PICTURE,
    PICTURE_IS,
    TITLE,
    WATCH_HEAD,
    card_lines,
    countdown_lines,
    dead_words,
    watch_lines,
)
from core.words.calculated_words import calculated_words

_LINE_PT = 10.0
_HEAD_PT = 11.0
_LET_GO_PT = 14.0
_GAP_MM = 2.4
_COUNTDOWN_MM = 110.0
_PICTURE_MM = CONTENT_MM - _COUNTDOWN_MM - 5.0


def anchor_pages(
    outcome: Outcome,
    pictures: Sequence[CheckPicture],
    *,
    first_number: int,
    page_count: int,
    measure: Measure,
) -> tuple[Page, ...]:
    """The card; none where she does not anchor."""
    card = outcome.plan.anchoring
    if card is None:
        return ()
    items: list[Item] = [
        *head_line(outcome, page_number=first_number, page_count=page_count, measure=measure),
        *foot(outcome, measure, has_data=False)[0],
        Text(x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=TITLE, size_pt=17.0, is_bold=True),
    ]
    y = TOP_MM + 15.0
    for line in card_lines(outcome, card):
        is_bold = card.dead_range is not None and line == dead_words(card)
        y = _words(items, line, y, measure, size_pt=_LET_GO_PT if is_bold else _LINE_PT)
    if card.approach:
        y = _words(items, APPROACH_HEAD, y + _GAP_MM, measure, size_pt=_HEAD_PT)
        y = _put(items, approach_table(outcome, card), y + 0.6, measure)
    top = y + _GAP_MM
    y = _put(items, countdown_table(outcome, card, _COUNTDOWN_MM), top, measure)
    for line in countdown_lines(outcome, card):
        y = _words(items, line, y, measure, size_pt=BODY_PT, width_mm=_COUNTDOWN_MM)
    y = max(y, _picture(items, card, pictures, top, measure))
    y = _words(items, WATCH_HEAD, y + _GAP_MM, measure, size_pt=_HEAD_PT)
    for line in watch_lines(card):
        y = _words(items, line, y, measure, size_pt=_LINE_PT)
    if card.watch:
        y = _put(items, watch_table(outcome, card), y + 0.6, measure)
    _words(items, CAUTION, y + _GAP_MM, measure, size_pt=_LINE_PT)
    return (Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=TITLE),)


def _words(
    items: list[Item],
    text: str,
    y_mm: float,
    measure: Measure,
    *,
    size_pt: float,
    width_mm: float = CONTENT_MM,
    x_mm: float = LEFT_MM,
) -> float:
    """A paragraph, large ones bold; and the y below."""
    is_bold = size_pt >= _HEAD_PT
    for line in wrap(text, width_mm, measure, size_pt=size_pt, is_bold=is_bold):
        y_mm += line_mm(size_pt)
        items.append(Text(x_mm=x_mm, y_mm=y_mm, text=line, size_pt=size_pt, is_bold=is_bold))
    return y_mm + 0.8


def _put(items: list[Item], table: Table, y_mm: float, measure: Measure) -> float:
    rows, y_mm = table_items(
        table, x_mm=LEFT_MM, y_mm=y_mm, most_rows=len(table.rows), measure=measure
    )
    items.extend(rows)
    return y_mm


def _picture(
    items: list[Item],
    card: AnchoringCard,
    pictures: Sequence[CheckPicture],
    top_mm: float,
    measure: Measure,
) -> float:
    """The picture to expect with the watched objects ringed, and its caption; the y below."""
    square = Rectangle(
        x_mm=LEFT_MM + CONTENT_MM - _PICTURE_MM,
        y_mm=top_mm,
        width_mm=_PICTURE_MM,
        height_mm=_PICTURE_MM,
    )
    place = {"x_mm": square.x_mm, "width_mm": _PICTURE_MM}
    if not pictures:
        return _words(items, NO_PICTURE, top_mm, measure, size_pt=BODY_PT, **place)
    picture = pictures[0]
    short = shortened(item.object_id for item in card.watch)
    items.extend(
        marked_picture(
            plane_of(picture, square),
            screen=picture.screen,
            own=picture.own,
            heading_deg=picture.heading_deg,
            marks=[
                RingMark(
                    words=short[item.object_id],
                    range_m=item.range_m,
                    bearing_deg=item.bearing_deg,
                    reference=f"anchor:{item.object_id}",
                )
                for item in card.watch
            ],
            measure=measure,
        )
    )
    return _words(items, _caption(picture), square.bottom_mm, measure, size_pt=BODY_PT, **place)


def _caption(picture: CheckPicture) -> str:
    calculated = calculated_words(picture.budget)
    return PICTURE_IS.format(
        scale=quantities.scale(picture.frame.scale_m),
        course=quantities.course(picture.frame.up_deg),
        calculated=f"{calculated.rstrip('.')}.",
    )
