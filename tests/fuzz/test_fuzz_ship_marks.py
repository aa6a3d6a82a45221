"""Readers of ship, marks and limits on random and on damaged bytes: only InputError comes out."""

import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from core.base.errors import InputError
from core.files.contingency_file import read_contingencies
from core.files.expected_plan import read_expected
from core.files.limits_file import read_limits
from core.files.marks_file import read_marks
from core.files.ship_file import builtin_ship_path, read_ship
from core.files.sightings_file import read_sightings
from core.files.streams_file import read_streams
from core.jobs.demo import demo_paths
from tests.helpers.small_plan import SMALL_PLAN

Reader = Callable[[Path], object]

_GEOJSON = (
    b'{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"name": "A", '
    b'"kind": "pier", "fixed": true, "height_m": 3}, "geometry": {"type": "Point", '
    b'"coordinates": [-31.5, 47.1]}}]}'
)
_GOOD: dict[str, tuple[Reader, bytes]] = {
    "ship": (read_ship, builtin_ship_path("general_cargo").read_bytes()),
    "marks": (read_marks, demo_paths().marks.read_bytes()),
    "geojson": (read_marks, _GEOJSON),
    "limits": (read_limits, demo_paths().limits.read_bytes()),
    "contingencies": (
        read_contingencies,
        b"# invented\nleg,from_nm_to_go,turn_before_nm_to_go,course_deg,distance_nm,lat,lon,name\n"
        b"3,1.8,,300,4.5,,,sea room\n4,,1,,,47 12.0 N,031 33.0 W,\n",
    ),
    "streams": (read_streams, b"# invented\nleg,set,drift,leeway\n1,045,1.5,4\n2,,,+4\n3,0,2,\n"),
}
_GOOD["sightings"] = (
    read_sightings,
    b"# invented\nobject,leg,range_nm,time_utc,radar\nA,1,9.4,,main\nB,2,,2031-05-04T06:10Z,\n",
)
_GOOD["expected"] = (read_expected, SMALL_PLAN)
_SNIPPETS = st.sampled_from(
    [
        b"nan", b"inf", b"-1", b"0", b"1e400", b"9" * 5000, b"true", b'"', b"[", b"]", b"{", b"}",
        b"\x00", b"\xff", b"\r", b"\n", b",", b";", b"=", b"1979-05-27", b"null", b"#", b"\xc3\xa9",
        b"0x" + b"f" * 400, b"[[radar]]\n", b"\xe2\x80\xae",
    ]
)  # fmt: skip


def _read(reader: Reader, data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "file.txt"
        path.write_bytes(data)
        try:
            reader(path)
        except InputError as exc:
            text = str(exc)
            assert "file.txt" in text
            assert "\n" not in text
            assert len(text) < 700


@pytest.mark.parametrize("kind", _GOOD)
@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.binary(max_size=400))
@example(data=b"\xef\xbb\xbf")
@example(data=b"[" * 20_000)
@example(data=b'{"features":' + b"[" * 20_000)
@example(data=b'{"features": [1]}')
@example(data=b'{"features": [{"geometry": {"type": "Point", "coordinates": [1e999, 0]}}]}')
def test_random_bytes_never_break_a_reader(kind: str, data: bytes) -> None:
    _read(_GOOD[kind][0], data)


@pytest.mark.parametrize("kind", _GOOD)
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    places=st.lists(
        st.tuples(st.floats(0.0, 1.0), st.integers(0, 12), _SNIPPETS), min_size=1, max_size=4
    )
)
def test_damaged_good_files_never_break_a_reader(
    kind: str, places: list[tuple[float, int, bytes]]
) -> None:
    reader, data = _GOOD[kind]
    for share, cut, snippet in places:
        at = int(share * len(data))
        data = data[:at] + snippet + data[at + cut :]
    _read(reader, data)


@pytest.mark.parametrize("kind", _GOOD)
def test_a_good_file_cut_anywhere_never_breaks_a_reader(kind: str) -> None:
    reader, data = _GOOD[kind]
    for end in range(1, len(data), max(1, len(data) // 150)):
        _read(reader, data[:end])
