"""Reads routes from tables: a header among preamble lines, one waypoint a row."""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.base.constants import NAUTICAL_MILE_M
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.angle_text import AngleError, Axis, angle_deg, position_in_text
from core.files.csv_columns import Role, Table
from core.files.route_parts import (
    LIMIT_NOTE,
    LIMIT_WAYPOINTS,
    RoutePoint,
    clean_text,
    error_at,
    leg_kind_assumed,
    passage_from_points,
    waypoint_label,
)
from core.files.route_values import RouteValues
from core.geodesy.leg_line import LegKind
from core.passage.passage import Leg, Passage

_EMPTY = {"", "-", "--", "---", "n/a", "na", "none", "null", "*"}
_WITH_UNIT = re.compile(r"([+-]?[0-9]+(?:[.,][0-9]+)?)\s*([a-z]*)", re.IGNORECASE)
_LENGTH_UNITS_NM = {"nm": 1.0, "nmi": 1.0, "m": 1.0 / NAUTICAL_MILE_M}
_SPEED_UNITS_KN = {"kn": 1.0, "kt": 1.0, "kts": 1.0}
_LEG_ROLES = (
    Role.CORRIDOR,
    Role.CORRIDOR_PORT,
    Role.CORRIDOR_STARBOARD,
    Role.SPEED,
    Role.KIND,
    Role.NOTE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Cells of a row with a position, and its line in the file."""

    line: int
    cells: list[str]


def read_csv_route(
    text: str, table: Table, *, file: str, name: str
) -> tuple[Passage, tuple[Finding, ...]]:
    """Read the rows below a header.

    Radius and cross-track limits are nautical miles and speeds knots unless the header says m,
    km, cables, m/s or km/h. Values of a leg belong to the leg that arrives at the row's
    waypoint; only where the first row has them and the last has none, to the leg that leaves.

    Raises
    ------
    InputError
        A row without a sound position among others, or not two different waypoints.
    """
    values = RouteValues(file=file)
    rows, trailing = _rows_with_positions(text, table, file)
    points = [_point(index, row, table, values, file) for index, row in enumerate(rows)]
    leg_cells = [_leg_cells(row, table) for row in rows]
    findings: list[Finding] = []
    if rows and any(leg_cells[0]) and not any(leg_cells[-1]):
        legs = [Leg(), *(point.leg for point in points[:-1])]
        points = [replace(point, leg=leg) for point, leg in zip(points, legs, strict=True)]
    elif rows and any(leg_cells[0]) and len(set(leg_cells)) > 1:
        findings.append(
            Finding(
                severity=Severity.CHECK,
                code="leg-values-arriving",
                what=tr("limits, speed and kind in a row are taken for the leg that arrives there"),
                where=Where(file=file, line=table.header_line),
                todo=tr("Check the first leg"),
            )
        )
    passage, built = passage_from_points(points, name=name, file=file)
    if trailing:
        findings.append(
            Finding(
                severity=Severity.NOTE,
                code="rows-passed-over",
                what=tr("rows without a position at the end passed over"),
                where=Where(file=file, line=trailing),
            )
        )
    if not all(table.cell(row.cells, Role.KIND) for row in rows[1:]):
        findings.append(leg_kind_assumed(file))
    return passage, (*values.findings(), *findings, *built)


def _rows(text: str, table: Table, file: str) -> Iterator[_Row]:
    lines = text.splitlines()[table.header_line :]
    reader = csv.reader(lines, delimiter=table.separator)
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as exc:
            raise error_at(
                tr("the row cannot be cut into cells"),
                file=file,
                line=table.header_line + reader.line_num,
                todo=tr("Check the quotation marks"),
            ) from exc
        yield _Row(line=table.header_line + reader.line_num, cells=cells)


def _rows_with_positions(text: str, table: Table, file: str) -> tuple[list[_Row], int]:
    """Rows with a position, and the line of the first row without one at the end, else 0."""
    rows: list[_Row] = []
    bare = 0
    for row in _rows(text, table, file):
        if not any(cell.strip() for cell in row.cells):
            continue
        written = [
            table.cell(row.cells, role)
            for role in (Role.LAT, Role.LON, Role.POSITION)
            if role in table.columns
        ]
        if all(cell.lower() in _EMPTY for cell in written):
            bare = bare or row.line
            continue
        if bare:
            raise error_at(
                tr("the row has no position"),
                file=file,
                line=bare,
                todo=tr("Add the position or remove the row"),
            )
        if any(cell.strip() for cell in row.cells[table.width :]):
            # Decimal commas between commas would shift every value to a wrong column.
            raise error_at(
                tr(
                    "the row has {cell_count} cells below a header of {heading_count}",
                    cell_count=len(row.cells),
                    heading_count=table.width,
                ),
                file=file,
                line=row.line,
                todo=tr("With decimal commas put semicolons between the columns"),
            )
        rows.append(row)
        if len(rows) > LIMIT_WAYPOINTS:
            break
    return rows, bare


def _leg_cells(row: _Row, table: Table) -> tuple[str, ...]:
    cells = (table.cell(row.cells, role) for role in _LEG_ROLES)
    return tuple("" if cell.lower() in _EMPTY else cell for cell in cells)


def _point(index: int, row: _Row, table: Table, values: RouteValues, file: str) -> RoutePoint:
    names = (table.cell(row.cells, role) for role in (Role.NAME, Role.LABEL, Role.NUMBER))
    own = next((name for name in names if name), "")
    label = waypoint_label(index, f"WP {own}" if own.isdecimal() else own)
    try:
        lat_deg, lon_deg = _position(row, table)
    except AngleError as exc:
        raise error_at(
            str(exc), file=file, line=row.line, waypoint=label, todo=tr("Correct the position")
        ) from exc

    def sized(role: Role) -> str | None:
        return _number_text(table, row, role)

    both = sized(Role.CORRIDOR)
    kind = values.kind(_text(table, row, Role.KIND), waypoint=label)
    leg = Leg(
        kind=kind or LegKind.RHUMB,
        corridor_port_m=values.corridor_m(sized(Role.CORRIDOR_PORT) or both, waypoint=label),
        corridor_starboard_m=values.corridor_m(
            sized(Role.CORRIDOR_STARBOARD) or both, waypoint=label
        ),
        speed_mps=values.speed_mps(sized(Role.SPEED), waypoint=label),
        note=clean_text(_text(table, row, Role.NOTE) or "", most=LIMIT_NOTE),
    )
    return RoutePoint(
        name=label,
        lat_deg=lat_deg,
        lon_deg=lon_deg,
        line=row.line,
        turn_radius_m=values.radius_m(sized(Role.RADIUS), waypoint=label),
        eta_utc=values.time_utc(_text(table, row, Role.ETA), waypoint=label),
        etd_utc=values.time_utc(_text(table, row, Role.ETD), waypoint=label),
        leg=leg,
    )


def _position(row: _Row, table: Table) -> tuple[float, float]:
    if Role.LAT not in table.columns:
        written = position_in_text(table.cell(row.cells, Role.POSITION))
        return written.lat_deg, written.lon_deg
    lat = (Role.LAT, Role.LAT_MINUTES, Role.LAT_SECONDS, Role.LAT_HALF)
    lon = (Role.LON, Role.LON_MINUTES, Role.LON_SECONDS, Role.LON_HALF)
    return _angle(row, table, lat, Axis.LAT), _angle(row, table, lon, Axis.LON)


def _angle(row: _Row, table: Table, roles: tuple[Role, ...], axis: Axis) -> float:
    parts = [table.cell(row.cells, role) for role in roles]
    if not parts[0]:
        raise AngleError(tr("the {axis} is missing", axis=axis.shown))
    return angle_deg(" ".join(part for part in parts if part), axis)


def _text(table: Table, row: _Row, role: Role) -> str | None:
    cell = table.cell(row.cells, role)
    return None if cell.lower() in _EMPTY else cell


def _number_text(table: Table, row: _Row, role: Role) -> str | None:
    """A number as nautical miles or knots, still as text so that a bad one can be shown."""
    cell = _text(table, row, role)
    match = _WITH_UNIT.fullmatch(cell) if cell is not None else None
    if match is None:
        return cell
    factor: float | None = table.columns[role].factor_ratio
    if match[2]:
        units = _SPEED_UNITS_KN if role is Role.SPEED else _LENGTH_UNITS_NM
        factor = units.get(match[2].lower())
    if factor is None:
        return cell
    number = match[1].replace(",", ".")
    return number if factor == 1.0 else f"{float(number) * factor:.10g}"
