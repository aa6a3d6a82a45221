"""The project file: which inputs a plan is made from, the options and the officer's choices.

JSON, versioned; paths are kept relative to the file where they lie beside or below it, so that
a folder can be carried to another computer.
"""

import json
import math
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.files.anchorage_json import anchorage_of, anchorage_row
from core.files.copy_mark import CopyMark, copy_of_row, copy_row
from core.files.known_objects_json import known_object_row, known_objects_of
from core.files.last_plan_json import last_plan_of_row, last_plan_row
from core.files.project_versions import VERSION, brought_up
from core.files.reading import Blob, blob_of, decode_text, read_blob
from core.files.revision_json import revision_row, revisions_of
from core.files.writing import remove_left_over, write_atomic
from core.plan.anchoring_result import Anchorage
from core.plan.last_plan import LastPlan
from core.plan.plan_result import KnownObject, Override
from core.plan.revision import Revision

FORMAT = "legsheet-project"


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What the officer set by hand; None leaves it to the files or to the defaults."""

    tide_m: float | None = None
    mean_sea_level_m: float | None = None
    tidal_range_m: float | None = None
    low_water_m: float | None = None
    high_water_m: float | None = None
    refraction_k: float | None = None
    radius_m: float | None = None
    craft_height_m: float | None = None
    height_error_m: float | None = None
    start_utc: datetime | None = None
    speed_mps: float | None = None
    antenna_height_m: float | None = None
    draught_forward_m: float | None = None
    draught_aft_m: float | None = None
    corridor_m: float | None = None
    coast_height_m: float | None = None
    sea_state: float | None = None
    rain_mm_h: float | None = None
    traffic_speed_mps: float | None = None
    decision_time_s: float | None = None
    fix_interval_s: float | None = None
    set_deg: float | None = None
    """Of a stream all along the passage: the direction it moves towards, true."""
    drift_mps: float | None = None
    leeway_port_deg: float | None = None
    """By how much the wind may push her to port."""
    leeway_starboard_deg: float | None = None
    pass_off_m: float | None = None
    overlap_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """Inputs of one plan by their paths, or a route as typed text."""

    route: Path | None = None
    route_text: str = ""
    route_name: str = ""
    """Name of the passage whose waypoints ``route_text`` holds, where it was edited by hand."""
    leg_sources: tuple[tuple[int, ...], ...] = ()
    """Legs of the route file, from 0, that each leg of the edited route is made of; files of
    limits, streams and contingency legs count those. Empty where nothing was edited."""
    is_reversed: bool = False
    """Whether the route is planned from its last waypoint to its first; legs and choices are
    numbered along the passage as it is planned."""
    land: tuple[Path, ...] = ()
    ship: Path | None = None
    ship_text: str = ""
    """A ship file's text edited in the window, in place of the file; likewise below."""
    marks: Path | None = None
    marks_text: str = ""
    limits: Path | None = None
    limits_text: str = ""
    streams: Path | None = None
    """Streams and leeway of single legs."""
    contingencies: Path | None = None
    """Contingency legs."""
    classes: Path | None = None
    """Raster of kinds of ground; its table stands beside it."""
    options: Options = field(default_factory=Options)
    overrides: tuple[Override, ...] = ()
    anchorage: Anchorage | None = None
    """Given where the passage ends at anchor."""
    revisions: tuple[Revision, ...] = ()
    """Revisions that were issued, the last one last."""
    known_objects: tuple[KnownObject, ...] = field(default=(), compare=False)
    """Objects of earlier plans, so that they keep their letters; what came out of a plan, not
    what was asked of it."""
    last_plan: LastPlan | None = field(default=None, compare=False)
    """The last plan made of it, likewise."""
    read_only_copy: CopyMark | None = field(default=None, compare=False)
    """Given where the file is a copy for others to look at."""

    def source_of(self, name: str) -> Path | Blob | None:
        """The file of ship, marks or limits, or the text that stands in its place."""
        text: str = getattr(self, f"{name}_text")
        if text:
            return blob_of(_OF_PROJECT[name], text.encode("utf-8"))
        path: Path | None = getattr(self, name)
        return path


