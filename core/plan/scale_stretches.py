"""Scales of every radar over a leg, each with what forces it, what it hides and the long scan."""

from dataclasses import dataclass, replace

import numpy as np

from core.base.language import tr
from core.plan import reason_codes
from core.plan.leg_frame import LegFrame
from core.plan.plan_result import Reason
from core.plan.range_scales import main_screens
from core.plan.rules import PlanRules
from core.plan.scale_demands import (
    Demand,
    HeldObject,
    look_out_demand,
    screens_of,
    shortest_holding,
    without_each,
)
from core.plan.scale_pulse import pulse_for
from core.plan.scale_result import ScaleStretch
from core.plan.scan_rhythm import reach_of, scan_rhythm
from core.plan.screen import Screen
from core.plan.usable_window import ScaleSpan
from core.ship.ship import Radar, Ship

_LAND_STEP_M = 926.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleInput:
    """One leg as far as its scales need it."""

    spans: tuple[ScaleSpan, ...]
    """Settings of the main radar up to the wheel-over."""
    held: tuple[HeldObject, ...]
    frame: LegFrame
    """Coast in reach."""
    ship: Ship
    leg_m: float
    speed_mps: float
    rules: PlanRules

    @property
    def closing_mps(self) -> float:
        """Closing speed of a craft met end on."""
        return self.speed_mps + max(self.speed_mps, self.rules.other_speed_mps)

    @property
    def look_out(self) -> Demand:
        """The look-out distance all round."""
        return look_out_demand(
            own_speed_mps=self.speed_mps,
            least_other_speed_mps=self.rules.other_speed_mps,
            decision_time_s=self.rules.decision_time_s,
        )


def scale_stretches(leg: ScaleInput) -> tuple[ScaleStretch, ...]:
    """Scales of the main radar in order along the leg, then of the second one.

    The long scan is made on the second radar, so that the index stays in sight, or on the main
    radar where there is one only.
    """
    stretches = []
    for number, span in enumerate(leg.spans):
        stop_m = leg.leg_m if number == len(leg.spans) - 1 else span.to_along_m
        stretches.append(_main(leg, span, stop_m))
    second = leg.ship.radars[1] if len(leg.ship.radars) > 1 else None
    if second is None:
        return tuple(_with_scan(leg, stretch, leg.ship.radars[0]) for stretch in stretches)
    return (*stretches, _with_scan(leg, _second(leg, second, stretches), second))


def demands_on(leg: ScaleInput, from_along_m: float, to_along_m: float) -> tuple[Demand, ...]:
    """All that the screen has to hold over a stretch: look-out distance first, then objects."""
    found = [leg.look_out]
    for item in leg.held:
        demand = item.demand((from_along_m, to_along_m))
        if demand is not None:
            found.append(demand)
    return tuple(found)


def _main(leg: ScaleInput, span: ScaleSpan, stop_m: float) -> ScaleStretch:
    radar, screen = leg.ship.radars[0], span.setting.screen
    demands = demands_on(leg, span.from_along_m, span.to_along_m)
    port_m, starboard_m = nearest_land_m(leg.frame, span.from_along_m, stop_m)
    return ScaleStretch(
        from_along_m=span.from_along_m,
        to_along_m=stop_m,
        radar=radar.name,
        scale_m=screen.scale_m,
        off_centre_ratio=screen.off_centre_ratio,
        off_centre_direction="astern" if screen.off_centre_ratio > 0.0 else None,
        pulse=pulse_for(radar, screen.scale_m),
        reason=_forced_by(leg, screen, demands),
        bottleneck=bottleneck(demands, main_screens(leg.ship, leg.rules), screen),
        reach=reach_of(screen, closing_mps=leg.closing_mps),
        land_port_m=port_m,
        land_starboard_m=starboard_m,
        off_screen=tuple(_off_screen(d) for d in demands[1:] if not d.is_held(screen)),
    )


def _off_screen(demand: Demand) -> Reason:
    return Reason(
        code=reason_codes.SCALE_NOT_HELD,
        values=(("object", demand.object_id), ("range_m", demand.range_m)),
    )


def _forced_by(leg: ScaleInput, screen: Screen, demands: tuple[Demand, ...]) -> Reason:
    """What needs the scale: the look-out distance if no shorter one holds it, else an object."""
    look_out = demands[0]
    distance = ("distance_m", look_out.range_m)
    if not look_out.is_held(screen):
        return Reason(code=reason_codes.SCALE_LONGEST, values=(distance,))
    shortest = shortest_holding(demands[:1], main_screens(leg.ship, leg.rules))
    objects = [demand for demand in demands[1:] if demand.is_held(screen)]
    if not objects or (shortest is not None and screen.scale_m <= shortest.scale_m):
        return Reason(
            code=reason_codes.SCALE_FORCED_BY_LOOK_OUT,
            values=(
                distance,
                ("closing_mps", leg.closing_mps),
                ("decision_minutes", leg.rules.decision_time_s / 60.0),
            ),
        )
    farthest = max(objects, key=lambda demand: demand.range_m)
    return Reason(
        code=farthest.code,
        values=(("object", farthest.object_id), ("range_m", farthest.range_m)),
    )


