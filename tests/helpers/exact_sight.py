"""Exact lines of sight to hold sweeps against: a ray of its own for every cell.

``los_exact.py`` is written apart from this program and lies beside the test data.
"""

import types
from collections.abc import Callable
from pathlib import Path

import numpy as np

from core.coverage.cell_sweep import NO_DATA
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.lattice import Lattice

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


def geodesic_truth(
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
