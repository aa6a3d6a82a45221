"""What own ship's structure hides from her radar (handbook 8)."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureShadow:
    """Arcs behind a mast or funnel, whole widths in deg."""

    blind_deg: float
    """Nothing gets through; 0 where the antenna looks past both sides."""
    weakened_deg: float
    """Part of the antenna is covered, the blind arc included."""


def mast_shadow(width_m: float, distance_m: float, aperture_m: float = 0.0) -> StructureShadow:
    """The shadow of a structure of a width at a distance from the antenna.

    ``2 atan((w -+ D) / 2 x)``; with a point for antenna both are ``2 atan(w / 2 x)``.

    Parameters
    ----------
    width_m : float
        w, m.
    distance_m : float
        x, from the antenna, m, > 0.
    aperture_m : float
        D, length of the antenna, m.
    """

    def arc_deg(seen_m: float) -> float:
        return 2.0 * math.degrees(math.atan(seen_m / (2.0 * distance_m)))

    return StructureShadow(
        blind_deg=arc_deg(max(width_m - aperture_m, 0.0)),
        weakened_deg=arc_deg(width_m + aperture_m),
    )


def sea_hidden_to_m(antenna_height_m: float, bow_height_m: float, bow_distance_m: float) -> float:
    """Distance from the antenna at which the sight line over the bow meets the sea, m.

    ``h x_b / (h - h_b)``; infinite where the bow stands as high as the antenna.
    """
    clear_m = antenna_height_m - bow_height_m
    return antenna_height_m * bow_distance_m / clear_m if clear_m > 0.0 else math.inf
