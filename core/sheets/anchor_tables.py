"""Tables of the anchoring card."""

from core.base.language import tr
from core.plan.anchoring_result import AnchoringCard
from core.plan.outcome import Outcome
from core.sheets.object_list import starred
from core.sheets.page import Anchor
from core.sheets.short_names import described
from core.sheets.tables import Cell, Column, Row, Table
from core.words import times
from core.words.anchor_words import approach_words, step_words, watch_words
from core.words.messages import Say

_NIGHT_PT = 12.0
_END = Anchor.END


def approach_table(outcome: Outcome, card: AnchoringCard) -> Table:
    """Index lines of the approach with their readings at the corridor's edges."""
    rows = []
    for line in card.approach:
        use, side, middle, port, starboard = approach_words(line)
        rows.append(
            Row(
                cells=(
                    _object(outcome, line.object_id, line.name),
                    Cell(text=side, second=use, size_pt=_NIGHT_PT, is_bold=True),
                    Cell(text=port, size_pt=_NIGHT_PT),
                    Cell(text=middle, size_pt=14.0, is_bold=True),
                    Cell(text=starboard, size_pt=_NIGHT_PT),
                    Cell(is_blank_box=True),
                )
            )
        )
    return Table(
        columns=(
            Column(head=Say.COLUMN_OBJECT, width_mm=64.0),
            Column(head=Say.COLUMN_SIDE_USE, width_mm=40.0),
            Column(head=tr("port edge"), width_mm=20.0, anchor=_END),
            Column(head=tr("track NM"), width_mm=22.0, anchor=_END),
            Column(head=tr("stb edge"), width_mm=20.0, anchor=_END),
            Column(head=Say.OBSERVED, width_mm=22.0),
        ),
        rows=tuple(rows),
        row_mm=8.0,
    )


def _object(outcome: Outcome, object_id: str, name: str) -> Cell:
    return Cell(
        text=starred(outcome, object_id),
        beside=described(name, None) if name != object_id else "",
        size_pt=_NIGHT_PT,
        is_bold=True,
    )


def countdown_table(outcome: Outcome, card: AnchoringCard, width_mm: float) -> Table:
    """Distances to go with the range that tells each, speed and time."""
    dead = card.dead_range
    head = Say.COLUMN_RANGE_SHORT if dead is None else f"{dead.object_id}"
    fixed = (18.0, 17.0, 20.0, 19.0)
    to_go, speed, minutes, seen = fixed
    return Table(
        columns=(
            Column(head=tr("to go NM"), width_mm=to_go, anchor=_END),
            Column(head=f"{head} NM", width_mm=width_mm - sum(fixed), anchor=_END),
            Column(head=tr("speed kn"), width_mm=speed, anchor=_END),
            Column(head=tr("min to go"), width_mm=minutes, anchor=_END),
            Column(
                head=tr("seen {zone_short}", zone_short=times.zone_short(outcome.plan.timetable)),
                width_mm=seen,
            ),
        ),
        rows=tuple(
            Row(
                cells=(
                    *(
                        Cell(text=word, size_pt=_NIGHT_PT, is_bold=number == 1)
                        for number, word in enumerate(words)
                    ),
                    Cell(is_blank_box=True),
                )
            )
            for words in step_words(card)
        ),
        row_mm=6.4,
    )


def watch_table(outcome: Outcome, card: AnchoringCard) -> Table:
    """Objects watched with the limits of their ranges and bearings."""
    rows = []
    for item in card.watch:
        range_nm, ranges, bearing, bearings, scale, drag = watch_words(item)
        rows.append(
            Row(
                cells=(
                    _object(outcome, item.object_id, item.name),
                    Cell(text=range_nm, size_pt=_NIGHT_PT),
                    Cell(text=ranges, size_pt=_NIGHT_PT, is_bold=True),
                    Cell(text=bearing, size_pt=_NIGHT_PT),
                    Cell(text=bearings, size_pt=_NIGHT_PT, is_bold=True),
                    Cell(text=scale),
                    Cell(text=drag, second="best" if item.is_best else "", is_second_bold=True),
                    Cell(is_blank_box=True),
                )
            )
        )
    return Table(
        columns=(
            Column(head=Say.COLUMN_OBJECT, width_mm=59.0),
            Column(head="NM", width_mm=13.0, anchor=_END),
            Column(head=tr("limits NM"), width_mm=28.0, anchor=_END),
            Column(head="° T", width_mm=11.0, anchor=_END),
            Column(head=tr("limits ° T"), width_mm=24.0, anchor=_END),
            Column(head="scale", width_mm=16.0, anchor=_END),
            Column(head="drag", width_mm=15.0, anchor=_END),
            Column(head=Say.OBSERVED, width_mm=22.0),
        ),
        rows=tuple(rows),
        row_mm=8.0,
    )
