"""How well sweeps agree with the exact reference: cells, native cells, islets of one cell."""

import types
from collections.abc import Callable
from pathlib import Path

import numpy as np

from core.coverage.cell_sweep import IN_SIGHT, NO_DATA, CellSweep, sweep_cells
from core.coverage.terrain import Terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.lattice import Lattice
from tests.bench.sight_scenes import CELL_M, NM, Scene
from tests.helpers.bare_land import overlap, real_tile, terrain_of

K = 4.0 / 3.0
R_M = 6_371_000.0
ANTENNA_M = 25.0

Reference = Callable[..., np.ndarray]


def load_reference(folder: Path) -> Reference:
    """The function of ``los_exact.py``, compiled without its own cache and threads."""
    source = (folder / "los_exact.py").read_text(encoding="utf-8")
    source = source.replace("cache=True", "cache=False").replace("parallel=True", "parallel=False")
    module = types.ModuleType("los_exact")
    exec(compile(source, "los_exact.py", "exec"), module.__dict__)  # noqa: S102 - our own code
    found: Reference = module.__dict__["exact_los"]
    return found


def sweep(
    terrain: Terrain,
    position: Position,
    *,
    radius_m: float,
    is_exact: bool,
    target_m: float = 0.0,
) -> CellSweep:
    """A sweep as all of the benchmark makes it: antenna 25 m, k 4/3, error 5 m."""
    return sweep_cells(
        terrain,
        position,
        antenna_height_m=ANTENNA_M,
        refraction_k=K,
        radius_m=radius_m,
        target_height_m=target_m,
        height_error_m=5.0,
        is_exact=is_exact,
    )


