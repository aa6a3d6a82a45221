"""What an expected picture was calculated for, in words; said on every sheet that shows one."""

from core.radar.echo_budget import EchoBudget
from core.words import quantities
from core.words.messages import Say


def calculated_words(budget: EchoBudget) -> str:
    """``Calculated: X band, typical, glassy sea, no rain, k 1.33``."""
    radar, weather = budget.radar, budget.conditions
    air = str(Say.CLEAR_WEATHER)
    if weather.sea_state > 0.0 or weather.rain_mm_h > 0.0:
        air = Say.WEATHER.format(sea=f"{weather.sea_state:g}", rain=f"{weather.rain_mm_h:g}")
    return Say.CALCULATED_FOR.format(
        band=radar.band.value,
        preset=radar.preset.shown,
        weather=air,
        k=quantities.refraction(weather.refraction_k),
    )
