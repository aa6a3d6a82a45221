"""The stamp of land data changes with every file that the land is read from, and with no other."""

import os
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from core.base.errors import InputError
from core.files.land_stamp import land_stamp
from tests.helpers.land_files import write_geojson, write_tif


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_tif(tmp_path / "land.tif", np.ones((8, 8), np.int16), west=0.0, north=1.0, cell=0.01)
    ring = ((0.01, 0.95), (0.05, 0.95), (0.05, 0.99), (0.01, 0.95))
    write_geojson(tmp_path / "coast.geojson", polygons=[ring], bbox=(0.0, 0.9, 0.1, 1.0))
    return tmp_path


def _touch(path: Path) -> None:
    state = path.stat()
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns + 1_000_000_000))


@pytest.mark.parametrize(
    "change",
    [
        lambda folder: _touch(folder / "land.tif"),
        lambda folder: (folder / "coast.geojson").write_text("{}"),
        lambda folder: (folder / "land.tfw").write_text("1"),
        lambda folder: (folder / "land.tif.aux.xml").write_text("<a/>"),
        lambda folder: (folder / "land.tif.source.toml").write_text("licence = 'x'"),
        lambda folder: (folder / "source.toml").write_text("licence = 'x'"),
        lambda folder: (folder / "more.hgt").write_bytes(b"12"),
        lambda folder: (folder / "coast.geojson").unlink(),
    ],
)
def test_it_changes_with_what_is_read(folder: Path, change: Callable[[Path], object]) -> None:
    before = land_stamp((folder,), None)
    assert land_stamp((folder,), None) == before
    change(folder)
    assert land_stamp((folder,), None) != before


def test_it_does_not_change_with_what_lies_beside(folder: Path) -> None:
    before = land_stamp((folder,), None)
    (folder / "passage.legsheet").write_text("saved beside the land")
    (folder / "landing.txt").write_text("no land")
    assert land_stamp((folder,), None) == before


def test_a_file_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        land_stamp((tmp_path / "none.tif",), None)
