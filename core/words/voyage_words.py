"""The voyage in a few fields: draughts, antennas, speed, times; empty where a pencil is needed."""

from core.plan.outcome import Outcome
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.quantities import DASH


def voyage_fields(outcome: Outcome) -> tuple[tuple[str, str], ...]:
    """Heads with their values, in the order in which they are printed."""
    ship, plan = outcome.request.ship, outcome.plan
    timetable, legs = plan.timetable, plan.legs
    draughts = (ship.draught_forward_m, ship.draught_aft_m)
    zone = f" {times.ZONE}"
    start = timetable.utc_at(0, 0.0)
    end = timetable.utc_at(len(legs) - 1, legs[-1].distance_m)
    return (
        (str(Bridge.VOYAGE), ""),
        (
            str(Bridge.DRAUGHTS),
            f"{draughts[0]:.1f} / {quantities.fine_height(draughts[1])}",
        ),
        (str(Bridge.AIR_DRAUGHT), ""),
        (str(Bridge.ANTENNAS), antenna_heights(outcome)),
        (str(Bridge.SPEEDS), _speeds(outcome)),
        (str(Bridge.START), "" if start is None else times.day_clock(start) + zone),
        (str(Bridge.END), "" if end is None else times.day_clock(end) + zone),
        (str(Bridge.LOAD_CONDITION), ship.load_condition),
    )


def antenna_heights(outcome: Outcome) -> str:
    """Heights of the antennas above the water now, by band: ``X 27.4, S 29.9 m``."""
    return ", ".join(f"{band} {height_m:.1f}" for band, height_m in antennas(outcome)) + " m"


def antennas(outcome: Outcome) -> tuple[tuple[str, float], ...]:
    """Band and height above the water now of each radar, the main one first, m."""
    ship, given_m = outcome.request.ship, outcome.request.antenna_height_m
    return tuple(
        (
            radar.band.value,
            given_m
            if given_m is not None and number == 0
            else ship.antenna_height_above_water_m(radar),
        )
        for number, radar in enumerate(ship.radars)
    )


def _speeds(outcome: Outcome) -> str:
    """One speed, or the slowest and the fastest."""
    speeds = sorted(leg.speed_mps for leg in outcome.plan.legs)
    slow, fast = (quantities.speed(one) for one in (speeds[0], speeds[-1]))
    return fast if slow == fast else f"{slow.removesuffix(' kn')}{DASH}{fast}"
