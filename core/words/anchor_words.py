"""The anchoring card in words."""

import math

from core.base.language import tr
from core.base.units import nm_from_m
from core.plan.anchoring import GOOD_OFF_DEG
from core.plan.anchoring_result import AnchoringCard, ApproachLine, WatchObject
from core.plan.outcome import Outcome
from core.words import quantities, times

TITLE = tr("Anchoring card")
CAUTION = tr(
    "Depths, holding ground, room to swing and forbidden areas are on "
    "the official chart alone; this card knows none of them. Data, "
    "antenna and radar are those of the leg's sheet."
)
PRACTICE = tr("common practice, no source")
APPROACH_HEAD = tr("Approach lines, and what they read at the edges of the corridor")
WATCH_HEAD = tr("Drag watch")
PICTURE_IS = tr(
    "Expected at the anchorage, {scale} scale, {course} up. "
    "{calculated} Reference for the drag watch."
)
NO_PICTURE = tr("The picture to expect is the reference for the drag watch: legsheet picture.")
CIRCLES = tr("Distances to go are range circles round the let-go place.")


def card_lines(outcome: Outcome, card: AnchoringCard) -> list[str]:
    """Where, on which course, and what counts the distance down."""
    name = outcome.plan.passage.waypoints[card.leg_index + 1].name
    place = f"{name}, {quantities.position(card.spot)}" if name else quantities.position(card.spot)
    lines = [
        tr(
            "Anchor at {place}; approach {track}, leg {leg_number}.",
            place=place,
            track=quantities.track(card.course_deg),
            leg_number=card.leg_index + 1,
        )
    ]
    hawse = f"{card.hawse_m:.0f} m"
    if card.is_hawse_stated:
        lines.append(
            tr(
                "Ranges count from the radar's reference point, {hawse} abaft the "
                "hawse: it is at {position} when the anchor is let go.",
                hawse=hawse,
                position=quantities.position(card.let_go),
            )
        )
    else:
        lines.append(
            tr(
                "The distance from the radar's reference point to the hawse is not "
                "stated, ranges are as if it were none: measure it; add it to "
                "ranges ahead, take it off ranges astern."
            )
        )
    lines.append(dead_words(card))
    mark = card.head_mark
    if mark is None:
        lines.append(tr("No head mark on the extended track."))
    else:
        lines.append(
            tr(
                "Head mark {mark}: keep it on {track}; it bears {course} when letting go.",
                mark=_named(mark.object_id, mark.name),
                track=quantities.track(card.course_deg),
                course=quantities.course(mark.bearing_deg),
            )
        )
    return lines


def countdown_lines(outcome: Outcome, card: AnchoringCard) -> list[str]:
    """What the table of distances to go rests on."""
    lines = [
        tr(
            "{circles} Let go about {let_go_time} at these speeds.",
            circles=CIRCLES,
            let_go_time=let_go_time(outcome, card),
        )
    ]
    if card.are_speeds_usual:
        lines.append(
            tr(
                "Way taken off as usual ({practice}); put your own speeds in its place.",
                practice=PRACTICE,
            )
        )
    return lines


def dead_words(card: AnchoringCard) -> str:
    """What counts the distance to the letting go down, or why nothing does."""
    dead = card.dead_range
    if dead is None:
        return tr(
            "No dead range: {dead_range_reason}. Count down by fixes.",
            dead_range_reason=card.dead_range_reason,
        )
    way = tr("AHEAD") if dead.is_ahead else tr("ASTERN")
    name = "" if dead.name == dead.object_id else f"{dead.name}; "
    off = tr("{off_deg:.0f}° off the line", off_deg=dead.off_deg)
    if dead.off_deg > GOOD_OFF_DEG:
        share = math.sin(math.radians(dead.off_deg))
        off += tr(": 1.0 c off the track moves it by {share:.1f} c", share=share)
    return tr(
        "LET GO when {object_id} {ahead_or_astern} reads {miles} NM, {course} ({name}{off_line}).",
        object_id=dead.object_id,
        ahead_or_astern=way,
        miles=quantities.miles(dead.range_m, 2),
        course=quantities.course(dead.bearing_deg),
        name=name,
        off_line=off,
    )


def _named(object_id: str, name: str) -> str:
    return object_id if name == object_id else f"{object_id} ({name})"


