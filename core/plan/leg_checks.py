"""Dead ranges, check spots and cross-checks of one planned leg."""

from dataclasses import replace

import numpy as np

from core.plan import check_codes as codes
from core.plan.candidates import LegField
from core.plan.cross_checks import cross_checks
from core.plan.dead_ranges import MOST_OFF_DEG, dead_ranges
from core.plan.heading_spot import heading_spot
from core.plan.index_spot import index_spot
from core.plan.leg_check_result import LegChecks
from core.plan.leg_context import LegContext
from core.plan.place_readings import place_reader
from core.plan.plan_result import LegPlan
from core.plan.reason import Reason
from core.plan.usable_window import ScaleSpan

_STEP_M = 926.0
"""Half a mile."""
_LEAST_TOGETHER_S = 60.0


def with_checks(
    plan: LegPlan, field: LegField, context: LegContext, spans: tuple[ScaleSpan, ...]
) -> LegPlan:
    """The leg with its dead ranges, check spots and cross-checks."""
    read = place_reader(field, context, spans)
    rules, speed = context.rules, field.speed_mps
    found = dead_ranges(read, end_m=field.end_m, speed_mps=speed, before_s=rules.pre_alert_s)
    before = context.tangent_before_m
    from_m = before + rules.tune.steady_s * speed if before > 0.0 else 0.0
    to_m = field.end_m
    if plan.wheel_over is not None:
        to_m = min((to_m, *plan.wheel_over.pre_alert_along_m))
    if from_m >= to_m:
        pair, marker = None, None
        pair_reason = marker_reason = Reason(code=codes.NEVER_STEADY)
    else:
        places = np.linspace(from_m, to_m, max(int((to_m - from_m) // _STEP_M), 1) + 1).tolist()
        pair = index_spot(
            read,
            places,
            from_m=from_m,
            to_m=to_m,
            known_error_m=context.ship.radars[0].range_index_error_m,
        )
        pair_reason = Reason(code=codes.NO_INDEX_SPOT)
        marker = heading_spot(read, places, heading_off_deg=field.motion.steer_off_deg)
        marker_reason = Reason(code=codes.NO_HEADING_SPOT)
    return replace(
        plan,
        checks=LegChecks(
            dead_ranges=found,
            dead_ranges_reason=None
            if found
            else Reason(code=codes.NO_DEAD_RANGE, values=(("angle_deg", MOST_OFF_DEG),)),
            index_spot=pair,
            index_spot_reason=None if pair else pair_reason,
            heading_spot=marker,
            heading_spot_reason=None if marker else marker_reason,
            cross_checks=cross_checks(plan.lines, field.line, least_m=_LEAST_TOGETHER_S * speed),
        ),
    )
