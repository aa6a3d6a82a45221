"""Which turn a leg ends with, and where it begins."""

from dataclasses import dataclass

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.language import tr
from core.geodesy.leg_line import LegLine
from core.passage.passage import Passage
from core.passage.turn import Turn
from core.plan.rules import PlanRules
from core.ship.ship import Ship

_TIGHT_RATIO = 0.95
"""A planned radius below this share of the ship's own is tighter than she turns normally; within
it, trials and rounding in the route tell no more (a judgement of ours)."""


def is_tighter(radius_m: float, own_radius_m: float) -> bool:
    """Whether a planned radius is tighter than the ship's normal turn at that speed."""
    return radius_m < _TIGHT_RATIO * own_radius_m


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnPlan:
    """The turn at the end of a leg and where it begins."""

    turn: Turn | None
    end_m: float
    """Where indexing on the leg ends: the wheel-over, or the end of the leg without a turn, m."""
    is_cut: bool
    """True where the leg is shorter than tangent and response."""
    is_assumed_radius: bool
    """The ship's own radius stands in, since the route states none."""
    own_radius_m: float
    """Of the ship's normal turn at the speed she comes with."""
    speed_mps: float
    """Through the water."""
    no_turn_reason: str
    """Why no wheel-over is planned, empty when one is."""
    is_turn_back: bool = False
    """True where the course turns back so far that no arc joins the legs."""


def turn_plan(
    passage: Passage, leg_index: int, ship: Ship, *, speed_mps: float, rules: PlanRules
) -> TurnPlan:
    """The turn from one leg to the next, with the radius of the waypoint or else the ship's."""
    line = passage.line(leg_index)
    length = line.length_m
    own_radius_m = ship.turn_radius_at_m(speed_mps)

    def none(reason: str, *, is_turn_back: bool = False) -> TurnPlan:
        return TurnPlan(
            is_turn_back=is_turn_back,
            turn=None,
            end_m=length,
            is_cut=False,
            is_assumed_radius=False,
            own_radius_m=own_radius_m,
            speed_mps=speed_mps,
            no_turn_reason=reason,
        )

    if leg_index + 1 >= len(passage.legs):
        return none(tr("Last leg: the passage ends here"))
    waypoint = passage.waypoints[leg_index + 1]
    turn = Turn(
        old_course_deg=final_course_deg(line),
        new_course_deg=passage.line(leg_index + 1).course_deg,
        radius_m=waypoint.turn_radius_m or own_radius_m,
        response_distance_m=ship.response_distance_m,
    )
    if abs(turn.alteration_deg) < rules.least_alteration_deg:
        return none(tr("The course alters by less than 1°: no turn to plan"))
    if not turn.has_tangents:
        return none(
            tr(
                "The course alters by {alteration_deg:.0f}°: no single arc joins the legs",
                alteration_deg=abs(turn.alteration_deg),
            ),
            is_turn_back=True,
        )
    along = length - turn.wheel_over_before_waypoint_m
    return TurnPlan(
        turn=turn,
        end_m=max(along, 0.0),
        is_cut=along < 0.0,
        is_assumed_radius=waypoint.turn_radius_m is None,
        own_radius_m=own_radius_m,
        speed_mps=speed_mps,
        no_turn_reason="",
    )


def final_course_deg(line: LegLine) -> float:
    """Course at the end of a leg; a geodesic's differs from the one at its start."""
    _lats, _lons, courses = line.at(np.array([line.length_m]))
    return wrap_360_deg(float(courses[0]))
