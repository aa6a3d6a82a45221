"""The set-up card of a leg from what is planned on it: every control, its setting and why."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.plan import setup_codes as codes
from core.plan.plan_result import IndexLine, LegPlan, Role, ScaleStretch
from core.plan.reason import Reason
from core.plan.rules import PlanRules, Weather
from core.plan.scale_pulse import pulse_for
from core.plan.setup_lines import index_line_rows
from core.plan.setup_radar import radar_for_weather
from core.plan.setup_result import Control, SetupCard, SetupRow
from core.radar.presets import radar_set
from core.ship.ship import Band, Radar, Ship

_SHORT_TO_M = m_from_nm(3.0)
_LOW_SEA_STATE = 3.0
"""Below it a little suppression will do; from it on only as much as needed (common practice)."""
_HEAVY_SEA_STATE = 4.0
"""From it on boats are not counted on inside the clutter (job.md 6.6, common practice)."""


def setup_card(
    plan: LegPlan,
    ship: Ship,
    *,
    weather: Weather,
    racons: frozenset[str],
    rules: PlanRules,
) -> SetupCard:
    """The card of a leg; every leg has one.

    Parameters
    ----------
    plan : LegPlan
        Lines, scales and wheel-over of the leg.
    ship : Ship
        Its radars.
    weather : Weather
        Rain or heavy sea favour S band.
    racons : frozenset of str
        Ids of the marks that are racons; interference rejection takes their replies away.
    rules : PlanRules
        Figures.
    """
    radar, why = radar_for_weather(ship.radars, weather, rules)
    main = [_on(radar, one, ship) for one in plan.scales if one.radar == ship.radars[0].name]
    whole = _Rows(plan.distance_m)
    rows = [
        whole.row(
            Control.RADAR,
            Reason(
                code=codes.SET_RADAR, values=(("radar", radar.name), ("band", radar.band.value))
            ),
            why,
            is_common_practice=len(ship.radars) > 1,
        ),
        *(_scale_row(one) for one in main),
        *_joined([_off_centre_row(one) for one in main]),
        *_joined([_pulse_row(one, radar) for one in main]),
        whole.practice(Control.GAIN, codes.SET_GAIN, codes.WHY_GAIN),
        _sea(whole, weather),
        _rain(whole, weather),
        _interference(whole, plan, radar, racons),
        _stretch(whole, plan),
        _trails(whole, plan, main, rules),
        whole.row(
            Control.VECTOR,
            Reason(
                code=codes.SET_VECTOR,
                values=(("vector_minutes", rules.decision_time_s / 60.0),),
            ),
            Reason(code=codes.WHY_VECTOR),
            is_common_practice=True,
        ),
        _ebl_vrm(whole, plan),
        *index_line_rows(plan),
        *_second_radar(plan, ship, radar),
    ]
    return SetupCard(radar=radar.name, band=radar.band, rows=tuple(rows))


class _Rows:
    """Makes rows that hold over the whole leg."""

    def __init__(self, leg_m: float) -> None:
        self._leg_m = leg_m

    def row(
        self, control: Control, setting: Reason, reason: Reason, *, is_common_practice: bool
    ) -> SetupRow:
        return SetupRow(
            control=control,
            setting=setting,
            reason=reason,
            from_along_m=0.0,
            to_along_m=self._leg_m,
            is_common_practice=is_common_practice,
        )

    def practice(
        self,
        control: Control,
        setting: str,
        why: str,
        *values: tuple[str, float | str],
    ) -> SetupRow:
        """A setting that needs no numbers, by common practice."""
        return self.row(
            control,
            Reason(code=setting),
            Reason(code=why, values=values),
            is_common_practice=True,
        )


def _on(radar: Radar, stretch: ScaleStretch, ship: Ship) -> ScaleStretch:
    """A stretch of the main radar as it is set on the radar chosen for the weather."""
    if radar.name == ship.radars[0].name:
        return stretch
    scales = sorted(radar.range_scales_m)
    scale_m = next((s for s in scales if s >= stretch.scale_m - 1.0), scales[-1])
    return replace(stretch, radar=radar.name, scale_m=scale_m, pulse=pulse_for(radar, scale_m))


def _scale_row(stretch: ScaleStretch) -> SetupRow:
    return SetupRow(
        control=Control.SCALE,
        setting=Reason(code=codes.SET_SCALE, values=(("scale_m", stretch.scale_m),)),
        reason=stretch.reason,
        from_along_m=stretch.from_along_m,
        to_along_m=stretch.to_along_m,
        is_common_practice=False,
    )


def _off_centre_row(stretch: ScaleStretch) -> SetupRow:
    setting, reason = Reason(code=codes.SET_CENTRED), Reason(code=codes.WHY_CENTRED)
    if stretch.off_centre_ratio > 0.0:
        setting = Reason(
            code=codes.SET_OFF_CENTRE,
            values=(
                ("share_ratio", stretch.off_centre_ratio),
                ("direction", stretch.off_centre_direction or ""),
            ),
        )
        reason = Reason(code=codes.WHY_OFF_CENTRE, values=(("scale_m", stretch.scale_m),))
    return SetupRow(
        control=Control.OFF_CENTRE,
        setting=setting,
        reason=reason,
        from_along_m=stretch.from_along_m,
        to_along_m=stretch.to_along_m,
        is_common_practice=False,
    )


def _pulse_row(stretch: ScaleStretch, radar: Radar) -> SetupRow:
    """Short to index on, long for the landfall, else what goes with the scale (job.md 6.4.3)."""
    pulses = radar_set(radar).pulses
    pulse = next((one for one in pulses if one.name == stretch.pulse), None)
    values: tuple[tuple[str, float | str], ...] = (("pulse", stretch.pulse),)
    if pulse is not None:
        values += (("depth_m", pulse.depth_m),)
    if stretch.scale_m <= _SHORT_TO_M + 1.0:
        code = codes.WHY_PULSE_SHORT
    elif pulse is pulses[-1]:
        code = codes.WHY_PULSE_LONG
    else:
        code = codes.WHY_PULSE_MIDDLE
    return SetupRow(
        control=Control.PULSE,
        setting=Reason(code=codes.SET_PULSE, values=values[:1]),
        reason=Reason(code=code, values=values),
        from_along_m=stretch.from_along_m,
        to_along_m=stretch.to_along_m,
        is_common_practice=True,
    )


def _joined(rows: list[SetupRow]) -> list[SetupRow]:
    """Rows one after another that say the same become one."""
    joined: list[SetupRow] = []
    for row in rows:
        last = joined[-1] if joined else None
        if last is not None and (last.setting, last.reason) == (row.setting, row.reason):
            joined[-1] = replace(last, to_along_m=row.to_along_m)
        else:
            joined.append(row)
    return joined


def _sea(whole: _Rows, weather: Weather) -> SetupRow:
    state = weather.sea_state
    if state <= 0.0:
        return whole.practice(Control.SEA_CLUTTER, codes.SET_SEA_OFF, codes.WHY_SEA_OFF)
    setting = codes.SET_SEA_LOW if state < _LOW_SEA_STATE else codes.SET_SEA_NEEDED
    why = codes.WHY_SEA_HEAVY if state >= _HEAVY_SEA_STATE else codes.WHY_SEA
    return whole.practice(Control.SEA_CLUTTER, setting, why, ("sea_state", state))


def _rain(whole: _Rows, weather: Weather) -> SetupRow:
    if weather.rain_mm_h <= 0.0:
        return whole.practice(Control.RAIN_CLUTTER, codes.SET_RAIN_OFF, codes.WHY_RAIN_OFF)
    values = ("rain_mm_h", weather.rain_mm_h)
    return whole.practice(Control.RAIN_CLUTTER, codes.SET_RAIN_NEEDED, codes.WHY_RAIN, values)


def _interference(whole: _Rows, plan: LegPlan, radar: Radar, racons: frozenset[str]) -> SetupRow:
    """Off where a racon is among the marks in use on the leg (job.md 6.4.3)."""
    found = next((name for name in _used(plan) if name in racons), None)
    if found is None:
        return whole.practice(Control.INTERFERENCE, codes.SET_ON, codes.WHY_INTERFERENCE_ON)
    why = codes.WHY_RACON_ON_S if radar.band is Band.S else codes.WHY_RACON
    return whole.practice(Control.INTERFERENCE, codes.SET_OFF, why, ("object", found))


def _used(plan: LegPlan) -> list[str]:
    """Ids of the objects in use: those of lines and of the second mark."""
    used = [line.object.id for line in plan.lines]
    if plan.wheel_over is not None and plan.wheel_over.second_mark is not None:
        used.append(plan.wheel_over.second_mark.object.id)
    return used


def _is_indexed(lines: tuple[IndexLine, ...]) -> bool:
    return any(line.role is not Role.WHEEL_OVER for line in lines)


def _stretch(whole: _Rows, plan: LegPlan) -> SetupRow:
    """On where there is nothing to index and land is still to be found, else off."""
    is_landfall = any(sight.in_sight_from is not None for sight in plan.first_sights)
    if is_landfall and not _is_indexed(plan.lines):
        return whole.practice(Control.STRETCH, codes.SET_ON, codes.WHY_STRETCH_ON)
    return whole.practice(Control.STRETCH, codes.SET_OFF, codes.WHY_STRETCH_OFF)


def _trails(whole: _Rows, plan: LegPlan, main: list[ScaleStretch], rules: PlanRules) -> SetupRow:
    """Relative, so that the trail of an indexed echo shows drift off its line."""
    longest_m = max((one.scale_m for one in main), default=0.0)
    trail_s = rules.trail_s
    if longest_m > rules.preferred_index_scale_m + 1.0:
        trail_s = rules.long_trail_s
    why = codes.WHY_TRAILS_INDEX if _is_indexed(plan.lines) else codes.WHY_TRAILS_WATCH
    return whole.row(
        Control.TRAILS,
        Reason(code=codes.SET_TRAILS, values=(("trail_minutes", trail_s / 60.0),)),
        Reason(code=why),
        is_common_practice=True,
    )


def _ebl_vrm(whole: _Rows, plan: LegPlan) -> SetupRow:
    """Range and bearing of the second mark at the wheel-over."""
    turn = plan.wheel_over
    mark = None if turn is None else turn.second_mark
    if mark is None:
        cause = plan.wheel_over_reason if turn is None else turn.second_mark_reason
        return whole.row(
            Control.EBL_VRM,
            Reason(code=codes.SET_NONE),
            Reason(code=codes.WHY_SAID, values=(("cause", cause),)),
            is_common_practice=False,
        )
    return whole.row(
        Control.EBL_VRM,
        Reason(
            code=codes.SET_EBL_VRM,
            values=(("mark_range_m", mark.range_m), ("mark_bearing_deg", mark.bearing_deg)),
        ),
        Reason(code=codes.WHY_SECOND_MARK, values=(("object", mark.object.id),)),
        is_common_practice=False,
    )


def _second_radar(plan: LegPlan, ship: Ship, chosen: Radar) -> list[SetupRow]:
    """The long scan, on whichever radar is not the chosen one."""
    names = [radar.name for radar in ship.radars]
    rows = []
    for stretch in plan.scales:
        if stretch.radar == names[0]:
            continue
        other = ship.radars[0] if stretch.radar == chosen.name else _named(ship, stretch.radar)
        pulse = pulse_for(other, stretch.scale_m)
        rows.append(
            SetupRow(
                control=Control.SECOND_RADAR,
                setting=Reason(
                    code=codes.SET_SECOND_RADAR,
                    values=(
                        ("radar", other.name),
                        ("scale_m", stretch.scale_m),
                        ("pulse", pulse),
                    ),
                ),
                reason=stretch.reason,
                from_along_m=stretch.from_along_m,
                to_along_m=stretch.to_along_m,
                is_common_practice=True,
            )
        )
    return rows


def _named(ship: Ship, name: str) -> Radar:
    return next(radar for radar in ship.radars if radar.name == name)
