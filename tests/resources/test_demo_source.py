"""The script that made the demo files makes the same ones again, and its parts do their work."""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import rasterio
from rasterio.io import MemoryFile

from resources.demo_source.coast_trace import thinned, trace
from resources.demo_source.geotiff import geotiff_bytes
from resources.demo_source.make_demo import demo_files
from resources.demo_source.route_files import minutes_text

_ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def made() -> dict[str, bytes]:
    return demo_files()


def test_the_script_makes_the_files_of_the_tree_again(made: dict[str, bytes]) -> None:
    assert len(made) == 12
    for name, data in made.items():
        if not name.endswith(".tif"):
            assert (_ROOT / name).read_bytes() == data, name


def test_the_script_makes_the_heights_of_the_tree_again(made: dict[str, bytes]) -> None:
    # Compared as heights, because another zlib may pack the same heights otherwise.
    name = "resources/demo/land/elevation.tif"
    with MemoryFile(made[name]) as memory, memory.open() as new, rasterio.open(_ROOT / name) as old:
        assert new.profile == old.profile
        assert np.array_equal(new.read(1), old.read(1))


def test_a_geotiff_of_ours_reads_back_through_gdal() -> None:
    values = np.arange(-500, 500, dtype=np.int16).reshape(100, 10)
    data = geotiff_bytes(
        values,
        west_deg=-31.5,
        north_deg=47.25,
        cell_deg=1 / 1800,
        nodata=-32768,
        description="INVENTED",
        rights="none",
    )
    with MemoryFile(data) as memory, memory.open() as raster:
        assert np.array_equal(raster.read(1), values)
        assert raster.crs.to_epsg() == 4326
        assert raster.nodata == -32768
        assert raster.bounds.left == pytest.approx(-31.5, abs=1e-12)
        assert raster.bounds.bottom == pytest.approx(47.25 - 100 / 1800, abs=1e-12)
        assert raster.tags()["TIFFTAG_IMAGEDESCRIPTION"] == "INVENTED"


def test_a_single_cell_is_traced_as_a_diamond_with_land_on_the_left() -> None:
    shore = np.full((5, 5), -10.0)
    shore[2, 2] = 10.0
    (ring,) = trace(shore)
    assert set(ring) == {(1.5, 2.0), (2.0, 1.5), (2.5, 2.0), (2.0, 2.5)}
    assert ring[0] == ring[-1]
    # Rows count southward, so x = column, y = -row; a positive area turns anticlockwise.
    pairs = list(pairwise(ring))
    assert sum(c0 * -r1 + c1 * r0 for (r0, c0), (r1, c1) in pairs) > 0.0


def test_two_cells_that_touch_at_a_corner_are_joined_only_by_high_ground_between() -> None:
    shore = np.full((6, 6), -10.0)
    shore[2, 2] = shore[3, 3] = 9.0
    assert len(trace(shore)) == 2
    shore[2, 2] = shore[3, 3] = 11.0
    assert len(trace(shore)) == 1


def test_thinning_keeps_within_the_tolerance() -> None:
    steps = np.linspace(0.0, 2.0 * np.pi, 400)
    ring = [(float(10 * np.sin(s)), float(10 * np.cos(s))) for s in steps[:-1]]
    ring.append(ring[0])
    kept = thinned(ring, 0.05, 1.0)
    assert 20 < len(kept) < 80
    assert kept[0] == kept[-1]
    # Between kept points of a circle the line lies inside it by at most the tolerance.
    for (r0, c0), (r1, c1) in pairwise(kept):
        assert np.hypot((r0 + r1) / 2, (c0 + c1) / 2) > 10.0 - 0.051


def test_degrees_and_minutes_carry_over_to_the_next_degree() -> None:
    assert minutes_text(-31.9999999, "EW") == "032 00.000 W"
    assert minutes_text(47.123333, "NS") == "47 07.400 N"
