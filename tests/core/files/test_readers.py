"""Opening a route whatever it is called, and saying what it is when it is none."""

import hashlib
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.readers import read_passage

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"
_TODO = "Choose an RTZ, GPX, CSV or GeoJSON route, or a text with one position a line."


def _text_of_error(path: Path, data: bytes) -> str:
    path.write_bytes(data)
    with pytest.raises(InputError) as caught:
        read_passage(path)
    return str(caught.value)


@pytest.mark.parametrize(
    ("suffix", "kind"),
    [
        ("rtz", "RTZ 1.1"),
        ("gpx", "GPX 1.1"),
        ("csv", "CSV"),
        ("geojson", "GeoJSON"),
        ("txt", "text"),
    ],
)
def test_content_decides_and_not_the_name(tmp_path: Path, suffix: str, kind: str) -> None:
    data = (_SAMPLES / f"invented_strait.{suffix}").read_bytes()
    path = tmp_path / "route.xyz"
    path.write_bytes(data)
    route = read_passage(path)
    assert (route.kind, route.name) == (kind, "route.xyz")
    assert route.sha256 == hashlib.sha256(data).hexdigest()
    assert len(route.passage.waypoints) == 3


def test_the_five_samples_describe_one_track() -> None:
    tracks = [
        [
            (round(w.position.lat_deg, 6), round(w.position.lon_deg, 6))
            for w in read_passage(path).passage.waypoints
        ]
        for path in sorted(_SAMPLES.glob("invented_strait.*"))
    ]
    assert len(tracks) == 5
    assert all(track == tracks[0] for track in tracks)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00", "a PNG picture"),
        (b"%PDF-1.7\n", "a PDF document"),
        (b"\xff\xd8\xff\xe0", "a JPEG picture"),
        (b"II*\x00", "a TIFF raster"),
        (b"SQLite format 3\x00", "an SQLite or GeoPackage file"),
        (b"\x1f\x8b\x08", "a gzip file"),
    ],
)
def test_files_of_another_kind(tmp_path: Path, data: bytes, words: str) -> None:
    assert (
        _text_of_error(tmp_path / "a.rtz", data) == f"a.rtz: this is {words}, not a route. {_TODO}"
    )


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"<html><body/></html>", f"this is XML of another kind (<html>), not a route. {_TODO}"),
        (b"<kml/>", f"this is XML of another kind (<kml>), not a route. {_TODO}"),
        (b" \n\t ", "this file is empty. Export or copy it again."),
        (
            b"\x00\x01\x02\x03",
            "this is not a text file, or its encoding is unknown. Save it as UTF-8 text.",
        ),
        (
            b"Dear all,\nsee you at 10 tomorrow",
            ("line 2: ", "it cannot be read as one position"),
        ),
    ],
)
def test_files_that_are_no_route(
    tmp_path: Path, data: bytes, sentence: str | tuple[str, ...]
) -> None:
    text = _text_of_error(tmp_path / "a.rtz", data)
    if isinstance(sentence, str):
        assert text == f"a.rtz: {sentence}"
    else:
        assert all(part in text for part in sentence)


def test_a_route_cut_anywhere_is_an_error_or_a_shorter_passage(tmp_path: Path) -> None:
    for suffix in ("rtz", "gpx", "geojson", "csv", "txt"):
        data = (_SAMPLES / f"invented_strait.{suffix}").read_bytes()
        for end in range(1, len(data), 37):
            path = tmp_path / f"a.{suffix}"
            path.write_bytes(data[:end])
            try:
                route = read_passage(path)
            except InputError:
                continue
            # XML and JSON know their end; only lines of text can be fewer unnoticed.
            assert suffix in {"csv", "txt"} or data[end:].strip() == b""
            assert 2 <= len(route.passage.waypoints) <= 3


def test_the_sentence_for_a_cut_route(tmp_path: Path) -> None:
    data = (_SAMPLES / "invented_strait.rtz").read_bytes()[:900]
    line = data.count(b"\n") + 1
    assert _text_of_error(tmp_path / "a.rtz", data) == (
        f"a.rtz, line {line}: the file is cut short. Export or copy it again."
    )


def test_latin_letters_in_an_undeclared_encoding(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes("Name;Lat;Lon\nMalmö;55,6;12,9\nYstad;55,4;13,8".encode("cp1252"))
    route = read_passage(path)
    assert route.passage.waypoints[0].name == "Malmö"
    assert [f.code for f in route.findings] == ["encoding-assumed", "leg-kind-assumed"]


def test_a_spreadsheet_as_unicode_text(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_bytes("Name\tLat\tLon\nMalmö\t55,6\t12,9\nYstad\t55,4\t13,8".encode("utf-16"))
    assert read_passage(path).passage.waypoints[0].name == "Malmö"
