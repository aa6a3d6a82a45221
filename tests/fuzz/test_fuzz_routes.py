"""Whatever bytes a route file holds: a passage or one sentence, in bounded time."""

import io
import json
import time
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.base.errors import InputError
from core.files.angle_text import AngleError, position_in_text
from core.files.readers import passage_from_blob, passage_from_text
from core.files.reading import blob_of
from core.files.rtz_write import write_rtz

_SAMPLES = Path(__file__).parents[1] / "data" / "routes"
_GOOD = {path.suffix: path.read_bytes() for path in sorted(_SAMPLES.glob("invented_strait.*"))}
_SECONDS = 2.0

# Bytes that mean something to one reader or another.
_TELLING = st.sampled_from(
    [
        b"<", b">", b"&", b"&a;", b"]]>", b"<!--", b"<!DOCTYPE a>", b"<![CDATA[", b"/", b"{", b"[",
        b"]", b'"', b"'", b",", b";", b"\t", b"\n", b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"NaN",
        b"Infinity", b"-", b"1e999", b"9" * 400, b"180", b"-90", b"null", b"true", b"N", b"W",
        b"lat", b"lon", b"<waypoint>", b"<extensions>", b"\xc2\xb0", b"\xed\xa0\x80", b"PK\x01\x02",
    ]
)  # fmt: skip


def _zipped(data: bytes) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a.rtz", data)
    return stream.getvalue()


_GOOD[".rtzp"] = _zipped(_GOOD[".rtz"])


@st.composite
def _mutated(draw: st.DrawFn, good: bytes) -> bytes:
    data = bytearray(good)
    for _ in range(draw(st.integers(1, 6))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 40)))
        what = draw(st.sampled_from(["cut", "put", "double", "end", "flip"]))
        if what == "cut":
            del data[start:end]
        elif what == "put":
            data[start:start] = draw(_TELLING | st.binary(max_size=8))
        elif what == "double":
            data[start:start] = data[start:end]
        elif what == "end":
            del data[max(start, 1) :]
        elif start < len(data):
            data[start] ^= 1 << draw(st.integers(0, 7))
    return bytes(data)


def _survives(data: bytes) -> None:
    started = time.perf_counter()
    try:
        route = passage_from_blob(blob_of("a.rtz", data))
    except InputError as error:
        text = str(error)
        assert text.startswith("a.rtz")
        assert "\n" not in text
        assert len(text) < 600
    else:
        # What was read is whole: it can be written and the legs have a length.
        write_rtz(route.passage)
        for index in range(len(route.passage.legs)):
            assert route.passage.line(index).length_m > 0.0
        for finding in route.findings:
            assert "\n" not in str(finding)
    assert time.perf_counter() - started < _SECONDS


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=400))
def test_random_bytes(data: bytes) -> None:
    _survives(data)


@settings(max_examples=100, deadline=None)
@given(st.lists(_TELLING | st.binary(max_size=4), max_size=40))
def test_telling_bytes_in_any_order(parts: list[bytes]) -> None:
    _survives(b"".join(parts))


@pytest.mark.parametrize("suffix", sorted(_GOOD))
@settings(max_examples=100, deadline=None)
@given(data=st.data())
def test_mutated_good_files(suffix: str, data: st.DataObject) -> None:
    _survives(data.draw(_mutated(_GOOD[suffix])))


@settings(max_examples=100, deadline=None)
@given(data=st.data())
def test_mutated_routes_inside_a_sound_container(data: st.DataObject) -> None:
    _survives(_zipped(data.draw(_mutated(_GOOD[".rtz"]))))


@settings(max_examples=100, deadline=None)
@given(
    st.recursive(
        st.none()
        | st.booleans()
        | st.integers()
        | st.floats(allow_nan=False)
        | st.text(max_size=6),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(
                    ["type", "coordinates", "features", "geometry", "properties", "name"]
                ),
                inner
                | st.sampled_from(
                    ["LineString", "Point", "Feature", "FeatureCollection", "MultiPoint"]
                ),
                max_size=4,
            )
        ),
        max_leaves=20,
    )
)
def test_any_json(document: object) -> None:
    _survives(json.dumps(document).encode())


@settings(max_examples=150, deadline=None)
@given(st.text(alphabet="0123456789 .,;:-+NSEWnsew°'\"\tAbc()/|\n#", max_size=120))
def test_any_typed_text(text: str) -> None:
    started = time.perf_counter()
    try:
        passage_from_text(text, "typed route")
    except InputError as error:
        sentence = str(error)
    else:
        sentence = ""
    assert "\n" not in sentence
    assert time.perf_counter() - started < _SECONDS


@settings(max_examples=150, deadline=None)
@given(
    lat=st.floats(-89.0, 89.0),
    lon=st.floats(-179.9, 179.9),
    notation=st.sampled_from(["decimal", "minutes", "seconds"]),
    mark=st.sampled_from([" ", "°", "-"]),
    comma=st.booleans(),
    name=st.sampled_from(["", "Start ", "WP 12: ", "7; ", "A-1\t"]),
)
def test_what_is_written_plainly_is_read_right(
    lat: float, lon: float, notation: str, mark: str, comma: bool, name: str
) -> None:
    def written(angle: float, letters: str) -> str:
        size = abs(angle)
        if notation == "decimal":
            text = f"{size:.7f}"
        elif notation == "minutes":
            minutes = round(size * 60 * 10_000)
            text = f"{minutes // 600_000}{mark}{minutes % 600_000 / 10_000:07.4f}"
        else:
            seconds = round(size * 3600 * 100)
            rest = seconds % 360_000
            text = f"{seconds // 360_000}{mark}{rest // 6_000:02d}{mark if mark != '°' else ' '}"
            text += f"{rest % 6_000 / 100:05.2f}"
        text = text.replace(".", ",") if comma else text
        return text + letters[0 if angle >= 0 else 1]

    line = f"{name}{written(lat, 'NS')} {written(lon, 'EW')}"
    try:
        position = position_in_text(line)
    except AngleError:
        pytest.fail(f"not read: {line}")
    assert position.lat_deg == pytest.approx(lat, abs=2e-6)
    assert position.lon_deg == pytest.approx(lon, abs=2e-6)
