"""From the files a project names to one checked request."""

import math
import re
from dataclasses import replace

from core.base.errors import InputError
from core.base.findings import Finding, Severity
from core.base.language import tr, tr_n
from core.files.contingency_file import read_contingencies
from core.files.ground_table import read_ground_table
from core.files.limits_file import read_limits
from core.files.marks_file import is_place, read_marks
from core.files.project import Options, Project
from core.files.readers import RouteFile, passage_from_text, read_passage
from core.files.ship_file import default_ship, read_ship
from core.files.streams_file import read_streams
from core.geodesy.position import bounds_of
from core.jobs.check_options import check_options
from core.jobs.leg_numbers import LegNumbers
from core.jobs.reverse_project import reversed_finding
from core.land.sources import GroundCodes
from core.passage.contingency import Contingency
from core.passage.passage import Passage
from core.passage.reverse import reversed_passage
from core.passage.stream import Leeway, LegStream, PassageStreams, Stream
from core.plan.anchor_leg import anchor_leg_index
from core.plan.anchoring_result import Anchorage
from core.plan.plan_result import DangerLimit, KnownObject, Mark
from core.plan.request import Environment, InputFile, Request
from core.ship.draughts import at_draughts
from core.ship.ship import Ship

_LETTER = re.compile("[A-Za-z]{1,2}|[Pp][0-9]{1,3}")
"""What may be the letter of an object; a mark may have such a name too."""

_WATERS_DEG = 1.0
"""Objects this near a passage, 60 NM, belong to its waters; summits are looked for to 45 NM."""


def environment_of(options: Options) -> Environment:
    """Water level, refraction and radius with the defaults where the officer set none."""
    given = {
        name: getattr(options, name)
        for name in (
            "tide_m",
            "mean_sea_level_m",
            "tidal_range_m",
            "low_water_m",
            "high_water_m",
            "refraction_k",
            "radius_m",
            "craft_height_m",
            "height_error_m",
            "sea_state",
            "rain_mm_h",
            "traffic_speed_mps",
            "decision_time_s",
            "fix_interval_s",
            "pass_off_m",
            "overlap_s",
        )
        if getattr(options, name) is not None
    }
    return replace(Environment(), **given)


def _everywhere(options: Options) -> LegStream:
    """Stream and leeway of the whole passage."""
    stream, leeway = None, None
    if options.set_deg is not None and options.drift_mps is not None:
        stream = Stream(set_deg=options.set_deg % 360.0, drift_mps=options.drift_mps)
    if options.leeway_port_deg is not None or options.leeway_starboard_deg is not None:
        leeway = Leeway(
            to_port_deg=options.leeway_port_deg or 0.0,
            to_starboard_deg=options.leeway_starboard_deg or 0.0,
        )
    return LegStream(stream=stream, leeway=leeway)


def _check_anchorage(passage: Passage, anchorage: Anchorage | None) -> None:
    """Refuse an anchorage at a waypoint that no leg leads to."""
    if anchorage is not None and anchor_leg_index(passage, anchorage) is None:
        raise InputError(
            tr(
                "no leg leads to a waypoint «{waypoint}» to anchor at",
                waypoint=anchorage.waypoint[:40],
            ),
            where=passage.name,
            todo=tr("Name a waypoint of the route, or none for the last one"),
        )


def read_route(project: Project) -> RouteFile:
    """The route of a project, the way its file or text has it.

    Raises
    ------
    InputError
        There is none, or it cannot be read.
    """
    if project.route is not None:
        return read_passage(project.route)
    if project.route_text:
        return passage_from_text(project.route_text, project.route_name or "typed route")
    raise InputError(tr("no route is given"), todo=tr("Open a route file or type the waypoints"))


def _of_these_waters(
    known: tuple[KnownObject, ...], passage: Passage, named: list[str]
) -> tuple[KnownObject, ...]:
    """Objects of earlier plans, unless all are of other waters and nobody names one."""
    if {name.casefold() for name in named} & {thing.id.casefold() for thing in known}:
        return known
    box = bounds_of(tuple(waypoint.position for waypoint in passage.waypoints))
    highest_deg = min(max(abs(box.south_deg), abs(box.north_deg)) + _WATERS_DEG, 85.0)
    lon_deg = _WATERS_DEG / math.cos(math.radians(highest_deg))
    waters = box.padded(lat_deg=_WATERS_DEG, lon_deg=lon_deg)
    return known if any(waters.contains(thing.position) for thing in known) else ()


def _unkept_letters(
    named: list[str], known: tuple[KnownObject, ...], marks: tuple[Mark, ...]
) -> tuple[Finding, ...]:
    """A finding where letters are named of which no earlier plan says what they are."""
    kept = {thing.id.casefold() for thing in known} | {mark.name.casefold() for mark in marks}
    unkept = sorted({n.upper() for n in named if _LETTER.fullmatch(n) and n.casefold() not in kept})
    if not unkept:
        return ()
    return (
        Finding(
            severity=Severity.CHECK,
            code="choices-by-letter",
            what=tr_n(
                "{letters} is named by letter, and no earlier plan says which object that is",
                "{letters} are named by letter, and no earlier plan says which objects these are",
                len(unkept),
                letters=", ".join(unkept),
            ),
            todo=tr("Check that each letter is the object you meant"),
        ),
    )


