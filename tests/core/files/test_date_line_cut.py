"""Geometry cut at the antimeridian."""

from typing import Any

import pytest
from shapely.geometry import shape

from core.files.date_line import cut_at_date_line


def test_what_does_not_cross_is_left_alone() -> None:
    line = {"type": "LineString", "coordinates": [[179.0, 1.0], [180.0, 2.0]]}
    assert cut_at_date_line(line) is line


@pytest.mark.parametrize("turn", [0.0, -360.0])
def test_a_line_across_becomes_two_that_meet_at_180(turn: float) -> None:
    line = {"type": "LineString", "coordinates": [[179.0 + turn, 0.0], [181.0 + turn, 2.0]]}
    cut = cut_at_date_line(line)
    assert cut == {
        "type": "MultiLineString",
        "coordinates": [[[179.0, 0.0], [180.0, 1.0]], [[-180.0, 1.0], [-179.0, 2.0]]],
    }


def test_a_polygon_across_keeps_its_area_and_its_hole() -> None:
    outer = [[178.0, 0.0], [182.0, 0.0], [182.0, 3.0], [178.0, 3.0], [178.0, 0.0]]
    hole = [[179.5, 1.0], [180.5, 1.0], [180.5, 2.0], [179.5, 2.0], [179.5, 1.0]]
    cut = cut_at_date_line({"type": "Polygon", "coordinates": [outer, hole]})
    assert cut["type"] == "MultiPolygon"
    assert shape(cut).area == pytest.approx(12.0 - 1.0)
    assert shape(cut).bounds == (-180.0, 0.0, 180.0, 3.0)


@pytest.mark.parametrize(("lon", "wrapped"), [(181.0, -179.0), (-180.5, 179.5), (12.0, 12.0)])
def test_a_point_is_moved_by_a_turn(lon: float, wrapped: float) -> None:
    cut: dict[str, Any] = cut_at_date_line({"type": "Point", "coordinates": [lon, 5.0]})
    assert cut["coordinates"] == [wrapped, 5.0]
