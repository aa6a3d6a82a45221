"""From the files a project names to one checked request."""

import math
import re
from collections.abc import Mapping
from dataclasses import replace

from core.base.errors import InputError
from core.base.findings import Finding, Severity
from core.base.units import kn_from_mps, mps_from_kn, nm_from_m
from core.files.contingency_file import read_contingencies
from core.files.ground_table import read_ground_table
from core.files.limits_file import read_limits
from core.files.marks_file import is_place, read_marks
from core.files.project import Options, Project
from core.files.readers import RouteFile, passage_from_text, read_passage
from core.files.ship_file import default_ship, read_ship
from core.files.streams_file import MOST_DRIFT_KN, MOST_LEEWAY_DEG, read_streams
from core.geodesy.position import bounds_of
from core.jobs.reverse_project import reversed_finding
from core.land.sources import GroundCodes
from core.passage.contingency import Contingency
from core.passage.passage import Passage
from core.passage.reverse import reversed_number, reversed_passage
from core.passage.stream import Leeway, LegStream, PassageStreams, Stream, reversed_leeway
from core.plan.anchor_approach import anchor_leg_index
from core.plan.anchoring_result import Anchorage
from core.plan.plan_result import DangerLimit, KnownObject, Mark
from core.plan.request import Environment, InputFile, Request
from core.ship.draughts import at_draughts
from core.ship.ship import Ship

_LIMITS: Mapping[str, tuple[str, float, float, str]] = {
    "tide_m": ("height of tide", -20.0, 20.0, "m"),
    "mean_sea_level_m": ("mean sea level above chart datum", -20.0, 20.0, "m"),
    "tidal_range_m": ("tidal range", 0.1, 20.0, "m"),
    "low_water_m": ("low water above chart datum", -20.0, 20.0, "m"),
    "high_water_m": ("high water above chart datum", -20.0, 20.0, "m"),
    "refraction_k": ("refraction factor k", 0.5, 10.0, ""),
    "craft_height_m": ("height of craft", 0.0, 100.0, "m"),
    "height_error_m": ("height error", 0.0, 200.0, "m"),
    "antenna_height_m": ("antenna height above water", 1.0, 150.0, "m"),
    "draught_forward_m": ("draught forward", 0.05, 40.0, "m"),
    "draught_aft_m": ("draught aft", 0.05, 40.0, "m"),
    "sea_state": ("sea state", 0.0, 6.0, ""),
    "rain_mm_h": ("rain", 0.0, 150.0, "mm/h"),
    "coast_height_m": ("assumed height of land", 0.0, 1000.0, "m"),
    "set_deg": ("set", 0.0, 360.0, "degrees"),
    "leeway_port_deg": ("leeway to port", 0.0, MOST_LEEWAY_DEG, "degrees"),
    "leeway_starboard_deg": ("leeway to starboard", 0.0, MOST_LEEWAY_DEG, "degrees"),
}
_TRAFFIC: Mapping[str, tuple[str, float, float, str, float]] = {
    "traffic_speed_mps": ("speed of traffic", 1.0, 100.0, "kn", mps_from_kn(1.0)),
    "decision_time_s": ("decision time", 1.0, 60.0, "min", 60.0),
    "pass_off_m": ("passing distance", 0.0, 5.0, "NM", 1852.0),
    "fix_interval_s": ("interval of fixes", 1.0, 120.0, "min", 60.0),
    "overlap_s": ("overlap at a hand-over", 1.0, 60.0, "min", 60.0),
}
"""Words, least, most, unit, and how much of the option's own unit one of these is."""

_LETTER = re.compile("[A-Za-z]{1,2}|[Pp][0-9]{1,3}")
"""What may be the letter of an object; a mark may have such a name too."""

_WATERS_DEG = 1.0
"""Objects this near a passage, 60 NM, belong to its waters; summits are looked for to 45 NM."""


