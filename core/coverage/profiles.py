"""Line of sight between two points over one or two elevation grids, many pairs at a time.

A path is the geodesic between its ends, followed as a parabola in rows and columns of each grid
(through both ends and the middle; the error is below a metre at 60 NM). The heights under it
are bilinear between cell centres. Blocks whose greatest height stays under the line of sight
are passed over whole.
"""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from core.base.arrays import (
    BoolArray,
    ByteArray,
    Float32Array,
    FloatArray,
    HoldsArrays,
)
from core.base.compiled import inlined, kernel
from core.base.constants import EARTH_RADIUS_M, UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Terrain, prepare_terrain
from core.geodesy import geodesic
from core.land.land_model import Cell, LandModel

_BEYOND_BIT = 1 << Cell.BEYOND
_BEYOND = int(Cell.BEYOND)
_STEP_CELLS = 0.25


class PairState(IntEnum):
    """How one point stands to another."""

    HIDDEN_BY_LAND = 0
    IN_SIGHT = 1
    HIDDEN_IF_UNKNOWN_IS_HIGH = 2
    """Unknown heights inside the declared area, taken as 50 m, hide it."""
    BELOW_HORIZON = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs(HoldsArrays):
    """Pairs of an antenna and a target, arrays (n,).

    ``margin_m`` is the last part of each path that is not looked at: it belongs to the target.
    """

    from_lat_deg: FloatArray
    from_lon_deg: FloatArray
    to_lat_deg: FloatArray
    to_lon_deg: FloatArray
    to_height_m: FloatArray
    margin_m: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PairSight(HoldsArrays):
    """What became of pairs, arrays (n,).

    state : uint8, ``PairState``
    range_m, bearing_deg : from the antenna
    passes_unknown : whether heights outside the declared area lie on the path; taken as sea
    blocker_range_m, blocker_height_m : the land that hides, 0 where none does
    """

    state: ByteArray
    range_m: FloatArray
    bearing_deg: FloatArray
    passes_unknown: BoolArray
    blocker_range_m: FloatArray
    blocker_height_m: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """An elevation grid made ready for paths."""

    terrain: Terrain
    rows: int
    """Rows and columns of data inside the terrain's frame."""
    cols: int
    cell_m: float
    """Shorter side of the cell in the middle, m."""


def grid_of(land: LandModel, terrain: Terrain | None = None) -> Grid:
    """Make a land model ready; its terrain is used where it exists already."""
    lattice = land.lattice
    row, col = lattice.rows / 2.0, lattice.cols / 2.0
    lat, lon = lattice.lat_lon(np.array([row, row + 1.0, row]), np.array([col, col, col + 1.0]))
    distance, _bearing, _final = geodesic.inverse(
        from_lat_deg=lat[0], from_lon_deg=lon[0], to_lat_deg=lat[1:], to_lon_deg=lon[1:]
    )
    return Grid(
        terrain=terrain if terrain is not None else prepare_terrain(land),
        rows=lattice.rows,
        cols=lattice.cols,
        cell_m=float(distance.min()),
    )


def horizon_distance_m(
    antenna_height_m: float, target_height_m: FloatArray | float, refraction_k: float
) -> FloatArray:
    """Greatest range over open sea at which a target clears the horizon, m.

    sqrt(2 k R) (sqrt(antenna) + sqrt(target)); handbook 1.1, 2.2256 NM a root metre at k 4/3.
    """
    reach = np.sqrt(2.0 * refraction_k * EARTH_RADIUS_M)
    height = np.maximum(np.asarray(target_height_m, np.float64), 0.0)
    return np.asarray(reach * (np.sqrt(antenna_height_m) + np.sqrt(height)))


