"""Which radar of the ship to run a leg on: S band in rain or heavy sea, if the ship has it."""

from core.plan import setup_codes as codes
from core.plan.reason import Reason
from core.plan.rules import PlanRules, Weather
from core.ship.ship import Band, Radar


def radar_for_weather(
    radars: tuple[Radar, ...], weather: Weather, rules: PlanRules
) -> tuple[Radar, Reason]:
    """The radar to run a leg on and why (job.md 3.10, handbook 11.12).

    The main radar, for which the leg is worked out, unless it is X band, the weather favours S
    and the ship has an S band: rain and sea clutter lie mostly on X.
    """
    main = radars[0]
    other = next((radar for radar in radars[1:] if radar.band is not main.band), None)
    is_rain = weather.rain_mm_h >= rules.s_band_weather.rain_mm_h
    is_sea = weather.sea_state >= rules.s_band_weather.sea_state
    if not (is_rain or is_sea):
        return main, _why_fair(radars, other)
    if main.band is Band.S:
        return main, Reason(code=codes.WHY_S_ALREADY)
    if other is None:
        return main, Reason(code=codes.WHY_X_IN_WEATHER)
    if is_rain:
        values = (("rain_mm_h", weather.rain_mm_h), ("planned", main.name))
        return other, Reason(code=codes.WHY_S_IN_RAIN, values=values)
    values = (("sea_state", weather.sea_state), ("planned", main.name))
    return other, Reason(code=codes.WHY_S_IN_SEA, values=values)


def _why_fair(radars: tuple[Radar, ...], other: Radar | None) -> Reason:
    main = radars[0]
    if len(radars) == 1:
        return Reason(code=codes.WHY_ONLY_RADAR)
    if other is None:
        return Reason(code=codes.WHY_ONLY_BAND, values=(("band", main.band.value),))
    code = codes.WHY_X_IN_FAIR_WEATHER if main.band is Band.X else codes.WHY_MAIN_RADAR
    return Reason(code=code, values=(("other", other.name),))
