"""Summits that come in sight from far off; for recognition, never to index on."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import Float32Array, FloatArray, IntArray
from core.base.memory import NOTHING_KEPT, Memory
from core.geodesy.position import Bounds, Position, bounds_of
from core.land.land_model import LandModel
from core.land.lattice import Lattice
from core.land.sources import HeightSource
from core.passage.passage import Passage
from core.plan.shore import metres_from

_CELL_M = 1_000.0
_APART_M = 6_000.0
_LEAST_HEIGHT_M = 60.0
_MOST_PEAKS = 12
_PAD_DEG = 0.75
"""About 45 NM, the range at which land of 300 m clears the horizon of a 25 m antenna."""
_STEP_DEG = 0.1
"""The box is widened to whole steps, so that a waypoint moved a little finds the same summits."""

Heights = FloatArray | Float32Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """A summit."""

    position: Position
    height_m: float


def peaks_of(
    passage: Passage,
    land: LandModel,
    heights: HeightSource | None,
    memory: Memory = NOTHING_KEPT,
) -> tuple[Peak, ...]:
    """The highest summits round a passage, each the highest within three miles.

    Looked for in the land model, and where there are elevation files about 45 NM round it in
    cells of a kilometre.
    """
    box = None
    if heights is not None:
        positions = tuple(waypoint.position for waypoint in passage.waypoints)
        box = bounds_of(positions)
        highest = min(max(abs(box.south_deg), abs(box.north_deg)) + _PAD_DEG, 85.0)
        box = box.padded(lat_deg=_PAD_DEG, lon_deg=_PAD_DEG / np.cos(np.radians(highest)))
        box = box.outward(_STEP_DEG)
    # Heights are those of the land, whose files are known by it.
    return memory.of(("peaks", land, box), lambda: _highest(land, heights, box))


def _highest(land: LandModel, heights: HeightSource | None, box: Bounds | None) -> tuple[Peak, ...]:
    found = _summits(land.lattice, land.heights_m)
    if heights is not None and box is not None:
        window = heights.window(box, _CELL_M)
        above = np.asarray(window.heights_m, dtype=np.float64) - land.water_level_m
        found += _summits(window.lattice, above)
    found.sort(key=lambda p: (-p.height_m, p.position.lat_deg, p.position.lon_deg))
    kept: list[Peak] = []
    for peak in found:
        if len(kept) == _MOST_PEAKS:
            break
        if all(_apart_m(peak, other) >= _APART_M for other in kept):
            kept.append(peak)
    return tuple(kept)


def _summits(lattice: Lattice, heights_m: Heights) -> list[Peak]:
    """The highest cell of every block that no neighbouring block overtops."""
    side = max(1, round(_APART_M / 2.0 / _cell_m(lattice)))
    rows, cols = heights_m.shape
    # Block by block down, then across: no copy of the heights is made.
    down = np.fmax.reduceat(heights_m, np.arange(0, rows, side), axis=0)
    top = np.fmax.reduceat(down, np.arange(0, cols, side), axis=1)
    top[~np.isfinite(top)] = -np.inf
    block_rows, block_cols = top.shape
    around = np.pad(top, 1, constant_values=-np.inf)
    neighbours = np.max(
        [
            around[1 + i : 1 + i + block_rows, 1 + j : 1 + j + block_cols]
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
        ],
        axis=0,
    )
    chosen = np.argwhere((top >= neighbours) & (top >= _LEAST_HEIGHT_M))
    order = np.argsort(-top[tuple(chosen.T)], kind="stable")[: 4 * _MOST_PEAKS]
    return [_peak(lattice, heights_m, block, side) for block in chosen[order]]


def _peak(lattice: Lattice, heights_m: Heights, block: IntArray, side: int) -> Peak:
    i, j = int(block[0]) * side, int(block[1]) * side
    part = heights_m[i : i + side, j : j + side]
    number = int(np.nanargmax(part))
    row, col = divmod(number, part.shape[1])
    lat, lon = lattice.lat_lon(
        np.array([i + row], dtype=np.float64),
        np.array([j + col], dtype=np.float64),
    )
    return Peak(
        position=Position(lat_deg=float(lat[0]), lon_deg=float(lon[0])),
        height_m=float(part[row, col]),
    )


def _cell_m(lattice: Lattice) -> float:
    """Size of a cell from north to south, m."""
    row, col = lattice.rows / 2.0, lattice.cols / 2.0
    lats, lons = lattice.lat_lon(np.array([row, row + 1.0]), np.array([col, col]))
    _east, north = metres_from(
        lats[1:], lons[1:], from_lat_deg=float(lats[0]), from_lon_deg=float(lons[0])
    )
    return abs(float(north[0]))


def _apart_m(one: Peak, other: Peak) -> float:
    east, north = metres_from(
        np.array([one.position.lat_deg]),
        np.array([one.position.lon_deg]),
        from_lat_deg=other.position.lat_deg,
        from_lon_deg=other.position.lon_deg,
    )
    return float(np.hypot(east, north)[0])
