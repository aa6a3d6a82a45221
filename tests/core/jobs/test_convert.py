"""Converting a route from file to file."""

from pathlib import Path

import pytest

from core.base.errors import InputError, OutputError
from core.files.readers import read_passage
from core.jobs.convert import convert_route

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"


@pytest.mark.parametrize("suffix", ["rtz", "gpx", "csv", "geojson", "txt"])
def test_every_kind_becomes_rtz_without_loss(tmp_path: Path, suffix: str) -> None:
    source, target = _SAMPLES / f"invented_strait.{suffix}", tmp_path / "out.RTZ"
    findings = convert_route(source, target)
    assert findings == read_passage(source).findings
    written = read_passage(target)
    assert (written.passage, written.kind) == (read_passage(source).passage, "RTZ 1.2")
    assert written.findings == ()


def test_what_gpx_cannot_hold_is_a_finding(tmp_path: Path) -> None:
    target = tmp_path / "out.gpx"
    findings = convert_route(_SAMPLES / "invented_strait.rtz", target)
    assert [f.code for f in findings] == ["gpx-holds-less"]
    assert read_passage(target).kind == "GPX 1.1"


def test_the_same_bytes_twice(tmp_path: Path) -> None:
    for name in ("a.rtz", "b.rtz"):
        convert_route(_SAMPLES / "invented_strait.rtz", tmp_path / name)
    assert (tmp_path / "a.rtz").read_bytes() == (tmp_path / "b.rtz").read_bytes()


def test_other_suffixes_are_refused(tmp_path: Path) -> None:
    for name, shown in (("out.kml", ".kml"), ("out", "out")):
        with pytest.raises(InputError) as caught:
            convert_route(_SAMPLES / "invented_strait.rtz", tmp_path / name)
        assert str(caught.value) == (
            f"{tmp_path / name}: routes are not written as “{shown}”. "
            "Name a file that ends in .rtz or .gpx."
        )


def test_a_route_is_not_written_over_itself(tmp_path: Path) -> None:
    source = tmp_path / "a.rtz"
    data = (_SAMPLES / "invented_strait.rtz").read_bytes()
    source.write_bytes(data)
    with pytest.raises(OutputError) as caught:
        convert_route(source, source)
    assert str(caught.value) == (
        f"{source}: this is the route being read, and parts of it would be lost. "
        "Choose another name."
    )
    assert source.read_bytes() == data


def test_an_unusable_source_leaves_the_old_target(tmp_path: Path) -> None:
    target = tmp_path / "out.rtz"
    target.write_bytes(b"old")
    with pytest.raises(InputError):
        convert_route(tmp_path / "missing.rtz", target)
    assert target.read_bytes() == b"old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["out.rtz"]
