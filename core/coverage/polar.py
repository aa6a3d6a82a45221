"""The polar sweep of a place: land horizon, nearest land, hidden water, unknown heights."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.arrays import Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.compiled import bare, kernel
from core.base.constants import EARTH_RADIUS_M, UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.coverage_result import HiddenWater, SweepSettings
from core.coverage.hidden_rays import hidden_on_ray
from core.coverage.local_map import Grid, LocalMap, local_map
from core.coverage.ray_course import aim, polynomial, samples_before
from core.coverage.rays import UNKNOWN_CODES, trace
from core.coverage.terrain import BLOCK, Ground, Terrain, around_m
from core.geodesy.position import Position
from core.land.land_model import Cell

HORIZON_RAYS = 3600
"""Bearings of the land horizon, every 0.1 deg."""
WATER_RAYS = 720
"""Bearings of hidden water and of unknown heights, every 0.5 deg."""
FAR_STRIDE = 2
"""In the planning setting one ray of so many goes on beyond 12 NM: two to six cells apart at
24 NM, a quarter of a beam of 1 deg is seven. Against all of them land that echoes comes in 0.2 dB
weaker in the mean, and within -2.2 and +1.1 dB in nine cells of ten (measured; the kind of ground
alone leaves 5 dB)."""
_PLANNING_STEP_CELLS = 0.5
_EXACT_STEP_CELLS = 0.25
_SHORTEST = 0.9
"""No step of a ray is shorter than so much of one over the least cell."""

_LAND = int(Cell.LAND)
_LAND_BIT = 1 << Cell.LAND


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PolarSweep(HoldsArrays):
    """What lies round a place, bearing by bearing.

    horizon_slope : (3600,) float32
        Slope of the land horizon at each 0.1 deg: the greatest slope of any known land in sight
        on the bearings nearest to it; NaN where no land is in sight.
    nearest_land_range_m, nearest_land_bearing_deg : float or None
        Nearest edge of a cell of land within the radius, in sight or not; None without.
    hidden : HiddenWater
        Water on 720 bearings that known land hides, for the height of the craft. Water past
        ``craft_horizon_m`` is not listed: it is out of sight with or without land.
    craft_horizon_m : float
        Range at which the Earth alone hides the craft, m.
    unknown_from_m : (720, 3) float32
        On each 0.5 deg, taking in the bearings up to 0.25 deg either side, the first range
        within the radius at which a cell of unknown height, taken as 50 m high, is not hidden
        by known nearer land; columns are Cell.VOID, Cell.MISSING, Cell.BEYOND, infinite without.
    """

    horizon_slope: Float32Array
    nearest_land_range_m: float | None
    nearest_land_bearing_deg: float | None
    hidden: HiddenWater
    craft_horizon_m: float
    unknown_from_m: Float32Array


@bare
def _sweep(
    ground: Ground,
    grid: Grid,
    row: FloatArray,
    col: FloatArray,
    unknown_m: FloatArray,
    rise_range: FloatArray,
    rise_slope: FloatArray,
    rays: int,
    stride: int,
    close_m: float,
    radius_m: float,
    step_cells: float,
    antenna_m: float,
    craft_m: float,
    bend: float,
    unknown_height_m: float,
    horizon: Float32Array,
    unknown_from: Float32Array,
    offsets: IntArray,
    hidden_from: Float32Array,
    hidden_to: Float32Array,
) -> int:
    """Trace every ray, keep maxima by bearing; return how many stretches of water are hidden.

    Of the rays, a multiple of the bearings of hidden water, one in ``stride`` goes on beyond
    ``close_m``. Stretches past the room in ``hidden_from`` are counted, not written. ``row`` to
    ``rise_slope`` are room for a ray; ``horizon`` is NaN and ``unknown_from`` infinite before.
    """
    waters = unknown_from.shape[0]
    per_water = rays // waters
    stretches = 0
    for a in range(rays):
        bearing = 2.0 * math.pi * a / rays
        ray = aim(grid, math.sin(bearing), math.cos(bearing), radius_m, step_cells, row, col)
        last = samples_before(radius_m, ray)
        # Counted from the bearing of hidden water that it is nearest to.
        off = (a + per_water // 2) % per_water - per_water // 2
        beside = stride - 1
        if off % stride != 0:
            beside = 0
            last = min(last, samples_before(close_m, ray) + 1)
        top, rises = trace(
            ground,
            ray,
            last,
            antenna_m,
            bend,
            unknown_height_m,
            rise_range,
            rise_slope,
            unknown_m,
            math.inf,
        )
        at = int(a / rays * horizon.size + 0.5)
        if rises > 0:
            # A ray that goes on alone stands for the bearings beside it too.
            for side in range(-beside, beside + 1):
                to = (at + side + horizon.size) % horizon.size
                if not top <= horizon[to]:
                    horizon[to] = top
        at = ((a + per_water // 2) // per_water) % waters
        for code in range(UNKNOWN_CODES):
            unknown_from[at, code] = min(unknown_from[at, code], unknown_m[code])
        if off != 0:
            continue
        # Hidden water, on the exact bearings only.
        offsets[a // per_water] = stretches
        stretches = hidden_on_ray(
            ground,
            ray,
            last,
            radius_m,
            antenna_m,
            craft_m,
            bend,
            min(rises, rise_range.size),
            rise_range,
            rise_slope,
            stretches,
            hidden_from,
            hidden_to,
        )
    offsets[unknown_from.shape[0]] = stretches
    return stretches


@kernel
def _nearest_land(
    ground: Ground,
    grid: Grid,
    metres_per_cell: float,
    radius_m: float,
) -> tuple[float, float, float]:
    """Range, east and north of the nearest edge of a cell of land; range infinite without.

    ``metres_per_cell`` is a lower bound for passing over blocks.
    """
    best = math.inf
    best_east = 0.0
    best_north = 0.0
    cell, codes, free = ground.cell, ground.codes, ground.free
    reach = radius_m / metres_per_cell
    own = int(grid.row0 // BLOCK)
    low = int((grid.row0 - min(reach, grid.half_rows)) // BLOCK) - 1
    high = int((grid.row0 + min(reach, grid.half_rows)) // BLOCK) + 1
    left = max(int((grid.col0 - min(reach, grid.half_cols)) // BLOCK) - 1, 0)
    right = min(int((grid.col0 + min(reach, grid.half_cols)) // BLOCK) + 2, codes.shape[1])
    # Rows of blocks by turns above and below the antenna, the near ones first.
    for turn in range(2 * max(high - own, own - low) + 1):
        bi = own - turn // 2 if turn % 2 == 0 else own + (turn + 1) // 2
        if bi < max(low, 0) or bi > min(high, codes.shape[0] - 1):
            continue
        off_rows = max(bi * BLOCK - 1.0 - grid.row0, grid.row0 - (bi + 1) * BLOCK - 1.0, 0.0)
        if off_rows * metres_per_cell > min(best, radius_m):
            continue
        bj = left - 1
        while True:
            # Over blocks of sea alone to the next that may be another.
            bj += max(int(free[bi, bj]), 1) if bj >= left else 1
            if bj >= right:
                break
            if not codes[bi, bj] & _LAND_BIT:
                continue
            off_cols = max(bj * BLOCK - 1.0 - grid.col0, grid.col0 - (bj + 1) * BLOCK - 1.0, 0.0)
            if math.hypot(off_rows, off_cols) * metres_per_cell > min(best, radius_m):
                continue
            for i in range(bi * BLOCK, (bi + 1) * BLOCK):
                for j in range(bj * BLOCK, (bj + 1) * BLOCK):
                    if cell[i, j] != _LAND:
                        continue
                    u = (min(max(grid.row0, i - 0.5), i + 0.5) - grid.row0) / grid.half_rows
                    v = (min(max(grid.col0, j - 0.5), j + 0.5) - grid.col0) / grid.half_cols
                    if abs(u) > 1.0 or abs(v) > 1.0:
                        continue
                    east = 0.0
                    north = 0.0
                    for m in range(grid.east_of.shape[0] - 1, -1, -1):
                        east = east * u + polynomial(grid.east_of[m], v)
                        north = north * u + polynomial(grid.north_of[m], v)
                    distance = math.hypot(east, north)
                    if distance < best:
                        best = distance
                        best_east = east
                        best_north = north
    return best, best_east, best_north


def _nearest(terrain: Terrain, here: LocalMap) -> tuple[float | None, float | None]:
    range_m, east, north = _nearest_land(
        terrain.ground, here.grid, 0.9 * here.least_cell_m, here.radius_m
    )
    if range_m > here.radius_m:
        return None, None
    return range_m, wrap_360_deg(math.degrees(math.atan2(east, north)))


def sweep_polar(terrain: Terrain, position: Position, settings: SweepSettings) -> PolarSweep:
    """Sweep round a place.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    position : Position
        The antenna's place, not snapped to a cell.
    settings : SweepSettings
        Antenna height, refraction, radius, height of the craft, setting.

    Returns
    -------
    PolarSweep
        Rays are traced a cell apart at the range that ``around_m`` says (half a cell at the
        radius in the exact setting) and reduced by the greatest slope: within 12 NM no cell falls
        between them, farther out, where in the planning setting every second goes on, one may. A
        peak of one cell far off may read lower than it is: ask ``sight_of_points`` about points.
    """
    here = local_map(terrain.lattice, position, settings.radius_m)
    spacing_m = here.least_cell_m * (0.5 if settings.is_exact else 1.0)
    close_m = around_m(settings.radius_m)
    apart_m = settings.radius_m if settings.is_exact else close_m
    per_water = math.ceil(2.0 * math.pi * apart_m / spacing_m / WATER_RAYS)
    # An odd number, so that as many lie on either side of each bearing; every horizon has its own.
    per_water = max(per_water, HORIZON_RAYS // WATER_RAYS) // 2 * 2 + 1

    step_cells = _EXACT_STEP_CELLS if settings.is_exact else _PLANNING_STEP_CELLS
    order = here.grid.row_of.shape[0]
    # A ray rises at each of its samples at most.
    most = int(settings.radius_m / (_SHORTEST * step_cells * here.least_cell_m)) + 16

    def fill(room: PolarRoom) -> int:
        return _sweep(
            terrain.ground,
            here.grid,
            np.empty(order),
            np.empty(order),
            np.empty(UNKNOWN_CODES),
            np.empty(most),
            np.empty(most),
            per_water * WATER_RAYS,
            1 if settings.is_exact or close_m >= settings.radius_m else FAR_STRIDE,
            close_m,
            settings.radius_m,
            step_cells,
            settings.antenna_height_m,
            settings.craft_height_m,
            bend_of(settings),
            UNKNOWN_HEIGHT_ASSUMED_M,
            *room,
        )

    return filled(terrain, here, settings, fill)


class PolarRoom(NamedTuple):
    """Arrays that a sweep fills: as in ``PolarSweep`` and ``HiddenWater``."""

    horizon: Float32Array
    unknown_from: Float32Array
    offsets: IntArray
    hidden_from: Float32Array
    hidden_to: Float32Array


def bend_of(settings: SweepSettings) -> float:
    """1 / (2 k R), 1/m."""
    return 1.0 / (2.0 * settings.refraction_k * EARTH_RADIUS_M)


def filled(
    terrain: Terrain,
    here: LocalMap,
    settings: SweepSettings,
    fill: Callable[[PolarRoom], int],
) -> PolarSweep:
    """The sweep that ``fill`` makes; it returns how many stretches of water are hidden."""
    stretches = 16 * WATER_RAYS
    while True:
        room = PolarRoom(
            horizon=np.full(HORIZON_RAYS, np.nan, dtype=np.float32),
            unknown_from=np.full((WATER_RAYS, 3), np.inf, dtype=np.float32),
            offsets=np.empty(WATER_RAYS + 1, dtype=np.int64),
            hidden_from=np.empty(stretches, dtype=np.float32),
            hidden_to=np.empty(stretches, dtype=np.float32),
        )
        count = fill(room)
        if count <= stretches:
            break
        stretches = count
    nearest_range_m, nearest_bearing_deg = _nearest(terrain, here)
    antenna_root, craft_root = (
        math.sqrt(height / bend_of(settings))
        for height in (settings.antenna_height_m, settings.craft_height_m)
    )
    return PolarSweep(
        horizon_slope=room.horizon,
        nearest_land_range_m=nearest_range_m,
        nearest_land_bearing_deg=nearest_bearing_deg,
        hidden=HiddenWater(
            offsets=room.offsets,
            from_m=room.hidden_from[:count].copy(),
            to_m=room.hidden_to[:count].copy(),
        ),
        craft_horizon_m=antenna_root + craft_root,
        unknown_from_m=room.unknown_from,
    )
