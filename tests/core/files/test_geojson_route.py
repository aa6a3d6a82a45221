"""Reading GeoJSON routes (RFC 7946)."""

import json
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.readers import RouteFile, passage_from_text, read_passage

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"


def _read(document: object) -> RouteFile:
    return passage_from_text(json.dumps(document), "a.geojson")


def _text_of_error(document: object) -> str:
    text = document if isinstance(document, str) else json.dumps(document)
    with pytest.raises(InputError) as caught:
        passage_from_text(text, "a.geojson")
    return str(caught.value)


def _line(*coordinates: object) -> dict[str, object]:
    return {"type": "LineString", "coordinates": list(coordinates)}


def _lons(route: RouteFile) -> list[float]:
    return [round(w.position.lon_deg, 9) for w in route.passage.waypoints]


_TODO = "Export the route as a line or as points in order."


def test_a_line_past_the_date_line_with_names_from_points() -> None:
    route = read_passage(_SAMPLES / "invented_strait.geojson")
    assert (route.kind, route.passage.name) == ("GeoJSON", "Invented strait")
    assert [w.name for w in route.passage.waypoints] == ["WP 1", "Beacon turn", "WP 3"]
    assert _lons(route) == [179.9, -179.95, -179.8]
    assert [w.position.lat_deg for w in route.passage.waypoints] == [-17.05, -17.2, -17.4]


@pytest.mark.parametrize(
    "document",
    [
        _line([20, 10], [21, 11, 5.5]),
        {"type": "Feature", "geometry": _line([20, 10], [21, 11]), "properties": None},
        {"type": "GeometryCollection", "geometries": [_line([20, 10], [21, 11])]},
        {"type": "MultiPoint", "coordinates": [[20, 10], [21, 11]]},
        {"type": "MultiLineString", "coordinates": [[], [[20, 10], [21, 11]]]},
        {
            "type": "FeatureCollection",
            "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}},
            "features": [
                {"type": "Feature", "geometry": None, "properties": {}},
                {"type": "Feature", "geometry": _line([20, 10], [21, 11]), "properties": {}},
            ],
        },
    ],
)
def test_shapes_a_route_may_come_in(document: object) -> None:
    route = _read(document)
    assert [(w.position.lat_deg, w.position.lon_deg) for w in route.passage.waypoints] == [
        (10.0, 20.0),
        (11.0, 21.0),
    ]
    assert [f.code for f in route.findings] == ["leg-kind-assumed"]


def test_points_in_order_with_names_from_properties() -> None:
    def point(lon: float, **properties: object) -> dict[str, object]:
        geometry = {"type": "Point", "coordinates": [lon, 1]}
        return {"type": "Feature", "geometry": geometry, "properties": properties}

    features = [point(1, name="A"), point(2, WP=7), point(3), point(4, Title="D")]
    route = _read({"type": "FeatureCollection", "name": "Round", "features": features})
    assert [w.name for w in route.passage.waypoints] == ["A", "WP 7", "WP 3", "D"]
    assert route.passage.name == "Round"


def test_a_line_cut_at_the_date_line_is_joined_without_the_cut() -> None:
    parts = [[[179, 10], [180, 10.5]], [[-180, 10.5], [-179, 11]]]
    route = _read({"type": "MultiLineString", "coordinates": parts})
    assert _lons(route) == [179.0, -179.0]
    assert [f.code for f in route.findings] == ["leg-kind-assumed"]


def test_a_line_in_parts_that_meet_is_joined() -> None:
    parts = [[[1, 10], [2, 10]], [[2, 10], [3, 11]]]
    assert _lons(_read({"type": "MultiLineString", "coordinates": parts})) == [1.0, 2.0, 3.0]


def test_of_parts_that_do_not_meet_the_first_is_taken_and_said_so() -> None:
    parts = [[[1, 10], [2, 10]], [[5, 10], [6, 11]]]
    route = _read({"type": "MultiLineString", "coordinates": parts})
    assert _lons(route) == [1.0, 2.0]
    assert str(route.findings[0]) == (
        "a.geojson: the line has parts that do not meet; the first part was taken. "
        "Export the route you want as one line."
    )