_OF_PROJECT = {
    "ship": tr("ship of the project"),
    "marks": tr("marks of the project"),
    "limits": tr("limits of the project"),
}


def inputs_of(project: Project) -> Project:
    """The project without what was issued of it: what a plan is made from."""
    return replace(project, revisions=())


_NUMBERS = tuple(name for name in Options.__dataclass_fields__ if name != "start_utc")
_TEXTS = ("route_text", "route_name", "ship_text", "marks_text", "limits_text")
_PATHS = ("route", "ship", "marks", "limits", "streams", "contingencies", "classes")


def _relative(path: Path, folder: Path) -> str:
    try:
        return path.resolve().relative_to(folder.resolve()).as_posix()
    except ValueError:
        return str(path.resolve())


def project_text(project: Project, folder: Path) -> str:
    """The project as it is written into a file that will stand in ``folder``."""
    options: dict[str, Any] = {
        name: getattr(project.options, name)
        for name in _NUMBERS
        if getattr(project.options, name) is not None
    }
    if project.options.start_utc is not None:
        options["start_utc"] = project.options.start_utc.astimezone(UTC).isoformat()
    document: dict[str, Any] = {"format": FORMAT, "version": VERSION}
    for name in _PATHS:
        value = getattr(project, name)
        if value is not None:
            document[name] = _relative(value, folder)
    for name in _TEXTS:
        if getattr(project, name):
            document[name] = getattr(project, name)
    if project.leg_sources:
        document["leg_sources"] = [list(legs) for legs in project.leg_sources]
    document["reversed"] = project.is_reversed
    document["land"] = [_relative(path, folder) for path in project.land]
    document["options"] = options
    document["overrides"] = [
        {
            "leg": o.leg_number,
            "role": o.role,
            "object": o.object_id,
            "locked": o.is_locked,
            "remark": o.remark,
            **({} if o.part_m is None else {"part_m": list(o.part_m)}),
        }
        for o in project.overrides
    ]
    if project.anchorage is not None:
        document["anchorage"] = anchorage_row(project.anchorage)
    document["revisions"] = [revision_row(revision) for revision in project.revisions]
    document["known_objects"] = [known_object_row(thing) for thing in project.known_objects]
    if project.last_plan is not None:
        document["last_plan"] = last_plan_row(project.last_plan)
    if project.read_only_copy is not None:
        document["read_only_copy"] = copy_row(project.read_only_copy)
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def write_project(path: Path, project: Project) -> None:
    """Write the project whole or not at all.

    Raises
    ------
    OutputError
        The file cannot be written; what stood there is intact.
    """
    write_atomic(path, project_text(project, path.parent).encode("utf-8"))
    remove_left_over(path)


def is_project(path: Path) -> bool:
    """Whether a file looks like a project of ours, by its name or its first bytes."""
    if path.suffix.lower() == ".legsheet":
        return True
    try:
        with path.open("rb") as stream:
            return f'"{FORMAT}"'.encode() in stream.read(200)
    except OSError:
        return False


