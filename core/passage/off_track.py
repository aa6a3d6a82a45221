"""How fast a ship leaves her track, and how soon that can be seen on the radar."""

import math


def off_track_s(*, angle_deg: float, speed_mps: float, off_m: float) -> float:
    """Time until she is a distance off, making good a course wrong by an angle, s.

    Plane geometry: distance / (speed x sin angle).
    """
    return off_m / (speed_mps * math.sin(math.radians(abs(angle_deg))))


def noticed_s(*, across_mps: float, threshold_m: float) -> float:
    """Time until a set across the track shows, s: what can be read over how fast it grows."""
    return threshold_m / abs(across_mps)
