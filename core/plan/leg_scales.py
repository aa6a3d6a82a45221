"""Range scales along a leg and the wheel-over at its end, which may need a longer one."""

import numpy as np

from core.plan import reason_codes
from core.plan.candidates import LegField
from core.plan.choices import LegChoices
from core.plan.intervals import Intervals, union
from core.plan.leg_context import LegContext
from core.plan.leg_survey import LegSurvey
from core.plan.plan_result import IndexLine, IndexObject, Role, WheelOver
from core.plan.range_scales import HeldObject, plan_spans, with_longer_end
from core.plan.usable_window import ScaleSpan, UsableWindow
from core.plan.wheel_over import plan_wheel_over
from core.plan.wheel_over_site import WheelOverSite


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
    for setting in longer:
        site = WheelOverSite(
            line=field.line,
            new_line=None if context.new_field is None else context.new_field.line,
            turn_plan=field.turn_plan,
            speed_mps=field.speed_mps,
            setting=setting,
            sight=field.sight,
            sectors=field.sectors,
            rules=rules,
        )
        planned.append(plan_wheel_over(site, lettered, context.make_object))
        if planned[-1].line is None and planned[-1].second_mark is None:
            continue
        if len(planned) > 1:
            spans = with_longer_end(
                spans, setting, end_m=field.end_m, speed_mps=field.speed_mps, rules=rules
            )
        return spans, planned[-1]
    return spans, planned[0]


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


def held_objects(
    field: LegField, lines: tuple[IndexLine, ...], wheel_over: WheelOver | None
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
    if wheel_over is not None and wheel_over.second_mark is not None:
        end = (field.end_m, field.end_m)
        held.append(
            _held_object(
                field, wheel_over.second_mark.object, reason_codes.SCALE_FORCED_BY_WHEEL_OVER, end
            )
        )
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
