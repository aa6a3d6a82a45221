"""What the leg strip shows, as data."""

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from core.base.units import m_from_nm
from core.coverage.coverage_result import CoastState
from core.land.land_model import Cell
from core.passage.passage import Side
from core.plan.plan_result import Role
from core.sheets.page import (
    Anchor,
    Area,
    Hatch,
    Item,
    Place,
    Raster,
    Rectangle,
    Stroke,
    Symbol,
    Text,
    Tone,
    corners,
    text_box,
)
from core.sheets.strip_block import Strip, make_strip
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_ROOM = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=125.0, height_mm=170.0)


@lru_cache(maxsize=8)
def _strip(
    leg_index: int, half_width_nm: float | None = None, cursor: float | None = None
) -> Strip:
    return make_strip(
        sample_outcome(),
        leg_index,
        frame=_ROOM,
        measure=FixedMeasure(),
        cross_half_width_m=None if half_width_nm is None else m_from_nm(half_width_nm),
        cursor_along_m=cursor,
    )


def _places(item: Item) -> Iterator[Place]:
    if isinstance(item, Stroke):
        yield from item.points
    elif isinstance(item, Area):
        for ring in item.rings:
            yield from ring
    elif isinstance(item, Symbol):
        yield item.x_mm, item.y_mm
    elif isinstance(item, Raster):
        yield from corners(item.room)
    elif item.angle_deg == 0.0:
        room = text_box(item, FixedMeasure())
        yield room.x_mm, room.y_mm
        yield room.right_mm, room.bottom_mm
    else:
        yield item.x_mm, item.y_mm


@pytest.mark.parametrize("leg_index", [0, 1, 2])
def test_nothing_lies_outside_the_room(leg_index: int) -> None:
    for item in _strip(leg_index, cursor=2000.0).items:
        for x, y in _places(item):
            assert math.isfinite(x)
            assert math.isfinite(y)
            assert _ROOM.contains((x, y), slack_mm=0.6), item


def test_index_lines_stand_upright_on_their_own_side() -> None:
    plan = sample_outcome().plan.legs[0]
    strip = _strip(0)
    for number, line in enumerate(plan.lines):
        if line.role is Role.WHEEL_OVER:
            continue
        strokes = [
            item
            for item in strip.items
            if isinstance(item, Stroke) and item.reference == f"line:{number}" and item.points
        ]
        upright = strokes[0]
        (x, low), (x_top, high) = upright.points
        assert x == x_top
        assert high < low
        assert (x > strip.frame.middle_mm) is (line.side is Side.STARBOARD)
        _along, cross = strip.frame.track_coordinates((x, low))
        assert abs(cross) == pytest.approx(line.cross_index_range_m, abs=0.1)


def test_line_styles_tell_index_margin_and_wheel_over_apart() -> None:
    # Solid index, broken margin, pecked wheel-over: common practice, no source.
    dashes = {
        item.tone: item.dash.value
        for item in _strip(0).items
        if isinstance(item, Stroke) and item.tone in (Tone.PRIMARY, Tone.MARGIN, Tone.WHEEL_OVER)
    }
    assert dashes == {Tone.PRIMARY: "solid", Tone.MARGIN: "broken", Tone.WHEEL_OVER: "pecked"}


def test_the_islet_is_land_where_it_is_and_only_there() -> None:
    strip = _strip(0)
    line = sample_outcome().plan.passage.line(0)
    shore = sample_outcome().land.coast.lines[0]
    along, cross = line.track_coordinates(shore.lat_deg, shore.lon_deg)
    middle = strip.frame.place(float(along[:-1].mean()), float(cross[:-1].mean()))
    lands = [i for i in strip.items if isinstance(i, Area) and i.tone is Tone.LAND]
    assert any(_holds(area, middle) for area in lands)
    mirrored = strip.frame.place(float(along[:-1].mean()), -float(cross[:-1].mean()) * 0.3)
    assert not any(_holds(area, mirrored) for area in lands)


def _holds(area: Area, place: Place) -> bool:
    """Crossing count over all rings."""
    x, y = place
    inside = False
    for ring in area.rings:
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
                inside = not inside
    return inside


def test_a_hole_in_the_heights_is_hatched_and_named() -> None:
    strip = _strip(2, 3.0)
    assert strip.has_no_data
    hatched = [i for i in strip.items if isinstance(i, Area) and i.hatch is Hatch.CROSSED]
    assert hatched
    assert any(isinstance(i, Text) and i.text == "no data" for i in strip.items)
    assert not _strip(0, 2.0).has_no_data


def test_ground_beyond_the_lattice_is_no_open_water() -> None:
    outcome = sample_outcome()
    blind = replace(
        outcome,
        land=replace(outcome.land, cell=np.full_like(outcome.land.cell, int(Cell.BEYOND))),
    )
    strip = make_strip(blind, 1, frame=_ROOM, measure=FixedMeasure())
    assert strip.has_no_data


def test_water_behind_the_island_is_hatched_as_hidden() -> None:
    strip = _strip(0, 6.0)
    assert strip.has_hidden_water
    hatched = [i for i in strip.items if isinstance(i, Area) and i.hatch is Hatch.SLANTED]
    assert hatched
    # Water just beside the track is in sight from the track.
    beside = strip.frame.place(m_from_nm(3.0), m_from_nm(-0.3))
    assert not any(_holds(area, beside) for area in hatched)


