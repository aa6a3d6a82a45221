"""Marks: tables and GeoJSON, what floats and what stands, one sentence for what does not fit."""

import hashlib
import json
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.files.marks_file import ASSUMED_HEIGHT_M, is_place, read_marks
from core.plan.plan_result import Mark

_HEADER = "name,lat,lon,kind,fixed,height_m,on_chart\n"


def _read(folder: Path, text: str, name: str = "marks.csv") -> tuple[tuple[Mark, ...], list[str]]:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    marks, findings, sha256 = read_marks(path)
    assert sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    return marks, [str(finding) for finding in findings]


def _error(folder: Path, text: str, name: str = "marks.csv") -> str:
    with pytest.raises(InputError) as caught:
        _read(folder, text, name)
    return str(caught.value)


def _point(properties: object, coordinates: object = (-31.5, 47.1)) -> dict[str, object]:
    return {
        "type": "Feature",
        "properties": properties,
        "geometry": {"type": "Point", "coordinates": coordinates},
    }


def _collection(*features: object) -> str:
    return json.dumps({"type": "FeatureCollection", "features": list(features)})


def test_a_mark_is_read_with_everything_about_it(tmp_path: Path) -> None:
    marks, findings = _read(
        tmp_path, _HEADER + "Pier Head,47 07.40 N,031 34.07 W,breakwater end,yes,12.5,yes\n"
    )
    assert findings == []
    (mark,) = marks
    assert mark.name == "Pier Head"
    assert mark.kind == "breakwater end"
    # 7.40 minutes are 0.12333 degrees, 34.07 minutes 0.56783; computed by hand.
    assert mark.position.lat_deg == pytest.approx(47.123333, abs=1e-6)
    assert mark.position.lon_deg == pytest.approx(-31.567833, abs=1e-6)
    assert mark.height_above_water_m == 12.5
    assert mark.is_fixed
    assert mark.is_on_chart


@pytest.mark.parametrize(
    "text",
    [
        "# a remark\nname;lat;lon;height\n\nA;47,5;-31,25;4\n",
        "Name\tLatitude\tLongitude\tHeight\nA\t47.5\t31.25 W\t4\n",
        'longitude,latitude,height,name\n"31°15\'W","47°30\'N",4,A\n',
    ],
)
def test_separators_spellings_and_order_are_free(tmp_path: Path, text: str) -> None:
    marks, _findings = _read(tmp_path, text)
    (mark,) = marks
    assert (mark.name, mark.height_above_water_m) == ("A", 4.0)
    assert mark.position.lat_deg == pytest.approx(47.5, abs=1e-9)
    assert mark.position.lon_deg == pytest.approx(-31.25, abs=1e-9)


@pytest.mark.parametrize("kind", ["buoy", "Light Float", "Lightship", "racon buoy", "light vessel"])
def test_what_floats_by_its_kind_is_never_fixed(tmp_path: Path, kind: str) -> None:
    marks, findings = _read(tmp_path, _HEADER + f"A,47,-31,{kind},,3,\nB,47,-31,{kind},no,3,\n")
    assert [mark.is_fixed for mark in marks] == [False, False]
    assert findings == []


def test_a_buoy_said_to_be_fixed_stays_floating_with_a_finding(tmp_path: Path) -> None:
    marks, findings = _read(tmp_path, _HEADER + "A,47,-31,buoy,yes,3,\n")
    assert not marks[0].is_fixed
    assert findings == [
        "marks.csv, line 2: «A» is a buoy but is stated to be fixed; it is used as floating. "
        "Correct its kind if it stands firm."
    ]


def test_other_marks_are_taken_as_fixed_with_a_finding(tmp_path: Path) -> None:
    marks, findings = _read(tmp_path, _HEADER + "A,47,-31,tower,,3,\nB,47,-31,beacon,floating,3,\n")
    assert [mark.is_fixed for mark in marks] == [True, False]
    assert findings == [
        "marks.csv, line 2: «A» is not stated to be fixed or floating, and is taken as fixed. "
        "Write yes or no under fixed."
    ]


