"""What the plan is made from, as rows of words."""

from pathlib import Path

from app.state.document import Document
from app.views.table_model import Row
from core.base.language import tr
from core.files.project import Options
from core.passage.stream import Leeway, Stream
from core.words import quantities
from core.words.kept_words import shown
from core.words.motion_words import leeway_words, stream_words

INPUT_HEADS = (tr("Input"), tr("What is used"))

_NONE = tr("none given")


def _file(path: Path | None, absent: str) -> str:
    return absent if path is None else path.name


def _part_words(part_m: tuple[float, float] | None) -> str:
    """For which part of its leg a choice is: it is not seen from the object."""
    if part_m is None:
        return ""
    return tr(
        "; {start} to {stop} along the leg",
        start=quantities.distance(part_m[0], 2),
        stop=quantities.distance(part_m[1], 2),
    )


def _or_edited(path: Path | None, text: str) -> str:
    """What was edited stands in the place of the file."""
    return tr("edited in this project") if text else _file(path, _NONE)


def _option_rows(options: Options) -> list[tuple[str, str]]:
    rows = []
    if options.tide_m is not None and options.mean_sea_level_m is not None:
        rows.append(
            (
                tr("Tide"),
                tr(
                    "{tide} above chart datum, mean sea level {mean_sea_level}",
                    tide=quantities.fine_height(options.tide_m),
                    mean_sea_level=quantities.fine_height(options.mean_sea_level_m),
                ),
            )
        )
    else:
        rows.append((tr("Tide"), tr("not given: heights above mean sea level")))
    if options.tidal_range_m is not None:
        rows.append((tr("Tidal range"), quantities.fine_height(options.tidal_range_m)))
    if options.low_water_m is not None and options.high_water_m is not None:
        low, high = (quantities.fine_height(v) for v in (options.low_water_m, options.high_water_m))
        rows.append(
            (
                tr("Low and high water"),
                tr(
                    "{low_water} and {high_water} above chart datum", low_water=low, high_water=high
                ),
            )
        )
    if options.antenna_height_m is not None:
        words = tr(
            "{height} above the water",
            height=quantities.fine_height(options.antenna_height_m),
        )
        rows.append((tr("Antenna"), words))
    if options.draught_forward_m is not None and options.draught_aft_m is not None:
        words = tr(
            "{draught_forward_m:g} m forward, {draught_aft_m:g} m aft",
            draught_forward_m=options.draught_forward_m,
            draught_aft_m=options.draught_aft_m,
        )
        rows.append((tr("Draughts"), words))
    if options.start_utc is not None:
        rows.append((tr("Start"), f"{options.start_utc:%Y-%m-%d %H:%M} UTC"))
    else:
        rows.append((tr("Start"), tr("not given: times count from the start")))
    if options.speed_mps is not None:
        rows.append((tr("Speed"), quantities.speed(options.speed_mps)))
    if options.set_deg is not None and options.drift_mps is not None:
        stream = Stream(set_deg=options.set_deg, drift_mps=options.drift_mps)
        rows.append((tr("Stream"), stream_words(stream)))
    if options.leeway_port_deg is not None or options.leeway_starboard_deg is not None:
        leeway = Leeway(
            to_port_deg=options.leeway_port_deg or 0.0,
            to_starboard_deg=options.leeway_starboard_deg or 0.0,
        )
        rows.append((tr("Leeway"), leeway_words(leeway)))
    if options.corridor_m is not None:
        rows.append(
            (
                tr("Corridor"),
                tr("{distance} each side", distance=quantities.distance(options.corridor_m, 2)),
            )
        )
    if options.radius_m is not None:
        rows.append((tr("Sweep radius"), quantities.distance(options.radius_m)))
    if options.refraction_k is not None:
        rows.append((tr("Refraction"), quantities.refraction(options.refraction_k)))
    if options.craft_height_m is not None:
        words = tr(
            "for craft {height} high",
            height=quantities.fine_height(options.craft_height_m),
        )
        rows.append((tr("Hidden water"), words))
    if options.height_error_m is not None:
        rows.append((tr("Elevation error"), quantities.fine_height(options.height_error_m)))
    if options.sea_state is not None:
        rows.append((tr("Sea state"), f"{options.sea_state:g}"))
    if options.rain_mm_h is not None:
        rows.append((tr("Rain"), tr("{rain_mm_h:g} mm/h", rain_mm_h=options.rain_mm_h)))
    if options.traffic_speed_mps is not None:
        words = tr("taken as {speed} at least", speed=quantities.speed(options.traffic_speed_mps))
        rows.append((tr("Other craft"), words))
    if options.decision_time_s is not None:
        rows.append((tr("Decision time"), f"{options.decision_time_s / 60.0:g} min"))
    if options.fix_interval_s is not None:
        rows.append(
            (
                tr("Radar fix"),
                tr("every {interval_min:g} min", interval_min=options.fix_interval_s / 60.0),
            )
        )
    if options.pass_off_m is not None:
        words = tr("{distance} beyond a head", distance=quantities.distance(options.pass_off_m, 2))
        rows.append((tr("Emerging craft pass"), words))
    if options.overlap_s is not None:
        rows.append(
            (
                tr("Hand-over"),
                tr("both lines for {overlap_min:g} min", overlap_min=options.overlap_s / 60.0),
            )
        )
    if options.coast_height_m is not None:
        words = tr(
            "taken as {height} where only coast is",
            height=quantities.fine_height(options.coast_height_m),
        )
        rows.append((tr("Land height"), words))
    return rows