def make_request(project: Project) -> Request:
    """Read and check everything but the land, which is read inside the job.

    Parameters
    ----------
    project : Project
        Paths, options and overrides.

    Raises
    ------
    InputError
        A file or an option cannot be used, in one sentence.
    """
    check_options(project.options)
    if not project.land:
        raise InputError(
            tr("no land data is given"),
            todo=tr("Name at least one elevation or coast file, or a folder with them"),
        )
    findings: list[Finding] = []
    route = read_route(project)
    inputs = [InputFile(role="route", name=route.name, sha256=route.sha256)]
    findings += route.findings
    passage = route.passage
    if project.is_reversed:
        passage = reversed_passage(passage)
        findings.append(reversed_finding())
    ship: Ship
    ship_source = project.source_of("ship")
    if ship_source is not None:
        ship, ship_findings, digest = read_ship(ship_source)
        findings += ship_findings
        inputs.append(InputFile(role="ship", name=ship_source.name, sha256=digest))
    else:
        ship = default_ship()
        if project.options.antenna_height_m is None:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="ship-assumed",
                    what=tr("no ship is given, the built-in «{name}» is used", name=ship.name),
                    todo=tr("Give the ship file, or the antenna height above water"),
                )
            )
    draughts_m = project.options.draught_forward_m, project.options.draught_aft_m
    if draughts_m[0] is not None and draughts_m[1] is not None:
        ship = at_draughts(ship, forward_m=draughts_m[0], aft_m=draughts_m[1])
    marks: tuple[Mark, ...] = ()
    places: tuple[Mark, ...] = ()
    limits: tuple[DangerLimit, ...] = ()
    numbers = LegNumbers.of(project, len(passage.legs))
    marks_source = project.source_of("marks")
    if marks_source is not None:
        given, mark_findings, digest = read_marks(marks_source)
        marks = tuple(mark for mark in given if not is_place(mark.kind))
        places = tuple(mark for mark in given if is_place(mark.kind))
        findings += mark_findings
        inputs.append(InputFile(role="marks", name=marks_source.name, sha256=digest))
    limits_source = project.source_of("limits")
    if limits_source is not None:
        limits, limit_findings, digest = read_limits(limits_source)
        findings += limit_findings
        inputs.append(InputFile(role="limits", name=limits_source.name, sha256=digest))
        # Limits kept in the project are edited with the legs they stand for.
        is_file = not project.limits_text
        limits, gone = numbers.limits(limits, limits_source.name, is_file=is_file)
        findings += gone
    by_leg: tuple[tuple[int, LegStream], ...] = ()
    if project.streams is not None:
        by_leg, stream_findings, digest = read_streams(project.streams)
        findings += stream_findings
        inputs.append(InputFile(role="streams", name=project.streams.name, sha256=digest))
        by_leg = numbers.streams(by_leg, project.streams.name)
    contingencies: tuple[Contingency, ...] = ()
    if project.contingencies is not None:
        path = project.contingencies
        contingencies, contingency_findings, digest = read_contingencies(path)
        findings += contingency_findings
        inputs.append(InputFile(role="contingencies", name=path.name, sha256=digest))
        contingencies = numbers.contingencies(contingencies)
    _check_anchorage(passage, project.anchorage)
    ground: GroundCodes | None = None
    if project.classes is not None:
        ground, ground_findings, table, digest = read_ground_table(project.classes)
        findings += ground_findings
        inputs.append(InputFile(role="classes", name=table.name, sha256=digest))
    named = [item.object_id.strip() for item in project.overrides]
    named += [item.object_id.strip() for item in limits]
    known = _of_these_waters(project.known_objects, passage, named)
    findings += _unkept_letters(named, known, marks)
    if project.known_objects and not known:
        findings.append(
            Finding(
                severity=Severity.NOTE,
                code="letters-anew",
                what=tr(
                    "no object of the earlier plan lies within 60 NM of this passage, "
                    "letters start anew"
                ),
            )
        )
    return Request(
        passage=passage,
        is_reversed=project.is_reversed,
        ship=ship,
        land_paths=project.land,
        environment=environment_of(project.options),
        antenna_height_m=project.options.antenna_height_m,
        start_utc=project.options.start_utc,
        speed_mps=project.options.speed_mps,
        corridor_m=project.options.corridor_m,
        streams=PassageStreams(everywhere=_everywhere(project.options), by_leg=by_leg),
        marks=marks,
        places=places,
        limits=limits,
        contingencies=contingencies,
        overrides=project.overrides,
        anchorage=project.anchorage,
        known_objects=known,
        since=project.revisions[-1] if project.revisions else None,
        coast_height_m=project.options.coast_height_m,
        ground=ground,
        inputs=tuple(inputs),
        findings=tuple(findings),
    )