def test_a_missing_height_is_low_with_a_finding(tmp_path: Path) -> None:
    path = tmp_path / "marks.csv"
    path.write_text(_HEADER + "A,47,-31,tower,yes,,\n", encoding="utf-8")
    marks, findings, _sha256 = read_marks(path)
    assert marks[0].height_above_water_m == ASSUMED_HEIGHT_M
    assert findings[0].severity is Severity.CHECK
    assert str(findings[0]) == (
        "marks.csv, line 2: «A» has no height, 3 m above the water is used. "
        "Take it from the chart or the list of lights."
    )


def test_a_place_in_the_water_wants_neither_height_nor_fixed(tmp_path: Path) -> None:
    text = "name,lat,lon,kind\nMouth,47.1,-31.5,Harbour mouth\nSlip,47.2,-31.6,ferry slip\n"
    (mouth, slip), findings = _read(tmp_path, text)
    assert (mouth.kind, mouth.height_above_water_m) == ("Harbour mouth", 0.0)
    assert is_place(mouth.kind)
    assert is_place(slip.kind)
    assert not is_place("fairway buoy")
    assert findings == []


def test_without_a_chart_note_a_mark_is_not_on_the_chart(tmp_path: Path) -> None:
    marks, _findings = _read(tmp_path, _HEADER + "A,47,-31,tower,yes,3,\nB,47,-31,pier,yes,3,no\n")
    assert [mark.is_on_chart for mark in marks] == [False, False]


def test_an_unknown_column_is_named_with_the_nearest_one(tmp_path: Path) -> None:
    _marks, findings = _read(tmp_path, "name,lat,lon,fixd,height_m\nA,47,-31,yes,3\n")
    assert findings[0] == (
        "marks.csv, line 1: the column «fixd» is not known and was left out. "
        "Write «fixed» if that was meant."
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            _HEADER + "A,47,-31,pier,yes,3,\n a ,47,-31,pier,yes,3,\n",
            "marks.csv, line 3: there is already a mark called «A». Give each its own name.",
        ),
        (
            _HEADER + " ,47,-31,pier,yes,3,\n",
            "marks.csv, line 2: the mark has no name. Give it one, its lines are named after it.",
        ),
        (
            _HEADER + "A,47,-31,pier,yes,0,\n",
            "marks.csv, line 2: height_m 0 is not above 0 and up to 1000. Correct the value.",
        ),
        (
            _HEADER + "A,47,-31,pier,yes,nan,\n",
            "marks.csv, line 2: height_m «nan» is not a number. Correct the value.",
        ),
        (
            _HEADER + "A,97,-31,pier,yes,3,\n",
            "marks.csv, line 2: latitude “97” is more than 90 degrees. "
            "Write it like 47.1234 or 47 07.40 N.",
        ),
        (
            _HEADER + "A,47,east,pier,yes,3,\n",
            "marks.csv, line 2: longitude “east” cannot be read. "
            "Write it like -31.5678 or 031 34.07 W.",
        ),
        (
            _HEADER + "A,,-31,pier,yes,3,\n",
            "marks.csv, line 2: the latitude is empty. Give the position.",
        ),
        (
            _HEADER + "A,47,-31,pier,perhaps,3,\n",
            "marks.csv, line 2: fixed «perhaps» is neither yes nor no. Write yes or no.",
        ),
        (
            _HEADER + "A,47,-31,pier,yes,3,yes,but,more\n",
            "marks.csv, line 2: the row has 9 cells, the header 7. "
            "Put texts with separators in quotation marks.",
        ),
        (
            _HEADER + 'A,47,-31,"pier,yes,3,\n',
            "marks.csv, line 2: the row has an open quotation mark or is far too long. "
            "Correct the row.",
        ),
        (
            "name,lat,height\nA,47,3\n",
            "marks.csv, line 1: there is no column lon. Begin the table with a header such as "
            "name,lat,lon,kind,fixed,height_m,on_chart.",
        ),
        (
            "name,lat,latitude,lon\nA,47,47,-31\n",
            "marks.csv, line 1: there are two columns for lat. Take one of them out.",
        ),
        (_HEADER, "marks.csv: there are no marks in this file. Add them or leave it out."),
        (
            "# only a remark\n",
            "marks.csv: there is no table in this file. Choose another file.",
        ),
        (
            _HEADER + "x" * 61 + ",47,-31,pier,yes,3,\n",
            "marks.csv, line 2: the name «xxxxxxxxxxxxxxxxxxxx...» is longer than 60 letters or "
            "cannot be printed. Shorten it.",
        ),
    ],
)
def test_what_does_not_fit_in_a_table_is_one_sentence(
    tmp_path: Path, text: str, sentence: str
) -> None:
    assert _error(tmp_path, text) == sentence


