"""Heights of the land model against summits.

Source: ``reference_tables/known_summits.csv`` of the test data: published summit heights
(general knowledge, good to 10 m and 0.01 deg by the table) and the greatest height of the
elevation file within 0.015 deg, found there by other means. SRTM at 3 arc-seconds reads 5-30 m
low on sharp summits, 47 m at most in the table, which both checks allow for.
"""

import csv
from pathlib import Path

import numpy as np
import pytest

from core.base.progress import Quiet
from core.files.load_land import load_land
from core.geodesy.position import Bounds

_NEAR_DEG = 0.015
_HALF_A_CELL_DEG = 0.00042


def test_summits_stand_where_and_as_high_as_the_tables_say(real_data: Path) -> None:
    with (real_data / "reference_tables" / "known_summits.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(line for line in stream if not line.startswith("#")))
    assert len(rows) == 11
    for row in rows:
        lat, lon = float(row["lat"]), float(row["lon"])
        land = load_land(
            [real_data / row["area"]],
            bounds=Bounds(
                south_deg=lat - 0.03, west_deg=lon - 0.03, north_deg=lat + 0.03, east_deg=lon + 0.03
            ),
            water_level_m=0.0, height_error_m=5.0, coast_height_m=None, progress=Quiet(),
        )  # fmt: skip
        r, c = np.meshgrid(
            np.arange(float(land.lattice.rows)), np.arange(float(land.lattice.cols)), indexing="ij"
        )
        at_lat, at_lon = (v.reshape(r.shape) for v in land.lattice.lat_lon(r.ravel(), c.ravel()))
        near = (abs(at_lat - lat) <= _NEAR_DEG) & (abs(at_lon - lon) <= _NEAR_DEG)
        heights = np.where(near, land.heights_m, -1.0)
        top = np.unravel_index(int(np.nanargmax(heights)), heights.shape)
        height = float(heights[top])
        assert height == pytest.approx(float(row["dem_max_m"]), abs=0.5), row["summit"]
        assert at_lat[top] == pytest.approx(float(row["dem_max_lat"]), abs=_HALF_A_CELL_DEG)
        assert at_lon[top] == pytest.approx(float(row["dem_max_lon"]), abs=_HALF_A_CELL_DEG)
        assert -57.0 <= height - float(row["published_m"]) <= 13.0, row["summit"]


def test_raw_tile_and_geotiff_of_one_area_agree(real_data: Path) -> None:
    # Two editions of SRTM tile N56W006 and a zipped one of S29W072, from other mirrors.
    for raw, area, box in (
        ("N56W006.hgt", "scotland_lorn_kintyre", (-5.6, 56.2, -5.2, 56.6)),
        ("S29W072.hgt.zip", "chile_coquimbo", (-71.6, -28.8, -71.2, -28.4)),
    ):
        west, south, east, north = box
        both = [
            load_land(
                [path],
                bounds=Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east),
                water_level_m=0.0, height_error_m=5.0, coast_height_m=None, progress=Quiet(),
            )
            for path in (real_data / "raw_hgt" / raw, real_data / area / "dem_srtm3.tif")
        ]  # fmt: skip
        assert both[0].lattice.left_x == pytest.approx(both[1].lattice.left_x, abs=1e-9)
        assert both[0].lattice.top_y == pytest.approx(both[1].lattice.top_y, abs=1e-9)
        assert np.array_equal(both[0].heights_m, both[1].heights_m, equal_nan=True)
