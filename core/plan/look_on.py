"""On which screen an echo is to be looked for that is due: a planned scale, a scan, or another."""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from core.coverage.first_paint_result import FirstPaint
from core.geodesy.leg_line import LegLine
from core.plan.plan_result import LegPlan, ScaleStretch
from core.plan.rules import DEFAULT_RULES
from core.plan.screen import Screen
from core.ship.ship import Radar, Ship


class Way(Enum):
    """How a scale comes to be set then."""

    IN_USE = "in use"
    SCAN = "scan"
    TO_SET = "to be set"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookOn:
    """The scale of one radar that holds an echo."""

    radar: Radar
    scale_m: float
    way: Way
    is_main: bool


def look_on(leg: LegPlan, line: LegLine, ship: Ship, paint: FirstPaint) -> LookOn | None:
    """Where an overdue echo would stand on a screen, as the scales are planned then.

    The main radar's scale goes first, since the limit is that radar's; then a planned look of
    another radar on which it paints there too; else a scale that has to be set for it.

    Parameters
    ----------
    leg : LegPlan
        With its scales.
    line : LegLine
        Of the leg.
    ship : Ship
        Her radars and their scales.
    paint : FirstPaint
        With an overdue limit.

    Returns
    -------
    LookOn or None
        None where no scale of the main radar holds it, or it is never overdue.
    """
    moment = paint.overdue.moment
    if moment is None:
        return None
    course_deg = float(line.at(np.array([moment.along_m]))[2][0])
    relative_deg = moment.bearing_deg - course_deg

    def holds(scale_m: float, off_centre_ratio: float = 0.0) -> bool:
        screen = Screen(
            scale_m=scale_m,
            off_centre_ratio=off_centre_ratio,
            margin_ratio=DEFAULT_RULES.screen_margin_ratio,
        )
        return moment.range_m <= screen.range_m(relative_deg)

    main = ship.radars[0]
    others = {radar.name: radar for radar in ship.radars[1:]}
    painting = {
        one.radar
        for one in paint.by_radar
        if any(start <= moment.along_m <= stop for start, stop in one.stretches)
    }
    looks = [(main, _in_use(leg, main, moment.along_m))]
    looks += [
        (radar, _in_use(leg, radar, moment.along_m))
        for name, radar in others.items()
        if name in painting
    ]
    for radar, stretch in looks:
        if stretch is None:
            continue
        ratio = stretch.off_centre_ratio if stretch.off_centre_direction == "astern" else 0.0
        if holds(stretch.scale_m, ratio):
            return LookOn(
                radar=radar, scale_m=stretch.scale_m, way=Way.IN_USE, is_main=radar is main
            )
        if stretch.scan is not None and holds(stretch.scan.scale_m):
            return LookOn(
                radar=radar, scale_m=stretch.scan.scale_m, way=Way.SCAN, is_main=radar is main
            )
    longer = [scale_m for scale_m in main.range_scales_m if holds(scale_m)]
    if not longer:
        return None
    return LookOn(radar=main, scale_m=min(longer), way=Way.TO_SET, is_main=True)


def _in_use(leg: LegPlan, radar: Radar, along_m: float) -> ScaleStretch | None:
    """What a radar is set to at a place of the leg."""
    own = sorted((s for s in leg.scales if s.radar == radar.name), key=lambda s: s.from_along_m)
    begun = [stretch for stretch in own if stretch.from_along_m <= along_m + 1.0]
    return begun[-1] if begun else (own[0] if own else None)