def check_options(options: Options) -> None:
    """Refuse option values no officer can mean, each with one sentence."""
    for name, (words, low, high, unit) in _LIMITS.items():
        value = getattr(options, name)
        if value is not None and not low <= value <= high:
            raise InputError(
                f"the {words} {value:g} {unit} is not between {low:g} and {high:g} {unit}".replace(
                    "  ", " "
                ).rstrip(),
                todo="Give another value",
            )
    for name, (words, low, high, unit, one) in _TRAFFIC.items():
        value = getattr(options, name)
        if value is not None and not low <= round(value / one, 6) <= high:
            raise InputError(
                f"the {words} {value / one:.3g} {unit} is not between {low:g} and {high:g} {unit}",
                todo="Give another value",
            )
    if options.radius_m is not None and not 0.5 <= nm_from_m(options.radius_m) <= 48.0:
        raise InputError(
            f"the sweep radius {nm_from_m(options.radius_m):g} NM is not between 0.5 and 48 NM",
            todo="Give another value",
        )
    if options.corridor_m is not None and not 0.0 < nm_from_m(options.corridor_m) <= 20.0:
        raise InputError(
            f"the corridor {nm_from_m(options.corridor_m):g} NM is not between 0 and 20 NM",
            todo="Give another value",
        )
    if options.speed_mps is not None and not 0.1 <= options.speed_mps <= 52.0:
        raise InputError("the speed is not between 0.2 and 100 kn", todo="Give another value")
    if options.drift_mps is not None and not (
        0.0 <= options.drift_mps <= mps_from_kn(MOST_DRIFT_KN) * (1.0 + 1e-9)
    ):
        raise InputError(
            f"the drift {kn_from_mps(options.drift_mps):g} kn is not between 0 and "
            f"{MOST_DRIFT_KN:g} kn",
            todo="Give another value",
        )
    if (options.set_deg is None) != (options.drift_mps is None):
        given, missing = ("set", "drift") if options.drift_mps is None else ("drift", "set")
        raise InputError(
            f"the {given} of a stream is given without its {missing}",
            todo="Give both, or neither",
        )
    if (options.tide_m is None) != (options.mean_sea_level_m is None):
        given, missing = (
            ("a height of tide", "mean sea level above chart datum")
            if options.mean_sea_level_m is None
            else ("mean sea level", "the height of tide above chart datum")
        )
        raise InputError(
            f"{given} is given without {missing}",
            todo="Give both, or neither to plan at mean sea level",
        )
    _check_low_and_high(options)
    _check_draughts(options)


def _check_low_and_high(options: Options) -> None:
    low_m, high_m = options.low_water_m, options.high_water_m
    if (low_m is None) != (high_m is None):
        raise InputError(
            "only one of low and high water is given",
            todo="Give both above chart datum, or neither to take half the tidal range each way",
        )
    if low_m is None or high_m is None:
        return
    if options.mean_sea_level_m is None:
        raise InputError(
            "low and high water are given without mean sea level above chart datum",
            todo="Give it with the height of tide that the plan is for",
        )
    if not low_m < high_m:
        raise InputError(
            f"low water {low_m:g} m is not below high water {high_m:g} m",
            todo="Correct one of them",
        )


def _check_draughts(options: Options) -> None:
    if (options.draught_forward_m is None) != (options.draught_aft_m is None):
        raise InputError(
            "only one of the draughts forward and aft is given",
            todo="Give both, or neither to take those of the ship file",
        )
    if options.draught_forward_m is not None and options.antenna_height_m is not None:
        raise InputError(
            "both draughts and an antenna height above the water are given",
            todo="Give one of them; the draughts make the height",
        )


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


def _check_legs(by_leg: tuple[tuple[int, LegStream], ...], leg_count: int, file: str) -> None:
    """Refuse a stream for a leg that the passage has not."""
    beyond = [number for number, _given in by_leg if number > leg_count]
    if beyond:
        raise InputError(
            f"a stream is given for leg {beyond[0]}, the passage has {leg_count} legs",
            where=file,
            todo="Correct the number of the leg",
        )


def _reversed_streams(
    by_leg: tuple[tuple[int, LegStream], ...], leg_count: int
) -> tuple[tuple[int, LegStream], ...]:
    """Streams of a file that counts the legs of the route the other way."""
    return tuple(
        (
            reversed_number(number, leg_count),
            replace(given, leeway=reversed_leeway(given.leeway)),
        )
        for number, given in by_leg
    )


