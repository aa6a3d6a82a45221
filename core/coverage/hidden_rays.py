"""Water that land hides from a craft of a height, along one ray."""

import math

from core.base.arrays import Float32Array, FloatArray
from core.base.compiled import bare
from core.coverage.ray_course import Ray, leg_from
from core.coverage.rays import is_inside, slope_at
from core.coverage.terrain import Ground
from core.land.land_model import Cell

_SEA = int(Cell.SEA)


@bare
def hidden_on_ray(
    ground: Ground,
    ray: Ray,
    last: int,
    radius_m: float,
    antenna_m: float,
    craft_m: float,
    bend: float,
    rises: int,
    rise_range: FloatArray,
    rise_slope: FloatArray,
    stretches: int,
    hidden_from: Float32Array,
    hidden_to: Float32Array,
) -> int:
    """List the stretches of water on which land hides the craft.

    Parameters
    ----------
    ground, ray, last
        Near ground, the ray over it and the number of its samples.
    radius_m : float
        Nothing is listed past it, m.
    antenna_m, craft_m, bend : float
        Heights above water, m, and 1 / (2 k R), 1/m.
    rises, rise_range, rise_slope
        The ray's land horizon (``rays.trace``).
    stretches : int
        How many are listed already.
    hidden_from, hidden_to : (n,) arrays, written
        Ranges, m; what they have no room for is counted, not written.

    Returns
    -------
    int
        How many are listed now. Water past the range at which the Earth alone hides the craft is
        not: it is out of sight with or without land.
    """
    if rises == 0:
        return stretches
    cell, codes = ground.cell, ground.codes
    row, col, scale_m, step_m, leg = ray.row, ray.col, ray.scale_m, ray.step_m, ray.leg
    horizon_m = (math.sqrt(antenna_m) + math.sqrt(craft_m)) / math.sqrt(bend)
    met = 0
    was_hidden = False
    begin = -leg
    y0 = x0 = dy = dx = 0.0
    for k in range(int(rise_range[0] / step_m), min(last, int(horizon_m / step_m)) + 1):
        r = k * step_m
        while met < rises and rise_range[met] < r - 0.5 * step_m:
            met += 1
        is_hidden = False
        if met > 0 and slope_at(r, craft_m, antenna_m, bend) < rise_slope[met - 1]:
            if k >= begin + leg:
                begin = k
                y0, x0, dy, dx = leg_from(row, col, scale_m, step_m, leg, k)
            y = y0 + (k - begin) * dy
            x = x0 + (k - begin) * dx
            if is_inside(codes, y, x):
                is_hidden = cell[int(y + 0.5), int(x + 0.5)] == _SEA
        if is_hidden and stretches < hidden_from.size:
            if not was_hidden:
                hidden_from[stretches] = r - 0.5 * step_m
            hidden_to[stretches] = min(r + 0.5 * step_m, radius_m)
        if was_hidden and not is_hidden:
            stretches += 1
        was_hidden = is_hidden
    return stretches + 1 if was_hidden else stretches
