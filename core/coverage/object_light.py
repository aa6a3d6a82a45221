"""What an antenna lights of single pieces of land, each in its own few bearings and ranges.

The same walk over the same terrain as ``echo_sweep.py``, but only as wide as each piece and out
to it, so that a hundred pieces from a hundred places cost little more than one sweep all round.
What lies before a piece hides it as it does there; what lies beside and behind it is left out.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, ByteArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.compiled import kernel
from core.base.constants import EARTH_RADIUS_M
from core.coverage.echo_sweep import ground_metric
from core.coverage.echo_walk import Kinds, Sums, Trail, walk
from core.coverage.local_map import Grid, LocalMap, local_map
from core.coverage.rays import UNKNOWN_CODES, aim, samples_before
from core.coverage.terrain import Ground, Terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.radar.land_reflectivity import class_gamma_ratios
from core.radar.two_ray import mirror_point

_STEP_CELLS = 0.5
_SPAN = math.sqrt(12.0)
_WIDEST_RAD = math.radians(30.0)
"""To each side of a piece so near that its width says little."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces(HoldsArrays):
    """Pieces of land to look at, arrays (t,).

    reach_m : how far from its place a piece reaches; ground farther off is not part of it
    height_m : its height above the water now, for where the sea mirrors it
    """

    lat_deg: FloatArray
    lon_deg: FloatArray
    reach_m: FloatArray
    height_m: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """An antenna and the air and water it looks through."""

    antenna_height_m: float
    """Above the water as it stands then, m."""
    refraction_k: float
    water_rise_m: float = 0.0
    """How much higher than now the water stands, and the antenna with it, m; land lower than
    the elevation says is the same thing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Light(HoldsArrays):
    """The lit ground of n pieces from one place, as flat cells, piece after piece.

    Piece i has ``bins[i]`` bearings ``bin_rad`` apart and ``cells[i]`` range cells from cell
    ``first_cell[i]`` on; its cells start at ``offset[i]``, bearing by bearing. ``face_m``,
    ``height_m`` (above the water then), ``span_m``, ``steepness``, ``known_face_m`` and
    ``known_gamma`` as in ``EchoField``; the last two are empty without a raster of kinds.
    """

    eye: Eye
    cell_m: float
    bin_rad: float
    piece: IntArray
    range_m: FloatArray
    bearing_deg: FloatArray
    bins: IntArray
    cells: IntArray
    first_cell: IntArray
    offset: IntArray
    has_mirror: BoolArray
    """Whether open water mirrors the piece."""
    is_unsure: BoolArray
    """Whether more of the piece may be in sight: over, or of, ground of unknown height."""
    face_m: Float32Array
    height_m: Float32Array
    span_m: Float32Array
    steepness: Float32Array
    known_face_m: Float32Array
    known_gamma: Float32Array

    @property
    def is_lit(self) -> BoolArray:
        """Whether anything of each piece is in sight, heights before it known."""
        if self.piece.size == 0:
            return np.zeros(0, dtype=np.bool_)
        return np.asarray(np.maximum.reduceat(self.face_m, self.offset) > 0.0)


@kernel
def _light(
    ground: Ground,
    grid: Grid,
    least_cell_m: float,
    radius_m: float,
    cell_m: float,
    antenna_m: float,
    water_m: float,
    bend: float,
    metric: FloatArray,
    kinds: Kinds,
    bin_rad: float,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    far_m: FloatArray,
    mirror_cell: IntArray,
    bins: IntArray,
    cells: IntArray,
    first_cell: IntArray,
    offset: IntArray,
    has_mirror: ByteArray,
    is_unsure: ByteArray,
    face: Float32Array,
    height: Float32Array,
    span: Float32Array,
    steep: Float32Array,
    known_face: Float32Array,
    known_gamma: Float32Array,
) -> None:
    """Walk the rays of every piece and sum by bearing."""
    row = np.empty(grid.row_of.shape[0])
    col = np.empty(grid.row_of.shape[0])
    most = int(radius_m / cell_m) + 2
    sums = Sums(
        cell_m,
        np.empty(most),
        np.empty(most),
        np.empty(most),
        np.empty(most),
        np.empty(most, dtype=np.uint8),
        np.empty(most, dtype=np.uint8),
        np.empty(most if known_face.size else 0),
        np.empty(most if known_face.size else 0),
    )
    trail = Trail(np.empty(0), np.empty(0), np.full(UNKNOWN_CODES, np.inf))
    for t in range(range_m.size):
        upto = min(first_cell[t] + cells[t], most)
        rays = max(math.ceil(bin_rad * range_m[t] / least_cell_m), 1)
        for b in range(bins[t]):
            sums.face[:upto] = 0.0
            sums.height[:upto] = 0.0
            sums.square[:upto] = 0.0
            sums.steep[:upto] = 0.0
            sums.water[:upto] = 0
            sums.unknown[:upto] = 0
            sums.known[:upto] = 0.0
            sums.gamma[:upto] = 0.0
            for p in range(rays):
                off = b - bins[t] // 2 + (p + 0.5) / rays - 0.5
                bearing = bearing_rad[t] + off * bin_rad
                east, north = math.sin(bearing), math.cos(bearing)
                ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
                if ray.step_m > cell_m:
                    finer = _STEP_CELLS * cell_m / ray.step_m
                    ray = aim(grid, east, north, radius_m, finer, row, col)
                last = samples_before(far_m[t], ray)
                walk(ground, ray, last, antenna_m, water_m, bend, metric, kinds, sums, trail)
            if b == bins[t] // 2 and mirror_cell[t] < upto:
                has_mirror[t] = sums.water[mirror_cell[t]]
            at = offset[t] + b * cells[t]
            for n in range(first_cell[t], upto):
                whole = sums.face[n]
                if sums.unknown[n] != 0:
                    is_unsure[t] = 1
                if whole > 0.0 and sums.unknown[n] == 0:
                    i = at + n - first_cell[t]
                    mean = sums.height[n] / whole
                    spread = max(sums.square[n] / whole - mean * mean, 0.0)
                    face[i] = whole / rays
                    height[i] = mean - water_m
                    span[i] = _SPAN * math.sqrt(spread)
                    steep[i] = sums.steep[n] / whole
                    if known_face.size and sums.known[n] > 0.0:
                        known_face[i] = sums.known[n] / rays
                        known_gamma[i] = sums.gamma[n] / sums.known[n]


def light_pieces(
    terrain: Terrain,
    position: Position,
    pieces: Pieces,
    chosen: IntArray,
    eye: Eye,
    *,
    cell_m: float,
    bin_rad: float,
    here: LocalMap | None = None,
) -> Light:
    """Find what an antenna lights of chosen pieces of land.

    Parameters
    ----------
    terrain : Terrain
        Land made ready; all lines of sight should run over it.
    position : Position
        The antenna's place.
    pieces : Pieces
        All pieces.
    chosen : (n,) int array
        Which of them to look at.
    eye : Eye
        Antenna, air and water.
    cell_m : float
        Depth of a range cell, m, > 0.
    bin_rad : float
        Step of the bearings, rad, > 0.
    here : LocalMap, optional
        The map round the place, where it is made already and reaches beyond all pieces.
    """
    lat, lon = pieces.lat_deg[chosen], pieces.lon_deg[chosen]
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=np.full(lat.shape, position.lat_deg),
        from_lon_deg=np.full(lat.shape, position.lon_deg),
        to_lat_deg=lat,
        to_lon_deg=lon,
    )
    reach_m = pieces.reach_m[chosen]
    far_m = range_m + reach_m
    first = np.maximum((range_m - reach_m) / cell_m, 0.0).astype(np.int64)
    cells = np.ceil(far_m / cell_m).astype(np.int64) - first
    half_rad = np.minimum(
        np.arcsin(np.minimum(reach_m / np.maximum(range_m, 1.0), 0.5)), _WIDEST_RAD
    )
    bins = 2 * np.ceil(half_rad / bin_rad - 0.5).clip(0).astype(np.int64) + 1
    sizes = bins * cells
    offset = np.cumsum(sizes) - sizes
    mirror_m = mirror_point(
        np.maximum(range_m, 1.0),
        eye.antenna_height_m,
        np.maximum(pieces.height_m[chosen] / 2.0, 0.5),
        eye.refraction_k,
    ).distance_m
    has_mirror, is_unsure = (np.zeros(lat.size, dtype=np.uint8) for _ in range(2))
    face_m, height_m, span_m, steepness = (
        np.zeros(int(sizes.sum()), dtype=np.float32) for _ in range(4)
    )
    known_face_m, known_gamma = (
        np.zeros(face_m.size if terrain.kinds.size else 0, dtype=np.float32) for _ in range(2)
    )
    if lat.size:
        radius_m = float(far_m.max())
        if here is None:
            here = local_map(terrain.lattice, position, radius_m)
        radius_m = here.radius_m
        _light(
            terrain.ground,
            here.grid,
            here.least_cell_m,
            radius_m,
            cell_m,
            eye.antenna_height_m + eye.water_rise_m,
            eye.water_rise_m,
            1.0 / (2.0 * eye.refraction_k * EARTH_RADIUS_M),
            ground_metric(here),
            Kinds(terrain.kinds, class_gamma_ratios()),
            bin_rad,
            range_m,
            np.radians(bearing_deg),
            far_m,
            np.maximum(mirror_m / cell_m, 0.0).astype(np.int64),
            bins,
            cells,
            first,
            offset,
            has_mirror,
            is_unsure,
            face_m,
            height_m,
            span_m,
            steepness,
            known_face_m,
            known_gamma,
        )
    return Light(
        eye=eye,
        cell_m=cell_m,
        bin_rad=bin_rad,
        piece=np.asarray(chosen, dtype=np.int64),
        range_m=range_m,
        bearing_deg=bearing_deg,
        bins=bins,
        cells=cells,
        first_cell=first,
        offset=offset,
        has_mirror=has_mirror != 0,
        is_unsure=is_unsure != 0,
        face_m=face_m,
        height_m=height_m,
        span_m=span_m,
        steepness=steepness,
        known_face_m=known_face_m,
        known_gamma=known_gamma,
    )
