"""The waypoint table as text: rows out of a passage, and a passage out of rows."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from core.base.language import tr
from core.base.units import kn_from_mps, m_from_nm, mps_from_kn, nm_from_m
from core.files.angle_text import AngleError, position_in_text
from core.files.route_parts import LIMIT_NOTE
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.edit_passage import PassageEdit
from core.passage.edit_rows import WaypointRow, with_rows
from core.passage.passage import Leg, Passage, Waypoint
from core.words import quantities

HEADS = (
    tr("Waypoint"),
    tr("Position"),
    tr("Turn radius, NM"),
    tr("Leg to here"),
    tr("Port to here, NM"),
    tr("Starboard to here, NM"),
    tr("Speed to here, kn"),
    tr("Note on the leg to here"),
)
NAME, POSITION, RADIUS, KIND, PORT, STARBOARD, SPEED, NOTE = range(len(HEADS))
_LEG_CELLS = (KIND, PORT, STARBOARD, SPEED, NOTE)
_KINDS = {LegKind.RHUMB: tr("rhumb line"), LegKind.GEODESIC: tr("great circle")}
_LONGEST_NAME = 40
_MOST_RADIUS_NM, _MOST_CORRIDOR_NM, _MOST_SPEED_KN = 10.0, 50.0, 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftRow:
    """One row as it is being typed; ``waypoint`` and ``leg`` are what it was made from."""

    cells: tuple[str, ...]
    waypoint: Waypoint | None = None
    leg: Leg = field(default_factory=Leg)
    source: int | None = None
    leg_sources: tuple[int, ...] = ()

    def with_cell(self, column: int, text: str) -> "DraftRow":
        """Another text in one cell."""
        cells = (*self.cells[:column], text, *self.cells[column + 1 :])
        return replace(self, cells=cells)


class CellError(ValueError):
    """What is wrong with a cell, in one sentence, and where it is."""

    def __init__(self, row: int, column: int, what: str) -> None:
        super().__init__(
            tr(
                "Row {row_number}, {heads}: {trouble}.",
                row_number=row + 1,
                heads=HEADS[column].split(",")[0].lower(),
                trouble=what,
            )
        )
        self.row = row
        self.column = column


def drafts_of(passage: Passage) -> tuple[DraftRow, ...]:
    """The rows of a passage; values of a leg stand in the row of the waypoint it leads to."""
    rows = []
    for index, waypoint in enumerate(passage.waypoints):
        leg = passage.legs[index - 1] if index else Leg()
        rows.append(
            DraftRow(
                cells=(*_waypoint_cells(waypoint), *(_leg_cells(leg) if index else [""] * 5)),
                waypoint=waypoint,
                leg=leg,
                source=index,
                leg_sources=(index - 1,) if index else (),
            )
        )
    return tuple(rows)


def is_open(row: int, column: int) -> bool:
    """Whether a cell can be typed in: no leg leads to the first waypoint."""
    return row > 0 or column not in _LEG_CELLS


def position_text(place: Position) -> str:
    """A position to a thousandth of a minute, about two metres."""
    halves = ((place.lat_deg, 2, "NS"), (place.lon_deg, 3, "EW"))
    words = []
    for value_deg, width, letters in halves:
        thousandths = round(abs(value_deg) * 60_000.0)
        degrees, rest = divmod(thousandths, 60_000)
        letter = letters[1] if value_deg < 0.0 else letters[0]
        words.append(f"{degrees:0{width}d}° {rest / 1000.0:06.3f}′ {letter}")
    return " ".join(words)


def _waypoint_cells(waypoint: Waypoint) -> list[str]:
    return [
        waypoint.name,
        position_text(waypoint.position),
        _number(waypoint.turn_radius_m, nm_from_m),
    ]


def _leg_cells(leg: Leg) -> list[str]:
    return [
        _KINDS[leg.kind],
        _number(leg.corridor_port_m, nm_from_m),
        _number(leg.corridor_starboard_m, nm_from_m),
        _number(leg.speed_mps, kn_from_mps),
        leg.note,
    ]


def _number(value: float | None, unit: Callable[[float], float]) -> str:
    return "" if value is None else f"{unit(value):.5g}"


# Rows put in, taken out, turned round


def with_row_below(rows: tuple[DraftRow, ...], index: int) -> tuple[DraftRow, ...]:
    """A row behind one: in the middle of its leg, or behind the last with a place to be typed."""
    if index + 1 < len(rows):
        after = rows[index + 1]
        new = _new_row(rows, _middle(rows[index], after), after)
        new = replace(new, leg_sources=after.leg_sources)
        return (*rows[: index + 1], new, *rows[index + 1 :])
    return (*rows, _new_row(rows, "", rows[index]))


def with_row_above(rows: tuple[DraftRow, ...], index: int) -> tuple[DraftRow, ...]:
    """A row before one; before the first it is the new start, with a place to be typed."""
    if index > 0:
        return with_row_below(rows, index - 1)
    beside = rows[1] if len(rows) > 1 else rows[0]
    new = _new_row(rows, "", beside)
    blank = replace(new, cells=(*new.cells[:KIND], *[""] * 5))
    first = replace(rows[0], cells=(*rows[0].cells[:KIND], *_new_leg_cells(beside)))
    return (blank, replace(first, leg=Leg(), leg_sources=()), *rows[1:])


def without_row(rows: tuple[DraftRow, ...], index: int) -> tuple[DraftRow, ...]:
    """One row fewer; its two legs become one with the narrower of their corridors."""
    if index + 1 >= len(rows):
        return rows[:index]
    after = rows[index + 1]
    if index == 0:
        after = replace(after, cells=(*after.cells[:KIND], *[""] * 5), leg=Leg(), leg_sources=())
    else:
        row = rows[index]
        cells = list(row.cells[KIND:])
        for column in (PORT, STARBOARD):
            cells[column - KIND] = _narrower(row.cells[column], after.cells[column])
        after = replace(
            after,
            cells=(*after.cells[:KIND], *cells),
            leg=row.leg,
            leg_sources=(*row.leg_sources, *after.leg_sources),
        )
    return (*rows[:index], after, *rows[index + 2 :])


def turned(rows: tuple[DraftRow, ...]) -> tuple[DraftRow, ...]:
    """The rows from the last to the first; corridors change sides with the course."""
    found = []
    for index in range(len(rows) - 1, -1, -1):
        row = rows[index]
        if index + 1 < len(rows):
            old = rows[index + 1]
            kind, port, starboard, speed, note = old.cells[KIND:]
            cells = (*row.cells[:KIND], kind, starboard, port, speed, note)
            leg = replace(
                old.leg,
                corridor_port_m=old.leg.corridor_starboard_m,
                corridor_starboard_m=old.leg.corridor_port_m,
            )
            found.append(replace(row, cells=cells, leg=leg, leg_sources=old.leg_sources[::-1]))
        else:
            blank = (*row.cells[:KIND], *[""] * 5)
            found.append(replace(row, cells=blank, leg=Leg(), leg_sources=()))
    return tuple(found)


def _new_row(rows: tuple[DraftRow, ...], position: str, like: DraftRow) -> DraftRow:
    taken = {row.cells[NAME] for row in rows}
    number = len(rows) + 1
    while f"WP {number}" in taken:
        number += 1
    return DraftRow(
        cells=(tr("WP {number}", number=number), position, "", *_new_leg_cells(like)),
        leg=replace(like.leg, note=""),
    )


def _new_leg_cells(like: DraftRow) -> tuple[str, ...]:
    return (like.cells[KIND] or _KINDS[LegKind.RHUMB], *like.cells[PORT:NOTE], "")


def _middle(one: DraftRow, other: DraftRow) -> str:
    """Half way between two rows, good enough to be moved; empty where they cannot be read."""
    try:
        a, b = (_position(row, 0) for row in (one, other))
    except CellError:
        return ""
    east = (b.lon_deg - a.lon_deg + 180.0) % 360.0 - 180.0
    lon_deg = (a.lon_deg + east / 2.0 + 180.0) % 360.0 - 180.0
    return position_text(Position(lat_deg=(a.lat_deg + b.lat_deg) / 2.0, lon_deg=lon_deg))


def _narrower(one: str, other: str) -> str:
    numbers = []
    for text in (one, other):
        try:
            numbers.append((float(text.replace(",", ".")), text))
        except ValueError:
            continue
    return min(numbers)[1] if numbers else one


# Out of text


def edit_of(passage: Passage, rows: tuple[DraftRow, ...]) -> PassageEdit:
    """The edit that makes these rows of a passage.

    Raises
    ------
    CellError
        A cell cannot be used.
    ValueError
        Fewer than two rows.
    """
    return with_rows(passage, tuple(_row(row, index) for index, row in enumerate(rows)))


def kind_of(text: str) -> LegKind | None:
    """The kind of leg that a word means, by its first letter; None for any other."""
    word = text.strip().casefold()
    return next((k for k, words in _KINDS.items() if word and words.startswith(word[0])), None)


def kind_text(kind: LegKind) -> str:
    """The words of a kind of leg."""
    return _KINDS[kind]


def _row(row: DraftRow, index: int) -> WaypointRow:
    was, leg = row.waypoint, row.leg
    name = row.cells[NAME].strip()
    if not name:
        raise CellError(index, NAME, tr("the waypoint has no name"))
    if len(name) > _LONGEST_NAME or not name.isprintable():
        raise CellError(
            index,
            NAME,
            tr("the name is longer than {longest_name} letters", longest_name=_LONGEST_NAME),
        )
    waypoint = Waypoint(
        name=name,
        position=_position(row, index),
        turn_radius_m=_quantity(
            row,
            index,
            RADIUS,
            None if was is None else was.turn_radius_m,
            (_MOST_RADIUS_NM, "NM", m_from_nm, nm_from_m),
        ),
        eta_utc=None if was is None else was.eta_utc,
        etd_utc=None if was is None else was.etd_utc,
    )
    if index == 0:
        return WaypointRow(waypoint=waypoint, leg=Leg(), source=row.source, leg_sources=())
    kind = kind_of(row.cells[KIND])
    if kind is None:
        raise CellError(
            index,
            KIND,
            tr("«{cells}» is neither rhumb line nor great circle", cells=row.cells[KIND]),
        )
    miles = (_MOST_CORRIDOR_NM, "NM", m_from_nm, nm_from_m)
    knots = (_MOST_SPEED_KN, "kn", mps_from_kn, kn_from_mps)
    return WaypointRow(
        waypoint=waypoint,
        leg=Leg(
            kind=kind,
            corridor_port_m=_quantity(row, index, PORT, leg.corridor_port_m, miles),
            corridor_starboard_m=_quantity(row, index, STARBOARD, leg.corridor_starboard_m, miles),
            speed_mps=_quantity(row, index, SPEED, leg.speed_mps, knots),
            note=_note(row, index),
        ),
        source=row.source,
        leg_sources=row.leg_sources,
    )


def _note(row: DraftRow, index: int) -> str:
    note = row.cells[NOTE].strip()
    if len(note) > LIMIT_NOTE:
        raise CellError(
            index, NOTE, tr("the note is longer than {limit_note} letters", limit_note=LIMIT_NOTE)
        )
    return note


def _position(row: DraftRow, index: int) -> Position:
    text = row.cells[POSITION].strip()
    # What was not typed anew is not rounded.
    if row.waypoint is not None and text == position_text(row.waypoint.position):
        return row.waypoint.position
    if not text:
        raise CellError(index, POSITION, tr("give it, such as 55 20.15 N 005 10.30 W"))
    try:
        written = position_in_text(text)
        return Position(lat_deg=written.lat_deg, lon_deg=written.lon_deg)
    except AngleError as exc:
        raise CellError(index, POSITION, str(exc)) from exc


_Unit = tuple[float, str, Callable[[float], float], Callable[[float], float]]
"""The most of a quantity, its unit, and the ways to SI and back."""


def _quantity(
    row: DraftRow, index: int, column: int, was: float | None, unit: _Unit
) -> float | None:
    most, name, to_si, from_si = unit
    text = row.cells[column].strip()
    if was is not None and text == _number(was, from_si):
        return was
    if not text:
        return None
    try:
        value = float(text.replace(",", "."))
    except ValueError as exc:
        raise CellError(index, column, tr("«{text}» is not a number", text=text)) from exc
    if not 0.0 < value <= most:
        raise CellError(
            index,
            column,
            tr(
                "{value:g} is not above 0 and at most {most:g} {unit}",
                value=value,
                most=most,
                unit=name,
            ),
        )
    return to_si(value)


def leg_words(rows: tuple[DraftRow, ...], index: int) -> str:
    """Course and distance of the leg that leads to a row; empty where they cannot be told."""
    if not 0 < index < len(rows):
        return ""
    try:
        start, end = _position(rows[index - 1], index - 1), _position(rows[index], index)
    except CellError:
        return ""
    line = LegLine(kind=kind_of(rows[index].cells[KIND]) or LegKind.RHUMB, start=start, end=end)
    if line.length_m < 1.0:
        return tr("no length")
    return f"{quantities.track(line.course_deg)}   {quantities.distance(line.length_m, 2)}"