def input_rows(document: Document) -> tuple[Row, ...]:
    """All inputs, conditions and own choices of the project."""
    project = document.project
    route = _file(
        project.route, tr("typed or edited in this project") if project.route_text else _NONE
    )
    facts = [
        (tr("Route"), tr("{route} (INVENTED demo)", route=route) if document.is_demo else route)
    ]
    if project.is_reversed:
        facts.append((tr("Way"), tr("the other way round, from its last waypoint to its first")))
    facts += [(tr("Land"), path.name) for path in project.land] or [(tr("Land"), _NONE)]
    ship = tr("none given: a built-in general ship")
    if project.ship_text:
        ship = tr("edited in this project")
    elif project.ship is not None:
        ship = project.ship.name
    facts.append((tr("Ship"), ship))
    facts.append((tr("Marks"), _or_edited(project.marks, project.marks_text)))
    facts.append((tr("Danger limits"), _or_edited(project.limits, project.limits_text)))
    facts.append((tr("Streams by leg"), _file(project.streams, _NONE)))
    facts.append((tr("Contingency legs"), _file(project.contingencies, _NONE)))
    facts.append((tr("Kinds of ground"), _file(project.classes, tr("none given: taken by slope"))))
    facts += _option_rows(project.options)
    if project.anchorage is not None:
        cable = project.anchorage.cable_m
        words = tr(
            "at {waypoint}", waypoint=project.anchorage.waypoint or tr("the last waypoint")
        ) + ("" if cable is None else tr(", cable {cable:g} m", cable=cable))
        facts.append((tr("Anchor"), words))
    facts += [
        (
            tr("Choice leg {leg_number}", leg_number=o.leg_number),
            (
                tr("{object_id} as {role}, locked", object_id=o.object_id, role=shown(o.role))
                if o.is_locked
                else tr("{object_id} as {role}", object_id=o.object_id, role=shown(o.role))
            )
            + _part_words(o.part_m)
            + (f": {o.remark}" if o.remark else ""),
        )
        for o in project.overrides
    ]
    missing = {(tr("Route"), _NONE), (tr("Land"), _NONE)}
    return tuple(Row(cells=fact, is_alert=fact in missing) for fact in facts)
