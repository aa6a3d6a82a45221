"""How long a craft that comes out from behind a head is in sight before she meets own track.

She crosses own track at right angles, a passing distance p beyond the tip, and is met there. While
both hold course and speed she bears the same all the time, so she is hidden until the tip has
drawn aft over that bearing: ``t = p / own speed + offing / her speed`` (job.md 7.5, plain geometry,
computed by hand).
"""

import math


def warning_s(
    *, offing_m: float, pass_off_m: float, own_speed_mps: float, craft_speed_mps: float
) -> float:
    """Time from first visibility to meeting, s.

    Parameters
    ----------
    offing_m : float
        Distance of the tip from own track, m, >= 0.
    pass_off_m : float
        How far beyond the tip she passes, measured along own track, m, >= 0.
    own_speed_mps, craft_speed_mps : float
        Over the ground, m/s, > 0.
    """
    return pass_off_m / own_speed_mps + offing_m / craft_speed_mps


def bearing_off_bow_deg(*, own_speed_mps: float, craft_speed_mps: float) -> float:
    """Angle off own course at which she bears until she is met, deg, 0 to 90."""
    return math.degrees(math.atan2(craft_speed_mps, own_speed_mps))


def offing_for_m(
    *, wanted_s: float, pass_off_m: float, own_speed_mps: float, craft_speed_mps: float
) -> float:
    """Offing of the tip that gives a warning time: the formula turned round, m, >= 0."""
    return max(0.0, (wanted_s - pass_off_m / own_speed_mps) * craft_speed_mps)


def dog_leg_m(*, leg_m: float, abeam_m: float, aside_m: float) -> float:
    """How much longer a leg grows that is bent aside by a distance at one place, m.

    Parameters
    ----------
    leg_m : float
        Length of the leg, m.
    abeam_m : float
        Where along it the bend is, m, between 0 and ``leg_m``.
    aside_m : float
        How far aside, m.
    """
    return math.hypot(abeam_m, aside_m) + math.hypot(leg_m - abeam_m, aside_m) - leg_m
