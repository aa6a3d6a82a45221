"""Blocks of cells never hide land; all distances computed by hand on the builder's plane."""

import numpy as np
import pytest

from core.coverage.nearby import Surroundings, blocks_of
from core.land.land_model import Cell
from tests.helpers.islands import CENTRE, NM, box, flat_sea, islet, place


def test_open_sea_has_no_land_at_any_distance() -> None:
    blocks = blocks_of(flat_sea(half_width_m=6000.0).model())
    assert blocks.land_distance_m(CENTRE) == np.inf
    assert blocks.surroundings(CENTRE, 5000.0) is Surroundings.OPEN_SEA


def test_single_cell_islet_is_never_farther_than_it_is() -> None:
    blocks = blocks_of(flat_sea(half_width_m=10_000.0).land(islet(4000.0, 3000.0), 10.0).model())
    for east_m, north_m, truth_m in ((0.0, 0.0, 5000.0), (-2000.0, -5000.0, 10_000.0)):
        distance_m = blocks.land_distance_m(place(east_m, north_m))
        # a block of 16 cells of 60 m is 1358 m across: at most that much too near
        assert truth_m - 1500.0 < distance_m <= truth_m
    assert blocks.surroundings(CENTRE, 5100.0) is Surroundings.MIXED
    assert blocks.surroundings(CENTRE, 3000.0) is Surroundings.OPEN_SEA


def test_place_on_land_is_at_no_distance() -> None:
    blocks = blocks_of(flat_sea(half_width_m=3000.0).land(box(-900, -900, 900, 900), 10.0).model())
    assert blocks.land_distance_m(CENTRE) == 0.0


def test_void_counts_like_land() -> None:
    sea = flat_sea(half_width_m=6000.0).without_heights(box(3000.0, 0.0, 3600.0, 600.0), Cell.VOID)
    assert blocks_of(sea.model()).land_distance_m(CENTRE) < 3000.0


def test_edge_of_the_lattice_in_reach_needs_a_sweep() -> None:
    blocks = blocks_of(flat_sea(half_width_m=6000.0).model())
    assert blocks.surroundings(CENTRE, 6100.0) is Surroundings.MIXED
    assert blocks.surroundings(place(0.0, 4000.0), 1900.0) is Surroundings.OPEN_SEA
    assert blocks.surroundings(place(0.0, 4000.0), 2100.0) is Surroundings.MIXED


def test_nothing_known_all_round_is_told_apart() -> None:
    sea = flat_sea(half_width_m=6000.0).without_heights(
        box(-6100.0, -6100.0, 6100.0, 6100.0), Cell.BEYOND
    )
    assert blocks_of(sea.model()).surroundings(CENTRE, 3000.0) is Surroundings.NO_DATA
    far = place(0.0, 50.0 * NM)
    assert blocks_of(flat_sea(half_width_m=6000.0).model()).surroundings(far, 3000.0) is (
        Surroundings.NO_DATA
    )


@pytest.mark.parametrize("cell_m", [30.0, 250.0])
def test_half_diagonal_covers_the_block(cell_m: float) -> None:
    blocks = blocks_of(flat_sea(half_width_m=40 * cell_m, cell_m=cell_m).model())
    assert blocks.half_diagonal_m == pytest.approx(16 * cell_m / 2 * 2**0.5, rel=0.02)
