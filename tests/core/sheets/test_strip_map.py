"""What the map of a strip finds at a place and on a level."""

import pytest
import shapely

from core.base.units import m_from_nm
from core.sheets.page import Area, Rectangle, Stroke, Symbol, Tone
from core.sheets.strip_block import make_strip
from core.sheets.strip_lines import signed_m
from core.sheets.strip_map import GROUND, StripMap
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_ROOM = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=125.0, height_mm=170.0)


@pytest.fixture(scope="module")
def things() -> StripMap:
    strip = make_strip(sample_outcome(), 0, frame=_ROOM, measure=FixedMeasure())
    return StripMap.of(strip, FixedMeasure())


def test_every_sign_is_found_where_it_stands(things: StripMap) -> None:
    signs = [
        item
        for item in things.strip.items
        if isinstance(item, Symbol) and item.reference.startswith("object:")
    ]
    assert signs
    for sign in signs:
        assert things.at((sign.x_mm, sign.y_mm)) == sign.reference


def test_a_line_is_found_within_reach_and_not_beyond(things: StripMap) -> None:
    plan = sample_outcome().plan.legs[0]
    line, frame = plan.lines[1], things.strip.frame
    x = frame.x_mm(signed_m(line), line.side)
    y = frame.y_mm(0.8 * line.from_along_m + 0.2 * line.to_along_m)
    assert things.at((x - 0.9, y)) == "line:1"
    assert things.at((x + 0.9, y)) == "line:1"
    assert things.at((x - 6.0, y)) != "line:1"


@pytest.mark.parametrize(
    ("reference", "tone"),
    [("land", Tone.LAND), ("hidden-water", Tone.HIDDEN_WATER), ("no-data", Tone.NO_DATA)],
)
def test_land_and_water_are_found_inside_their_shapes(reference: str, tone: Tone) -> None:
    found = 0
    for leg_index in range(3):
        strip = make_strip(
            sample_outcome(),
            leg_index,
            frame=_ROOM,
            measure=FixedMeasure(),
            cross_half_width_m=m_from_nm(6.0),
        )
        things = StripMap.of(strip, FixedMeasure())
        inside = [
            shapely.Polygon(item.rings[0], item.rings[1:]).buffer(-0.3)
            for item in strip.items
            if isinstance(item, Area) and item.tone is tone and item.reference == reference
        ]
        for shape in inside:
            if not shape.is_empty:
                point = shape.representative_point()
                told = things.at((point.x, point.y), reach_mm=0.1)
                found += told == reference
                # Only what stands on the ground may hide it.
                assert told == reference or told not in ("", *GROUND)
    assert found >= 1


def test_ground_gives_way_to_what_stands_on_it(things: StripMap) -> None:
    coasts = [
        i
        for i in things.strip.items
        if isinstance(i, Stroke) and i.reference.startswith("coast:") and len(i.points) > 2
    ]
    assert coasts
    assert all(things.at(coast.points[1]) not in GROUND for coast in coasts)


def test_a_level_lists_what_it_meets_from_port_to_starboard(things: StripMap) -> None:
    plan, frame = sample_outcome().plan.legs[0], things.strip.frame
    along = (plan.lines[1].from_along_m + plan.lines[0].to_along_m) / 2.0
    spots = things.across(frame.y_mm(along))
    assert [s.x_mm for s in spots] == sorted(s.x_mm for s in spots)
    references = [spot.reference for spot in spots]
    for number, line in enumerate(plan.lines[:4]):
        assert references.count(f"line:{number}") == 1, line.object.id
    margin, primary = references.index("line:3"), references.index("line:1")
    assert references.index("line:2") < references.index("line:0")
    assert primary < margin
