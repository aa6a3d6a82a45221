"""A turn in words: its arc, its ring, its half turn, and what shows along it."""

from core.base.language import tr
from core.plan.plan_result import WheelOver
from core.plan.turn_card_result import ARC_SHARES, ArcSeen, HalfTurn, Ring, RingReading, TurnCard
from core.plan.turn_plan import is_tighter
from core.words import quantities

RELATIVE = tr("rel")


def arc_words(card: TurnCard) -> str:
    """Length and time of the arc, and how far the stream sets her on it."""
    words = tr(
        "{distance} on the arc, {arc_minutes:.1f} min",
        distance=quantities.distance(card.arc_m, 2),
        arc_minutes=card.arc_minutes,
    )
    if card.drift_m is not None and card.drift_deg is not None:
        words = tr(
            "{arc}; the stream sets her {distance} to {course} meanwhile",
            arc=words,
            distance=quantities.distance(card.drift_m, 2),
            course=quantities.course(card.drift_deg),
        )
    return words


def rate_words(card: TurnCard) -> str:
    """The rate at the planned speed, and what holds the radius when she has lost way."""
    return tr(
        "{rate_of_turn} at {speed}; to hold the radius {slow_rate_of_turn} at {slow_speed}",
        rate_of_turn=quantities.rate_of_turn(card.rate_deg_per_min),
        speed=quantities.speed(card.water_speed_mps),
        slow_rate_of_turn=quantities.rate_of_turn(card.slow_rate_deg_per_min),
        slow_speed=quantities.speed(card.slow_speed_mps),
    )


def radius_words(turn: WheelOver) -> str:
    """The radius and whose it is: ``radius 0.30 NM by the route``."""
    radius = quantities.distance(turn.turn_radius_m, 2)
    speed = quantities.speed(turn.water_speed_mps)
    if not turn.is_radius_of_route:
        return tr("radius {radius}, the ship's own at {speed}", radius=radius, speed=speed)
    if is_tighter(turn.turn_radius_m, turn.own_radius_m):
        return tr(
            "radius {radius} by the route, TIGHTER than the ship's own {own} at {speed}",
            radius=radius,
            own=quantities.distance(turn.own_radius_m, 2),
            speed=speed,
        )
    return tr("radius {radius} by the route", radius=radius)


def brief_radius_words(turn: WheelOver) -> str:
    """The same for a line of the sheet: ``radius 0.30 NM (route)``."""
    radius = quantities.distance(turn.turn_radius_m, 2)
    if not turn.is_radius_of_route:
        return tr("radius {radius} (ship)", radius=radius)
    if is_tighter(turn.turn_radius_m, turn.own_radius_m):
        own = quantities.distance(turn.own_radius_m, 2)
        return tr("radius {radius} (route; ship's own {own})", radius=radius, own=own)
    return tr("radius {radius} (route)", radius=radius)


def ring_words(card: TurnCard, ring: Ring) -> str:
    """The ring to set: ``1.62 NM about a point 0.80 NM on the STARBOARD beam``."""
    return tr(
        "{radius} about a point {abeam_distance} on the {side} beam",
        radius=quantities.distance(ring.radius_m, 2),
        abeam_distance=quantities.distance(card.radius_m, 2),
        side=quantities.side(card.side),
    )


def reading_words(reading: RingReading) -> str:
    """A reading on the ring: ``2.10 NM, 046° rel``."""
    bearing = quantities.whole_degrees(reading.relative_deg)
    return f"{quantities.radar_range(reading.range_m)}, {bearing}° {RELATIVE}"


def half_words(half: HalfTurn) -> str:
    """The index line of the half turn, or that there is none."""
    line = quantities.line_directions(half.course_deg)
    if half.object is None or half.side is None or half.cross_index_range_m is None:
        return tr(
            "at {course}, no object for a line {line} shows there",
            course=quantities.course(half.course_deg),
            line=line,
        )
    words = tr(
        "when on the line {line}: {object_id} {side} {distance}",
        line=line,
        object_id=half.object.id,
        side=quantities.side(half.side),
        distance=quantities.distance(half.cross_index_range_m, 2),
    )
    if half.range_m is not None and half.bearing_deg is not None:
        words += f", {quantities.radar_range(half.range_m)} {quantities.course(half.bearing_deg)}"
    return words


def brief_half_words(half: HalfTurn) -> str:
    """The same for a line of the sheet: ``060/240  J *  PORT  0.60 NM,  1.35 NM  052° T``."""
    line = quantities.line_directions(half.course_deg)
    if half.object is None or half.side is None or half.cross_index_range_m is None:
        return tr("on {course}; no object for a line", course=quantities.course(half.course_deg))
    star = " *" if half.object.confirm_on_chart else ""
    words = (
        f"{line}  {half.object.id}{star}  {quantities.side(half.side)}  "
        f"{quantities.distance(half.cross_index_range_m, 2)}"
    )
    if half.range_m is not None and half.bearing_deg is not None:
        words += f",  {quantities.radar_range(half.range_m)} {quantities.course(half.bearing_deg)}"
    return words


def share_words(share_ratio: float) -> str:
    """How much of the turn is done: ``25 %``."""
    return quantities.percent(share_ratio)


def seen_words(seen: ArcSeen) -> str:
    """Where along the turn an object shows: ``shows all along``, ``shows at 0 %, 25 %``."""
    shares = [share_words(s) for s, shows in zip(ARC_SHARES, seen.shows, strict=True) if shows]
    if len(shares) == len(ARC_SHARES):
        return tr("expected to show all along")
    return (
        tr("expected to show at {shares} alone", shares=", ".join(shares))
        if shares
        else tr("NOT expected to show")
    )


def land_words(card: TurnCard) -> str:
    """How near the arc comes to land."""
    if card.is_across_land:
        return tr("RUNS ACROSS LAND")
    if card.nearest_land_m is None:
        return tr("no land within 5 NM of the arc")
    return tr(
        "nearest land {distance} off the arc", distance=quantities.distance(card.nearest_land_m, 2)
    )
