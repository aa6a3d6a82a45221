"""How well sweeps agree with the exact reference: cells, native cells, islets of one cell."""

from pathlib import Path

import numpy as np

from core.coverage.cell_sweep import IN_SIGHT, NO_DATA, CellSweep, sweep_cells
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from tests.bench.sight_scenes import CELL_M, NM, Scene
from tests.helpers.bare_land import overlap, real_tile, terrain_of
from tests.helpers.exact_sight import ANTENNA_M, R_M, K, Reference, centred, geodesic_truth


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
                truth = geodesic_truth(lattice, heights, position, cells[kept], target_m)
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
