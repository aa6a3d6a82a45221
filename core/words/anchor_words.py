"""The anchoring card in words."""

from core.plan.anchoring_result import AnchoringCard
from core.plan.outcome import Outcome
from core.words import quantities, times

TITLE = "Anchoring card"
CAUTION = (
    "Depths, holding ground, room to swing and forbidden areas are on the official chart alone; "
    "this card knows none of them. The picture to expect at the anchorage is the reference for "
    "the drag watch: print it from the picture pane."
)
PRACTICE = "common practice, no source"


def card_lines(outcome: Outcome, card: AnchoringCard) -> list[str]:
    """Where, on which course, and what counts the distance down."""
    leg = outcome.plan.legs[-1]
    lines = [
        f"Anchor at {quantities.position(card.spot)}, approach "
        f"{quantities.track(card.course_deg)} (leg {leg.leg_index + 1}; its index lines and "
        "margins hold to the end)."
    ]
    hawse = f"{card.hawse_m:.0f} m"
    if card.is_hawse_stated:
        lines.append(
            f"Ranges count from the radar's reference point, {hawse} abaft the hawse: it is at "
            f"{quantities.position(card.let_go)} when the anchor is let go."
        )
    else:
        lines.append(
            "The distance from the radar's reference point to the hawse is not stated, ranges "
            "are as if it were none: measure it and add it to ranges ahead."
        )
    dead = card.dead_range
    if dead is None:
        lines.append(f"No dead range: {card.dead_range_reason}. Count down by fixes.")
    else:
        way = "AHEAD" if dead.is_ahead else "ASTERN"
        lines.append(
            f"LET GO when {dead.object_id} {way} reads "
            f"{quantities.miles(dead.range_m, 2)} NM, {quantities.course(dead.bearing_deg)}"
            f" ({'' if dead.name == dead.object_id else f'{dead.name}; '}"
            f"{dead.off_deg:.0f}° off the line)."
        )
    if card.are_speeds_usual:
        lines.append(f"Way taken off as usual ({PRACTICE}); put your own speeds in its place.")
    lines.append(f"Let go about {let_go_time(outcome, card)} at these speeds.")
    return lines


def let_go_time(outcome: Outcome, card: AnchoringCard) -> str:
    """When the anchor is let go by the speeds of the card, with its zone."""
    leg, timetable = outcome.plan.legs[-1], outcome.plan.timetable
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


def watch_lines(card: AnchoringCard) -> list[str]:
    """What the limits of the drag watch rest on."""
    if not card.watch:
        return [f"No drag watch by radar: {card.watch_reason}."]
    if card.swing_m is None:
        return ["The cable is not stated: limits hold the range error alone; give its length."]
    return [
        f"While she swings {card.swing_m:.0f} m round the anchor, ranges stay within the limits "
        "(range error of the scale in them); one outside, with another confirming: dragging."
    ]


def watch_words(card: AnchoringCard) -> list[tuple[str, str, str, str, str, str]]:
    """Object, what it is, range, bearing, limits, scale."""
    return [
        (
            item.object_id,
            ("" if item.name == item.object_id else item.name)
            + (" (to its middle)" if item.is_middle else ""),
            quantities.miles(item.range_m, 2),
            quantities.whole_degrees(item.bearing_deg),
            f"{quantities.miles(item.least_m, 2)}{quantities.DASH}"
            f"{quantities.miles(item.most_m, 2)}",
            quantities.scale(item.scale_m),
        )
        for item in card.watch
    ]