def test_geojson_points_are_marks(tmp_path: Path) -> None:
    text = _collection(
        _point({"name": "A", "kind": "tower", "fixed": True, "height_m": 30, "on_chart": True}),
        _point({"name": "B", "type": "buoy", "height": "4,5"}, [179.9, -46, 0]),
    )
    marks, findings = _read(tmp_path, text, "marks.geojson")
    assert findings == []
    assert [(m.name, m.is_fixed, m.height_above_water_m, m.is_on_chart) for m in marks] == [
        ("A", True, 30.0, True),
        ("B", False, 4.5, False),
    ]
    assert (marks[1].position.lat_deg, marks[1].position.lon_deg) == (-46.0, 179.9)


def test_geojson_tells_what_it_left_out(tmp_path: Path) -> None:
    line = {
        "type": "Feature",
        "properties": {},
        "geometry": {"type": "LineString", "coordinates": [[-31, 47], [-31, 48]]},
    }
    text = _collection(line, _point({"name": "A", "fixed": 1, "height_m": 3, "colour": "red"}))
    marks, findings = _read(tmp_path, text, "marks.geojson")
    assert [mark.name for mark in marks] == ["A"]
    assert findings == [
        "marks.geojson: feature 1: the feature is no point and was left out.",
        "marks.geojson: feature 2: «colour» is not known and was left out.",
    ]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            '{"type": "FeatureCollection", "features": [',
            "marks.geojson: this is not valid GeoJSON, or it is cut short. Export it again.",
        ),
        (
            '{"type": "Topology"}',
            "marks.geojson: this JSON file is not a GeoJSON FeatureCollection. "
            "Export the marks as GeoJSON points.",
        ),
        (
            _collection(_point({"name": "A"}, [-31.5])),
            "marks.geojson, feature 1: the point has no longitude and latitude. "
            "Correct its coordinates.",
        ),
        (
            '{"features": [{"geometry": {"type": "Point", "coordinates": [NaN, 1]}}]}',
            "marks.geojson: this is not valid GeoJSON, or it is cut short. Export it again.",
        ),
        (
            _collection({"type": "Feature", "properties": {}, "geometry": None}),
            "marks.geojson, feature 1: the feature has no geometry. Give it a point.",
        ),
        (
            _collection(_point({"name": "A", "height_m": 3}), _point({"name": "A", "height_m": 3})),
            "marks.geojson, feature 2: there is already a mark called «A». Give each its own name.",
        ),
        (
            _collection(_point({"kind": "pier"})),
            "marks.geojson, feature 1: the mark has no name. "
            "Give it one, its lines are named after it.",
        ),
        (
            _collection(_point({"name": "A", "height_m": 3}, [-31.5, 91.0])),
            "marks.geojson, feature 1: latitude “91.000000000000” is more than 90 degrees. "
            "Write it like 47.1234 or 47 07.40 N.",
        ),
        (
            _collection(_point({"name": "A", "height_m": -3})),
            "marks.geojson, feature 1: height_m -3 is not above 0 and up to 1000. "
            "Correct the value.",
        ),
    ],
)
def test_what_does_not_fit_in_geojson_is_one_sentence(
    tmp_path: Path, text: str, sentence: str
) -> None:
    assert _error(tmp_path, text, "marks.geojson") == sentence


def test_another_encoding_is_read_with_a_finding(tmp_path: Path) -> None:
    path = tmp_path / "marks.csv"
    path.write_bytes((_HEADER + "Môle,47,-31,pier,yes,3,\n").encode("cp1252"))
    marks, findings, _sha256 = read_marks(path)
    assert marks[0].name == "Môle"
    assert [finding.code for finding in findings] == ["encoding-assumed"]


def test_an_empty_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "marks.csv").write_bytes(b"")
    with pytest.raises(InputError, match="this file is empty"):
        read_marks(tmp_path / "marks.csv")
