"""Reads a route typed or pasted as text, one position a line."""

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.files.angle_text import AngleError, position_in_text
from core.files.route_parts import (
    LIMIT_WAYPOINTS,
    RoutePoint,
    error_at,
    leg_kind_assumed,
    passage_from_points,
    waypoint_label,
)
from core.geodesy.position import Position
from core.passage.passage import Passage

_TODO = tr("Write one position a line, such as START 56 12.34N 005 45.60W")


def read_text_route(text: str, *, file: str, name: str) -> tuple[Passage, tuple[Finding, ...]]:
    """Read one position a line; blank lines and lines after «#» are passed over.

    Lines without any digit, such as a heading, are passed over with a finding.

    Raises
    ------
    InputError
        A line with digits that is no position or can be read in two ways; not two waypoints.
    """
    points: list[RoutePoint] = []
    passed_over: list[int] = []
    without_letters: int | None = None
    for number, raw in enumerate(text.splitlines(), start=1):
        line = raw.strip()
        if not line or line.startswith("#"):
            continue
        if not any(char in "0123456789" for char in line):
            passed_over.append(number)
            continue
        try:
            written = position_in_text(line)
        except AngleError as exc:
            raise error_at(str(exc), file=file, line=number, todo=_TODO) from exc
        if without_letters is None and not written.has_letters:
            without_letters = number
        points.append(
            RoutePoint(
                name=waypoint_label(len(points), written.name),
                lat_deg=written.lat_deg,
                lon_deg=written.lon_deg,
                line=number,
            )
        )
        if len(points) > LIMIT_WAYPOINTS:
            break
    if not points:
        raise error_at(tr("the text has no position"), file=file, todo=_TODO)
    passage, built = passage_from_points(points, name=name, file=file)
    findings = list(built)
    if without_letters is not None:
        findings.append(
            Finding(
                severity=Severity.CHECK,
                code="order-assumed",
                what=tr(
                    "positions without hemisphere letters are taken as latitude first, "
                    "then longitude, north and east positive"
                ),
                where=Where(file=file, line=without_letters),
                todo=tr("Check the first waypoint"),
            )
        )
    if passed_over:
        findings.append(_passed_over(file, passed_over))
    return passage, (*findings, leg_kind_assumed(file))


def typed_position(text: str) -> Position:
    """One position typed by hand.

    Raises
    ------
    InputError
        It cannot be read, or in two ways.
    """
    try:
        written = position_in_text(text)
    except AngleError as exc:
        raise InputError(
            str(exc), where=tr("place"), todo=tr("Write it like 56 12.34N 005 45.60W")
        ) from exc
    return Position(lat_deg=written.lat_deg, lon_deg=written.lon_deg)


def _passed_over(file: str, lines: list[int]) -> Finding:
    return Finding(
        severity=Severity.NOTE,
        code="lines-passed-over",
        what=tr_n(
            "one line without a number passed over",
            "{count} lines without a number passed over",
            len(lines),
        ),
        where=Where(file=file, line=lines[0]),
    )