def centred(own: Lattice, tags: np.ndarray, whole: Lattice, reach: int) -> np.ndarray:
    """Tags as a square of the whole lattice round its middle cell, NO_DATA where there is none."""
    row = round((whole.top_y - own.top_y) / whole.cell_y) - (whole.rows // 2 - reach)
    col = round((own.left_x - whole.left_x) / whole.cell_x) - (whole.cols // 2 - reach)
    square = np.full((2 * reach + 1, 2 * reach + 1), NO_DATA, np.uint8)
    rows = slice(max(row, 0), min(row + tags.shape[0], square.shape[0]))
    cols = slice(max(col, 0), min(col + tags.shape[1], square.shape[1]))
    square[rows, cols] = tags[
        rows.start - row : rows.stop - row, cols.start - col : cols.stop - col
    ]
    return square


def grades(
    scene: Scene, reference: Reference, radius_m: float
) -> dict[tuple[bool, float], tuple[float, float]]:
    """Overlap with the reference on land and sea, by setting (exact or not) and target height."""
    terrain = terrain_of(scene.lattice, scene.heights_m)
    half = scene.half
    found = {}
    for target_m in (0.0, 5.0):
        truth = reference(
            scene.heights_m, CELL_M, half, half, ANTENNA_M, target_m, radius_m, K * R_M
        )
        reach = truth.shape[0] // 2
        part = scene.heights_m[half - reach : half + reach + 1, half - reach : half + reach + 1]
        for is_exact in (False, True):
            own = sweep(
                terrain, scene.position, radius_m=radius_m, is_exact=is_exact, target_m=target_m
            )
            tags = centred(own.lattice, own.tags, scene.lattice, reach)
            both = (tags != NO_DATA) & (truth != NO_DATA)
            mine, theirs = (tags & IN_SIGHT) == 1, truth == 1
            land, sea = both & (part > 0.0), both & (part == 0.0)
            found[is_exact, target_m] = (
                overlap(mine & land, theirs & land),
                overlap(mine & sea, theirs & sea),
            )
    return found


def _geodesic_truth(
    lattice: Lattice, heights: np.ndarray, position: Position, cells: np.ndarray, target_m: float
) -> np.ndarray:
    """Whether targets on cells are in sight, each by quarter cells along its own geodesic."""
    lat, lon = lattice.lat_lon(cells[:, 0].astype(float), cells[:, 1].astype(float))
    distance, bearing, _ = geodesic.inverse(
        from_lat_deg=position.lat_deg, from_lon_deg=position.lon_deg, to_lat_deg=lat, to_lon_deg=lon
    )
    row0, col0 = lattice.row_col(np.array([position.lat_deg]), np.array([position.lon_deg]))
    seen = np.empty(len(cells), dtype=bool)
    for p, (row, col) in enumerate(cells):
        run = float(np.hypot(row - row0[0], col - col0[0]))
        ranges = np.arange(0.25, run - 0.5 + 1e-9, 0.25) * (distance[p] / run)
        y, x = lattice.row_col(
            *geodesic.direct(
                lat_deg=position.lat_deg,
                lon_deg=position.lon_deg,
                bearing_deg=bearing[p],
                distance_m=ranges,
            )[:2]
        )
        i, j = np.floor(y).astype(int), np.floor(x).astype(int)
        fy, fx = y - i, x - j
        z = (heights[i, j] * (1 - fx) + heights[i, j + 1] * fx) * (1 - fy)
        z += (heights[i + 1, j] * (1 - fx) + heights[i + 1, j + 1] * fx) * fy
        slopes = (z - ANTENNA_M) / ranges - ranges / (2.0 * K * R_M)
        own = (heights[row, col] + target_m - ANTENNA_M) / distance[p]
        own -= distance[p] / (2.0 * K * R_M)
        seen[p] = slopes.size == 0 or own >= slopes.max()
    return seen


def native_grades(
    folder: Path, area: str, lat_deg: float, lon_deg: float
) -> dict[tuple[bool, float], tuple[float, float]]:
    """The same on the file's own cells within 5 NM, by a sample with a geodesic ray each."""
    lattice, heights = real_tile(folder, area)
    heights = np.nan_to_num(heights)
    position = Position(lat_deg=lat_deg + 2e-4, lon_deg=lon_deg - 2e-4)
    terrain = terrain_of(lattice, heights)
    found = {}
    for target_m in (0.0, 5.0):
        for is_exact in (False, True):
            own = sweep(terrain, position, radius_m=5.0 * NM, is_exact=is_exact, target_m=target_m)
            row, col = np.nonzero(own.tags != NO_DATA)
            down = round((lattice.top_y - own.lattice.top_y) / lattice.cell_y)
            right = round((own.lattice.left_x - lattice.left_x) / lattice.cell_x)
            cells = np.stack([row + down, col + right], axis=1)
            inside = np.all((cells > 0) & (cells < np.array(heights.shape) - 1), axis=1)
            is_land = heights[cells[:, 0], cells[:, 1]] > 0.0
            pair = []
            for kind, each in ((is_land, 3), (~is_land, 9)):
                kept = np.flatnonzero(kind & inside)[::each]
                truth = _geodesic_truth(lattice, heights, position, cells[kept], target_m)
                mine = (own.tags[row[kept], col[kept]] & IN_SIGHT) == 1
                pair.append(overlap(mine, truth))
            found[is_exact, target_m] = (pair[0], pair[1])
    return found


def islets(
    scene: Scene, reference: Reference, radius_m: float, *, rounds: int, count: int
) -> dict[bool, tuple[int, int, int, int]]:
    """Islets of one cell, 10 m high, strewn by chance, a few each round so that they seldom hide
    each other: by setting seen of those the reference sees with 0.2 m to spare, and hidden of
    those it hides with 0.2 m to spare.
    """
    half = scene.half
    random = np.random.default_rng(77)
    sea = np.argwhere(scene.heights_m == 0.0)
    off = np.hypot(*(sea - half).T)
    sea = sea[(off > 3) & (off < min(radius_m - 0.1 * NM, 11.9 * NM) / CELL_M)]
    found = {False: np.zeros(4, int), True: np.zeros(4, int)}
    for _ in range(rounds):
        heights = scene.heights_m.copy()
        chosen = sea[random.choice(len(sea), count, replace=False)]
        heights[tuple(chosen.T)] = 10.0
        truth = [
            reference(heights, CELL_M, half, half, ANTENNA_M, spare_m, radius_m, K * R_M)
            for spare_m in (-0.2, 0.2)
        ]
        reach = truth[0].shape[0] // 2
        where = tuple((chosen + reach - half).T)
        seen, masked = truth[0][where] == 1, truth[1][where] == 0
        terrain = terrain_of(scene.lattice, heights)
        for is_exact, sums in found.items():
            own = sweep(terrain, scene.position, radius_m=radius_m, is_exact=is_exact)
            tags = centred(own.lattice, own.tags, scene.lattice, reach)[where] & IN_SIGHT
            sums += [
                np.count_nonzero(tags[seen] == 1),
                np.count_nonzero(seen),
                np.count_nonzero(tags[masked] == 0),
                np.count_nonzero(masked),
            ]
    return {key: (int(s[0]), int(s[1]), int(s[2]), int(s[3])) for key, s in found.items()}
