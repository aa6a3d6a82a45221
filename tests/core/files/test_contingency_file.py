"""Contingency legs from a table: read as given; one sentence for what does not fit."""

import hashlib
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.units import m_from_nm
from core.files.contingency_file import MOST, read_contingencies
from core.geodesy.position import Position
from core.passage.contingency import Contingency

_HEADER = "leg,from_nm_to_go,from_nm_along,turn_before_nm_to_go,course_deg,distance_nm,lat,lon,name,note\n"  # noqa: E501 - one line of a file


def _read(folder: Path, text: str) -> tuple[Contingency, ...]:
    path = folder / "ways_out.csv"
    path.write_text(text, encoding="utf-8")
    rows, findings, sha256 = read_contingencies(path)
    assert findings == ()
    assert sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    return rows


def test_rows_are_read_in_the_order_of_the_file(tmp_path: Path) -> None:
    rows = _read(
        tmp_path,
        "# invented\n" + _HEADER + "3,1.8,,,300,4.5,,,sea room,if the fog does not lift\n"
        "4,,,1,,,47 12.0 N,031 33.0 W,,\n",
    )
    assert rows == (
        Contingency(
            leg_number=3,
            to_go_m=m_from_nm(1.8),
            course_deg=300.0,
            distance_m=m_from_nm(4.5),
            name="sea room",
            note="if the fog does not lift",
            where="ways_out.csv, line 3",
        ),
        Contingency(
            leg_number=4,
            turn_before_m=m_from_nm(1.0),
            position=Position(lat_deg=47.2, lon_deg=-31.55),
            where="ways_out.csv, line 4",
        ),
    )


def test_other_headings_semicolons_and_decimal_commas_are_read(tmp_path: Path) -> None:
    rows = _read(tmp_path, "leg_no;along;course;dist;to\n2;0,75;360;2;cove\n")
    assert rows[0].along_m == m_from_nm(0.75)
    assert rows[0].course_deg == 0.0
    assert rows[0].name == "cove"


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ("", "no contingency legs under the header"),
        ("3,,,,300,4,,,,\n", "not clear where the line leaves the track"),
        ("3,1,2,,300,4,,,,\n", "not clear where the line leaves the track"),
        ("3,1,,,300,,,,,\n", "not clear where the contingency leg leads"),
        ("3,1,,,,,,,,\n", "not clear where the contingency leg leads"),
        ("3,1,,,300,4,47,-31,,\n", "not clear where the contingency leg leads"),
        ("3,1,,,,,47,,,\n", "only one of lat and lon"),
        ("3,1,,,,,97,-31,,\n", "47 07.40 N"),
        ("3,1,,,361,4,,,,\n", "course_deg «361» is not a number from 0 to 360"),
        ("3,x,,,300,4,,,,\n", "from_nm_to_go «x» is not a number"),
        ("0,1,,,300,4,,,,\n", "leg «0» is not a number of a leg"),
        ("3,1,,,300,4,,," + "n" * 41 + ",\n", "longer than 40 letters"),
        ("3,1,,,300,4,,,,\n" * (MOST + 1), f"more than {MOST} contingency legs"),
    ],
)
def test_what_does_not_fit_is_one_sentence(tmp_path: Path, rows: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        _read(tmp_path, _HEADER + rows)
    assert sentence in str(caught.value)
    assert "ways_out.csv" in str(caught.value)
