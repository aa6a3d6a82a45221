"""What makes a sheet readable, asked of its items: nothing over another, nothing cut."""

from itertools import combinations

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets import strip_ruler
from core.sheets.abort_list import aborts_on
from core.sheets.page import Item, Measure, Page, Rectangle, Text, text_box
from core.sheets.strip_block import Strip

_TOUCH_MM = 0.05
"""Boxes may touch by so much; text boxes reach past the ink."""


def texts_of(items: tuple[Item, ...]) -> list[Text]:
    return [item for item in items if isinstance(item, Text)]


def overlaps(items: tuple[Item, ...], measure: Measure) -> list[tuple[str, str]]:
    """Texts whose boxes lie over one another."""
    boxes = [(text, text_box(text, measure)) for text in texts_of(items)]
    return [
        (one.text, other.text)
        for (one, first), (other, second) in combinations(boxes, 2)
        if _shared(first, second) > _TOUCH_MM
    ]


def _shared(first: Rectangle, second: Rectangle) -> float:
    across = min(first.right_mm, second.right_mm) - max(first.x_mm, second.x_mm)
    upright = min(first.bottom_mm, second.bottom_mm) - max(first.y_mm, second.y_mm)
    return min(across, upright)


def cut_texts(items: tuple[Item, ...]) -> list[str]:
    """Texts that end where something is missing."""
    return [text.text for text in texts_of(items) if text.text.rstrip().endswith(("…", "..."))]


def small_texts(items: tuple[Item, ...]) -> list[str]:
    """Texts in letters below 9 pt (trade note 9.2)."""
    return [text.text for text in texts_of(items) if text.size_pt < 9.0]


def outside(items: tuple[Item, ...], room: Rectangle, measure: Measure) -> list[str]:
    """Texts that leave a room."""
    found = []
    for text in texts_of(items):
        box = text_box(text, measure)
        corners = ((box.x_mm, box.y_mm), (box.right_mm, box.bottom_mm))
        if not all(room.contains(corner, slack_mm=0.6) for corner in corners):
            found.append(text.text)
    return found


def off_page(page: Page, measure: Measure) -> list[str]:
    """Texts outside the printable part of a sheet: 5 mm all round."""
    room = Rectangle(
        x_mm=5.6, y_mm=5.6, width_mm=page.width_mm - 11.2, height_mm=page.height_mm - 11.2
    )
    return outside(page.items, room, measure)


def on_ruler(strip: Strip, outcome: Outcome, plan: LegPlan, measure: Measure) -> list[str]:
    """Texts in the ruler's column that are not the ruler's own."""
    frame = strip.frame
    column = Rectangle(
        x_mm=frame.middle_mm - frame.spine_mm / 2.0 + _TOUCH_MM,
        y_mm=frame.water.y_mm,
        width_mm=frame.spine_mm - 2.0 * _TOUCH_MM,
        height_mm=frame.water.height_mm,
    )
    aborts = aborts_on(outcome, plan)
    ruler = strip_ruler.ruler(frame, plan, outcome.plan.timetable, aborts)
    own = set(texts_of(tuple(ruler)))
    return [
        text.text
        for text in texts_of(strip.items)
        if text not in own and text_box(text, measure).meets(column)
    ]


def words_of(*pages: Page) -> str:
    """All words of some sheets, one text a line."""
    return "\n".join(text.text for page in pages for text in texts_of(page.items))
