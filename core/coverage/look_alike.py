"""Places from which the coast paints as it does from a place on the track: look-alike coasts.

An officer who takes one for the other is on the wrong track (job.md 4.4.7, B19). First the
painted edge of the place is laid over the land shifted by every distance in reach, all at once by
Fourier transforms: echoes must fall on land, the water before them on water. The best of those
places are then looked at with the radar, and count where the two pictures are alike.
"""

from dataclasses import dataclass

import numpy as np
from scipy import fft, ndimage

from core.base.arrays import BoolArray, ByteArray, FloatArray, HoldsArrays, IntArray
from core.base.compiled import kernel
from core.base.units import m_from_nm
from core.coverage.echo_signature import (
    BEARINGS,
    EchoSignature,
    likeness,
    shifted_to_fit,
    signature_of,
)
from core.coverage.look_alike_result import LookAlike
from core.coverage.place import Lookout
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import Cell, LandModel

_LAND = np.uint8(Cell.LAND)
_BLOCK_M = m_from_nm(0.25)
_CLEAR_M = m_from_nm(0.5)
"""Between water looked at and the echo behind it."""
_OPEN_WATER_M = m_from_nm(12.0)
"""How far a bearing without an echo is taken as free of land that paints."""
LEAST_APART_M = m_from_nm(2.0)
"""Nearer than this a picture is always like itself."""
_PROMISING = 0.6
_MOST_LOOKS = 4
LEAST_LIKENESS = 0.75
"""Alike to this share of the echoes is said (common practice, no source)."""
LEAST_ECHOES = 10
"""Echoes on fewer bearings, 20 degrees in all, are like many others and say nothing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LandBlocks(HoldsArrays):
    """Land in blocks of about a quarter mile.

    any_land, all_land : (rows, cols) bool
    """

    rows_a_block: int
    cols_a_block: int
    any_land: BoolArray
    all_land: BoolArray


def land_blocks(land: LandModel) -> LandBlocks:
    """The land of a model in blocks."""
    lattice = land.lattice
    rows, cols = lattice.rows, lattice.cols
    row, col = (rows - 1) / 2.0, (cols - 1) / 2.0
    lat, lon = lattice.lat_lon(np.array([row, row + 1.0, row]), np.array([col, col, col + 1.0]))
    step, _, _ = geodesic.inverse(
        from_lat_deg=np.full(2, lat[0]),
        from_lon_deg=np.full(2, lon[0]),
        to_lat_deg=lat[1:],
        to_lon_deg=lon[1:],
    )
    a, b = (max(1, round(_BLOCK_M / float(m))) for m in step)
    counts = np.zeros((rows // a, cols // b), dtype=np.int64)
    _count_land(land.cell, a, b, counts)
    return LandBlocks(rows_a_block=a, cols_a_block=b, any_land=counts > 0, all_land=counts == a * b)


@kernel
def _count_land(cell: ByteArray, rows: int, cols: int, counts: IntArray) -> None:
    """Cells of land in every whole block of rows by cols cells."""
    for i in range(counts.shape[0] * rows):
        for j in range(counts.shape[1]):
            found = 0
            for at in range(j * cols, j * cols + cols):
                if cell[i, at] == _LAND:
                    found += 1
            counts[i // rows, j] += found


def look_alikes(
    here: EchoSignature,
    land: LandModel,
    blocks: LandBlocks,
    lookout: Lookout,
    *,
    along_m: float,
    reach_m: float,
) -> tuple[LookAlike, ...]:
    """Places within reach whose picture is like that of a place on the track, the likest first.

    Parameters
    ----------
    here : EchoSignature
        What paints from the place on the track.
    land : LandModel
        Land in reach.
    blocks : LandBlocks
        The same in blocks.
    lookout : Lookout
        Looks round from the places that promise most.
    along_m : float
        Where on its leg the place lies, m.
    reach_m : float
        How far off another place is looked for, m.
    """
    if here.echo_count < LEAST_ECHOES:
        return ()
    found = []
    for promising in _promising(here, land, blocks, reach_m):
        there = _seen(promising, land, lookout)
        if there is None:
            continue
        position = shifted_to_fit(here, there)
        distance, bearing, _ = geodesic.inverse(
            from_lat_deg=here.position.lat_deg,
            from_lon_deg=here.position.lon_deg,
            to_lat_deg=position.lat_deg,
            to_lon_deg=position.lon_deg,
        )
        there = _seen(position, land, lookout)
        if there is None or not LEAST_APART_M <= float(distance) <= reach_m:
            continue
        ratio = likeness(here, there)
        if ratio >= LEAST_LIKENESS:
            found.append(
                LookAlike(
                    along_m=along_m,
                    position=position,
                    distance_m=float(distance),
                    bearing_deg=float(bearing) % 360.0,
                    likeness_ratio=ratio,
                )
            )
    return tuple(sorted(found, key=lambda item: -item.likeness_ratio))


def _seen(position: Position, land: LandModel, lookout: Lookout) -> EchoSignature | None:
    paint = lookout.look(position).paint
    return None if paint is None else signature_of(land.points, paint, position)


def _promising(
    here: EchoSignature, land: LandModel, blocks: LandBlocks, reach_m: float
) -> list[Position]:
    """Places on the water, well apart, where the picture laid over the land fits best."""
    score, row, col = _scores(here, land, blocks, reach_m)
    middle = score.shape[0] // 2, score.shape[1] // 2
    down, across = np.indices(score.shape)
    apart_m = _BLOCK_M * np.hypot(down - middle[0], across - middle[1])
    score = np.where((apart_m >= LEAST_APART_M) & (apart_m <= reach_m), score, 0.0)
    places: list[Position] = []
    while len(places) < _MOST_LOOKS:
        r, c = np.unravel_index(int(np.argmax(score)), score.shape)
        if score[r, c] < _PROMISING:
            break
        lat, lon = land.lattice.lat_lon(
            np.array([row + (r - middle[0]) * blocks.rows_a_block]),
            np.array([col + (c - middle[1]) * blocks.cols_a_block]),
        )
        places.append(Position(lat_deg=float(lat[0]), lon_deg=float(lon[0])))
        near = np.hypot(down - r, across - c) * _BLOCK_M < LEAST_APART_M
        score = np.where(near, 0.0, score)
    return places


def _scores(
    here: EchoSignature, land: LandModel, blocks: LandBlocks, reach_m: float
) -> tuple[FloatArray, float, float]:
    """How well the picture fits at each shift in blocks, and row and column of the place."""
    reach = int(reach_m / _BLOCK_M)
    echoes, water, half = _masks(here)
    rows, cols = land.lattice.row_col(
        np.array([here.position.lat_deg]), np.array([here.position.lon_deg])
    )
    row, col = float(rows[0]), float(cols[0])
    at = int((row + 0.5) // blocks.rows_a_block), int((col + 0.5) // blocks.cols_a_block)
    any_land = _window(blocks.any_land, at, half + reach)
    all_land = _window(blocks.all_land, at, half + reach)
    wide = ndimage.binary_dilation(any_land, structure=np.ones((3, 3)))
    own = any_land[reach:-reach, reach:-reach]
    water &= ~own
    # On land or beside it, and better on land: the fit is best in the middle.
    hits = _laid_over(wide, echoes) + _laid_over(any_land, echoes)
    hits /= 2.0 * max(int(echoes.sum()), 1)
    misses = _laid_over(all_land, water) / max(int(water.sum()), 1)
    on_water = ~any_land[half:-half, half:-half]
    return np.where(on_water, hits * (1.0 - misses) ** 2, 0.0), row, col


def _masks(here: EchoSignature) -> tuple[BoolArray, BoolArray, int]:
    """Blocks with echoes, and with water before them, round the place; half their width."""
    finite = here.range_m[np.isfinite(here.range_m)]
    half = int(max(float(finite.max()), _OPEN_WATER_M) / _BLOCK_M) + 1
    echoes = np.zeros((2 * half + 1, 2 * half + 1), dtype=np.bool_)
    water = echoes.copy()
    for index, range_m in enumerate(here.range_m):
        if np.isnan(range_m):
            continue
        turn = 2.0 * np.pi * index / BEARINGS
        north, east = np.cos(turn) / _BLOCK_M, np.sin(turn) / _BLOCK_M
        free_m = np.arange(_CLEAR_M, min(range_m, _OPEN_WATER_M) - _CLEAR_M, _BLOCK_M / 2.0)
        water[_cell(half, free_m, north), _cell(half, free_m, -east)] = True
        if np.isfinite(range_m):
            echoes[_cell(half, range_m, north), _cell(half, range_m, -east)] = True
    return echoes, water & ~echoes, half


def _cell(half: int, range_m: FloatArray | float, a_metre: float) -> np.ndarray:
    """Rows run south, columns east."""
    return half - np.round(np.asarray(range_m) * a_metre).astype(np.int64)


def _window(blocks: BoolArray, at: tuple[int, int], half: int) -> BoolArray:
    """A square of blocks round one of them; outside the land model there is none."""
    window = np.zeros((2 * half + 1, 2 * half + 1), dtype=np.bool_)
    top, left = at[0] - half, at[1] - half
    r0, c0 = max(top, 0), max(left, 0)
    r1, c1 = (
        min(top + window.shape[0], blocks.shape[0]),
        min(left + window.shape[1], blocks.shape[1]),
    )
    if r1 > r0 and c1 > c0:
        window[r0 - top : r1 - top, c0 - left : c1 - left] = blocks[r0:r1, c0:c1]
    return window


def _convolved(land: FloatArray, kernel: FloatArray) -> FloatArray:
    """The convolution where the kernel lies wholly on the land.

    As ``scipy.signal.fftconvolve`` has it, whose import takes longer than all of its work here.
    """
    shape = [n + m - 1 for n, m in zip(land.shape, kernel.shape, strict=True)]
    fast = [fft.next_fast_len(n, real=True) for n in shape]
    whole = fft.irfftn(fft.rfftn(land, fast) * fft.rfftn(kernel, fast), fast)
    rows, cols = (n - 1 for n in kernel.shape)
    return np.asarray(whole[rows : land.shape[0], cols : land.shape[1]], dtype=np.float64)


def _laid_over(land: BoolArray, mask: BoolArray) -> FloatArray:
    """How many blocks of a mask meet land at each shift of it."""
    kernel = mask[::-1, ::-1].astype(np.float64)
    laid = _convolved(land.astype(np.float64), kernel)
    return np.asarray(np.maximum(np.round(laid), 0.0))
