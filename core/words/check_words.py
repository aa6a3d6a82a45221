"""Dead ranges, checks of range and heading marker, and what index lines tell together, in words."""

import math

from core.base.language import tr
from core.base.units import kn_from_mps, m_from_nm, nm_from_m
from core.passage.passage import Side
from core.plan.heading_spot import shift_m
from core.plan.leg_check_result import Cause, CrossCheck, DeadRange, HeadingSpot, IndexSpot
from core.words import quantities

DEAD_RANGE = tr("dead range")
RANGE_CHECK = tr("range check")
MARKER_CHECK = tr("heading marker")
CROSS_CHECK = tr("two lines")

_CAUSES = {
    Cause.RANGE_INDEX: tr("range error"),
    Cause.OFF_TRACK: tr("ship off her track"),
    Cause.HEADING_LINE: tr("heading or gyro error"),
}

WHEN_LINES_DIFFER = tr("When index lines do not read as planned")
_EXAMPLE_M = m_from_nm(4.0)
DIAGNOSIS: tuple[tuple[str, str], ...] = (
    (
        tr("Both sides long, or both short, alike"),
        tr("range index error: find it at a range check, then correct every range."),
    ),
    (
        tr("One side long, the other short by as much"),
        tr("ship off her track by as much, towards the side that reads short."),
    ),
    (
        tr("Wrong ahead, more so the farther; right abeam"),
        tr(
            "heading marker or gyro error: 1° is {across_nm:.2f} NM at "
            "{range_nm:.0f} NM. Check the marker.",
            across_nm=nm_from_m(shift_m(along_m=_EXAMPLE_M, error_deg=1.0)),
            range_nm=nm_from_m(_EXAMPLE_M),
        ),
    ),
    (
        tr("The other radar differs, the same all round"),
        tr("range error of one of the two; if it differs with the bearing, heading line of one."),
    ),
    (
        tr("No one cause fits, or GNSS differs from the lines"),
        tr("trust neither until a visual bearing or a depth decides; is it the right object?"),
    ),
)
"""What is read, and what it means (job.md 2.10.2, 2.10.3, 2.9.4, T23)."""


def dead_range_words(dead: DeadRange, *, is_last_leg: bool = False) -> str:
    """The object and its ranges: ``H right ahead, 4.17 to 3.52 NM; at the wheel-over 3.52``.

    Ranges of the countdown are rounded so that they are met early.
    """
    said = {
        "object_id": dead.object_id,
        "from_range": _range(dead.from_range_m),
        "to_range": _range(dead.to_range_m),
    }
    words = (
        tr("{object_id} ahead, {from_range} to {to_range} NM", **said)
        if dead.is_ahead
        else tr("{object_id} astern, {from_range} to {to_range} NM", **said)
    )
    countdown = countdown_words(dead, is_last_leg=is_last_leg)
    return f"{words}; {countdown}" if countdown else words


def countdown_words(dead: DeadRange, *, is_last_leg: bool = False) -> str:
    """Ranges at the end of the leg and before; empty where it does not last so long."""
    end = tr("at the waypoint") if is_last_leg else tr("at the wheel-over")
    parts = [
        f"{end if one.before_minutes < 0.01 else _before(one.before_minutes)} "
        f"{_early(one.range_m, is_ahead=dead.is_ahead)}"
        for one in reversed(dead.countdown)
    ]
    return ", ".join(parts)


def _before(minutes: float) -> str:
    return tr("{minutes:.0f} min before", minutes=minutes)


def end_words(dead: DeadRange, *, is_last_leg: bool = False) -> str:
    """One short line for the sheet of a leg: ``Dead range H 3.53 at WO``."""
    figure = _early(dead.countdown[-1].range_m, is_ahead=dead.is_ahead)
    if is_last_leg:
        return tr("Dead range {object_id} {range} at end", object_id=dead.object_id, range=figure)
    return tr("Dead range {object_id} {range} at WO", object_id=dead.object_id, range=figure)


