"""What an antenna lights of single pieces of land, each in its own few bearings and ranges.

The same walk over the same terrain as ``echo_sweep.py``, but only as wide as each piece and out
to it, so that a hundred pieces from a hundred places cost little more than one sweep all round.
What lies before a piece hides it as it does there; what lies beside and behind it is left out.
"""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import kernel
from core.base.constants import EARTH_RADIUS_M
from core.coverage.echo_sweep import ground_metric
from core.coverage.echo_walk import Kinds, Sums, Trail, walk
from core.coverage.local_map import Grid, local_map
from core.coverage.piece_bound import hiding_slope
from core.coverage.piece_light import Around, Eye, Light, Pieces
from core.coverage.ray_course import aim, polynomial, samples_before
from core.coverage.rays import UNKNOWN_CODES, water_slope
from core.coverage.terrain import Ground, Terrain
from core.geodesy.position import Position
from core.radar.land_reflectivity import class_gamma_ratios
from core.radar.two_ray import mirror_distance_m

_STEP_CELLS = 0.5
_SPAN = math.sqrt(12.0)
_WIDEST_RAD = math.radians(30.0)
"""To each side of a piece so near that its width says little."""


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
    own_m: FloatArray,
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
        np.zeros(most),
        np.zeros(most),
        np.zeros(most),
        np.zeros(most),
        np.zeros(most, dtype=np.uint8),
        np.zeros(most, dtype=np.uint8),
        np.zeros(most if known_face.size else 0),
        np.zeros(most if known_face.size else 0),
    )
    trail = Trail(np.empty(0), np.empty(0), np.full(UNKNOWN_CODES, np.inf))
    for t in range(range_m.size):
        begin, upto = first_cell[t], min(first_cell[t] + cells[t], most)
        rays = max(math.ceil(bin_rad * range_m[t] / least_cell_m), 1)
        # All that is summed lies within the fan of its bearings, a cell more to every side.
        half_rad = 0.5 * (bins[t] + 1) * bin_rad
        near_m = begin * cell_m
        far_end_m = far_m[t] + 2.0 * cell_m
        # What has neighbours of its own is looked at no wider than it is, by one ray at least.
        half_own_rad = math.inf
        if own_m[t] < math.inf:
            half_own_rad = max(
                (far_m[t] - range_m[t]) / max(range_m[t], 1.0), 0.501 * bin_rad / rays
            )
        east, north = math.sin(bearing_rad[t]), math.cos(bearing_rad[t])
        ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
        enough = hiding_slope(
            ground,
            polynomial(row, range_m[t] / grid.scale_m),
            polynomial(col, range_m[t] / grid.scale_m),
            math.hypot(far_end_m * half_rad, max(far_end_m - range_m[t], range_m[t] - near_m))
            / least_cell_m
            + 2.0,
            near_m,
            far_end_m,
            antenna_m,
            bend,
        )
        if enough < water_slope(near_m, antenna_m - water_m, bend):
            continue  # all of it lies below the horizon
        for b in range(bins[t]):
            # What was summed before the piece is never asked for, but for the mirror.
            sums.face[begin:upto] = 0.0
            sums.height[begin:upto] = 0.0
            sums.square[begin:upto] = 0.0
            sums.steep[begin:upto] = 0.0
            sums.unknown[begin:upto] = 0
            sums.known[begin:upto] = 0.0
            sums.gamma[begin:upto] = 0.0
            if mirror_cell[t] < upto:
                sums.water[mirror_cell[t]] = 0
            for p in range(rays):
                off = b - bins[t] // 2 + (p + 0.5) / rays - 0.5
                if abs(off) * bin_rad > half_own_rad:
                    continue
                bearing = bearing_rad[t] + off * bin_rad
                east, north = math.sin(bearing), math.cos(bearing)
                ray = aim(grid, east, north, radius_m, _STEP_CELLS, row, col)
                if ray.step_m > cell_m:
                    finer = _STEP_CELLS * cell_m / ray.step_m
                    ray = aim(grid, east, north, radius_m, finer, row, col)
                last = samples_before(far_m[t], ray)
                walk(
                    ground,
                    ray,
                    last,
                    antenna_m,
                    water_m,
                    bend,
                    metric,
                    kinds,
                    sums,
                    trail,
                    near_m,
                    most,
                    enough,
                    own_m[t],
                )
            if b == bins[t] // 2 and mirror_cell[t] < upto:
                has_mirror[t] = sums.water[mirror_cell[t]]
            at = offset[t] + b * cells[t]
            for n in range(begin, upto):
                whole = sums.face[n]
                if sums.unknown[n] != 0:
                    is_unsure[t] = 1
                if whole > 0.0 and sums.unknown[n] == 0:
                    i = at + n - begin
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
    around: Around | None = None,
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
    around : Around, optional
        The surroundings of the place, where they are known already.
    """
    if around is None:
        ranges_m, bearings_deg = pieces.around(position)
        farthest_m = float((ranges_m + pieces.reach_m)[chosen].max(initial=1.0))
        here = local_map(terrain.lattice, position, farthest_m)
        around = Around(range_m=ranges_m, bearing_deg=bearings_deg, here=here)
    here = around.here
    range_m, bearing_deg = around.range_m[chosen], around.bearing_deg[chosen]
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
    mirror_m = mirror_distance_m(
        np.maximum(range_m, 1.0),
        eye.antenna_height_m,
        np.maximum(pieces.height_m[chosen] / 2.0, 0.5),
        eye.refraction_k,
    )
    has_mirror, is_unsure = (np.zeros(range_m.size, dtype=np.uint8) for _ in range(2))
    face_m, height_m, span_m, steepness = (
        np.zeros(int(sizes.sum()), dtype=np.float32) for _ in range(4)
    )
    known_face_m, known_gamma = (
        np.zeros(face_m.size if terrain.kinds.size else 0, dtype=np.float32) for _ in range(2)
    )
    if range_m.size:
        _light(
            terrain.ground,
            here.grid,
            here.least_cell_m,
            here.radius_m,
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
            np.full(range_m.shape, np.inf) if pieces.own_m is None else pieces.own_m[chosen],
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
