"""The land and water that an antenna lights, cell by cell in bearing and range.

Rays are walked by ``echo_walk.py`` and summed by bearing. Between two of them no cell is lost,
for they lie no more than a cell of the lattice apart at the radius.
"""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import kernel
from core.base.constants import EARTH_RADIUS_M
from core.coverage.echo_field import EchoField, Surface
from core.coverage.echo_walk import UNLIT, Kinds, Sums, end_walk, walk_on
from core.coverage.local_map import Grid, LocalMap, local_map
from core.coverage.rays import aim, coarser_ray, samples_before
from core.coverage.terrain import Scape, Terrain, around_m
from core.geodesy.position import Position
from core.radar.land_reflectivity import class_gamma_ratios

_STEP_CELLS = 0.5
_SPAN = math.sqrt(12.0)
_HIDDEN = int(Surface.HIDDEN)
_SEA = int(Surface.SEA)
_LAND = int(Surface.LAND)
_UNKNOWN = int(Surface.UNKNOWN)


@kernel
def _sweep(
    scape: Scape,
    grid: Grid,
    rays_per_bearing: int,
    radius_m: float,
    cell_m: float,
    antenna_m: float,
    bend: float,
    metric: FloatArray,
    gamma: FloatArray,
    face: Float32Array,
    height: Float32Array,
    span: Float32Array,
    steep: Float32Array,
    surface: ByteArray,
    known_face: Float32Array,
    known_gamma: Float32Array,
) -> None:
    """Walk every ray and sum by bearing."""
    bearings, cells = face.shape
    near_kinds = Kinds(scape.near_kinds, gamma)
    far_kinds = Kinds(scape.far_kinds, gamma)
    far_metric = 0.25 * metric
    near_ground, far_ground = scape.near, scape.far
    row = np.empty(grid.row_of.shape[0])
    col = np.empty(grid.row_of.shape[0])
    far_row = np.empty(row.size)
    far_col = np.empty(row.size)
    sums = Sums(
        cell_m,
        np.empty(cells),
        np.empty(cells),
        np.empty(cells),
        np.empty(cells),
        np.empty(cells, dtype=np.uint8),
        np.empty(cells, dtype=np.uint8),
        np.empty(known_face.shape[1]),
        np.empty(known_face.shape[1]),
    )
    for b in range(bearings):
        sums.face[:] = 0.0
        sums.height[:] = 0.0
        sums.square[:] = 0.0
        sums.steep[:] = 0.0
        sums.water[:] = 0
        sums.unknown[:] = 0
        sums.known[:] = 0.0
        sums.gamma[:] = 0.0
        for p in range(rays_per_bearing):
            off = (p + 0.5) / rays_per_bearing - 0.5
            bearing = 2.0 * math.pi * (b + off) / bearings
            east, north = math.sin(bearing), math.cos(bearing)
            ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
            if ray.step_m > cell_m:
                finer = _STEP_CELLS * cell_m / ray.step_m
                ray = aim(grid, east, north, radius_m, finer, row, col)
            last = samples_before(radius_m, ray)
            near = min(last, samples_before(min(scape.split_m, radius_m), ray))
            lit = walk_on(
                near_ground, ray, 1, near, antenna_m, 0.0, bend, metric, near_kinds, UNLIT, sums
            )
            if last > near + 1:
                lit = walk_on(
                    far_ground,
                    coarser_ray(ray, far_row, far_col),
                    near // 2 + 1,
                    last // 2,
                    antenna_m,
                    0.0,
                    bend,
                    far_metric,
                    far_kinds,
                    lit,
                    sums,
                )
            end_walk(lit, (last + 1) * ray.step_m, antenna_m, bend, sums)
        for n in range(cells):
            whole = sums.face[n]
            if whole > 0.0:
                mean = sums.height[n] / whole
                spread = max(sums.square[n] / whole - mean * mean, 0.0)
                face[b, n] = whole / rays_per_bearing
                height[b, n] = mean
                span[b, n] = _SPAN * math.sqrt(spread)
                steep[b, n] = sums.steep[n] / whole
                surface[b, n] = _LAND
            else:
                face[b, n] = 0.0
                height[b, n] = np.nan
                span[b, n] = np.nan
                steep[b, n] = np.nan
                surface[b, n] = _SEA if sums.water[n] else _HIDDEN
            if sums.unknown[n]:
                surface[b, n] = _UNKNOWN
        for n in range(sums.known.size):
            known_face[b, n] = sums.known[n] / rays_per_bearing
            known_gamma[b, n] = sums.gamma[n] / sums.known[n] if sums.known[n] > 0.0 else np.nan


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
        Bearings of the result. Between them rays are traced no more than a cell of the lattice
        apart at the radius, and summed.

    Returns
    -------
    EchoField
        The surface of a cell is unknown if it is so on any of its rays, else land if land is in
        sight on any, else sea.
    """
    here = local_map(terrain.lattice, position, radius_m)
    shape = (bearing_count, math.ceil(radius_m / cell_m - 1e-9))
    face_m, height_m, span_m, steepness = (np.empty(shape, dtype=np.float32) for _ in range(4))
    surface = np.empty(shape, dtype=np.uint8)
    has_kinds = terrain.kinds.size > 0
    known = [np.empty(shape if has_kinds else (0, 0), dtype=np.float32) for _ in range(2)]
    scape = terrain.scape
    _sweep(
        scape,
        here.grid,
        math.ceil(2.0 * math.pi * around_m(scape, radius_m) / here.least_cell_m / bearing_count),
        radius_m,
        cell_m,
        antenna_height_m,
        1.0 / (2.0 * refraction_k * EARTH_RADIUS_M),
        ground_metric(here),
        class_gamma_ratios(),
        face_m,
        height_m,
        span_m,
        steepness,
        surface,
        *known,
    )
    return EchoField(
        cell_m=cell_m,
        radius_m=radius_m,
        antenna_height_m=antenna_height_m,
        refraction_k=refraction_k,
        face_m=face_m,
        height_m=height_m,
        span_m=span_m,
        steepness=steepness,
        surface=surface,
        known_face_m=known[0] if has_kinds else None,
        known_gamma=known[1] if has_kinds else None,
    )


def ground_metric(here: LocalMap) -> FloatArray:
    """Inverse metric of the lattice at the antenna, 1/m2; elsewhere within some 2 % of that."""
    reach = np.array(
        [
            [here.east_of[1, 0] / here.half_rows, here.east_of[0, 1] / here.half_cols],
            [here.north_of[1, 0] / here.half_rows, here.north_of[0, 1] / here.half_cols],
        ]
    )
    return np.asarray(np.linalg.inv(reach.T @ reach), np.float64)