def test_coast_is_strong_only_where_some_viewpoint_sees_it() -> None:
    outcome = sample_outcome()
    dark = replace(
        outcome.coverage.legs[0],
        viewpoints=tuple(
            replace(v, coast_state=np.full_like(v.coast_state, int(CoastState.HIDDEN)))
            for v in outcome.coverage.legs[0].viewpoints
        ),
    )
    coverage = replace(outcome.coverage, legs=(dark, *outcome.coverage.legs[1:]))
    unseen = make_strip(replace(outcome, coverage=coverage), 0, frame=_ROOM, measure=FixedMeasure())

    def strong(strip: Strip) -> int:
        return sum(
            1 for i in strip.items if isinstance(i, Stroke) and i.reference == "coast:in_sight"
        )

    assert strong(_strip(0)) > 0
    assert strong(unseen) == 0


def test_own_ship_stands_on_the_track_at_the_cursor() -> None:
    strip = _strip(0, cursor=2000.0)
    ship = next(i for i in strip.items if isinstance(i, Symbol) and i.reference == "own-ship")
    along, cross = strip.frame.track_coordinates((ship.x_mm, ship.y_mm))
    assert along == pytest.approx(2000.0)
    assert cross == 0.0
    assert not any(i.reference == "own-ship" for i in _strip(0).items)


def test_the_stretch_is_written_on_the_strip() -> None:
    for leg_index in range(3):
        strip = _strip(leg_index)
        words = [i.text for i in strip.items if isinstance(i, Text) and "to each edge" in i.text]
        assert len(words) == 1
        ratio = strip.frame.stretch_ratio
        if abs(ratio - 1.0) > 0.05:
            assert f"{ratio:.1f} x" in words[0]


def test_labels_do_not_cover_one_another() -> None:
    strip = _strip(0)
    labels = [i for i in strip.items if isinstance(i, Text) and i.on_paper]
    boxes = [text_box(label, FixedMeasure()) for label in labels]
    assert len(boxes) > 3
    for number, first in enumerate(boxes):
        assert not any(first.meets(second) for second in boxes[number + 1 :])


def test_only_the_main_radar_puts_its_scale_on_the_spine() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    second = replace(leg.scales[0], radar="Second radar", scale_m=m_from_nm(12.0))
    legs = (replace(leg, scales=(*leg.scales, second)), *outcome.plan.legs[1:])
    strip = make_strip(
        replace(outcome, plan=replace(outcome.plan, legs=legs)),
        0,
        frame=_ROOM,
        measure=FixedMeasure(),
    )
    chips = [i.text for i in strip.items if isinstance(i, Text) and i.reference == "scale"]
    assert chips == ["scale 3 NM"]


def test_wheel_over_figures_stand_at_the_wheel_over() -> None:
    turn = sample_outcome().plan.legs[0].wheel_over
    assert turn is not None
    strip = _strip(0)
    ring = next(i for i in strip.items if isinstance(i, Symbol) and i.reference == "wheel-over")
    along, _cross = strip.frame.track_coordinates((ring.x_mm, ring.y_mm))
    assert along == pytest.approx(turn.along_m, abs=1.0)
    texts = [i.text for i in strip.items if isinstance(i, Text) and i.anchor is Anchor.END]
    assert "0.57" in texts


def test_every_primary_has_its_bar_also_on_a_crowded_side() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    primary, sight = leg.lines[0], leg.first_sights[0]
    step_m = leg.distance_m / 6.0
    things = [replace(primary.object, id=f"Q{n}") for n in range(6)]
    lines = tuple(
        replace(primary, object=thing, from_along_m=n * step_m, to_along_m=(n + 0.8) * step_m)
        for n, thing in enumerate(things)
    )
    sights = tuple(replace(sight, object_id=thing.id, lost=None) for thing in things)
    crowded = replace(leg, lines=lines, first_sights=sights, hand_overs=())
    plan = replace(outcome.plan, legs=(crowded, *outcome.plan.legs[1:]))
    strip = make_strip(replace(outcome, plan=plan), 0, frame=_ROOM, measure=FixedMeasure())
    bars = {i.reference for i in strip.items if isinstance(i, Area) and i.tone is Tone.PRIMARY}
    assert bars == {f"line:{n}" for n in range(6)}


def test_land_whose_coast_ends_in_the_window_is_no_open_water() -> None:
    outcome = sample_outcome()
    coast = outcome.land.coast
    ring = coast.lines[1]
    half = ring.lat_deg.size // 2
    broken = replace(
        ring, lat_deg=ring.lat_deg[:half], lon_deg=ring.lon_deg[:half], is_closed=False
    )
    lines = (coast.lines[0], broken, *coast.lines[2:])
    land = replace(outcome.land, coast=replace(coast, lines=lines))
    strip = make_strip(
        replace(outcome, land=land),
        0,
        frame=_ROOM,
        measure=FixedMeasure(),
        cross_half_width_m=m_from_nm(6.0),
    )
    whole = _strip(0, 6.0)
    line = outcome.plan.passage.line(0)
    along, cross = line.track_coordinates(ring.lat_deg, ring.lon_deg)
    middle = strip.frame.place(float(along.mean()), float(cross.mean()))
    for one in (whole, strip):
        lands = [i for i in one.items if isinstance(i, Area) and i.tone is Tone.LAND]
        assert any(_holds(area, middle) for area in lands)
    beside = strip.frame.place(m_from_nm(3.0), m_from_nm(-0.3))
    lands = [i for i in strip.items if isinstance(i, Area) and i.tone is Tone.LAND]
    assert not any(_holds(area, beside) for area in lands)
