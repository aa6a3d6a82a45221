"""The pulse that goes with a range scale."""

import math

from core.ship.ship import Radar

_INDEX_SCALE_TO_M = 6.0 * 1852.0
_SHORT_PULSE_TO_M = 3.0 * 1852.0
_MEDIUM_PULSE_TO_M = 12.0 * 1852.0


def pulse_for(radar: Radar, scale_m: float) -> str:
    """The pulse to use on a scale: the radar's own, by name, where the ship file states any.

    Of those that serve the scale the shortest for indexing, the longest on scales that are
    scanned for traffic and landfall (handbook 11.11); without any, what goes with such a scale
    (common practice, no source).
    """
    serving = sorted(
        (
            pulse
            for pulse in radar.pulses
            if (pulse.from_scale_m or 0.0) <= scale_m + 1.0
            and scale_m - 1.0 <= (pulse.to_scale_m or math.inf)
        ),
        key=lambda pulse: pulse.length_s,
    )
    if serving:
        return serving[0 if scale_m <= _INDEX_SCALE_TO_M else -1].name
    if scale_m <= _SHORT_PULSE_TO_M:
        return "short"
    return "medium" if scale_m <= _MEDIUM_PULSE_TO_M else "long"
