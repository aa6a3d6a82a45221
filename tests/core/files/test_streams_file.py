"""Streams of single legs: read as given; one sentence for what does not fit."""

import hashlib
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.units import mps_from_kn
from core.files.streams_file import leeway_of, read_streams
from core.passage.stream import Leeway, LegStream, Stream

_HEADER = "leg,set,drift,leeway\n"


def _read(folder: Path, text: str) -> tuple[tuple[int, LegStream], ...]:
    path = folder / "streams.csv"
    path.write_text(text, encoding="utf-8")
    rows, findings, sha256 = read_streams(path)
    assert findings == ()
    assert sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    return rows


def test_rows_are_read_in_the_order_of_the_file(tmp_path: Path) -> None:
    rows = _read(tmp_path, _HEADER + "3,045,1.5,\n1,,,+4\n2,360,0,-2.5\n")
    assert rows == (
        (3, LegStream(stream=Stream(set_deg=45.0, drift_mps=mps_from_kn(1.5)))),
        (1, LegStream(leeway=Leeway(to_starboard_deg=4.0))),
        (
            2,
            LegStream(stream=Stream(set_deg=0.0, drift_mps=0.0), leeway=Leeway(to_port_deg=2.5)),
        ),
    )


def test_other_headings_semicolons_and_decimal_commas_are_read(tmp_path: Path) -> None:
    rows = _read(tmp_path, "# rates at springs\nleg_no;set_deg;rate_kn\n2;200;0,75\n")
    assert rows == ((2, LegStream(stream=Stream(set_deg=200.0, drift_mps=mps_from_kn(0.75)))),)


@pytest.mark.parametrize(
    ("text", "leeway"),
    [
        ("4", Leeway(to_port_deg=4.0, to_starboard_deg=4.0)),
        ("+4", Leeway(to_starboard_deg=4.0)),
        ("-4", Leeway(to_port_deg=4.0)),
        ("0", Leeway()),
        ("46", None),
        ("4S", None),
        ("", None),
    ],
)
def test_leeway_is_either_way_unless_it_has_a_sign(text: str, leeway: Leeway | None) -> None:
    assert leeway_of(text) == leeway


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ("x,1,1,\n", "line 2: leg «x» is not a number of a leg. Write 1 for the first leg."),
        ("0,1,1,\n", "line 2: leg «0» is not a number of a leg. Write 1 for the first leg."),
        ("1,1,1,\n1,2,2,\n", "line 3: leg 1 has a row already. Leave one of them out."),
        ("1,45,,\n", "line 2: set is given without drift. Give both, or neither."),
        ("1,,1,\n", "line 2: drift is given without set. Give both, or neither."),
        ("1,400,1,\n", "line 2: set «400» is not a number from 0 to 360°. Correct the value."),
        ("1,4,-1,\n", "line 2: drift «-1» is not a number from 0 to 20 kn. Correct the value."),
        (
            "1,4,1,west\n",
            "line 2: leeway «west» is not an angle up to 45°. Write 4 for either way, +4 to "
            "starboard, -4 to port.",
        ),
        (
            "1,,,\n",
            "line 2: neither stream nor leeway is given. Fill the row or leave it out.",
        ),
    ],
)
def test_what_does_not_fit_is_one_sentence(tmp_path: Path, rows: str, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        _read(tmp_path, _HEADER + rows)
    assert str(error.value) == f"streams.csv, {sentence}"


def test_a_table_without_rows_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there are no streams under the header"):
        _read(tmp_path, _HEADER)