def rate_words(dead: DeadRange) -> str:
    """How fast its range changes, and how near to the track it stays."""
    low, high = (
        f"{kn_from_mps(v) / 60.0:.2f}" for v in (dead.least_rate_mps, dead.greatest_rate_mps)
    )
    rate = high if low == high else tr("{low} to {high}", low=low, high=high)
    angle = math.ceil(dead.greatest_angle_deg - 1e-6)
    if dead.is_ahead:
        return tr("falls {rate} NM a minute, within {angle}° of the track", rate=rate, angle=angle)
    return tr("grows {rate} NM a minute, within {angle}° of the track", rate=rate, angle=angle)


def index_spot_words(spot: IndexSpot) -> str:
    """What to read where the track crosses the line between two objects, and what it adds up to."""
    bearings = "/".join(
        quantities.whole_degrees(deg) for deg in (spot.port_bearing_deg, spot.starboard_bearing_deg)
    )
    words = tr(
        "PORT {port_id} {port_range} + STARBOARD {starboard_id} {starboard_range} = "
        "{apart} NM, in line {bearings}° T",
        port_id=spot.port_id,
        port_range=_range(spot.port_range_m),
        starboard_id=spot.starboard_id,
        starboard_range=_range(spot.starboard_range_m),
        apart=_range(spot.apart_m),
        bearings=bearings,
    )
    if spot.known_error_m:
        total = _range(spot.apart_m + 2.0 * spot.known_error_m)
        words = tr("{sum}; {total} with the known error", sum=words, total=total)
    return words


def index_spot_means(spot: IndexSpot) -> str:
    """How the error comes from the sum, how well, and how exactly the moment must be met."""
    late = math.floor(nm_from_m(spot.early_late_m) * 100.0 + 1e-6) / 100.0
    return tr(
        "half of what the sum is over is range error, {uncertainty}; read "
        "within {late:.2f} NM of the line",
        uncertainty=quantities.uncertainty(spot.uncertainty_m),
        late=late,
    )


def heading_spot_words(spot: HeadingSpot) -> str:
    """What to bring by eye and by radar to the same relative bearing."""
    side = Side.STARBOARD if spot.relative_deg <= 180.0 else Side.PORT
    off = min(spot.relative_deg, 360.0 - spot.relative_deg)
    return tr(
        "{object_id} {range} NM, {off_deg:.0f}° to {side}, {course}",
        object_id=spot.object_id,
        range=_range(spot.range_m),
        off_deg=off,
        side=side.shown,
        course=quantities.course(spot.bearing_deg),
    )


def heading_spot_means(spot: HeadingSpot) -> str:
    """What must agree."""
    aside = f"{nm_from_m(spot.per_degree_m):.2f} NM"
    return tr("relative bearing by eye and by radar should agree; 1° is {aside} there", aside=aside)


def cross_check_words(check: CrossCheck) -> str:
    """Which two lines."""
    sides = tr("either side") if check.is_opposite else tr("same side")
    return tr(
        "{first_id} with {second_id}, {same_or_other_side}",
        first_id=check.first_id,
        second_id=check.second_id,
        same_or_other_side=sides,
    )


def cross_check_means(check: CrossCheck) -> str:
    """What both together tell apart, and what not."""
    if not check.alike:
        return tr("tell range error, off track and heading error apart")
    return tr("look alike: {causes}", causes=", ".join(_CAUSES[cause] for cause in check.alike))


def _range(range_m: float) -> str:
    decimals = 2 if nm_from_m(range_m) < 9.995 else 1
    return quantities.miles(range_m, decimals)


def _early(range_m: float, *, is_ahead: bool) -> str:
    """Up for an object ahead, whose range falls; down for one astern; in hundredths of a mile."""
    count = nm_from_m(range_m) * 100.0
    whole = math.ceil(count - 1e-6) if is_ahead else math.floor(count + 1e-6)
    return f"{whole / 100.0:.2f}"
