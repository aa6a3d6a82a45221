"""Finds the header of a table of waypoints and what each of its columns means."""

import csv
import re
import unicodedata
from dataclasses import dataclass
from enum import Enum

from core.base.constants import NAUTICAL_MILE_M

_LIMIT_PREAMBLE = 60
_SEPARATORS = (";", "\t", ",", "|")


class Role(Enum):
    """What a column holds."""

    NAME = "name"
    LABEL = "waypoint"
    NUMBER = "number"
    POSITION = "position"
    LAT = "latitude"
    LAT_MINUTES = "minutes of latitude"
    LAT_SECONDS = "seconds of latitude"
    LAT_HALF = "north or south"
    LON = "longitude"
    LON_MINUTES = "minutes of longitude"
    LON_SECONDS = "seconds of longitude"
    LON_HALF = "east or west"
    RADIUS = "turn radius"
    CORRIDOR = "cross-track limit"
    CORRIDOR_PORT = "cross-track limit to port"
    CORRIDOR_STARBOARD = "cross-track limit to starboard"
    SPEED = "speed"
    KIND = "leg kind"
    ETA = "time of arrival"
    ETD = "time of departure"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """Where a column stands and by what its numbers are turned into nautical units."""

    index: int
    factor_ratio: float = 1.0
    """Number in the file times this is nautical miles or knots."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A header found: its line from 1, the separator, and the columns understood."""

    header_line: int
    separator: str
    width: int
    """Cells of the header."""
    columns: dict[Role, Column]

    def cell(self, cells: list[str], role: Role) -> str:
        """The cell of a row in the column of a role, empty if there is none."""
        column = self.columns.get(role)
        if column is None or column.index >= len(cells):
            return ""
        return cells[column.index].strip()


_LAT = {"lat", "latitude", "latitud", "latitudine", "breite"}
_LON = {"lon", "long", "lng", "longitude", "longitud", "longitudine", "lange", "laenge"}
_MINUTES = {"min", "mins", "minutes", "minute", "mm"}
_SECONDS = {"sec", "secs", "seconds", "second", "ss"}
_DEGREES = {"deg", "degs", "degrees", "degree", "dd", "ddd"}
_HALF = {"hem", "hemi", "hemisphere", "dir", "direction", "sign", "quadrant"}
_PORT = {"port", "portside", "ps", "p", "left", "l"}
_STARBOARD = {"starboard", "starboardside", "stbd", "stb", "sb", "s", "right", "r"}
_CORRIDOR = {"xtd", "xte", "xtl", "crosstrack", "corridor"}
_SPEED = {"speed", "spd", "sog", "knots", "kts", "kn"}
_OTHER_SPEED = {"min", "minimum", "wind", "current", "tidal", "stream", "loss"}
_KIND = {"geometry", "sail", "sailing", "geometrytype", "legtype", "loxodrome", "orthodrome"}
_NOTE = {"note", "notes", "remark", "remarks", "comment", "comments"}
_NAME = {"name", "title"}
_LABEL = {"waypoint", "wpt", "wp", "point", "label"}
_NUMBER = {"no", "nr", "num", "number", "id", "index"}
_POSITION = {"position", "pos", "coordinates", "coordinate", "coords"}

_LENGTHS_NM = {
    "m": 1.0 / NAUTICAL_MILE_M,
    "metres": 1.0 / NAUTICAL_MILE_M,
    "meters": 1.0 / NAUTICAL_MILE_M,
    "km": 1000.0 / NAUTICAL_MILE_M,
    "cables": 0.1,
    "cable": 0.1,
}


def find_table(text: str) -> Table | None:
    """The first line that names latitude and longitude columns (or a position column)."""
    for number, line in enumerate(text.splitlines()[:_LIMIT_PREAMBLE], start=1):
        for separator in _SEPARATORS:
            if separator not in line:
                continue
            cells = _cells_of(line, separator)
            columns = _columns(cells)
            if (Role.LAT in columns and Role.LON in columns) or (
                Role.POSITION in columns and Role.LAT not in columns
            ):
                return Table(
                    header_line=number, separator=separator, width=len(cells), columns=columns
                )
    return None


def _cells_of(line: str, separator: str) -> list[str]:
    """Cells of one line; a line the csv module cannot cut has none."""
    try:
        return next(iter(csv.reader([line], delimiter=separator)), [])
    except csv.Error:
        return []


def _columns(cells: list[str]) -> dict[Role, Column]:
    columns: dict[Role, Column] = {}
    for index, cell in enumerate(cells[:200]):
        words = _words(cell)
        role = _role(words)
        if role is not None and role not in columns:
            columns[role] = Column(index=index, factor_ratio=_factor(role, words))
    return columns


def _words(cell: str) -> list[str]:
    """Lower-case words of a header cell, without accents, cut also where capitals begin."""
    if len(cell) > 60 or any(char in "0123456789" for char in cell):
        return []
    plain = unicodedata.normalize("NFKD", cell)
    plain = "".join(char for char in plain if not unicodedata.combining(char))
    plain = re.sub(r"(?<=[a-z])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])", " ", plain)
    return re.findall(r"[a-z]+", plain.lower())


def _role(words: list[str]) -> Role | None:
    found = set(words)
    if found & _LAT or found & _LON:
        return _angle_role(found)
    if words in (["n", "s"], ["ns"]):
        return Role.LAT_HALF
    if words in (["e", "w"], ["ew"]):
        return Role.LON_HALF
    if found & _CORRIDOR or {"cross", "track"} <= found or {"off", "track"} <= found:
        if found & _PORT:
            return Role.CORRIDOR_PORT
        return Role.CORRIDOR_STARBOARD if found & _STARBOARD else Role.CORRIDOR
    if "radius" in found or words in (["rad"], ["turn", "rad"]):
        return Role.RADIUS
    if found & _SPEED and not found & _OTHER_SPEED:
        return Role.SPEED
    if found & _KIND or {"rl", "gc"} <= found or words in (["leg", "type"], ["leg", "kind"]):
        return Role.KIND
    for word, role in (("eta", Role.ETA), ("etd", Role.ETD)):
        if word in found:
            return role
    if found & _NOTE:
        return Role.NOTE
    if found & _POSITION:
        return Role.POSITION
    if found & _NAME:
        return Role.NAME
    if found & _NUMBER:
        return Role.NUMBER
    return Role.LABEL if found & _LABEL else None


def _angle_role(found: set[str]) -> Role:
    is_lat = bool(found & _LAT)
    if found & _HALF or {"n", "s"} <= found or {"e", "w"} <= found or found & {"ns", "ew"}:
        return Role.LAT_HALF if is_lat else Role.LON_HALF
    if not found & _DEGREES:
        if found & _MINUTES:
            return Role.LAT_MINUTES if is_lat else Role.LON_MINUTES
        if found & _SECONDS:
            return Role.LAT_SECONDS if is_lat else Role.LON_SECONDS
    return Role.LAT if is_lat else Role.LON


def _factor(role: Role, words: list[str]) -> float:
    if role is Role.SPEED:
        if words[-2:] == ["m", "s"] or words[-1] == "mps":
            return 3600.0 / NAUTICAL_MILE_M
        return 1000.0 / NAUTICAL_MILE_M if words[-2:] == ["km", "h"] else 1.0
    if role in {Role.RADIUS, Role.CORRIDOR, Role.CORRIDOR_PORT, Role.CORRIDOR_STARBOARD}:
        return _LENGTHS_NM.get(words[-1], 1.0)
    return 1.0