def bottleneck(
    demands: tuple[Demand, ...], screens: tuple[Screen, ...], used: Screen
) -> Reason | None:
    """The single item that forces the scale in use, and the scale that would do without it.

    Where several need it each by itself, two of them are named; where nothing in the stretch
    needs a scale so long, it is carried on from beside it (job.md C16). None on the shortest
    scale there is.
    """
    least = shortest_holding(demands, screens)
    if least is not None and least.scale_m < used.scale_m:
        return Reason(
            code=reason_codes.SCALE_CARRIED_ON, values=(("needed_scale_m", least.scale_m),)
        )
    single = without_each(demands, screens)
    if single:
        demand, screen = single[0]
        return Reason(
            code=reason_codes.SCALE_BOTTLENECK,
            values=(("item", _item(demand)), ("without_scale_m", screen.scale_m)),
        )
    shorter = [screen for screen in screens if screen.scale_m < used.scale_m]
    needing = [d for d in demands if not any(d.is_held(screen) for screen in shorter)]
    if not shorter or not needing:
        return None
    if len(needing) == 1:
        return Reason(code=reason_codes.SCALE_NEEDED_BY_ONE, values=(("item", _item(needing[0])),))
    return Reason(
        code=reason_codes.SCALE_NEEDED_BY_BOTH,
        values=(("item", _item(needing[0])), ("other", _item(needing[1]))),
    )


def _item(demand: Demand) -> str:
    return demand.object_id or tr("the look-out distance")


def nearest_land_m(
    frame: LegFrame, from_along_m: float, to_along_m: float
) -> tuple[float | None, float | None]:
    """Least distance of coast to port and to starboard from a stretch of the track, m.

    None on a side without coast in reach of the frame.
    """
    count = max(2, int((to_along_m - from_along_m) / _LAND_STEP_M) + 2)
    found: list[float | None] = []
    for sign in (-1.0, 1.0):
        on_side = sign * frame.cross_m > 0.0
        along, cross = frame.along_m[on_side], frame.cross_m[on_side]
        near = [
            float(np.hypot(along - place, cross).min(initial=np.inf))
            for place in np.linspace(from_along_m, to_along_m, count)
        ]
        least = min(near)
        found.append(least if least <= frame.reach_m else None)
    return found[0], found[1]


def _second(leg: ScaleInput, radar: Radar, main: list[ScaleStretch]) -> ScaleStretch:
    """The second radar longer than the main one all the way, with the nearest land of both sides.

    So long that it also holds what the main screen does not.
    """
    longest = max(stretch.scale_m for stretch in main)
    port_m, starboard_m = nearest_land_m(leg.frame, 0.0, leg.leg_m)
    wanted = [m for m in (port_m, starboard_m) if m is not None]
    demands = [
        demand
        for stretch in main
        for demand in demands_on(leg, stretch.from_along_m, stretch.to_along_m)
        if any(str(v) == demand.object_id for r in stretch.off_screen for _n, v in r.values)
    ]
    if wanted:
        places = tuple((0.0, m) for m in wanted)
        demands.append(
            Demand(code=reason_codes.SCALE_SECOND_FOR_LAND, object_id="", places_m=places)
        )
    screens = screens_of(
        radar.range_scales_m, off_centre_ratio=0.0, margin_ratio=leg.rules.screen_margin_ratio
    )
    longer = [screen for screen in screens if screen.scale_m > longest] or [screens[-1]]
    screen = shortest_holding(demands, longer) or longer[-1]
    reason = Reason(code=reason_codes.SCALE_SECOND_RADAR, values=(("main_scale_m", longest),))
    if screen.scale_m > longer[0].scale_m:
        farthest = max(demands, key=lambda demand: demand.range_m)
        values: tuple[tuple[str, float | str], ...] = (("range_m", farthest.range_m),)
        if farthest.object_id:
            values = (("object", farthest.object_id), *values)
        reason = Reason(
            code=reason_codes.SCALE_SECOND_FOR_OBJECT if farthest.object_id else farthest.code,
            values=values,
        )
    return ScaleStretch(
        from_along_m=0.0,
        to_along_m=leg.leg_m,
        radar=radar.name,
        scale_m=screen.scale_m,
        off_centre_ratio=0.0,
        off_centre_direction=None,
        pulse=pulse_for(radar, screen.scale_m),
        reason=reason,
        reach=reach_of(screen, closing_mps=leg.closing_mps),
        land_port_m=port_m,
        land_starboard_m=starboard_m,
        off_screen=tuple(_off_screen(d) for d in demands if d.object_id and not d.is_held(screen)),
    )


def _with_scan(leg: ScaleInput, stretch: ScaleStretch, radar: Radar) -> ScaleStretch:
    """The stretch with its long scan, or with the reason why there is none."""
    rules = leg.rules
    screen = Screen(
        scale_m=stretch.scale_m,
        off_centre_ratio=stretch.off_centre_ratio,
        margin_ratio=rules.screen_margin_ratio,
    )
    longer = [m for m in radar.range_scales_m if m > stretch.scale_m]
    scan = scan_rhythm(
        screen,
        longer,
        closing_mps=leg.closing_mps,
        most_minutes=rules.decision_time_s / 60.0,
        least_minutes=rules.least_scan_s / 60.0,
        for_minutes=rules.scan_s / 60.0,
    )
    if scan is not None:
        return replace(stretch, scan=scan)
    code = reason_codes.SCAN_TOO_OFTEN if longer else reason_codes.SCAN_ON_LONGEST
    return replace(stretch, scan_reason=Reason(code=code))
