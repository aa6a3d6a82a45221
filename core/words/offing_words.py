"""Offings of a leg side by side, in words, for the terminal and the window."""

import math
import textwrap

from core.base.language import tr
from core.base.units import nm_from_m
from core.plan.offing_result import Offing, OffingPaint, OffingTable
from core.words import quantities
from core.words.emergence_words import flag_words, head_name, minutes_down

OFFING_NOTES = (
    tr(
        "Each offing, the planned one too, is planned for this leg alone, "
        "with the objects a radar is expected to paint, swept to 12 NM at "
        "most; the legs beside it are not planned anew."
    ),
    tr(
        "Nothing here says that an offing may be sailed: look at depths, "
        "dangers, traffic and rules on the chart."
    ),
)
_CELL = 26
_LABEL = 19
_NOTE = 100
_BLOCK = 3
"""Offings beside the planned one that fit on a line of a terminal."""


def offing_title(table: OffingTable) -> str:
    """Which leg is compared."""
    return tr(
        "Offings of leg {leg_number}, {from_name} to {to_name}",
        leg_number=table.leg_number,
        from_name=table.from_name,
        to_name=table.to_name,
    )


def offing_head(offing: Offing) -> str:
    """Where an offing lies from the planned leg: ``0.50 NM to STARBOARD``."""
    if offing.shift_m == 0.0:
        return tr("As planned")
    way = tr("STARBOARD") if offing.shift_m > 0.0 else tr("PORT")
    return tr("{miles} NM to {side}", miles=quantities.miles(abs(offing.shift_m), 2), side=way)


def offing_rows(table: OffingTable) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """A label and a cell for every offing; lines of a cell are parted by line feeds."""
    offings = table.offings
    rows = [
        (tr("Look out"), tuple("\n".join(_warnings(o)) or tr("nothing found") for o in offings)),
        (tr("Distance"), tuple(_change(o) for o in offings)),
        (tr("Primary"), tuple(_lines(o, "primary") or tr("NOTHING TO INDEX") for o in offings)),
        (tr("Check"), tuple(_lines(o, "check") or quantities.DASH for o in offings)),
        (tr("Without index"), tuple(_gap(o) for o in offings)),
        (tr("Index good to"), tuple(_error(o) for o in offings)),
        (tr("Nearest land"), tuple(_nearest(o) for o in offings)),
        (tr("Hidden water"), tuple(_hidden(o) for o in offings)),
        (tr("Craft from behind"), tuple(_craft(o) for o in offings)),
    ]
    for object_id in table.common_ids:
        cells = tuple(
            _paint(paint) for o in offings for paint in o.paints if paint.object_id == object_id
        )
        rows.append((tr("{object_id} paints by", object_id=object_id), cells))
    return tuple(rows)


def offing_lines(table: OffingTable) -> list[str]:
    """The whole comparison as plain text, a few offings beside each other."""
    lines = [offing_title(table)]
    others = range(1, len(table.offings))
    blocks = [others[i : i + _BLOCK] for i in range(0, len(others), _BLOCK)]
    rows = offing_rows(table)
    for block in blocks:
        shown = (0, *block)
        lines.append("")
        lines += _text_row("", [offing_head(table.offings[i]) for i in shown])
        for label, cells in rows:
            lines += _text_row(label, [cells[i] for i in shown])
    names = _names(table)
    if names:
        lines += ["", *(f"{object_id}: {name}" for object_id, name in names)]
    notes = [part for note in OFFING_NOTES for part in textwrap.wrap(note, _NOTE)]
    return [*lines, "", *notes]


def _text_row(label: str, cells: list[str]) -> list[str]:
    """One row as lines of text, each cell folded into its column."""
    widths = [_LABEL] + [_CELL] * len(cells)
    columns = [
        [part for line in cell.split("\n") for part in textwrap.wrap(line, width) or [""]]
        for cell, width in zip((label, *cells), widths, strict=True)
    ]
    height = max(len(column) for column in columns)
    return [
        "  ".join(
            (column[i] if i < len(column) else "").ljust(width)
            for column, width in zip(columns, widths, strict=True)
        ).rstrip()
        for i in range(height)
    ]


def _names(table: OffingTable) -> list[tuple[str, str]]:
    """Every object told of with what it is, in the order it is first told."""
    found: dict[str, str] = {}
    for offing in table.offings:
        found.update({line.object_id: line.name for line in offing.lines})
    for paint in table.offings[0].paints:
        if paint.object_id in table.common_ids:
            found.setdefault(paint.object_id, paint.name)
    return [(object_id, name) for object_id, name in found.items() if name != object_id]


def _warnings(offing: Offing) -> list[str]:
    gaps = () if offing.is_complete else (tr("INCOMPLETE: land data is missing"),)
    return [*offing.warnings, *gaps]


def _change(offing: Offing) -> str:
    """Against the plan; what is sailed more is rounded up, what is saved down."""
    if offing.shift_m == 0.0:
        return quantities.DASH
    change = math.ceil(nm_from_m(offing.distance_change_m) * 100.0 - 1e-6) / 100.0
    return f"{change + 0.0:+.2f} NM"


def _lines(offing: Offing, role: str) -> str:
    return "\n".join(
        f"{line.object_id} {quantities.side(line.side)} "
        f"{quantities.index_range(line.cross_index_range_m, line.range_scale_m)}, "
        f"{quantities.percent(line.share_ratio)}"
        for line in offing.lines
        if line.role == role
    )


def _gap(offing: Offing) -> str:
    minutes = math.ceil(offing.index_gap_minutes - 1e-6)
    return f"{minutes} min" if minutes else quantities.DASH


def _error(offing: Offing) -> str:
    error_m = offing.worst_uncertainty_m
    return quantities.DASH if error_m is None else quantities.uncertainty(error_m)


def _nearest(offing: Offing) -> str:
    if offing.nearest_land_m is None:
        return tr("none within the radius")
    return f"{math.floor(nm_from_m(offing.nearest_land_m) * 100.0 + 1e-6) / 100.0:.2f} NM"


def _hidden(offing: Offing) -> str:
    if offing.nearest_hidden_m is None:
        return tr("none found")
    return tr(
        "from {range}, {place_count} places",
        range=quantities.range_down(offing.nearest_hidden_m),
        place_count=offing.hidden_count,
    )


def _craft(offing: Offing) -> str:
    """The shortest warning, from the edge of the corridor, with its flag."""
    head = offing.emergence
    at_edge_s = None if head is None else head.deciding.at_edge_s
    if head is None or at_edge_s is None:
        return tr("no head found")
    run, flag = head.deciding, flag_words(head.alarm)
    words = tr(
        "{head_name} {side}: {minutes} min, craft of {speed}",
        head_name=head_name(head),
        side=quantities.side(head.side),
        minutes=minutes_down(at_edge_s),
        speed=quantities.speed(run.craft_speed_mps),
    )
    return f"{words}, {flag}" if flag else words


def _paint(paint: OffingPaint) -> str:
    if paint.range_m is None or paint.along_m is None:
        return paint.words
    along = math.ceil(nm_from_m(paint.along_m) * 10.0 - 1e-6) / 10.0
    return tr(
        "{range}, {along_nm:.1f} NM along",
        range=quantities.radar_range(paint.range_m),
        along_nm=along,
    )
