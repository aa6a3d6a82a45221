"""All objects of a passage: what they are, how high, where, and which legs use them."""

from core.plan.outcome import Outcome
from core.plan.plan_result import IndexObject
from core.sheets.page import Anchor
from core.sheets.short_names import described, used_objects
from core.sheets.tables import Cell, Column, Row
from core.words import quantities
from core.words.messages import Say
from core.words.object_words import all_words, first_look


def legs_using(outcome: Outcome) -> dict[str, list[int]]:
    """Numbers of the legs (from 1) that use an object, by its id."""
    found: dict[str, list[int]] = {}
    for leg in outcome.plan.legs:
        for thing in used_objects(leg):
            found.setdefault(thing.id, []).append(leg.leg_index + 1)
    return found


def starred(outcome: Outcome, object_id: str) -> str:
    """An object's id, with the star of those known from the data alone."""
    is_known = all(t.id != object_id or not t.confirm_on_chart for t in outcome.plan.objects)
    return object_id if is_known else f"{object_id} *"


def object_columns() -> tuple[Column, ...]:
    """Columns of the list at the end of the book."""
    return (
        Column(head=Say.COLUMN_OBJECT, width_mm=74.0),
        Column(head=Say.COLUMN_HEIGHT, width_mm=15.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_POSITION, width_mm=48.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_LEGS, width_mm=14.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_CHART, width_mm=20.0),
        Column(head=Say.COLUMN_EDITION, width_mm=17.0),
    )


def object_rows(outcome: Outcome) -> tuple[Row, ...]:
    """Every object in the order of the plan, and boxes for where on the chart a used one stands.

    Once for the passage: a leg's sheet says with a star which are to be confirmed.
    """
    used = legs_using(outcome)
    return tuple(
        _object_row(outcome, thing, ", ".join(str(number) for number in used.get(thing.id, ())))
        for thing in outcome.plan.objects
    )


def _object_row(outcome: Outcome, thing: IndexObject, legs: str) -> Row:
    look = first_look(outcome.plan.legs, thing)
    has_box = bool(legs) and thing.confirm_on_chart
    return Row(
        cells=(
            Cell(
                text=thing.id + (" *" if thing.confirm_on_chart else ""),
                beside=described(thing.name, thing.height_above_water_m)
                if thing.name != thing.id
                else thing.kind.shown,
                second=sentence_case(all_words(look)) if look is not None and legs else "",
                is_bold=True,
            ),
            Cell(text=quantities.height(thing.height_above_water_m)),
            Cell(text=quantities.position(thing.position)),
            Cell(text=legs),
            Cell(is_blank_box=has_box),
            Cell(is_blank_box=has_box),
        ),
        reference=f"object:{thing.id}",
    )


def sentence_case(words: str) -> str:
    """With a capital and a full stop."""
    return f"{words[:1].upper()}{words[1:]}." if words else ""