def let_go_time(outcome: Outcome, card: AnchoringCard) -> str:
    """When the anchor is let go by the speeds of the card, with its zone."""
    leg, timetable = outcome.plan.legs[card.leg_index], outcome.plan.timetable
    whole = card.steps[0] if card.steps else None
    zone = times.zone_words(timetable)
    if whole is None:
        return f"{times.when(timetable, leg.leg_index, leg.distance_m)} {zone}"
    speed = leg.speed_mps
    begins_m = leg.distance_m - card.hawse_m - whole.to_go_m
    along_m = begins_m + whole.to_go_s * speed
    return f"{times.when(timetable, leg.leg_index, along_m)} {zone}"


def step_words(card: AnchoringCard) -> list[tuple[str, str, str, str]]:
    """Distance to go, range of the dead range object, speed, minutes to go."""
    return [
        (
            quantities.miles(step.to_go_m, 2),
            quantities.DASH if step.range_m is None else quantities.miles(step.range_m, 2),
            quantities.speed(step.speed_mps).removesuffix(" kn"),
            f"{step.to_go_s / 60.0:.1f}",
        )
        for step in card.steps
    ]


def approach_words(line: ApproachLine) -> tuple[str, str, str, str, str]:
    """Use, side, range on the track, range at the port and at the starboard edge.

    The readings at the edges are rounded towards the track, so that they warn early.
    """
    use = tr("check") if line.is_check else tr("primary")
    if line.ends_to_go_m > 50.0:
        use = tr(
            "{use}, to {miles} NM to go", use=use, miles=quantities.miles(line.ends_to_go_m, 1)
        )
    return (
        use,
        quantities.side(line.side),
        quantities.index_number(line.cross_index_range_m, line.range_scale_m),
        _edge(line, line.at_port_edge_m),
        _edge(line, line.at_starboard_edge_m),
    )


def _edge(line: ApproachLine, reading_m: float) -> str:
    if reading_m <= 0.0:
        return quantities.DASH
    step = quantities.index_step_nm(line.range_scale_m)
    count = nm_from_m(reading_m) / step
    is_less = reading_m < line.cross_index_range_m
    whole = math.ceil(count - 1e-6) if is_less else math.floor(count + 1e-6)
    return f"{whole * step:.2f}"


def watch_lines(card: AnchoringCard) -> list[str]:
    """What the limits of the drag watch rest on, and how soon they warn."""
    if not card.watch:
        return [tr("No drag watch by radar: {watch_reason}.", watch_reason=card.watch_reason)]
    if card.swing_m is None:
        return [tr("The cable is not stated: limits hold the errors alone; give its length.")]
    words = tr(
        "While she swings {swing_m:.0f} m round the anchor (cable and "
        "hawse to reference point), ranges and bearings stay within the "
        "limits (errors of the set in them); one outside, with another "
        "confirming: dragging.",
        swing_m=card.swing_m,
    )
    best = next((item for item in card.watch if item.is_best), None)
    if best is not None and card.watch_drag_m is not None and math.isfinite(card.watch_drag_m):
        words += tr(
            " Best {object_id}. Whatever way she drags, one of them shows it "
            "within {drag} beyond the swing; «drag» says the same of each "
            "alone.",
            object_id=best.object_id,
            drag=_drag(card.watch_drag_m),
        )
    return [words]


def _drag(drag_m: float) -> str:
    """Up, by ten metres: ``120 m``."""
    return f"{math.ceil(drag_m / 10.0 - 1e-9) * 10:d} m"


def watch_words(item: WatchObject) -> tuple[str, str, str, str, str, str]:
    """Range, its limits, bearing, its limits, scale, worst drag.

    Limits are rounded outwards: what the swing alone explains is no alarm.
    """
    low, high = nm_from_m(item.least_m), nm_from_m(item.most_m)
    start, stop = math.floor(item.bearing_from_deg), math.ceil(item.bearing_to_deg)
    drag = quantities.DASH
    if item.worst_drag_m is not None:
        drag = _drag(item.worst_drag_m) if math.isfinite(item.worst_drag_m) else tr("never")
    return (
        quantities.miles(item.range_m, 2),
        f"{math.floor(low * 100.0 + 1e-6) / 100.0:.2f}{quantities.DASH}"
        f"{math.ceil(high * 100.0 - 1e-6) / 100.0:.2f}",
        quantities.whole_degrees(item.bearing_deg),
        f"{quantities.whole_degrees(start)}{quantities.DASH}{quantities.whole_degrees(stop)}",
        quantities.scale(item.scale_m),
        drag,
    )
