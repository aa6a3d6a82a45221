"""What files are for, by what stands in them: for files dropped on the window all at once."""

from collections.abc import Sequence
from pathlib import Path

from core.base.errors import InputError
from core.base.language import tr
from core.files.csv_columns import find_table
from core.files.land_paths import LandKind, kind_of
from core.files.marks_file import read_marks
from core.files.project import is_project
from core.files.readers import read_passage
from core.files.reading import decode_text, read_blob
from core.jobs.check_file import check_file

ROLES = (
    "project", "route", "land", "ship", "marks", "limits", "streams", "contingencies",
)  # fmt: skip
_TABLES = (".csv", ".txt", ".tsv")
_MAYBE_ROUTE = (".geojson", ".json", ".zip")
_MARK_WORDS = {"kind", "type", "fixed", "height", "height_m", "on_chart", "charted", "category"}
_HEAD_LINES = 40


def tell_files(paths: Sequence[Path]) -> tuple[tuple[Path, str], ...]:
    """The role of each path, of ``ROLES``; each was read for it, so that it can be used.

    Raises
    ------
    InputError
        One of them is nothing this program can use.
    """
    told = tuple((path, _role(path)) for path in paths)
    for path, role in told:
        check_file(role, path)
    return told


def _role(path: Path) -> str:
    if path.is_dir():
        return "land"
    if not path.is_file():
        raise InputError(tr("there is no such file"), where=path.name, todo=tr("Check the path"))
    if is_project(path):
        return "project"
    suffix = path.suffix.casefold()
    if suffix == ".toml":
        return "ship"
    if suffix in _TABLES:
        return _table_role(path)
    kind = kind_of(path)
    if suffix in _MAYBE_ROUTE and _is_route(path):
        return "route"
    if suffix in (".geojson", ".json") and _is_marks(path):
        return "marks"
    if kind in (LandKind.ELEVATION, LandKind.COAST):
        return "land"
    read_passage(path)
    return "route"


def _is_route(path: Path) -> bool:
    try:
        read_passage(path)
    except InputError:
        return False
    return True


def _is_marks(path: Path) -> bool:
    try:
        read_marks(path)
    except InputError:
        return False
    return True


def _table_role(path: Path) -> str:
    """A table is told by its header; without a header it can only be a route."""
    text, _findings = decode_text(read_blob(path))
    for line in text.splitlines()[:_HEAD_LINES]:
        if line.lstrip().startswith("#"):
            continue
        names = {name.strip().casefold().replace(" ", "_") for name in _cells(line)}
        if names & {"not_less_than_nm", "not_more_than_nm", "not_less_than", "nlt", "nlt_nm"}:
            return "limits"
        if "leg" in names and names & {"set_deg", "drift_kn", "set", "drift"}:
            return "streams"
        if "leg" in names and any(name.startswith(("from_nm", "turn_before")) for name in names):
            return "contingencies"
        if "name" in names and names & _MARK_WORDS and find_table(line) is not None:
            return "marks"
        if names & {"lat", "latitude", "lat_deg", "position"}:
            break
    return "route"


def _cells(line: str) -> list[str]:
    separator = max(";,\t|", key=line.count)
    return [cell.strip(" \"'") for cell in line.split(separator)]
