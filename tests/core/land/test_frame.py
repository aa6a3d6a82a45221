"""Arrays cut out of a frame are found again, others are not."""

import numpy as np

from core.coverage.terrain import prepare_terrain
from core.land.frame import BLOCK, SPARE, frame_of, framed_shape, full_in_frame
from core.land.land_model import Cell
from tests.helpers.bare_land import bare_land, metric_lattice


def test_a_frame_holds_whole_blocks_with_a_rim() -> None:
    for rows, cols in ((1, 1), (7, 8), (15, 16), (100, 33)):
        down, across = framed_shape(rows, cols)
        assert down >= rows + 1 + SPARE
        assert across >= cols + 1 + SPARE
        assert (down - SPARE) % BLOCK == 0
        assert (across - SPARE) % BLOCK == 0
        data = full_in_frame(rows, cols, np.float32(5.0), np.float32(np.nan))
        whole = frame_of(data)
        assert whole is not None
        assert np.count_nonzero(whole == 5.0) == rows * cols
        assert np.count_nonzero(np.isnan(whole)) == whole.size - rows * cols


def test_copies_parts_and_foreign_arrays_have_no_frame() -> None:
    data = full_in_frame(20, 30, np.float32(0.0), np.float32(np.nan))
    assert frame_of(data.copy()) is None
    assert frame_of(data[1:, :]) is None
    assert frame_of(data[:, ::2]) is None
    assert frame_of(np.zeros((20, 30), np.float32)) is None
    assert frame_of(np.zeros(framed_shape(20, 30), np.float32)[:20, :30]) is None


def test_terrain_of_framed_land_is_that_of_the_same_land_without() -> None:
    lattice, _place = metric_lattice("EPSG:32630", 56.2, -5.7, 20, 30.0)
    random = np.random.default_rng(3)
    plain = np.maximum(random.normal(0.0, 30.0, (41, 41)), 0.0).astype(np.float32)
    framed = full_in_frame(41, 41, np.float32(0.0), np.float32(np.nan))
    framed[...] = plain
    kinds = full_in_frame(41, 41, np.uint8(Cell.SEA), np.uint8(Cell.BEYOND))
    kinds[...] = np.where(plain > 0.0, Cell.LAND, Cell.SEA)
    land = bare_land(lattice, plain)
    shared = type(land)(
        **{
            name: getattr(land, name)
            for name in land.__dataclass_fields__
            if name not in ("heights_m", "cell")
        },
        heights_m=framed,
        cell=kinds,
    )
    one, other = prepare_terrain(land), prepare_terrain(shared)
    assert np.shares_memory(other.heights_m, framed)
    assert not np.shares_memory(one.heights_m, land.heights_m)
    for name in ("heights_m", "cell", "block_highest_m", "block_codes", "block_free"):
        np.testing.assert_array_equal(getattr(one, name), getattr(other, name))
