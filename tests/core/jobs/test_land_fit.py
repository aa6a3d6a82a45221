"""The land shelf: remembered by area, held against a passage; the demo's invented land."""

from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.progress import Quiet
from core.files.data_inspection import CoastFacts, coast_facts
from core.files.land_shelf import Shelf, ShelfFile, read_shelf, write_shelf
from core.files.readers import read_passage
from core.geodesy.position import Bounds
from core.jobs.demo import demo_paths
from core.jobs.land_fit import fit_of, looked_at
from core.words.land_fit_words import fit_words

_NM = 1852.0


def _demo_shelf() -> Shelf:
    return looked_at(Shelf(), list(demo_paths().land), Quiet())


def test_the_demo_land_covers_the_demo_passage(tmp_path: Path) -> None:
    shelf = _demo_shelf()
    passage = read_passage(demo_paths().route).passage
    fit = fit_of(shelf, passage, 6.0 * _NM)
    assert set(fit.kinds) == {"elevation", "coast"}
    assert fit.kinds[0] == "elevation"
    # Open sea round the invented islands needs no heights, and has none.
    assert 0.5 < fit.heights_share < 1.0
    assert fit.coast_share > 0.9
    assert all(0.0 < share <= 1.0 for share in fit.shares)
    # Written and read it is the same shelf.
    path = tmp_path / "shelf.json"
    write_shelf(path, shelf)
    assert read_shelf(path) == shelf


def test_files_looked_at_in_another_language_are_looked_at_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "shelf.json"
    file = ShelfFile(path=tmp_path / "a.tif", size=1, changed_ns=2, kind="elevation")
    write_shelf(path, Shelf(files=(file,)))
    assert read_shelf(path).files == (file,)
    monkeypatch.setattr("core.files.land_shelf.LANGUAGE", "xx")
    assert read_shelf(path) == Shelf()


def test_nothing_is_read_twice_until_it_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = next(file.path for file in _demo_shelf().files if file.kind == "coast")
    copy = tmp_path / source.name
    copy.write_bytes(source.read_bytes())
    shelf = looked_at(Shelf(), [copy], Quiet())
    read: list[Path] = []

    def counted(path: Path) -> CoastFacts:
        read.append(path)
        return coast_facts(path)

    monkeypatch.setattr("core.jobs.land_fit.coast_facts", counted)
    assert looked_at(shelf, [copy], Quiet()) == shelf
    assert read == []
    copy.write_bytes(source.read_bytes() + b"\n")
    assert shelf.of(copy.resolve()) is None
    again = looked_at(shelf, [copy], Quiet())
    assert read == [copy.resolve()]
    assert len(again.files) == 1
    copy.unlink()
    passage = read_passage(demo_paths().route).passage
    assert fit_of(again, passage, _NM).paths == ()


def test_a_file_that_cannot_be_used_is_kept_with_its_reason(tmp_path: Path) -> None:
    (tmp_path / "broken.tif").write_bytes(b"not a raster")
    shelf = looked_at(Shelf(), [tmp_path], Quiet())
    assert [file.kind for file in shelf.files] == ["unusable"]
    assert "broken.tif" in shelf.files[0].problem
    with pytest.raises(InputError):
        looked_at(Shelf(), [tmp_path / "none"], Quiet())


def test_legs_outside_the_data_are_named(tmp_path: Path) -> None:
    passage = read_passage(demo_paths().route).passage
    first = passage.waypoints[0].position
    path = tmp_path / "small.tif"
    path.write_bytes(b"x")
    size, changed_ns = path.stat().st_size, path.stat().st_mtime_ns
    box = Bounds(
        south_deg=first.lat_deg - 0.05,
        west_deg=first.lon_deg - 0.05,
        north_deg=first.lat_deg + 0.05,
        east_deg=first.lon_deg + 0.05,
    )
    small = ShelfFile(path=path, size=size, changed_ns=changed_ns, kind="elevation", areas=(box,))
    fit = fit_of(Shelf(files=(small,)), passage, 2.0 * _NM)
    assert 0.0 < fit.legs[0].heights_fraction < 1.0
    assert fit.legs[-1].heights_fraction == 0.0
    assert fit.heights_share == pytest.approx(fit.shares[0]), (
        "one figure for one file, in list and sentence"
    )
    words = fit_words(fit)
    assert "some is missing round legs 1" in words
    assert "Coast: none covers this passage." in words
    far = ShelfFile(
        path=path, size=size, changed_ns=changed_ns, kind="coast",
        areas=(Bounds(south_deg=-60.0, west_deg=170.0, north_deg=-59.0, east_deg=190.0),),
    )  # fmt: skip
    assert fit_words(fit_of(Shelf(files=(far,)), passage, _NM)).startswith("None of this land")


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": "legsheet-land-shelf"}', "null"])
def test_a_broken_shelf_is_an_empty_one(tmp_path: Path, text: str) -> None:
    path = tmp_path / "shelf.json"
    path.write_text(text, encoding="utf-8")
    assert read_shelf(path) == Shelf()
    assert read_shelf(tmp_path / "none.json") == Shelf()
