"""What the plan is made from, as rows of words."""

from pathlib import Path

from app.state.document import Document
from app.views.table_model import Row
from core.files.project import Options
from core.passage.stream import Leeway, Stream
from core.words import quantities
from core.words.motion_words import leeway_words, stream_words

INPUT_HEADS = ("Input", "What is used")

_NONE = "none given"


def _file(path: Path | None, absent: str) -> str:
    return absent if path is None else path.name


def _or_edited(path: Path | None, text: str) -> str:
    """What was edited stands in the place of the file."""
    return "edited in this project" if text else _file(path, _NONE)


def _option_rows(options: Options) -> list[tuple[str, str]]:
    rows = []
    if options.tide_m is not None and options.mean_sea_level_m is not None:
        rows.append(
            (
                "Tide",
                f"{quantities.fine_height(options.tide_m)} above chart datum, mean sea level "
                f"{quantities.fine_height(options.mean_sea_level_m)}",
            )
        )
    else:
        rows.append(("Tide", "not given: heights above mean sea level"))
    if options.tidal_range_m is not None:
        rows.append(("Tidal range", quantities.fine_height(options.tidal_range_m)))
    if options.low_water_m is not None and options.high_water_m is not None:
        low, high = (quantities.fine_height(v) for v in (options.low_water_m, options.high_water_m))
        rows.append(("Low and high water", f"{low} and {high} above chart datum"))
    if options.antenna_height_m is not None:
        words = f"{quantities.fine_height(options.antenna_height_m)} above the water"
        rows.append(("Antenna", words))
    if options.draught_forward_m is not None and options.draught_aft_m is not None:
        words = f"{options.draught_forward_m:g} m forward, {options.draught_aft_m:g} m aft"
        rows.append(("Draughts", words))
    if options.start_utc is not None:
        rows.append(("Start", f"{options.start_utc:%Y-%m-%d %H:%M} UTC"))
    else:
        rows.append(("Start", "not given: times count from the start"))
    if options.speed_mps is not None:
        rows.append(("Speed", quantities.speed(options.speed_mps)))
    if options.set_deg is not None and options.drift_mps is not None:
        stream = Stream(set_deg=options.set_deg, drift_mps=options.drift_mps)
        rows.append(("Stream", stream_words(stream)))
    if options.leeway_port_deg is not None or options.leeway_starboard_deg is not None:
        leeway = Leeway(
            to_port_deg=options.leeway_port_deg or 0.0,
            to_starboard_deg=options.leeway_starboard_deg or 0.0,
        )
        rows.append(("Leeway", leeway_words(leeway)))
    if options.corridor_m is not None:
        rows.append(("Corridor", f"{quantities.distance(options.corridor_m, 2)} each side"))
    if options.radius_m is not None:
        rows.append(("Sweep radius", quantities.distance(options.radius_m)))
    if options.refraction_k is not None:
        rows.append(("Refraction", quantities.refraction(options.refraction_k)))
    if options.craft_height_m is not None:
        words = f"for craft {quantities.fine_height(options.craft_height_m)} high"
        rows.append(("Hidden water", words))
    if options.height_error_m is not None:
        rows.append(("Elevation error", quantities.fine_height(options.height_error_m)))
    if options.sea_state is not None:
        rows.append(("Sea state", f"{options.sea_state:g}"))
    if options.rain_mm_h is not None:
        rows.append(("Rain", f"{options.rain_mm_h:g} mm/h"))
    if options.traffic_speed_mps is not None:
        words = f"taken as {quantities.speed(options.traffic_speed_mps)} at least"
        rows.append(("Other craft", words))
    if options.decision_time_s is not None:
        rows.append(("Decision time", f"{options.decision_time_s / 60.0:g} min"))
    if options.fix_interval_s is not None:
        rows.append(("Radar fix", f"every {options.fix_interval_s / 60.0:g} min"))
    if options.pass_off_m is not None:
        words = f"{quantities.distance(options.pass_off_m, 2)} beyond a head"
        rows.append(("Emerging craft pass", words))
    if options.overlap_s is not None:
        rows.append(("Hand-over", f"both lines for {options.overlap_s / 60.0:g} min"))
    if options.coast_height_m is not None:
        words = f"taken as {quantities.fine_height(options.coast_height_m)} where only coast is"
        rows.append(("Land height", words))
    return rows


def input_rows(document: Document) -> tuple[Row, ...]:
    """All inputs, conditions and own choices of the project."""
    project = document.project
    route = _file(project.route, "typed or edited in this project" if project.route_text else _NONE)
    facts = [("Route", f"{route} (INVENTED demo)" if document.is_demo else route)]
    if project.is_reversed:
        facts.append(("Way", "the other way round, from its last waypoint to its first"))
    facts += [("Land", path.name) for path in project.land] or [("Land", _NONE)]
    ship = "none given: a built-in general ship"
    if project.ship_text:
        ship = "edited in this project"
    elif project.ship is not None:
        ship = project.ship.name
    facts.append(("Ship", ship))
    facts.append(("Marks", _or_edited(project.marks, project.marks_text)))
    facts.append(("Danger limits", _or_edited(project.limits, project.limits_text)))
    facts.append(("Streams by leg", _file(project.streams, _NONE)))
    facts.append(("Contingency legs", _file(project.contingencies, _NONE)))
    facts.append(("Kinds of ground", _file(project.classes, "none given: taken by slope")))
    facts += _option_rows(project.options)
    if project.anchorage is not None:
        cable = project.anchorage.cable_m
        words = f"at {project.anchorage.waypoint or 'the last waypoint'}" + (
            "" if cable is None else f", cable {cable:g} m"
        )
        facts.append(("Anchor", words))
    facts += [
        (
            f"Choice leg {o.leg_number}",
            f"{o.object_id} as {o.role}{', locked' if o.is_locked else ''}"
            + (f": {o.remark}" if o.remark else ""),
        )
        for o in project.overrides
    ]
    missing = {("Route", _NONE), ("Land", _NONE)}
    return tuple(Row(cells=fact, is_alert=fact in missing) for fact in facts)
