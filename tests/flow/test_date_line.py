"""The whole job across the date line and in the other hemisphere gives the same plan."""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from core.files.plan_geojson import geojson_bytes
from tests.helpers.land_files import write_geojson, write_tif
from tests.helpers.small_job import CELL_DEG, Scene, figures

_LAT = 50.2


def _same(one: Any, other: Any, path: str = "") -> None:
    """Equal but for what cells of other rounding can move: 0.005 NM and 0.05 deg."""
    assert type(one) is type(other), path
    if isinstance(one, dict):
        assert one.keys() == other.keys(), path
        for key in one:
            _same(one[key], other[key], f"{path}.{key}")
    elif isinstance(one, list):
        assert len(one) == len(other), path
        for number, (a, b) in enumerate(zip(one, other, strict=True)):
            _same(a, b, f"{path}[{number}]")
    elif isinstance(one, float | int) and not isinstance(one, bool):
        is_bearing = path.endswith(("bearing_deg", "course"))
        apart = abs((one - other + 180.0) % 360.0 - 180.0) if is_bearing else abs(one - other)
        assert apart <= (0.05 if is_bearing else 0.005), (path, one, other)
    else:
        assert one == other, path


@pytest.fixture(scope="module")
def at_greenwich(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    scene = Scene(folder=tmp_path_factory.mktemp("zero"), lat_deg=_LAT, lon_deg=0.0)
    plan = figures(scene.plan(scene.write_whole()))
    assert any(leg["lines"] for leg in plan)
    return plan


def test_one_file_across_the_date_line_gives_the_same_plan(
    tmp_path: Path, at_greenwich: list[dict[str, Any]]
) -> None:
    scene = Scene(folder=tmp_path, lat_deg=_LAT, lon_deg=180.0)
    _same(figures(scene.plan(scene.write_whole())), at_greenwich)


def test_two_files_and_a_coast_cut_at_180_give_the_same_plan(
    tmp_path: Path, at_greenwich: list[dict[str, Any]]
) -> None:
    scene = Scene(folder=tmp_path, lat_deg=_LAT, lon_deg=180.0)
    heights = scene.heights()
    half = heights.shape[1] // 2
    north, west = _LAT + 0.2, 180.0 - half * CELL_DEG
    east_file = write_tif(
        tmp_path / "e.tif", heights[:, :half], west=west, north=north, cell=CELL_DEG
    )
    west_file = write_tif(
        tmp_path / "w.tif", heights[:, half:], west=-180.0, north=north, cell=CELL_DEG
    )
    coasts = []
    for name, turn, box in (
        ("e", 0.0, (west, _LAT - 0.2, 180.0, north)),
        ("w", -360.0, (-180.0, _LAT - 0.2, west + 2 * half * CELL_DEG - 360.0, north)),
    ):
        rings = [
            tuple((x + turn, y) for x, y in ring)
            for ring in scene.rings()
            if bool(min(x for x, _y in ring) < 180.0) == (turn == 0.0)
        ]
        coasts.append(write_geojson(tmp_path / f"{name}.geojson", polygons=rings, bbox=box))
    _same(figures(scene.plan((east_file, west_file, *coasts))), at_greenwich)


def test_coverage_across_the_date_line_is_cut_there(tmp_path: Path) -> None:
    scene = Scene(folder=tmp_path, lat_deg=_LAT, lon_deg=180.0)
    text = geojson_bytes(scene.plan(scene.write_whole()))

    def runs(node: Any) -> Any:
        if node and isinstance(node[0], list) and isinstance(node[0][0], float | int):
            yield node
        elif node and isinstance(node[0], list):
            for part in node:
                yield from runs(part)

    lengths = []
    for feature in json.loads(text)["features"]:
        geometry = feature["geometry"]
        if geometry["type"] == "Point":
            assert -180.0 <= geometry["coordinates"][0] <= 180.0
            continue
        for run in runs(geometry["coordinates"]):
            assert all(-180.0 <= x <= 180.0 for x, *_rest in run)
            lengths += [abs(b[0] - a[0]) for a, b in pairwise(run)]
    # RFC 7946 section 3.1.9: nothing runs the long way round.
    assert max(lengths) < 1.0


def test_the_same_scene_south_of_the_equator_is_its_mirror(
    tmp_path: Path, at_greenwich: list[dict[str, Any]]
) -> None:
    scene = Scene(folder=tmp_path, lat_deg=-_LAT, lon_deg=0.0, is_mirrored=True)
    mirrored = figures(scene.plan(scene.write_whole()))
    for leg, north in zip(mirrored, at_greenwich, strict=True):
        assert leg["course"] == pytest.approx((180.0 - north["course"]) % 360.0, abs=0.05)
        assert leg["distance"] == pytest.approx(north["distance"], abs=0.005)
        assert leg["status"] == north["status"]
        for line, other in zip(leg["lines"], north["lines"], strict=True):
            assert {line["side"], other["side"]} == {"port", "starboard"}
            # A cell's row is counted from its other edge: half a cell of 93 m and its rounding.
            for key in ("cross_index_range_nm", "from_along_nm", "to_along_nm"):
                assert line[key] == pytest.approx(other[key], abs=0.13)


def test_an_ocean_passage_with_a_coast_file_but_no_coast_in_reach_is_planned(
    tmp_path: Path,
) -> None:
    scene = Scene(folder=tmp_path, lat_deg=_LAT, lon_deg=0.0)
    tif = write_tif(
        tmp_path / "sea.tif", scene.heights() * 0, west=-0.2, north=_LAT + 0.2, cell=CELL_DEG
    )
    far = ((2.0, 51.0), (2.1, 51.0), (2.1, 51.1))
    coast = write_geojson(tmp_path / "coast.geojson", polygons=[far], bbox=(-3.0, 49.0, 3.0, 52.0))
    plan = figures(scene.plan((tif, coast)))
    assert [leg["lines"] for leg in plan] == [[], [], []]
    assert {leg["status"] for leg in plan} == {"complete"}
