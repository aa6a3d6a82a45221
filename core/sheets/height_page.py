"""The height table: how far land of a height lies on the horizon and by the shoreline rule."""

from collections.abc import Iterator

from core.plan.outcome import Outcome
from core.radar.refraction import radar_horizon_m
from core.radar.shoreline_rule import horizon_range_m, shoreline_range_m
from core.sheets.page import Anchor, Measure, Page, Text
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.tables import Cell, Column, Row, Table, table_items
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import quantities
from core.words.bridge_words import Bridge
from core.words.voyage_words import antennas

OBJECT_HEIGHTS_M = (3.0, 6.0, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0, 150.0, 200.0, 300.0,
                    500.0, 1000.0)  # fmt: skip
ANTENNA_HEIGHTS_M = (15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0)
"""Of the ships a pilot may board (capability C17)."""
_HEIGHT_MM = 18.0
_OWN_PT = 11.0


def height_page(outcome: Outcome, *, number: int, page_count: int, measure: Measure) -> Page:
    """Distances by height of antenna and object at the refraction of the plan."""
    k = outcome.coverage.settings.refraction_k
    words = Bridge.HEIGHTS_MEAN.format(
        k=quantities.refraction(k), coefficient=quantities.horizon_coefficient(k)
    )
    items = [
        *head_line(outcome, page_number=number, page_count=page_count, measure=measure),
        Text(
            x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=Bridge.HEIGHTS_TITLE, size_pt=14.0, is_bold=True
        ),
        *foot(outcome, measure)[0],
    ]
    y = TOP_MM + 14.0
    for line in wrap(words, CONTENT_MM, measure):
        y += line_mm(BODY_PT)
        items.append(Text(x_mm=LEFT_MM, y_mm=y, text=line, size_pt=BODY_PT))
    table = height_table(outcome)
    block, _bottom = table_items(
        table, x_mm=LEFT_MM, y_mm=y + 2.0, most_rows=len(table.rows), measure=measure
    )
    return Page(
        width_mm=WIDTH_MM,
        height_mm=HEIGHT_MM,
        items=(*items, *block),
        name=str(Bridge.HEIGHTS),
    )


def height_table(outcome: Outcome) -> Table:
    """Own antennas first and in large figures, then heights of other ships."""
    k = outcome.coverage.settings.refraction_k
    own = antennas(outcome)[:2]
    columns = [(f"{band} {height_m:.1f} m", height_m, True) for band, height_m in own]
    columns += [(quantities.height(height_m), height_m, False) for height_m in ANTENNA_HEIGHTS_M]
    width = (CONTENT_MM - _HEIGHT_MM) / len(columns)
    return Table(
        columns=(
            Column(head=Bridge.COLUMN_LAND, width_mm=_HEIGHT_MM, anchor=Anchor.END),
            *(Column(head=head, width_mm=width, anchor=Anchor.END) for head, _m, _own in columns),
        ),
        rows=tuple(_rows(columns, k)),
        row_mm=9.0,
    )


def _rows(columns: list[tuple[str, float, bool]], k: float) -> Iterator[Row]:
    """The antenna's own horizon, then a row for each height of land."""
    yield Row(
        cells=(
            Cell(text=str(Bridge.OWN_HORIZON)),
            *(
                _cell(float(radar_horizon_m(height_m, k)), None, is_own=is_own)
                for _head, height_m, is_own in columns
            ),
        )
    )
    for shore_m in OBJECT_HEIGHTS_M:
        yield Row(
            cells=(
                Cell(text=quantities.height(shore_m), is_bold=True, size_pt=_OWN_PT),
                *(
                    _cell(
                        horizon_range_m(antenna_m=height_m, shore_m=shore_m, refraction_k=k),
                        shoreline_range_m(antenna_m=height_m, shore_m=shore_m, refraction_k=k),
                        is_own=is_own,
                    )
                    for _head, height_m, is_own in columns
                ),
            )
        )


def _cell(horizon_m: float, shoreline_m: float | None, *, is_own: bool) -> Cell:
    """The horizon rounded up, the rule down: neither limit is told closer than it is."""
    below = "" if shoreline_m is None else quantities.range_down(shoreline_m).removesuffix(" NM")
    return Cell(
        text=quantities.range_up(horizon_m).removesuffix(" NM"),
        second=below,
        size_pt=_OWN_PT if is_own else BODY_PT,
        is_bold=is_own,
        is_second_bold=is_own,
    )
