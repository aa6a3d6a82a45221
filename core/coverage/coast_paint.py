"""Where the coast paints: at the waterline, farther in, or not at all, from one viewpoint.

The painted edge is the first range cell at or behind a point of the coast, on its bearing and on
the same run of land, in which land is in sight and the echo is strong enough. A cliff paints at
the waterline, a beach where its ground has risen far enough, and both move with the water
(handbook 8). What stands behind gaps in the heights is unknown.
"""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import kernel
from core.coverage.coast_cells import coast_round, points_near
from core.coverage.coverage_result import CoastPaint, PaintedCoast
from core.coverage.echo_field import Surface
from core.coverage.land_echo import LandEcho
from core.coverage.local_map import Grid, local_map
from core.coverage.ray_course import aim, leg_from
from core.coverage.rays import is_inside
from core.coverage.sight import DEFAULT_INLAND_M
from core.coverage.terrain import Ground, Terrain
from core.geodesy.position import Position
from core.land.coast import CoastPoints
from core.land.land_model import Cell

_STEP_CELLS = 0.5
_COAST_M = 100.0
_WATER_GAP_CELLS = 2.5
"""Water of two cells, seen in half-cell steps, does not end a run of land."""

_SEA_CELL = int(Cell.SEA)
_LAND = int(Surface.LAND)
_UNKNOWN_SURFACE = int(Surface.UNKNOWN)


_UNPAINTED = int(CoastPaint.UNPAINTED)
_PAINTED = int(CoastPaint.PAINTED)
_BEHIND = int(CoastPaint.PAINTED_BEHIND)
_OUTSIDE = int(CoastPaint.OUTSIDE)
_UNKNOWN = int(CoastPaint.UNKNOWN)


@kernel
def _paint(
    ground: Ground,
    grid: Grid,
    surface: ByteArray,
    face_m: Float32Array,
    margin_db: Float32Array,
    cell_m: float,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    radius_m: float,
    inland_limit_m: float,
    state: ByteArray,
    inland_m: Float32Array,
    best_db: Float32Array,
) -> None:
    """Walk in from each point of the coast; fill the three outputs."""
    cell, codes = ground.cell, ground.codes
    bearings, cells = surface.shape
    row = np.empty(grid.row_of.shape[0])
    col = np.empty(grid.row_of.shape[0])
    for p in range(range_m.size):
        inland_m[p] = np.nan
        best_db[p] = np.nan
        state[p] = _OUTSIDE
        distance = range_m[p]
        if not distance <= radius_m:
            continue
        state[p] = _UNPAINTED
        b = int(bearing_rad[p] / (2.0 * math.pi) * bearings + 0.5) % bearings
        east, north = math.sin(bearing_rad[p]), math.cos(bearing_rad[p])
        ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
        window_m = max(ray.cell_m, _COAST_M)
        limit_m = min(distance + max(inland_limit_m, window_m), radius_m)
        ashore_m = distance
        k = max(int((distance - 0.5 * ray.cell_m) / ray.step_m), 1)
        done = int(k * ray.step_m / cell_m) - 1
        until = -1
        y0 = x0 = dy = dx = 0.0
        while k * ray.step_m <= limit_m:
            r = k * ray.step_m
            if k >= until:
                # A leg of the ray, straight in the lattice.
                until = k + ray.leg
                y0, x0, dy, dx = leg_from(row, col, ray.scale_m, ray.step_m, ray.leg, k)
            y = y0 + (k - until + ray.leg) * dy
            x = x0 + (k - until + ray.leg) * dx
            k += 1
            if not is_inside(codes, y, x):
                break
            if cell[int(y + 0.5), int(x + 0.5)] != _SEA_CELL:
                ashore_m = r
            elif r > distance + window_m and r - ashore_m > _WATER_GAP_CELLS * ray.cell_m:
                break
            # Every range cell once, up to the one this sample lies in.
            upto = min(int(r / cell_m), cells - 1)
            for n in range(done + 1, upto + 1):
                if surface[b, n] == _UNKNOWN_SURFACE:
                    if state[p] == _UNPAINTED:
                        state[p] = _UNKNOWN
                elif surface[b, n] == _LAND and face_m[b, n] > 0.0:
                    if not margin_db[b, n] <= best_db[p]:
                        best_db[p] = margin_db[b, n]
                    if state[p] == _UNPAINTED and margin_db[b, n] >= 0.0:
                        inland = max(n * cell_m - distance, 0.0)
                        inland_m[p] = inland
                        state[p] = _PAINTED if inland <= window_m else _BEHIND
                        best_db[p] = margin_db[b, n]
                        limit_m = min(limit_m, distance + inland + window_m)
            done = max(done, upto)


