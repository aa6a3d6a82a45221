"""The wheel-over at the end of a leg, with its line, second mark and pre-alerts."""

import math
from collections.abc import Callable

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.language import tr
from core.base.units import nm_from_m
from core.passage.passage import Side
from core.passage.turn import Turn
from core.plan import reason_codes
from core.plan.plan_result import IndexLine, IndexObject, Reason, Role, SecondMark, WheelOver
from core.plan.rules import PlanRules
from core.plan.usable_window import EdgePoint, FeatureTrack
from core.plan.wheel_over_marks import LineChoice, SecondChoice, choose_line, choose_second
from core.plan.wheel_over_site import WheelOverSite

ObjectMaker = Callable[[FeatureTrack, EdgePoint], IndexObject]
"""Makes the printed object of a feature and its edge point, with its letter."""


def plan_wheel_over(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...], make_object: ObjectMaker
) -> WheelOver:
    """Plan the wheel-over of a leg that has a turn.

    Parameters
    ----------
    site : WheelOverSite
        The place.
    tracks : tuple of FeatureTrack
        Fixed objects in reach, in track coordinates of the leg.
    make_object : ObjectMaker
        Letters an object.
    """
    turn, rules = site.turn, site.rules
    alteration = abs(turn.alteration_deg)
    choice = choose_line(site, tracks)
    line_reason = ""
    if alteration < rules.small_alteration_deg:
        line_reason = _too_vague(site)
    elif choice is None:
        line_reason = tr("No object near the wheel-over is in sight on the planned screen")
    second = choose_second(site, tracks, taken=None if choice is None else choice.track)
    alerts = tuple(s for s in rules.pre_alert_s if site.turn_plan.end_m - s * site.speed_mps >= 0.0)
    length = site.line.length_m
    return WheelOver(
        along_m=site.turn_plan.end_m,
        distance_before_waypoint_m=length - site.turn_plan.end_m,
        position=site.position,
        new_course_deg=turn.new_course_deg,
        alteration_deg=turn.alteration_deg,
        turn_radius_m=turn.radius_m,
        is_radius_of_route=turn.radius_m != site.turn_plan.own_radius_m,
        own_radius_m=site.turn_plan.own_radius_m,
        water_speed_mps=site.turn_plan.speed_mps,
        rate_of_turn_deg_per_min=turn.rate_of_turn_deg_per_min(site.motion.water_speed_mps),
        corner_cut_m=turn.corner_cut_m,
        pre_alert_along_m=tuple(site.turn_plan.end_m - s * site.speed_mps for s in alerts),
        pre_alert_minutes=tuple(s / 60.0 for s in alerts),
        method=_method(turn, rules),
        line=None if choice is None else _line(site, choice, make_object),
        line_reason=line_reason,
        second_mark=None if second is None else _second_mark(second, make_object),
        second_mark_reason=""
        if second is not None
        else tr("No object with a range and bearing is in sight at the wheel-over"),
    )


def _too_vague(site: WheelOverSite) -> str:
    """Why a small alteration has no line: by how much its moment would be out."""
    turn = site.turn
    read_m = site.setting.budget.error_m(cross_m=site.rules.least_turn_cross_m, along_m=0.0)
    by_track, by_reading = turn.moved_by_track_m(site.corridor_m), turn.moved_by_reading_m(read_m)
    return tr(
        "The course alters by {alteration_deg:.0f}° only: "
        "{off_track_nm:.2f} NM off the track would move its moment by "
        "{moved_nm:.2f} NM, {misread_nm:.2f} NM misread by "
        "{moved_by_reading_nm:.2f} NM",
        alteration_deg=abs(turn.alteration_deg),
        off_track_nm=nm_from_m(site.corridor_m),
        moved_nm=nm_from_m(by_track),
        misread_nm=nm_from_m(read_m),
        moved_by_reading_nm=nm_from_m(by_reading),
    )


def _method(turn: Turn, rules: PlanRules) -> Reason:
    alteration = abs(turn.alteration_deg)
    values: tuple[tuple[str, float | str], ...] = (
        ("tangent_m", turn.tangent_m),
        ("response_m", turn.response_distance_m),
    )
    if alteration < rules.small_alteration_deg:
        return Reason(
            code=reason_codes.TURN_BY_RANGE_BEARING,
            values=(*values, ("alteration_deg", alteration)),
        )
    if alteration > rules.large_alteration_deg:
        return Reason(
            code=reason_codes.TURN_IN_STEPS,
            values=(
                *values,
                ("alteration_deg", alteration),
                ("half_course_deg", turn.arc_course_deg(0.5)),
            ),
        )
    return Reason(code=reason_codes.TURN_BY_LINE, values=values)


def _line(site: WheelOverSite, choice: LineChoice, make_object: ObjectMaker) -> IndexLine:
    turn = site.turn
    cross, inside_m = choice.edge.cross_m, choice.edge.inside_m
    new_leg_cross = cross + math.copysign(turn.wheel_over_offset_m, turn.alteration_deg)
    if site.new_line is not None:
        _along, new_cross = site.new_line.track_coordinates(
            np.array([choice.edge.position.lat_deg]), np.array([choice.edge.position.lon_deg])
        )
        new_leg_cross = float(new_cross[0])
    return IndexLine(
        role=Role.WHEEL_OVER,
        object=make_object(choice.track, choice.edge),
        side=Side.STARBOARD if cross > 0.0 else Side.PORT,
        cross_index_range_m=abs(cross),
        limit=None,
        line_bearing_deg=turn.new_course_deg,
        echo_travel_deg=wrap_360_deg(turn.old_course_deg + 180.0),
        from_along_m=choice.window[0],
        to_along_m=choice.window[1],
        range_scale_m=site.setting.screen.scale_m,
        uncertainty_m=choice.error_m,
        reason=Reason(
            code=reason_codes.WHEEL_OVER_LINE,
            values=(
                ("range_m", choice.range_m),
                ("inside", float(math.copysign(1.0, turn.alteration_deg) * new_leg_cross > 0.0)),
                ("new_leg_cross_m", abs(new_leg_cross)),
                ("other_side", float(new_leg_cross * cross < 0.0)),
                *((("paints_inside_m", inside_m),) if inside_m > 0.0 else ()),
            ),
        ),
    )


def _second_mark(choice: SecondChoice, make_object: ObjectMaker) -> SecondMark:
    return SecondMark(
        object=make_object(choice.track, choice.edge),
        range_m=choice.range_m,
        bearing_deg=choice.bearing_deg,
    )
