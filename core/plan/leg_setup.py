"""How to set the radar for a leg that is planned, and where to check that it is set well."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.plan.candidates import LegField
from core.plan.leg_context import LegContext
from core.plan.plan_result import LegPlan
from core.plan.setup_card import setup_card
from core.plan.tune_ladder import CheckStretch, choose_tune_check
from core.radar.presets import radar_set
from core.ship.ship import Radar

_LONGEST_M = m_from_nm(24.0)
"""Beyond, echoes are for recognition (job.md 4.1.9)."""


def with_setup(plan: LegPlan, field: LegField, context: LegContext) -> LegPlan:
    """The leg with its tune check and, since that may use a racon, then its set-up card."""
    check, reason = choose_tune_check(
        context.ladder_echoes,
        check_stretch(plan, field, context),
        plan.scales,
        context.rules,
        long_pulse_scales_m(context.ship.radars[0]),
    )
    plan = replace(plan, tune_check=check, tune_check_reason=reason)
    racons = frozenset(
        context.ids[track.feature.key]
        for track in field.tracks
        if track.feature.key in context.ids
        and track.feature.mark is not None
        and "racon" in track.feature.mark.kind.casefold()
    )
    card = setup_card(
        plan, context.ship, weather=context.weather, racons=racons, rules=context.rules
    )
    return replace(plan, setup=card)


def long_pulse_scales_m(radar: Radar) -> tuple[float, ...]:
    """Range scales of a radar that its long pulse serves, m: margins are worked out for that."""
    fitted = radar_set(radar)
    return tuple(
        scale_m
        for scale_m in radar.range_scales_m
        if fitted.pulse_for_scale(scale_m) == fitted.long_pulse and scale_m <= _LONGEST_M
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
        needed_m=min((need for need in needs if need > steady_from), default=warned),
        speed_mps=speed,
    )