def painted_coast(
    terrain: Terrain,
    points: CoastPoints,
    position: Position,
    echo: LandEcho,
    *,
    inland_limit_m: float = DEFAULT_INLAND_M,
) -> PaintedCoast:
    """Find the painted edge at and behind every point of the coast within the radius.

    Parameters
    ----------
    terrain : Terrain
        Land made ready, the same the echo was lit from.
    points : CoastPoints
        The coast.
    position : Position
        The antenna's place, the same the echo was lit from.
    echo : LandEcho
        What comes in, cell by cell.
    inland_limit_m : float
        How far in behind a point its painted edge is looked for, m.
    """
    field = echo.field
    near = points_near(points, position, field.radius_m)
    state = np.full(near.size, CoastPaint.OUTSIDE, dtype=np.uint8)
    inland_m = np.full(near.size, np.nan, dtype=np.float32)
    margin_db = np.full(near.size, np.nan, dtype=np.float32)
    if near.any():
        here = local_map(terrain.lattice, position, field.radius_m)
        coast = coast_round(points, terrain.lattice, position, field.radius_m)
        range_m = coast.range_m
        found = (
            np.empty(range_m.size, dtype=np.uint8),
            np.empty(range_m.size, dtype=np.float32),
            np.empty(range_m.size, dtype=np.float32),
        )
        _paint(
            terrain.ground,
            here.grid,
            field.surface,
            field.face_m,
            echo.margin_db,
            field.cell_m,
            range_m,
            coast.bearing_rad,
            field.radius_m,
            inland_limit_m,
            *found,
        )
        state[near], inland_m[near], margin_db[near] = found
    return _summed(points, state, inland_m, margin_db)


def painted_beside(
    points: CoastPoints, coast_state: ByteArray, on_track: PaintedCoast
) -> PaintedCoast:
    """The painted coast from a corridor edge, by its own lines of sight and the track's echo.

    What land hides differs from the track to the edge beside it; how strongly land in sight
    echoes hardly does. So a point in sight from the edge that did not paint from the track does
    not paint from the edge either, and everything else follows the edge's own sight.

    Parameters
    ----------
    points : CoastPoints
        The coast.
    coast_state : (n,) uint8
        ``CoastState`` codes from the corridor edge.
    on_track : PaintedCoast
        From the viewpoint on the track at the same distance along.
    """
    state = coast_state.copy()
    weak = np.isin(on_track.state, (CoastPaint.UNPAINTED, CoastPaint.PAINTED_BEHIND))
    weak &= coast_state == CoastPaint.PAINTED
    state[weak] = on_track.state[weak]
    shows = np.isin(state, (CoastPaint.PAINTED, CoastPaint.PAINTED_BEHIND))
    inland_m = np.where(shows, on_track.inland_m, np.float32(np.nan)).astype(np.float32)
    return _summed(points, state, inland_m, on_track.margin_db.copy())


def _summed(
    points: CoastPoints, state: ByteArray, inland_m: Float32Array, margin_db: Float32Array
) -> PaintedCoast:
    """Points with their shares by length."""
    length_m = points.length_m
    whole_m = float(length_m[state != CoastPaint.OUTSIDE].sum())
    paints = np.isfinite(inland_m)
    painting_m = float(length_m[paints].sum())

    def share(of: CoastPaint) -> float | None:
        return float(length_m[state == of].sum()) / whole_m if whole_m > 0.0 else None

    return PaintedCoast(
        state=state,
        inland_m=inland_m,
        margin_db=margin_db,
        painted_fraction=share(CoastPaint.PAINTED),
        behind_fraction=share(CoastPaint.PAINTED_BEHIND),
        first_paint_inland_m=(
            float(np.average(inland_m[paints].astype(np.float64), weights=length_m[paints]))
            if painting_m > 0.0
            else None
        ),
    )