def sight_of_pairs(
    pairs: Pairs,
    fine: Grid,
    coarse: Grid | None,
    *,
    antenna_height_m: float,
    refraction_k: float,
    find_worst: bool = False,
) -> PairSight:
    """Work out which pairs see each other.

    Parameters
    ----------
    pairs : Pairs
        Antenna places and targets.
    fine, coarse : Grid, Grid or None
        The grid of the land model, and a grid used outside it. Outside both nothing is known.
    antenna_height_m : float
        Above the water now, m, > 0.
    refraction_k : float
        Effective Earth radius factor, bare.
    find_worst : bool
        Name the land that hides most, instead of stopping at the first that hides.
    """
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=pairs.from_lat_deg,
        from_lon_deg=pairs.from_lon_deg,
        to_lat_deg=pairs.to_lat_deg,
        to_lon_deg=pairs.to_lon_deg,
    )
    middle_lat, middle_lon, _bearing = geodesic.direct(
        lat_deg=pairs.from_lat_deg,
        lon_deg=pairs.from_lon_deg,
        bearing_deg=bearing_deg,
        distance_m=range_m / 2.0,
    )
    places = (
        (pairs.from_lat_deg, pairs.from_lon_deg),
        (middle_lat, middle_lon),
        (pairs.to_lat_deg, pairs.to_lon_deg),
    )
    second = coarse if coarse is not None else fine
    count = range_m.size
    state = np.zeros(count, dtype=np.uint8)
    passes = np.zeros(count, dtype=np.bool_)
    blocker = np.zeros((count, 2), dtype=np.float64)
    _trace_all(
        fine.terrain.heights_m,
        fine.terrain.cell,
        fine.terrain.block_highest_m,
        fine.terrain.block_codes,
        (fine.rows, fine.cols),
        _parabolas(fine.terrain, places),
        fine.cell_m,
        second.terrain.heights_m,
        second.terrain.cell,
        second.terrain.block_highest_m,
        second.terrain.block_codes,
        (second.rows, second.cols),
        _parabolas(second.terrain, places),
        second.cell_m,
        coarse is not None,
        range_m,
        pairs.to_height_m,
        pairs.margin_m,
        antenna_height_m,
        1.0 / (2.0 * refraction_k * EARTH_RADIUS_M),
        find_worst,
        state,
        passes,
        blocker,
    )
    return PairSight(
        state=state,
        range_m=range_m,
        bearing_deg=bearing_deg,
        passes_unknown=passes,
        blocker_range_m=blocker[:, 0].copy(),
        blocker_height_m=blocker[:, 1].copy(),
    )


def _parabolas(terrain: Terrain, places: tuple[tuple[FloatArray, FloatArray], ...]) -> FloatArray:
    """Rows and columns along paths as a + b t + c t^2, t from 0 to 1: (n, 6) array."""
    (row0, col0), (row1, col1), (row2, col2) = (
        terrain.lattice.row_col(lat, lon) for lat, lon in places
    )
    return np.ascontiguousarray(
        np.stack(
            [
                row0,
                4.0 * row1 - 3.0 * row0 - row2,
                2.0 * (row0 + row2) - 4.0 * row1,
                col0,
                4.0 * col1 - 3.0 * col0 - col2,
                2.0 * (col0 + col2) - 4.0 * col1,
            ],
            axis=1,
        )
    )


