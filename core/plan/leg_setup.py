"""How to set the radar for a leg that is planned, and where to check that it is set well."""

from dataclasses import replace

from core.plan.candidates import LegField
from core.plan.leg_context import LegContext
from core.plan.plan_result import LegPlan, ScaleStretch
from core.plan.rules import TuneRules
from core.plan.setup_card import setup_card
from core.plan.tune_ladder import CheckStretch, choose_tune_check
from core.plan.tune_result import LadderEcho
from core.radar.radar_set import RadarPulse
from core.ship.ship import Radar


def with_setup(plan: LegPlan, field: LegField, context: LegContext) -> LegPlan:
    """The leg with its tune check and its set-up card."""
    racons = frozenset(
        context.ids[track.feature.key]
        for track in field.tracks
        if track.feature.key in context.ids
        and track.feature.mark is not None
        and "racon" in track.feature.mark.kind.casefold()
    )
    check, reason = choose_tune_check(
        without_racons(context.ladder_echoes, racons),
        check_stretch(plan, field, context),
        check_scales(plan, context.ship.radars[0], context.paint_pulse, context.rules.tune),
        context.rules,
    )
    plan = replace(plan, tune_check=check, tune_check_reason=reason)
    card = setup_card(
        plan, context.ship, weather=context.weather, racons=racons, rules=context.rules
    )
    return replace(plan, setup=card)


def without_racons(
    echoes: tuple[LadderEcho, ...] | None, racons: frozenset[str]
) -> tuple[LadderEcho, ...] | None:
    """Echoes to check a radar with: a racon answers more strongly than it echoes."""
    if echoes is None:
        return None
    return tuple(echo for echo in echoes if echo.object_id not in racons)


def check_scales(
    plan: LegPlan, radar: Radar, pulse: RadarPulse | None, rules: TuneRules
) -> tuple[ScaleStretch, ...]:
    """Scales a check may be made on: those in use, then longer ones for the minutes it takes.

    Only scales that the pulse of the margins serves: a short pulse puts less power on an echo.
    Close in on a short scale every echo is strong, which tells nothing.
    """
    in_use = [one for one in plan.scales if one.radar == radar.name]
    if pulse is None or not in_use:
        return tuple(in_use)
    longest_m = max(one.scale_m for one in in_use)
    longer = [
        replace(
            in_use[0],
            from_along_m=0.0,
            to_along_m=plan.distance_m,
            scale_m=scale_m,
            off_centre_ratio=0.0,
            off_centre_direction=None,
        )
        for scale_m in sorted(radar.range_scales_m)
        if longest_m < scale_m <= rules.longest_scale_m + 1.0
    ]
    return tuple(
        replace(one, pulse=pulse.name)
        for one in (*in_use, *longer)
        if pulse.from_scale_m - 1.0 <= one.scale_m <= pulse.to_scale_m + 1.0
    )


def check_stretch(plan: LegPlan, field: LegField, context: LegContext) -> CheckStretch:
    """Where the ship is steady on the leg, and what a check had better come before.

    Steady: from some minutes after the turn before until the check can be done ahead of the
    first warning of the next turn. The leg needs its radar most where it hands over, where land
    is nearest, and from the first warning of its wheel-over on: whichever comes first once the
    ship is steady.
    """
    tune, speed = context.rules.tune, field.speed_mps
    before = context.tangent_before_m
    steady_from = before + tune.steady_s * speed if before > 0.0 else 0.0
    warned = field.end_m
    if plan.wheel_over is not None:
        warned = min((field.end_m, *plan.wheel_over.pre_alert_along_m))
    nearest = min(
        (
            (view.nearest_land_range_m, view.viewpoint.along_m)
            for view in context.coverage.on_track()
            if view.nearest_land_range_m is not None
        ),
        default=None,
    )
    needs = [change.from_along_m for change in plan.hand_overs]
    needs += [] if nearest is None else [nearest[1]]
    return CheckStretch(
        line=field.line,
        steady_from_m=steady_from,
        steady_to_m=warned - tune.check_s * speed,
        check_m=tune.check_s * speed,
        needed_m=min((need for need in needs if need > steady_from), default=warned),
        speed_mps=speed,
    )
