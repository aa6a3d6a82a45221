"""Danger limits: read as given, never invented; one sentence for what does not fit."""

import hashlib
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.limits_file import read_limits
from core.plan.plan_result import DangerLimit

_HEADER = "object,leg,not_less_than_nm,not_more_than_nm,note\n"


def _read(folder: Path, text: str) -> tuple[tuple[DangerLimit, ...], list[str]]:
    path = folder / "limits.csv"
    path.write_text(text, encoding="utf-8")
    limits, findings, sha256 = read_limits(path)
    assert sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    return limits, [str(finding) for finding in findings]


def test_limits_are_read_in_metres_in_the_order_of_the_file(tmp_path: Path) -> None:
    limits, findings = _read(
        tmp_path, _HEADER + "Pier Head,3,0.8,,shoal\nB,,0.5,1.5,\nPier Head,,,2,\n"
    )
    assert findings == []
    assert limits == (
        DangerLimit(
            object_id="Pier Head", leg_number=3, least_m=0.8 * 1852, most_m=None, note="shoal"
        ),
        DangerLimit(object_id="B", leg_number=None, least_m=926.0, most_m=2778.0),
        DangerLimit(object_id="Pier Head", leg_number=None, least_m=None, most_m=3704.0),
    )


def test_short_headings_and_decimal_commas_are_read(tmp_path: Path) -> None:
    limits, findings = _read(tmp_path, "# remark\nmark;nlt;nmt\nA;0,8;1,25\n")
    assert findings == []
    assert limits[0].least_m == pytest.approx(1481.6)
    assert limits[0].most_m == pytest.approx(2315.0)


def test_an_unknown_column_is_a_finding(tmp_path: Path) -> None:
    _limits, findings = _read(tmp_path, "object,not_less_then_nm,nlt\nA,0.8,0.8\n")
    assert findings == [
        "limits.csv, line 1: the column «not_less_then_nm» is not known and was left out. "
        "Write «not_less_than_nm» if that was meant."
    ]


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        (
            "A,1,0.8,,\nA,1,,2,\n",
            "limits.csv, line 3: there is already a limit for «A» on leg 1. "
            "Put both values in one row.",
        ),
        (
            "A,,0.8,,\nA,,,2,\n",
            "limits.csv, line 3: there is already a limit for «A» on every leg. "
            "Put both values in one row.",
        ),
        (
            "A,1,,,\n",
            "limits.csv, line 2: there is no distance for «A». "
            "Give not_less_than_nm, not_more_than_nm or both.",
        ),
        (
            "A,1,2,2,\n",
            "limits.csv, line 2: not_less_than_nm 2 is not below not_more_than_nm 2. "
            "Exchange or correct them.",
        ),
        (
            "A,1,0,,\n",
            "limits.csv, line 2: not_less_than_nm 0 is not above 0 and up to 50. "
            "Correct the value.",
        ),
        (
            "A,1,-1,,\n",
            "limits.csv, line 2: not_less_than_nm -1 is not above 0 and up to 50. "
            "Correct the value.",
        ),
        (
            "A,1,1e999,,\n",
            "limits.csv, line 2: not_less_than_nm «1e999» is not a number. Correct the value.",
        ),
        (
            "A,0,1,,\n",
            "limits.csv, line 2: leg 0 is not between 1 and 10000. Correct it.",
        ),
        (
            "A,first,1,,\n",
            "limits.csv, line 2: leg «first» is not a number of a leg. "
            "Write 1 for the first leg, or leave it empty for every leg.",
        ),
        (
            ",1,1,,\n",
            "limits.csv, line 2: object is empty. Give the name or letter of the object.",
        ),
        (
            "",
            "limits.csv: there are no limits under the header. Add rows or leave the file out.",
        ),
    ],
)
def test_what_does_not_fit_is_one_sentence(tmp_path: Path, rows: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        _read(tmp_path, _HEADER + rows)
    assert str(caught.value) == sentence


def test_a_missing_column_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"limits\.csv, line 1: there is no column object\."):
        _read(tmp_path, "leg,nlt\n1,2\n")


def test_a_picture_is_refused(tmp_path: Path) -> None:
    (tmp_path / "limits.csv").write_bytes(b"\x89PNG\r\n\x1a\n")
    with pytest.raises(InputError, match="this is a PNG picture, not a text file"):
        read_limits(tmp_path / "limits.csv")