def test_of_several_lines_the_first_is_taken_and_said_so() -> None:
    lines = [_line([1, 1], [2, 2]), _line([3, 3], [4, 4])]
    route = _read({"type": "GeometryCollection", "geometries": lines})
    assert _lons(route) == [1.0, 2.0]
    assert str(route.findings[0]) == (
        "a.geojson: the file has 2 lines; the first was taken. "
        "Export the route you want as one line."
    )


@pytest.mark.parametrize(
    ("document", "sentence"),
    [
        ([1, 2], f"this JSON is no GeoJSON. {_TODO}"),
        ({"a": 1}, f"this JSON is no GeoJSON. {_TODO}"),
        (
            {"type": "Polygon", "coordinates": []},
            f"the file has neither a line nor points. {_TODO}",
        ),
        (
            _line([1, 1]),
            "the route has one waypoint, and a passage needs two. Add the missing waypoints.",
        ),
        (
            _line(),
            "the route has no waypoint, and a passage needs two. Add the missing waypoints.",
        ),
        (
            _line([1, 1], ["2", 1]),
            "a coordinate is not a pair of numbers. Correct it, longitude first.",
        ),
        (
            _line([1, 1], [2]),
            "a coordinate is not a pair of numbers. Correct it, longitude first.",
        ),
        (
            _line([1, 1], [True, 2]),
            "a coordinate is not a pair of numbers. Correct it, longitude first.",
        ),
        (
            '{"type": "LineString", "coordinates": [[1, 1], [2, NaN]]}',
            "the JSON holds a value that is no number. Export it again.",
        ),
        (
            '{"type": "LineString", "coordinates": [[1, 1], [2, ' + "9" * 6000 + "]]}",
            "the JSON holds a value that is no number. Export it again.",
        ),
        (
            {
                "type": "LineString",
                "coordinates": [[1, 1], [2, 2]],
                "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32630"}},
            },
            "the coordinates are in another reference system (urn:ogc:def:crs:EPSG::32630). "
            "Export the route in WGS-84 degrees.",
        ),
    ],
)
def test_bad_documents(document: object, sentence: str) -> None:
    assert _text_of_error(document) == f"a.geojson: {sentence}"


@pytest.mark.parametrize(
    ("lon_lat", "sentence"),
    [
        ([2, 91], "latitude 91 is not within -90 and 90 degrees. Correct the position."),
        ([361, 2], "longitude 361 is not within -360 and 360 degrees. Correct the position."),
        ([10**400, 2], "latitude inf is not within -90 and 90 degrees. Correct the position."),
    ],
)
def test_places_off_the_chart(lon_lat: list[int], sentence: str) -> None:
    assert _text_of_error(_line([1, 1], lon_lat)) == f"a.geojson, waypoint WP 2: {sentence}"


def test_a_cut_file() -> None:
    assert _text_of_error('{"type": "LineString",\n "coordinates": [[1, 1], [2') == (
        "a.geojson, line 2: the file is cut short. Export or copy it again."
    )


def test_broken_json() -> None:
    assert _text_of_error('{"type" "LineString"}') == (
        "a.geojson, line 1: the JSON is broken (expecting ':' delimiter). Export or copy it again."
    )


def test_deep_nesting() -> None:
    assert _text_of_error("[" * 100_000) == f"a.geojson: the JSON is nested too deep. {_TODO}"
    nested: object = _line([1, 1], [2, 2])
    for _ in range(20):
        nested = {"type": "GeometryCollection", "geometries": [nested]}
    assert _text_of_error(nested) == f"a.geojson: the JSON is nested too deep. {_TODO}"


def test_names_that_are_no_text_do_no_harm() -> None:
    feature = {
        "type": "Feature",
        "geometry": _line([1, 1], [2, 2]),
        "properties": {"name": "\ud800 \u0000x", "title": ["a"]},
    }
    assert _read(feature).passage.name == "x"
