import hashlib
import json
from pathlib import Path

import numpy as np
import pytest

from core.base.errors import InputError
from core.jobs.inspect_data import inspect_paths
from tests.helpers.land_files import VOID, box_ring, write_geojson, write_tif

ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)


def test_elevation_is_told_in_numbers_and_words(tmp_path: Path) -> None:
    heights = np.arange(400).reshape(20, 20)
    heights[:2] = VOID
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=0.01)
    report = inspect_paths([path])
    assert report.is_usable
    (facts,) = report.to_dict()["files"]
    assert facts["kind"] == "elevation"
    assert facts["area_w_s_e_n_deg"] == pytest.approx([-30.0, 39.8, -29.8, 40.0])
    assert facts["void_fraction"] == 0.1
    assert (facts["lowest_m"], facts["highest_m"]) == (40.0, 399.0)
    assert facts["sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()
    assert facts["quality"]["grade"] == "poor"
    text = "\n".join(report.lines())
    assert "a.tif: elevation" in text
    assert "void 10.00% of the cells" in text


def test_coast_is_told_with_its_area_and_who_states_it(tmp_path: Path) -> None:
    path = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND, box_ring(-29.2, 39.1, -29.1, 39.2)],
        bbox=(-30, 39, -29, 40),
    )  # fmt: skip
    (facts,) = inspect_paths([path]).to_dict()["files"]
    assert facts["kind"] == "coast"
    assert (facts["polygons"], facts["lines"]) == (2, 0)
    assert facts["declared_w_s_e_n_deg"] == [[-30.0, 39.0, -29.0, 40.0]]
    assert facts["declared_by"] == "the file"


def test_route_is_told_as_a_route_also_in_geojson(tmp_path: Path) -> None:
    path = write_geojson(
        tmp_path / "r.geojson", lines=[((-29.9, 39.1), (-29.5, 39.2), (-29.1, 39.9))]
    )
    (facts,) = inspect_paths([path]).to_dict()["files"]
    assert facts["kind"] == "route"
    assert (facts["waypoints"], facts["legs"]) == (3, 2)


def test_a_bad_file_is_one_line_and_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "bad.tif").write_bytes(b"II*\0")
    write_geojson(tmp_path / "c.geojson", polygons=[ISLAND])
    report = inspect_paths([tmp_path])
    assert not report.is_usable
    assert [file.kind for file in report.files] == ["unusable", "coast"]
    assert report.files[0].problem.startswith("bad.tif: ")
    assert report.files[0].problem in report.lines()
    json.dumps(report.to_dict())


def test_nothing_to_look_at_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="neither land data nor routes"):
        inspect_paths([tmp_path])
    with pytest.raises(InputError, match="no such file"):
        inspect_paths([tmp_path / "gone.tif"])


def test_real_area_is_told_as_its_readme_says(real_data: Path) -> None:
    # Source: README.md of the test data (voids 1.8 %, vertices 110-140 m and 650-780 m apart).
    files = {f["name"]: f for f in inspect_paths([real_data / "bc_howe_sound"]).to_dict()["files"]}
    assert files["dem_srtm3.tif"]["void_fraction"] == pytest.approx(0.018, abs=0.0005)
    assert 110.0 <= files["coast_gshhg_f_land.geojson"]["spacing_m"] <= 140.0
    assert 640.0 <= files["coast_osm_generalised_land.geojson"]["spacing_m"] <= 780.0
    assert files["HoweSound_Squamish.rtz"]["kind"] == "route"