def _check_anchorage(passage: Passage, anchorage: Anchorage | None) -> None:
    """Refuse an anchorage at a waypoint that no leg leads to."""
    if anchorage is not None and anchor_leg_index(passage, anchorage) is None:
        raise InputError(
            f"no leg leads to a waypoint «{anchorage.waypoint[:40]}» to anchor at",
            where=passage.name,
            todo="Name a waypoint of the route, or none for the last one",
        )


def _read_route(project: Project) -> RouteFile:
    if project.route is not None:
        return read_passage(project.route)
    if project.route_text:
        return passage_from_text(project.route_text, "typed route")
    raise InputError("no route is given", todo="Open a route file or type the waypoints")


def _reversed_limit(limit: DangerLimit, leg_count: int) -> DangerLimit:
    """A danger limit of a file that counts the legs of the route the other way."""
    if limit.leg_number is None:
        return limit
    return replace(limit, leg_number=reversed_number(limit.leg_number, leg_count))


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
    is_one = len(unkept) == 1
    return (
        Finding(
            severity=Severity.CHECK,
            code="choices-by-letter",
            what=f"{', '.join(unkept)} {'is' if is_one else 'are'} named by letter, and no earlier "
            f"plan says which {'object that is' if is_one else 'objects these are'}",
            todo="Check that each letter is the object you meant",
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
            "no land data is given",
            todo="Name at least one elevation or coast file, or a folder with them",
        )
    findings: list[Finding] = []
    route = _read_route(project)
    inputs = [InputFile(role="route", name=route.name, sha256=route.sha256)]
    findings += route.findings
    passage = route.passage
    if project.is_reversed:
        passage = reversed_passage(passage)
        findings.append(reversed_finding())
    ship: Ship
    if project.ship is not None:
        ship, ship_findings, digest = read_ship(project.ship)
        findings += ship_findings
        inputs.append(InputFile(role="ship", name=project.ship.name, sha256=digest))
    else:
        ship = default_ship()
        if project.options.antenna_height_m is None:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="ship-assumed",
                    what=f"no ship is given, the built-in «{ship.name}» is used",
                    todo="Give the ship file, or the antenna height above water",
                )
            )
    draughts_m = project.options.draught_forward_m, project.options.draught_aft_m
    if draughts_m[0] is not None and draughts_m[1] is not None:
        ship = at_draughts(ship, forward_m=draughts_m[0], aft_m=draughts_m[1])
    marks: tuple[Mark, ...] = ()
    places: tuple[Mark, ...] = ()
    limits: tuple[DangerLimit, ...] = ()
    if project.marks is not None:
        given, mark_findings, digest = read_marks(project.marks)
        marks = tuple(mark for mark in given if not is_place(mark.kind))
        places = tuple(mark for mark in given if is_place(mark.kind))
        findings += mark_findings
        inputs.append(InputFile(role="marks", name=project.marks.name, sha256=digest))
    if project.limits is not None:
        limits, limit_findings, digest = read_limits(project.limits)
        findings += limit_findings
        inputs.append(InputFile(role="limits", name=project.limits.name, sha256=digest))
    if project.is_reversed:
        limits = tuple(_reversed_limit(limit, len(passage.legs)) for limit in limits)
    by_leg: tuple[tuple[int, LegStream], ...] = ()
    if project.streams is not None:
        by_leg, stream_findings, digest = read_streams(project.streams)
        findings += stream_findings
        inputs.append(InputFile(role="streams", name=project.streams.name, sha256=digest))
        _check_legs(by_leg, len(passage.legs), project.streams.name)
    if project.is_reversed:
        by_leg = _reversed_streams(by_leg, len(passage.legs))
    contingencies: tuple[Contingency, ...] = ()
    if project.contingencies is not None:
        path = project.contingencies
        contingencies, contingency_findings, digest = read_contingencies(path)
        findings += contingency_findings
        inputs.append(InputFile(role="contingencies", name=path.name, sha256=digest))
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
                what="no object of the earlier plan lies within 60 NM of this passage, letters "
                "start anew",
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
