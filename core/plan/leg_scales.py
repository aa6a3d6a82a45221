"""Range scales along a leg and the wheel-over at its end, which may need a longer one."""

import numpy as np

from core.plan import reason_codes
from core.plan.candidates import LegField
from core.plan.choices import LegChoices
from core.plan.intervals import Intervals, union
from core.plan.leg_context import LegContext
from core.plan.leg_survey import LegSurvey
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Role, WheelOver
from core.plan.range_scales import plan_spans, with_longer_end
from core.plan.scale_demands import HeldObject
from core.plan.scale_stretches import ScaleInput
from core.plan.usable_window import ScaleSpan, Setting, UsableWindow
from core.plan.wheel_over import plan_wheel_over
from core.plan.wheel_over_site import WheelOverSite

_TURN_SLACK_S = 60.0


def spans_and_wheel_over(
    field: LegField, survey: LegSurvey, choices: LegChoices, context: LegContext
) -> tuple[tuple[ScaleSpan, ...], WheelOver | None]:
    """Scales along the leg, longer at its end where the wheel-over mark needs it."""
    rules = context.rules
    if field.end_m <= 0.0:
        spans = field.uniform(field.settings[0])
    else:
        spans = plan_spans(
            field.settings,
            tuple(_covered(survey, windows) for windows in survey.windows),
            end_m=field.end_m,
            least_index=_least_index(survey, choices),
            speed_mps=field.speed_mps,
            rules=rules,
        )
    if field.turn_plan.turn is None:
        return spans, None
    lettered = tuple(t for t in field.tracks if t.feature.key in context.ids)
    longer = field.settings[field.settings.index(spans[-1].setting) :]
    planned: list[WheelOver] = []
    serving: list[tuple[Setting, WheelOver]] = []
    for setting in longer:
        site = WheelOverSite(
            line=field.line,
            new_line=None if context.new_field is None else context.new_field.line,
            turn_plan=field.turn_plan,
            speed_mps=field.speed_mps,
            motion=field.motion,
            corridor_m=field.corridor_m,
            setting=setting,
            sight=field.sight,
            sectors=field.sectors,
            rules=rules,
        )
        planned.append(plan_wheel_over(site, lettered, context.make_object))
        if planned[-1].line is None and planned[-1].second_mark is None:
            continue
        serving.append((setting, planned[-1]))
        if _shows_next(field, context, setting):
            break
    if not serving:
        return spans, planned[0]
    setting, wheel_over = _best_end(field, context, serving)
    if setting != spans[-1].setting:
        spans = with_longer_end(
            spans, setting, end_m=field.end_m, speed_mps=field.speed_mps, rules=rules
        )
    return spans, wheel_over


def _best_end(
    field: LegField, context: LegContext, serving: list[tuple[Setting, WheelOver]]
) -> tuple[Setting, WheelOver]:
    """The shortest scale that serves the wheel-over, or the first that shows the next leg too.

    The scale is not lengthened for the next leg beyond what is well indexed on.
    """
    setting, wheel_over = serving[-1]
    is_short = setting.screen.scale_m <= context.rules.preferred_index_scale_m
    if is_short and _shows_next(field, context, setting):
        return setting, wheel_over
    return serving[0]


def _shows_next(field: LegField, context: LegContext, setting: Setting) -> bool:
    """Whether the first object of the next leg is on the screen at the wheel-over."""
    thing = context.new_first
    if thing is None:
        return True
    code = reason_codes.SCALE_FORCED_BY_NEXT_LEG
    end = (field.end_m, field.end_m)
    demand = _held_object(field, thing, code, end).demand(end)
    return demand is None or demand.is_held(setting.screen)


def first_object(new_leg: LegPlan, field: LegField) -> IndexObject | None:
    """The first index object of the next leg, where its line is in use by the end of the turn."""
    turn = field.turn_plan.turn
    if turn is None:
        return None
    by_m = turn.tangent_m + _TURN_SLACK_S * field.speed_mps
    first = [
        line
        for line in new_leg.lines
        if line.role is Role.PRIMARY and line.from_along_m <= by_m < line.to_along_m
    ]
    return first[0].object if first else None


def _covered(survey: LegSurvey, windows: dict[str, UsableWindow]) -> Intervals:
    parts: list[tuple[float, float]] = []
    for key in survey.candidate_keys:
        window = windows.get(key)
        if window is not None:
            parts += window.windows
    return union(tuple(parts), join_m=1.0)


def _least_index(survey: LegSurvey, choices: LegChoices) -> int:
    """The first setting that holds every object the officer demands, if any does."""
    least = 0
    for key in choices.demanded:
        holding = [i for i, windows in enumerate(survey.windows) if key in windows]
        if holding:
            least = max(least, holding[0])
    return least


def scale_input(
    field: LegField,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
    lines: tuple[IndexLine, ...],
    wheel_over: WheelOver | None,
) -> ScaleInput:
    """The leg as far as its scales need it."""
    return ScaleInput(
        spans=spans,
        held=held_objects(field, lines, wheel_over, context.new_first),
        frame=field.frame,
        ship=context.ship,
        leg_m=field.line.length_m,
        speed_mps=field.speed_mps,
        rules=context.rules,
    )


def held_objects(
    field: LegField,
    lines: tuple[IndexLine, ...],
    wheel_over: WheelOver | None,
    new_first: IndexObject | None,
) -> tuple[HeldObject, ...]:
    """Objects that the scale has to hold, with what to call the reason."""
    codes = {
        Role.PRIMARY: reason_codes.SCALE_FORCED_BY_OBJECT,
        Role.CHECK: reason_codes.SCALE_FORCED_BY_OBJECT,
        Role.MARGIN: reason_codes.SCALE_FORCED_BY_MARGIN,
        Role.WHEEL_OVER: reason_codes.SCALE_FORCED_BY_WHEEL_OVER,
    }
    held = [
        _held_object(field, line.object, codes[line.role], (line.from_along_m, line.to_along_m))
        for line in lines
    ]
    end = (field.end_m, field.end_m)
    if wheel_over is not None and wheel_over.second_mark is not None:
        thing = wheel_over.second_mark.object
        held.append(_held_object(field, thing, reason_codes.SCALE_FORCED_BY_WHEEL_OVER, end))
    if wheel_over is not None and new_first is not None:
        held.append(_held_object(field, new_first, reason_codes.SCALE_FORCED_BY_NEXT_LEG, end))
    return tuple(held)


def _held_object(
    field: LegField, thing: IndexObject, code: str, window: tuple[float, float]
) -> HeldObject:
    along, cross = field.line.track_coordinates(
        np.array([thing.position.lat_deg]), np.array([thing.position.lon_deg])
    )
    return HeldObject(
        code=code,
        object_id=thing.id,
        along_m=float(along[0]),
        cross_m=float(cross[0]),
        window=window,
    )
