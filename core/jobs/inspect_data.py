"""The inspect job: what files are, what they cover and what they are worth."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress, Quiet, Span
from core.files.coast_header import NoCoastError
from core.files.data_inspection import CoastFacts, ElevationFacts, coast_facts, elevation_facts
from core.files.land_paths import LandKind, kind_of, natural_key
from core.files.readers import RouteFile, read_passage
from core.geodesy.position import Bounds, bounds_of

_ROUTE_SUFFIXES = {".rtz", ".rtzp", ".gpx", ".csv"}
_MAYBE_ROUTE = {".geojson", ".json", ".zip"}
_COAST_POINTS_NEARER_M = 2_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectedFile:
    """One file: what was found, or why it cannot be used (``problem``)."""

    path: Path
    kind: str
    """``elevation``, ``coast``, ``route`` or ``unusable``."""
    facts: dict[str, Any]
    """JSON-able facts; keys carry their units."""
    text: tuple[str, ...]
    """The same facts in words."""
    problem: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """All files looked at, in the order given, folders in natural order."""

    files: tuple[InspectedFile, ...]

    @property
    def is_usable(self) -> bool:
        """Whether every file can be used."""
        return all(not file.problem for file in self.files)

    def to_dict(self) -> dict[str, Any]:
        """The facts as JSON-able values."""
        return {
            "format": "legsheet-inspection",
            "version": 1,
            "files": [
                {"name": file.path.name, "kind": file.kind, **file.facts}
                | ({"problem": file.problem} if file.problem else {})
                for file in self.files
            ],
        }

    def lines(self) -> tuple[str, ...]:
        """The facts as lines of text, a block a file."""
        out: list[str] = []
        for file in self.files:
            if file.problem:
                out.append(file.problem)
                continue
            out.append(f"{file.path.name}: {file.kind}")
            out += [f"  {line}" for line in file.text]
        return tuple(out)


def inspect_paths(paths: Sequence[Path], progress: Progress | None = None) -> Inspection:
    """Look at files and folders of land data and routes.

    A file that cannot be used is told with its reason and stops nothing.

    Raises
    ------
    InputError
        No path is given, or one does not exist, or a folder holds nothing of use.
    """
    if not paths:
        raise InputError(tr("no file is given"), todo=tr("Give a file or a folder"))
    report = progress or Quiet()
    files = [file for path in paths for file in _files_of(path)]
    inspected = []
    for number, path in enumerate(files):
        part = Span(report, number / len(files), (number + 1) / len(files))
        part.report(0.0, tr("reading {file_name}", file_name=path.name))
        inspected += _inspected(path, part)
    return Inspection(files=tuple(inspected))


def _files_of(path: Path) -> list[Path]:
    if path.is_file():
        return [path]
    if not path.is_dir():
        raise InputError(tr("there is no such file"), where=path.name, todo=tr("Check the path"))
    found = [
        p
        for p in sorted(path.rglob("*"), key=natural_key)
        if p.is_file() and (kind_of(p) is not None or p.suffix.casefold() in _ROUTE_SUFFIXES)
    ]
    if not found:
        raise InputError(
            tr("the folder holds neither land data nor routes"),
            where=path.name or str(path),
            todo=tr("Give another folder"),
        )
    return found


def _inspected(path: Path, progress: Progress) -> list[InspectedFile]:
    kind = kind_of(path)
    try:
        if kind is LandKind.COAST:
            return [_coast_or_route(path)]
        if kind is LandKind.ELEVATION:
            return _elevation_or_route(path, progress)
        return [_route(path, read_passage(path))]
    except InputError as exc:
        return [
            InspectedFile(
                path=path, kind="unusable", facts={}, text=(), problem=_sentence(path, exc)
            )
        ]


def _sentence(path: Path, exc: InputError) -> str:
    return str(exc) if exc.where else str(InputError(exc.what, where=path.name, todo=exc.todo))


def _coast_or_route(path: Path) -> InspectedFile:
    """A coast file; a file of one coarse line that reads as a route is one."""
    try:
        facts = coast_facts(path)
    except NoCoastError:
        if path.suffix.casefold() not in _MAYBE_ROUTE:
            raise
        return _route(path, read_passage(path))
    coarse = facts.spacing_m is not None and facts.spacing_m > _COAST_POINTS_NEARER_M
    if coarse and not facts.polygon_count and path.suffix.casefold() in _MAYBE_ROUTE:
        try:
            return _route(path, read_passage(path))
        except InputError:
            pass
    return _coast(path, facts)


def _elevation_or_route(path: Path, progress: Progress) -> list[InspectedFile]:
    try:
        return [_elevation(path, facts) for facts in elevation_facts(path, progress)]
    except InputError as exc:
        if path.suffix.casefold() not in _MAYBE_ROUTE:
            raise
        try:
            return [_route(path, read_passage(path))]
        except InputError:
            raise exc from None


def _box(bounds: Bounds) -> list[float]:
    east = bounds.east_deg if bounds.east_deg <= 180.0 else bounds.east_deg - 360.0
    return [round(v, 6) for v in (bounds.west_deg, bounds.south_deg, east, bounds.north_deg)]


def _box_words(bounds: Bounds) -> str:
    west, south, east, north = _box(bounds)
    return tr(
        "west {west:g}, south {south:g}, east {east:g}, north {north:g} deg",
        west=west,
        south=south,
        east=east,
        north=north,
    )


def _origin(released: str, licence: str) -> list[str]:
    none = tr("not stated")
    return [
        tr("released: {released}", released=released or none),
        tr("licence: {licence}", licence=licence or none),
    ]


def _elevation(path: Path, facts: ElevationFacts) -> InspectedFile:
    heights = (
        tr(
            "heights {lowest_m:.0f} to {highest_m:.0f} m",
            lowest_m=facts.lowest_m,
            highest_m=facts.highest_m,
        )
        if facts.lowest_m is not None and facts.highest_m is not None
        else tr("no height known")
    )
    return InspectedFile(
        path=path,
        kind="elevation",
        facts={
            "driver": facts.driver,
            "crs": facts.crs,
            "area_w_s_e_n_deg": _box(facts.area),
            "rows": facts.rows,
            "cols": facts.cols,
            "resolution": facts.resolution,
            "void_fraction": round(facts.void_fraction, 6),
            "lowest_m": facts.lowest_m,
            "highest_m": facts.highest_m,
            "released": facts.released,
            "licence": facts.licence,
            "sha256": facts.sha256,
            "quality": {"grade": facts.quality.grade, "reason": facts.quality.reason},
        },
        text=(
            tr(
                "{driver}, {coordinate_system}, {rows} x {cols} cells",
                driver=facts.driver,
                coordinate_system=facts.crs,
                rows=facts.rows,
                cols=facts.cols,
            ),
            tr("covers {box}", box=_box_words(facts.area)),
            tr("cells of {resolution}", resolution=facts.resolution),
            tr(
                "{heights}; void {void_fraction:.2%} of the cells",
                heights=heights,
                void_fraction=facts.void_fraction,
            ),
            *_origin(facts.released, facts.licence),
            tr("quality {quality}", quality=facts.quality),
            tr("SHA-256 {sha256}", sha256=facts.sha256),
        ),
        problem="",
    )


def _coast(path: Path, facts: CoastFacts) -> InspectedFile:
    spacing = (
        tr("vertices about {spacing_m:.0f} m apart", spacing_m=facts.spacing_m)
        if facts.spacing_m
        else tr("no shape in it")
    )
    return InspectedFile(
        path=path,
        kind="coast",
        facts={
            "driver": facts.driver,
            "crs": facts.crs,
            "declared_w_s_e_n_deg": [_box(b) for b in facts.declared],
            "declared_by": facts.declared_by,
            "polygons": facts.polygon_count,
            "lines": facts.line_count,
            "closed_lines": facts.closed_line_count,
            "spacing_m": None if facts.spacing_m is None else round(facts.spacing_m, 1),
            "remarks": list(facts.remarks),
            "released": facts.released,
            "licence": facts.licence,
            "sha256": facts.sha256,
            "quality": {"grade": facts.quality.grade, "reason": facts.quality.reason},
        },
        text=(
            f"{facts.driver}, {facts.crs}",
            *(
                tr(
                    "covers {box}, by {declared_by}",
                    box=_box_words(b),
                    declared_by=facts.declared_by,
                )
                for b in facts.declared
            ),
            tr(
                "{polygon_count} land polygons, {line_count} shorelines "
                "({closed_line_count} closed)",
                polygon_count=facts.polygon_count,
                line_count=facts.line_count,
                closed_line_count=facts.closed_line_count,
            ),
            spacing,
            *facts.remarks,
            *_origin(facts.released, facts.licence),
            tr("quality {quality}", quality=facts.quality),
            tr("SHA-256 {sha256}", sha256=facts.sha256),
        ),
        problem="",
    )


def _route(path: Path, route: RouteFile) -> InspectedFile:
    passage = route.passage
    area = bounds_of(tuple(w.position for w in passage.waypoints))
    findings = [str(f) for f in route.findings]
    return InspectedFile(
        path=path,
        kind="route",
        facts={
            "format": route.kind,
            "passage": passage.name,
            "waypoints": len(passage.waypoints),
            "legs": len(passage.legs),
            "area_w_s_e_n_deg": _box(area),
            "findings": findings,
            "sha256": route.sha256,
        },
        text=(
            tr("{kind}, passage {name}", kind=route.kind, name=passage.name)
            if passage.name
            else route.kind,
            tr(
                "{waypoint_count} waypoints, {leg_count} legs",
                waypoint_count=len(passage.waypoints),
                leg_count=len(passage.legs),
            ),
            tr("covers {box}", box=_box_words(area)),
            *findings,
            tr("SHA-256 {sha256}", sha256=route.sha256),
        ),
        problem="",
    )
