"""What other weather and the other radar make of each first paint: spans, never one number."""

from core.coverage.first_paint_result import FirstPaint, WhatIfKind
from core.plan.plan_result import LegPlan
from core.sheets.short_names import described, used_objects
from core.sheets.tables import Cell, Column, Row
from core.words.messages import Say
from core.words.paint_words import band_words, radar_words

MOST_A_LEG = 4
"""On paper; all of them are in the plan file and in the window."""


def what_if_columns() -> tuple[Column, ...]:
    """Columns of the list."""
    return (
        Column(head=Say.COLUMN_OBJECT, width_mm=54.0),
        Column(head=Say.COLUMN_REFRACTION, width_mm=32.0),
        Column(head=Say.COLUMN_RAIN, width_mm=32.0),
        Column(head=Say.COLUMN_SEA, width_mm=32.0),
        Column(head=Say.COLUMN_RADARS, width_mm=38.0),
    )


def what_if_rows(plan: LegPlan) -> tuple[Row, ...]:
    """The objects to which it makes a difference: those in use, then those seen from farthest."""
    used = {thing.id for thing in used_objects(plan)}
    ranked = sorted(
        (paint for paint in plan.first_paints if paint.varies),
        key=lambda paint: (paint.object_id not in used, -_farthest_m(paint), paint.object_id),
    )
    shown = {paint.object_id for paint in ranked[:MOST_A_LEG]}
    return tuple(
        Row(
            cells=(
                Cell(
                    text=paint.object_id,
                    beside=described(paint.name, None) if paint.name != paint.object_id else "",
                    is_bold=True,
                ),
                *(Cell(text=band_words(paint, kind)) for kind in WhatIfKind),
                Cell(text=radar_words(paint)),
            ),
            reference=f"sight:{paint.object_id}",
        )
        for paint in plan.first_paints
        if paint.object_id in shown
    )


def _farthest_m(paint: FirstPaint) -> float:
    moment = paint.normally_by.moment
    return 0.0 if moment is None else moment.range_m
