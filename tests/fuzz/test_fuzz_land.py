"""Fuzzing of the land readers: only ``LegsheetError`` may come out, in bounded time."""

import io
import json
import tempfile
import zipfile
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from core.base.errors import LegsheetError
from core.jobs.inspect_data import inspect_paths
from tests.helpers.land_files import box_ring, land_of, write_geojson, write_layer, write_tif

BOX = (-29.9, 39.1, -29.1, 39.9)
ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)
SUFFIXES = [".tif", ".hgt", ".vrt", ".zip", ".geojson", ".json", ".shp", ".gpkg"]


COMPANIONS: dict[str, bytes] = {}
"""What a Shapefile needs beside it, by suffix."""


def _good_files() -> dict[str, bytes]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        heights = np.arange(1600).reshape(40, 40)
        tif = write_tif(folder / "a.tif", heights, west=-29.8, north=39.8, cell=0.01)
        geojson = write_geojson(folder / "c.geojson", polygons=[ISLAND], bbox=(-30, 39, -29, 40))
        island = [shapely.Polygon(ISLAND)]
        shp = write_layer(folder / "s.shp", island, kind="Polygon", driver="ESRI Shapefile")
        COMPANIONS.update({end: shp.with_suffix(end).read_bytes() for end in (".shx", ".dbf")})
        gpkg = write_layer(folder / "g.gpkg", island, kind="Polygon", driver="GPKG")
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("N39W030.hgt", np.ones(1_442_401, dtype=">i2").tobytes())
        return {
            ".tif": tif.read_bytes(),
            ".geojson": geojson.read_bytes(),
            ".shp": shp.read_bytes(),
            ".gpkg": gpkg.read_bytes(),
            ".zip": packed.getvalue(),
        }


GOOD = _good_files()


def _put(folder: Path, name: str, data: bytes) -> Path:
    path = folder / name
    path.write_bytes(data)
    if path.suffix == ".shp":
        for end, companion in COMPANIONS.items():
            path.with_suffix(end).write_bytes(companion)
    return path


def _feed(name: str, data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = _put(Path(folder), name, data)
        refusals: list[LegsheetError] = []
        try:
            land = land_of(path, box=BOX, coast_height_m=20.0)
        except LegsheetError as exc:
            refusals.append(exc)
        else:
            assert np.array_equal(np.isnan(land.heights_m), land.cell > 1)
            assert float(np.nanmin(land.heights_m, initial=0.0)) >= 0.0
        try:
            json.dumps(inspect_paths([path]).to_dict(), allow_nan=False)
        except LegsheetError as exc:
            refusals.append(exc)
        assert all(refusal.what and "\n" not in str(refusal) for refusal in refusals)


@settings(max_examples=60)
@given(suffix=st.sampled_from(SUFFIXES), data=st.binary(max_size=600))
def test_any_bytes_are_refused_in_a_sentence(suffix: str, data: bytes) -> None:
    _feed(f"N39W030{suffix}", data)


@settings(max_examples=120)
@given(
    suffix=st.sampled_from(sorted(GOOD)),
    places=st.lists(st.tuples(st.floats(0.0, 1.0), st.integers(0, 255)), min_size=1, max_size=6),
    keep=st.floats(0.2, 1.0),
)
def test_mutated_good_files_are_read_or_refused(
    suffix: str, places: list[tuple[float, int]], keep: float
) -> None:
    data = bytearray(GOOD[suffix])
    for at, value in places:
        data[min(int(at * len(data)), len(data) - 1)] = value
    _feed(f"N39W030{suffix}", bytes(data[: max(1, int(keep * len(data)))] if keep < 0.9 else data))


@settings(max_examples=80)
@given(
    ring=st.lists(
        st.tuples(
            st.one_of(st.floats(-30.0, -29.0), st.floats()),
            st.one_of(st.floats(39.0, 40.0), st.floats()),
        ),
        max_size=8,
    ),
    bbox=st.one_of(st.none(), st.lists(st.one_of(st.integers(-200, 200), st.floats()), max_size=7)),
)
def test_any_ring_and_box_are_read_or_refused(
    ring: list[tuple[float, float]], bbox: list[float] | None
) -> None:
    collection = {
        "type": "FeatureCollection",
        **({"bbox": bbox} if bbox is not None else {}),
        "features": [
            {
                "type": "Feature",
                "properties": {},
                "geometry": {"type": "Polygon", "coordinates": [[list(p) for p in ring]]},
            }
        ],
    }
    _feed("c.geojson", json.dumps(collection).encode())


@pytest.mark.parametrize("suffix", sorted(GOOD))
def test_good_files_are_read(suffix: str, tmp_path: Path) -> None:
    # The control of this fuzzing: unharmed, every file it starts from is land.
    path = _put(tmp_path, f"N39W030{suffix}", GOOD[suffix])
    assert (land_of(path, box=BOX, coast_height_m=20.0).cell == 1).any()