class _Reader:
    """Takes values out of the parsed document, refusing what does not fit with one sentence."""

    def __init__(self, name: str, folder: Path) -> None:
        self._name = name
        self._folder = folder

    def fail(
        self, what: str, todo: str = tr("Open another file or save the project anew")
    ) -> InputError:
        return InputError(what, where=self._name, todo=todo)

    def path(self, value: object, key: str) -> Path:
        if not isinstance(value, str) or not value or "\0" in value:
            raise self.fail(tr("{key} is not a path", key=key))
        return self._folder / value

    def number(self, value: object, key: str) -> float:
        if (
            isinstance(value, bool)
            or not isinstance(value, int | float)
            or not math.isfinite(value)
        ):
            raise self.fail(tr("{key} is not a number", key=key))
        return float(value)

    def text(self, value: object, key: str) -> str:
        if not isinstance(value, str):
            raise self.fail(tr("{key} is not text", key=key))
        return value

    def flag(self, value: object, key: str) -> bool:
        if not isinstance(value, bool):
            raise self.fail(tr("{key} is neither true nor false", key=key))
        return value

    def leg_sources(self, value: object) -> tuple[tuple[int, ...], ...]:
        if not isinstance(value, list) or not all(isinstance(legs, list) for legs in value):
            raise self.fail(tr("leg_sources is not a list of lists"))
        found = tuple(tuple(int(self.number(leg, "leg_sources")) for leg in legs) for legs in value)
        if any(leg < 0 for legs in found for leg in legs):
            raise self.fail(tr("leg_sources names a leg below 0"))
        return found

    def options(self, value: object) -> Options:
        if not isinstance(value, dict):
            raise self.fail(tr("options is not a table"))
        numbers = {
            name: self.number(value[name], name) for name in _NUMBERS if value.get(name) is not None
        }
        start: datetime | None = None
        if value.get("start_utc") is not None:
            text = self.text(value["start_utc"], "start_utc")
            try:
                start = datetime.fromisoformat(text)
            except ValueError as exc:
                raise self.fail(tr("start_utc {text!r} is not a time", text=text)) from exc
            if start.tzinfo is None:
                start = start.replace(tzinfo=UTC)
        return Options(start_utc=start, **numbers)

    def override(self, value: object) -> Override:
        if not isinstance(value, dict):
            raise self.fail(tr("an entry of overrides is not a table"))
        role = self.text(value.get("role"), "role")
        if role not in ("primary", "check"):
            raise self.fail(tr("role {role!r} is neither primary nor check", role=role))
        part = value.get("part_m")
        if part is not None and not (isinstance(part, list) and len(part) == 2):
            raise self.fail(tr("part_m of an entry of overrides is no pair of numbers"))
        ends = [self.number(end, "part_m") for end in part or ()]
        return Override(
            part_m=(ends[0], ends[1]) if ends else None,
            leg_number=int(self.number(value.get("leg"), "leg")),
            role=role,
            object_id=self.text(value.get("object"), "object"),
            is_locked=bool(value.get("locked", True)),
            remark=self.text(value.get("remark", ""), "remark"),
        )


def read_project(path: Path) -> Project:
    """Read a project file.

    Raises
    ------
    InputError
        Not a project, broken, or of a newer version than this program knows.
    """
    blob = read_blob(path)
    text, _findings = decode_text(blob)
    return project_from_text(text, blob.name, path.parent)


def project_from_text(text: str, name: str, folder: Path) -> Project:
    """The project that ``project_text`` wrote.

    Parameters
    ----------
    text : str
        What stands in the file.
    name : str
        Of the file, for messages.
    folder : Path
        Where it stands; relative paths count from there.

    Raises
    ------
    InputError
        As ``read_project``.
    """
    reader = _Reader(name, folder)
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as exc:
        raise reader.fail(tr("this is not a project file, or it is cut short")) from exc
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise reader.fail(tr("this is not a project file"))
    try:
        document = brought_up(document)
    except ValueError as exc:
        raise reader.fail(str(exc), tr("Open it with a newer program")) from exc
    land = document.get("land", [])
    overrides = document.get("overrides", [])
    if not isinstance(land, list) or not isinstance(overrides, list):
        raise reader.fail(tr("land or overrides is not a list"))
    try:
        known = known_objects_of(document.get("known_objects", []))
        anchorage = None
        if document.get("anchorage") is not None:
            anchorage = anchorage_of(document["anchorage"])
        revisions = revisions_of(document.get("revisions", []))
        last_plan = last_plan_of_row(document.get("last_plan"))
        read_only_copy = copy_of_row(document.get("read_only_copy"))
    except ValueError as exc:
        raise reader.fail(str(exc)) from exc
    given: dict[str, Any] = {name: reader.text(document.get(name, ""), name) for name in _TEXTS}
    given |= {
        name: reader.path(document[name], name) for name in _PATHS if document.get(name) is not None
    }
    return Project(
        leg_sources=reader.leg_sources(document.get("leg_sources", [])),
        is_reversed=reader.flag(document.get("reversed", False), "reversed"),
        land=tuple(reader.path(item, "land") for item in land),
        options=reader.options(document.get("options", {})),
        overrides=tuple(reader.override(item) for item in overrides),
        anchorage=anchorage,
        revisions=revisions,
        known_objects=known,
        last_plan=last_plan,
        read_only_copy=read_only_copy,
        **given,
    )
