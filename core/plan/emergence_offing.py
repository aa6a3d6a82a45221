"""The offing that would give the decision time at a head, and what it costs (job.md C2)."""

from dataclasses import replace

import numpy as np

from core.passage.passage import Side
from core.plan.candidates import LegField
from core.plan.emergence_result import Alarm, Emergence, NoOffing
from core.plan.emergence_time import dog_leg_m
from core.plan.rules import PlanRules

_ABREAST_M = 500.0


def with_offing(head: Emergence, field: LegField, rules: PlanRules) -> Emergence:
    """The same head with the offing that would give the decision time anywhere in the corridor.

    A craft needs the more time the farther the track lies from the tip: each metre is worth
    ``1 / her speed``, so the formula is turned round. Other land beside the track may leave no
    room for it; depths are not known here.
    """
    run = head.deciding
    if run.alarm is Alarm.NONE or run.at_edge_s is None:
        return head
    extra_m = (rules.decision_time_s - run.at_edge_s) * run.craft_speed_mps
    wider = replace(head, needed_offing_m=head.offing_m + extra_m)
    if extra_m >= _room_m(head, field):
        return replace(wider, no_offing=NoOffing.OTHER_SHORE)
    leg_m = field.line.length_m
    abeam_m = min(max(head.tip_along_m, 0.0), leg_m)
    wider = replace(wider, extra_offing_m=extra_m)
    if min(abeam_m, leg_m - abeam_m) < rules.emergence.least_bend_ratio * extra_m:
        return replace(wider, no_offing=NoOffing.NEAR_END)
    return replace(
        wider,
        extra_distance_m=dog_leg_m(leg_m=leg_m, abeam_m=abeam_m, aside_m=extra_m),
        no_offing=None,
    )


def _room_m(head: Emergence, field: LegField) -> float:
    """Distance to the nearest coast on the other side abreast of the tip, m."""
    sign = -1.0 if head.side is Side.STARBOARD else 1.0
    frame = field.frame
    abreast = (np.abs(frame.along_m - head.tip_along_m) <= _ABREAST_M) & (
        sign * frame.cross_m > 0.0
    )
    return float(np.min(np.abs(frame.cross_m[abreast]), initial=np.inf))
