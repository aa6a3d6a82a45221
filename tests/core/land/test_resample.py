import numpy as np
import pytest

from core.land.lattice import Lattice
from core.land.resample import greatest_in_blocks, places, resampled

COARSE = Lattice(
    crs="EPSG:4326", left_x=-30.0, top_y=40.0, cell_x=0.01, cell_y=0.01, rows=20, cols=20
)
FINE = Lattice(
    crs="EPSG:4326", left_x=-29.97, top_y=39.96, cell_x=0.003, cell_y=0.002, rows=50, cols=40
)


def _plane(lattice: Lattice) -> np.ndarray:
    lat, lon = places(lattice, 0, lattice.rows)
    return (1000.0 * (lat - 39.0) + 700.0 * (lon + 30.0)).reshape(lattice.rows, lattice.cols)


def test_plane_is_carried_over_exactly() -> None:
    # A plane is its own bilinear interpolation.
    covered = np.ones((20, 20), dtype=np.bool_)
    heights, reach = resampled(_plane(COARSE).astype(np.float32), covered, COARSE, FINE)
    assert reach.all()
    assert heights == pytest.approx(_plane(FINE), abs=1e-3)


def test_plane_is_carried_over_to_a_metric_lattice() -> None:
    metric = Lattice(
        crs="EPSG:32626", left_x=250_000.0, top_y=4_420_000.0, cell_x=90.0, cell_y=90.0,
        rows=60, cols=60,
    )  # fmt: skip
    covered = np.ones((20, 20), dtype=np.bool_)
    heights, reach = resampled(_plane(COARSE).astype(np.float32), covered, COARSE, metric)
    assert heights[reach] == pytest.approx(_plane(metric)[reach], abs=1e-2)
    assert reach.any()


def test_void_spreads_to_every_cell_it_has_weight_in() -> None:
    heights = np.zeros((20, 20), dtype=np.float32)
    heights[10, 10] = np.nan
    fine = COARSE.part(row=0, col=0, rows=20, cols=20)
    half = Lattice(
        crs="EPSG:4326", left_x=-30.0, top_y=40.0, cell_x=0.005, cell_y=0.005, rows=40, cols=40
    )
    covered = np.ones((20, 20), dtype=np.bool_)
    same, _ = resampled(heights, covered, COARSE, fine)
    assert np.isnan(same).sum() == 1
    finer, _ = resampled(heights, covered, COARSE, half)
    assert np.isnan(finer).sum() == 16
    assert np.isnan(finer[19:23, 19:23]).all()


def test_edge_cell_keeps_its_height_in_its_outer_half() -> None:
    heights = np.full((20, 20), 7.0, dtype=np.float32)
    covered = np.ones((20, 20), dtype=np.bool_)
    edge = Lattice(
        crs="EPSG:4326", left_x=-30.006, top_y=40.0, cell_x=0.002, cell_y=0.002, rows=2, cols=6
    )
    values, reach = resampled(heights, covered, COARSE, edge)
    assert reach[0].tolist() == [False] * 3 + [True] * 3
    assert values[0, 3:] == pytest.approx(7.0)
    assert np.isnan(values[0, :3]).all()


def test_blocks_keep_the_greatest_height_and_are_unknown_only_as_a_whole() -> None:
    heights = np.array([[1, 2, np.nan, np.nan], [3, np.nan, np.nan, np.nan]], dtype=np.float32)
    missing = np.array([[0, 0, 1, 1], [0, 0, 1, 1]], dtype=np.bool_)
    greatest, gone = greatest_in_blocks(heights, missing, rows=2, cols=2)
    assert greatest[0, 0] == 3.0
    assert np.isnan(greatest[0, 1])
    assert gone.tolist() == [[False, True]]
