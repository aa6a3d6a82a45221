"""Boxes widened to whole steps: never smaller, at most a step larger, the same for near boxes."""

import pytest

from core.geodesy.position import Bounds, Position

STEP = 0.1


def _box(south: float, west: float, north: float, east: float) -> Bounds:
    return Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east)


@pytest.mark.parametrize(
    ("box", "wanted"),
    [
        (_box(46.52, -33.21, 47.73, -30.70), _box(46.5, -33.3, 47.8, -30.7)),
        (_box(-0.05, -0.05, 0.05, 0.05), _box(-0.1, -0.1, 0.1, 0.1)),
        (_box(10.0, 20.0, 10.1, 20.1), _box(10.0, 20.0, 10.1, 20.1)),
        # Over the antimeridian, and up to it.
        (_box(-17.0, 179.95, -16.0, 180.05), _box(-17.0, 179.9, -16.0, 180.1)),
        (_box(-17.0, -179.97, -16.0, -179.0), _box(-17.0, -180.0, -16.0, -179.0)),
        (_box(-90.0, -180.0, 90.0, 180.0), _box(-90.0, -180.0, 90.0, 180.0)),
    ],
)
def test_a_box_is_widened_to_whole_steps(box: Bounds, wanted: Bounds) -> None:
    outward = box.outward(STEP)
    for name in ("south_deg", "west_deg", "north_deg", "east_deg"):
        assert getattr(outward, name) == pytest.approx(getattr(wanted, name), abs=1e-8)
    assert outward.contains(Position(lat_deg=box.south_deg, lon_deg=box.west_deg))
    assert outward.contains(Position(lat_deg=box.north_deg, lon_deg=box.east_deg))


def test_boxes_a_little_apart_become_the_very_same() -> None:
    one = _box(46.52, -33.21, 47.73, -30.71).outward(STEP)
    assert _box(46.53, -33.22, 47.74, -30.72).outward(STEP) == one
    assert one.outward(STEP) == one
