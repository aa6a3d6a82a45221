"""The land and water that an antenna lights, cell by cell in bearing and range.

Rays are walked by ``echo_walk.py`` and summed by bearing. Within 12 NM no cell is lost between
two of them; farther out, where a quarter of a beam is wider than two of them, every second goes
on, and stands for what lies between.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import bare
from core.base.constants import EARTH_RADIUS_M
from core.coverage.coverage_result import SweepSettings
from core.coverage.echo_field import EchoField, Surface
from core.coverage.echo_walk import Kinds, Sums, Trail, walk
from core.coverage.hidden_rays import hidden_on_ray
from core.coverage.local_map import Grid, LocalMap, local_map
from core.coverage.polar import FAR_STRIDE, PolarRoom, PolarSweep, filled
from core.coverage.ray_course import aim, samples_before
from core.coverage.rays import UNKNOWN_CODES
from core.coverage.terrain import CLOSE_M, Ground, Terrain, around_m
from core.geodesy.position import Position
from core.radar.land_reflectivity import class_gamma_ratios

_STEP_CELLS = 0.5
_SPAN = math.sqrt(12.0)
_HIDDEN = int(Surface.HIDDEN)
_SEA = int(Surface.SEA)
_LAND = int(Surface.LAND)
_UNKNOWN = int(Surface.UNKNOWN)


def _no_sums(cell_m: float, cells: int, kind_cells: int) -> Sums:
    """Sums before the first ray, over ``cells`` range cells; ``kind_cells`` as many or none."""
    face, height, square, steep = (np.zeros(cells) for _ in range(4))
    water, unknown = (np.zeros(cells, dtype=np.uint8) for _ in range(2))
    known, gamma = (np.zeros(kind_cells) for _ in range(2))
    return Sums(cell_m, face, height, square, steep, water, unknown, known, gamma)


@bare
def _sweep(
    ground: Ground,
    kinds: Kinds,
    grid: Grid,
    row: FloatArray,
    col: FloatArray,
    sums: Sums,
    trail: Trail,
    rays_per_bearing: int,
    radius_m: float,
    antenna_m: float,
    bend: float,
    metric: FloatArray,
    face: Float32Array,
    height: Float32Array,
    span: Float32Array,
    steep: Float32Array,
    surface: ByteArray,
    known_face: Float32Array,
    known_gamma: Float32Array,
    craft_m: float,
    horizon: Float32Array,
    unknown_from: Float32Array,
    offsets: IntArray,
    hidden_from: Float32Array,
    hidden_to: Float32Array,
) -> int:
    """Walk every ray and sum by bearing; return how many stretches of water are hidden.

    ``row`` and ``col`` are room for a ray, ``sums`` are zero. With an empty ``horizon`` all after
    ``known_gamma`` is left alone; else it is NaN and ``unknown_from`` infinite before, bearings
    are a multiple of those of hidden water, and one ray runs on each.
    """
    bearings, cells = face.shape
    cell_m = sums.cell_m
    most = trail.rise_range.size
    wants_polar = horizon.size > 0
    stretches = 0
    # From this cell on every second ray goes on; how many.
    close = min(int(CLOSE_M / cell_m), cells)
    far_rays = (
        1 + (rays_per_bearing // 2) // FAR_STRIDE + ((rays_per_bearing - 1) // 2) // FAR_STRIDE
    )
    for b in range(bearings):
        for p in range(rays_per_bearing):
            off = (p + 0.5) / rays_per_bearing - 0.5
            bearing = 2.0 * math.pi * (b + off) / bearings
            east, north = math.sin(bearing), math.cos(bearing)
            ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
            if ray.step_m > cell_m:
                finer = _STEP_CELLS * cell_m / ray.step_m
                ray = aim(grid, east, north, radius_m, finer, row, col)
            last = samples_before(radius_m, ray)
            beside = 1 if close < cells else 0
            stop_cell = cells
            if (p - rays_per_bearing // 2) % FAR_STRIDE != 0:
                beside = 0
                stop_cell = close
                last = min(last, samples_before(close * cell_m, ray) + 1)
            for code in range(UNKNOWN_CODES):
                trail.unknown_m[code] = math.inf
            lit = walk(
                ground, ray, last, antenna_m, 0.0, bend, metric, kinds, sums, trail, 0.0,
                stop_cell, math.inf, math.inf,
            )  # fmt: skip
            if not wants_polar:
                continue
            turn = (b + off) / bearings
            at = int(turn * horizon.size + horizon.size + 0.5) % horizon.size
            if lit.rises > 0:
                # A ray that goes on alone stands for the bearings beside it too.
                for side in range(-beside, beside + 1):
                    to = (at + side + horizon.size) % horizon.size
                    if not lit.slope_ratio <= horizon[to]:
                        horizon[to] = lit.slope_ratio
            waters = unknown_from.shape[0]
            at = int(turn * waters + waters + 0.5) % waters
            for code in range(UNKNOWN_CODES):
                unknown_from[at, code] = min(unknown_from[at, code], trail.unknown_m[code])
            if 2 * p + 1 == rays_per_bearing and b % (bearings // waters) == 0:
                offsets[at] = stretches
                stretches = hidden_on_ray(
                    ground,
                    ray,
                    last,
                    radius_m,
                    antenna_m,
                    craft_m,
                    bend,
                    min(lit.rises, most),
                    trail.rise_range,
                    trail.rise_slope,
                    stretches,
                    hidden_from,
                    hidden_to,
                )
        for n in range(cells):
            surface[b, n] = _SEA if sums.water[n] else _HIDDEN
            if sums.unknown[n]:
                surface[b, n] = _UNKNOWN
            sums.water[n] = 0
            sums.unknown[n] = 0
        for n in range(cells):
            whole = sums.face[n]
            face[b, n] = 0.0
            height[b, n] = math.nan
            span[b, n] = math.nan
            steep[b, n] = math.nan
            if whole == 0.0:
                continue
            mean = sums.height[n] / whole
            spread = max(sums.square[n] / whole - mean * mean, 0.0)
            face[b, n] = whole / (rays_per_bearing if n < close else far_rays)
            height[b, n] = mean
            span[b, n] = _SPAN * math.sqrt(spread)
            steep[b, n] = sums.steep[n] / whole
            if surface[b, n] != _UNKNOWN:
                surface[b, n] = _LAND
            # Ready for the next bearing.
            sums.face[n] = 0.0
            sums.height[n] = 0.0
            sums.square[n] = 0.0
            sums.steep[n] = 0.0
        for n in range(sums.known.size):
            known_face[b, n] = sums.known[n] / (rays_per_bearing if n < close else far_rays)
            known_gamma[b, n] = sums.gamma[n] / sums.known[n] if sums.known[n] > 0.0 else math.nan
            sums.known[n] = 0.0
            sums.gamma[n] = 0.0
    if wants_polar:
        offsets[unknown_from.shape[0]] = stretches
    return stretches


def sweep_echo(
    terrain: Terrain,
    position: Position,
    *,
    antenna_height_m: float,
    refraction_k: float,
    radius_m: float,
    cell_m: float,
    bearing_count: int,
) -> EchoField:
    """Find what an antenna lights round a place.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    position : Position
        The antenna's place, not snapped to a cell.
    antenna_height_m : float
        Above the water now, m, > 0.
    refraction_k : float
        Effective Earth radius factor, bare.
    radius_m : float
        How far to look, m.
    cell_m : float
        Depth of a range cell, m, > 0; rays are sampled no coarser than this, nor than half a cell
        of the lattice.
    bearing_count : int
        Bearings of the result. Between them rays are traced a cell of the lattice apart
        (``terrain.around_m``), and summed.

    Returns
    -------
    EchoField
        The surface of a cell is unknown if it is so on any of its rays, else land if land is in
        sight on any, else sea.
    """
    none = np.empty(0, dtype=np.float32)
    no_room = PolarRoom(none, np.empty((0, 3), dtype=np.float32), np.empty(0, np.int64), none, none)
    look = _Look(
        terrain=terrain,
        here=local_map(terrain.lattice, position, radius_m),
        antenna_height_m=antenna_height_m,
        refraction_k=refraction_k,
        cell_m=cell_m,
        bearing_count=bearing_count,
    )
    return look.fill(look.rays_per_bearing, 0.0, no_room)[0]


def sweep_lit(
    terrain: Terrain,
    position: Position,
    settings: SweepSettings,
    *,
    cell_m: float,
    bearing_count: int,
) -> tuple[EchoField, PolarSweep]:
    """The echo field and the polar sweep of a place by the same rays.

    As ``sweep_echo`` and ``sweep_polar``, but for two things: rays lie where those of the field
    do, and land counts for the horizon where it stands over the water's horizon before it.
    ``bearing_count`` must be a multiple of 720.
    """
    look = _Look(
        terrain=terrain,
        here=local_map(terrain.lattice, position, settings.radius_m),
        antenna_height_m=settings.antenna_height_m,
        refraction_k=settings.refraction_k,
        cell_m=cell_m,
        bearing_count=bearing_count,
    )
    # An odd number, so that one ray runs on the bearing itself.
    rays = look.rays_per_bearing // 2 * 2 + 1
    fields: list[EchoField] = []

    def fill(room: PolarRoom) -> int:
        field, count = look.fill(rays, settings.craft_height_m, room)
        fields.append(field)
        return count

    polar = filled(terrain, look.here, settings, fill)
    return fields[-1], polar


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """What is common to both."""

    terrain: Terrain
    here: LocalMap
    antenna_height_m: float
    refraction_k: float
    cell_m: float
    bearing_count: int

    @property
    def rays_per_bearing(self) -> int:
        """So many that they lie a cell apart where ``around_m`` says."""
        apart_m = around_m(self.here.radius_m)
        return math.ceil(2.0 * math.pi * apart_m / self.here.least_cell_m / self.bearing_count)

    def fill(self, rays_per_bearing: int, craft_m: float, room: PolarRoom) -> tuple[EchoField, int]:
        """Walk all rays; the field, and how many stretches of water are hidden."""
        terrain, here = self.terrain, self.here
        shape = (self.bearing_count, math.ceil(here.radius_m / self.cell_m - 1e-9))
        face_m, height_m, span_m, steepness = (np.empty(shape, dtype=np.float32) for _ in range(4))
        surface = np.empty(shape, dtype=np.uint8)
        has_kinds = terrain.kinds.size > 0
        known = [np.empty(shape if has_kinds else (0, 0), dtype=np.float32) for _ in range(2)]
        order = here.grid.row_of.shape[0]
        most = shape[1] * 8 + 64 if room.horizon.size else 0
        count = _sweep(
            terrain.ground,
            Kinds(terrain.kinds, class_gamma_ratios()),
            here.grid,
            np.empty(order),
            np.empty(order),
            _no_sums(self.cell_m, shape[1], shape[1] if has_kinds else 0),
            Trail(np.empty(most), np.empty(most), np.empty(UNKNOWN_CODES)),
            rays_per_bearing,
            here.radius_m,
            self.antenna_height_m,
            1.0 / (2.0 * self.refraction_k * EARTH_RADIUS_M),
            ground_metric(here),
            face_m,
            height_m,
            span_m,
            steepness,
            surface,
            known[0],
            known[1],
            craft_m,
            room.horizon,
            room.unknown_from,
            room.offsets,
            room.hidden_from,
            room.hidden_to,
        )
        field = EchoField(
            cell_m=self.cell_m,
            radius_m=here.radius_m,
            antenna_height_m=self.antenna_height_m,
            refraction_k=self.refraction_k,
            face_m=face_m,
            height_m=height_m,
            span_m=span_m,
            steepness=steepness,
            surface=surface,
            known_face_m=known[0] if has_kinds else None,
            known_gamma=known[1] if has_kinds else None,
        )
        return field, count


def ground_metric(here: LocalMap) -> FloatArray:
    """Inverse metric of the lattice at the antenna, 1/m2; elsewhere within some 2 % of that."""
    reach = np.array(
        [
            [here.east_of[1, 0] / here.half_rows, here.east_of[0, 1] / here.half_cols],
            [here.north_of[1, 0] / here.half_rows, here.north_of[0, 1] / here.half_cols],
        ]
    )
    return np.asarray(np.linalg.inv(reach.T @ reach), np.float64)