@inlined
def _height(heights: Float32Array, cell: ByteArray, row: float, col: float) -> tuple[float, int]:
    """Height between four cells and the worst code among unknown ones (0 where all are known).

    Unknown cells inside the declared area stand 50 m high, those outside it count as sea.
    """
    i, j = int(row), int(col)
    u, v = row - i, col - j
    total = 0.0
    worst = 0
    for k in range(4):
        a, b = i + k // 2, j + k % 2
        weight = (u if k // 2 else 1.0 - u) * (v if k % 2 else 1.0 - v)
        z = float(heights[a, b])
        if z != z:
            code = int(cell[a, b])
            z = 0.0 if code == _BEYOND else UNKNOWN_HEIGHT_ASSUMED_M
            if weight > 0.0 and (worst == 0 or code < worst):
                worst = code
        total += weight * z
    return total, worst


@inlined
def _inside(size: tuple[int, int], row: float, col: float) -> bool:
    """Whether a place lies between the data's cell centres; the first one is row 1, column 1."""
    return bool(1.0 <= row <= size[0] and 1.0 <= col <= size[1])


@inlined
def _exit_m(row: float, col: float, row_per_m: float, col_per_m: float) -> float:
    """Distance along the path to the edge of the block that a place lies in."""
    ahead = 1e12
    for place, per_m in ((row, row_per_m), (col, col_per_m)):
        low = float(int(place) // BLOCK * BLOCK)
        if per_m > 1e-12:
            ahead = min(ahead, (low + BLOCK - place) / per_m)
        elif per_m < -1e-12:
            ahead = min(ahead, (low - place) / per_m)
    return ahead


@kernel
def _trace_all(
    heights: Float32Array,
    cell: ByteArray,
    highest: Float32Array,
    codes: ByteArray,
    size: tuple[int, int],
    paths: FloatArray,
    cell_m: float,
    heights2: Float32Array,
    cell2: ByteArray,
    highest2: Float32Array,
    codes2: ByteArray,
    size2: tuple[int, int],
    paths2: FloatArray,
    cell2_m: float,
    has_second: bool,
    range_m: FloatArray,
    to_height_m: FloatArray,
    margin_m: FloatArray,
    antenna_m: float,
    drop_per_m2: float,
    find_worst: bool,
    state: ByteArray,
    passes: BoolArray,
    blocker: FloatArray,
) -> None:
    for p in range(range_m.size):
        whole = range_m[p]
        horizon_m = np.sqrt(antenna_m / drop_per_m2) + np.sqrt(
            max(to_height_m[p], 0.0) / drop_per_m2
        )
        if whole > horizon_m:
            state[p] = 3
            continue
        state[p] = 1
        if whole <= 0.0:
            continue
        # The line of sight runs at antenna + bar x + drop x^2 over the sea; the bar starts as
        # the slope of the target and rises to the slope of whatever hides it.
        bar = (to_height_m[p] - antenna_m) / whole - drop_per_m2 * whole
        end = whole - margin_m[p]
        is_hidden = False
        x = cell_m
        while x <= end:
            t = x / whole
            row = paths[p, 0] + t * (paths[p, 1] + t * paths[p, 2])
            col = paths[p, 3] + t * (paths[p, 4] + t * paths[p, 5])
            is_fine = _inside(size, row, col)
            is_coarse = False
            step = _STEP_CELLS * cell_m
            bits = 0
            top = 0.0
            ahead = 0.0
            if is_fine:
                bits = int(codes[int(row) // BLOCK, int(col) // BLOCK])
                top = float(highest[int(row) // BLOCK, int(col) // BLOCK])
                ahead = _exit_m(
                    row,
                    col,
                    (paths[p, 1] + 2.0 * t * paths[p, 2]) / whole,
                    (paths[p, 4] + 2.0 * t * paths[p, 5]) / whole,
                )
            elif has_second:
                row = paths2[p, 0] + t * (paths2[p, 1] + t * paths2[p, 2])
                col = paths2[p, 3] + t * (paths2[p, 4] + t * paths2[p, 5])
                is_coarse = _inside(size2, row, col)
                if is_coarse:
                    step = _STEP_CELLS * cell2_m
                    bits = int(codes2[int(row) // BLOCK, int(col) // BLOCK])
                    top = float(highest2[int(row) // BLOCK, int(col) // BLOCK])
                    ahead = _exit_m(
                        row,
                        col,
                        (paths2[p, 1] + 2.0 * t * paths2[p, 2]) / whole,
                        (paths2[p, 4] + 2.0 * t * paths2[p, 5]) / whole,
                    )
            if not is_fine and not is_coarse:
                passes[p] = True
                x += 2.0 * cell_m
                continue
            if bits & UNKNOWN_BITS & ~_BEYOND_BIT:
                top = max(top, UNKNOWN_HEIGHT_ASSUMED_M)
            # Lowest point of the line of sight within the block; it sags at -bar / (2 drop).
            low = min(max(-bar / (2.0 * drop_per_m2), x), x + ahead)
            is_searched = bool(bits & _BEYOND_BIT) and not passes[p]
            if top <= antenna_m + low * (bar + low * drop_per_m2) and not is_searched:
                x += max(ahead, 0.0) + 0.01 * step
                continue
            if is_fine:
                z, unknown = _height(heights, cell, row, col)
            else:
                z, unknown = _height(heights2, cell2, row, col)
            if unknown == _BEYOND:
                passes[p] = True
            if z > antenna_m + x * (bar + x * drop_per_m2) + 1e-9 * x:
                is_known = unknown == 0 or unknown == _BEYOND
                # Unknown heights never raise the bar: known land behind them may hide as well.
                if is_known:
                    bar = (z - antenna_m) / x - drop_per_m2 * x
                if is_known or not is_hidden:
                    blocker[p, 0] = x
                    blocker[p, 1] = z
                state[p] = 0 if is_known or (is_hidden and state[p] == 0) else 2
                is_hidden = True
                if not find_worst:
                    break
            x += step
