"""Pictures of a finished plan: scale, course, lines and names of the leg at a place."""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from core.base.errors import InputError
from core.geodesy.position import Position
from core.jobs.picture_leg import PassagePictures, PictureChoice, pictures_of
from core.jobs.picture_marks import mark_targets
from core.picture.controls import Controls
from core.picture.display_chain import Paint
from core.picture.echo_rows import EchoKind
from core.picture.expected_picture import LineKind
from core.picture.picture_view import Own
from core.picture.screen_frame import Orientation
from core.plan.plan_result import Mark
from core.radar.echo_budget import Conditions
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.demo_outcome import demo_outcome


@lru_cache(maxsize=1)
def _pictures() -> PassagePictures:
    return pictures_of(demo_outcome())


def _in_window() -> tuple[int, float]:
    """A leg and a place on it where a primary line is in use."""
    for leg in _pictures().outcome.plan.legs:
        for line in leg.lines:
            if line.role.value == "primary":
                return leg.leg_index, (line.from_along_m + line.to_along_m) / 2.0
    raise AssertionError("the demo has no primary line")


def test_a_picture_has_the_scale_course_and_lines_of_its_leg() -> None:
    pictures = _pictures()
    leg_index, along_m = _in_window()
    picture = pictures.at(leg_index=leg_index, along_m=along_m)
    leg = pictures.outcome.plan.legs[leg_index]
    main = pictures.outcome.request.ship.radars[0].name
    stretch = next(
        s for s in leg.scales
        if s.radar == main and s.from_along_m <= along_m <= s.to_along_m
    )  # fmt: skip
    assert picture.view.scale_m == stretch.scale_m
    assert picture.frame.off_centre_ratio == pytest.approx(stretch.off_centre_ratio)
    assert picture.frame.up_deg == pytest.approx(leg.course_deg, abs=0.2)
    assert picture.view.heading_deg == pytest.approx(leg.course_deg, abs=0.2)
    assert picture.view.budget.pulse.name == stretch.pulse
    assert picture.shown.controls == picture.well
    here = [line for line in leg.lines if line.from_along_m <= along_m <= line.to_along_m]
    assert len(picture.lines) == len(here)
    assert {line.kind for line in picture.lines} >= {LineKind.PRIMARY}
    for drawn, line in zip(picture.lines, here, strict=True):
        assert abs(drawn.cross_m) == line.cross_index_range_m
        assert (drawn.cross_m > 0.0) == (line.side.value == "starboard")


def test_what_a_primary_line_is_laid_on_paints_beside_it() -> None:
    pictures = _pictures()
    leg_index, along_m = _in_window()
    picture = pictures.at(leg_index=leg_index, along_m=along_m)
    # Somewhere along every primary line an echo is expected within two beams or cells of it.
    screen = picture.screen()
    frame = picture.frame
    for line in picture.lines:
        if line.kind is not LineKind.PRIMARY:
            continue
        slack_px = 0.06 * 1852.0 / frame.m_per_px + 6.0
        hit = False
        for ahead_m in np.arange(-0.95, 0.95, 0.01) * picture.view.radius_m:
            range_m = float(np.hypot(ahead_m, line.cross_m))
            if range_m >= picture.view.radius_m:
                continue
            turn = float(np.degrees(np.arctan2(line.cross_m, ahead_m)))
            x, y = frame.to_px(range_m, line.bearing_deg + turn)
            rows = slice(max(int(y - slack_px), 0), int(y + slack_px) + 1)
            cols = slice(max(int(x - slack_px), 0), int(x + slack_px) + 1)
            part = screen[rows, cols]
            hit = hit or bool(part.size and (part >= Paint.UNCERTAIN).any())
        assert hit, line.label


def test_what_an_officer_chooses_is_taken() -> None:
    leg_index, along_m = _in_window()
    choice = PictureChoice(
        radar_index=1,
        preset=Preset.MINIMUM,
        scale_m=6.0 * 1852.0,
        pulse="LONG",
        heading_deg=400.0,
        leeway_deg=3.0,
        orientation=Orientation.HEAD_UP,
        off_centre_ratio=0.25,
        conditions=Conditions(sea_state=3.0),
        size_px=200,
    )
    picture = _pictures().at(
        leg_index=leg_index, along_m=along_m, choice=choice, controls=Controls(gain_db=-2.0)
    )
    view = picture.view
    assert view.budget.radar.band is Band.S
    assert view.budget.radar.preset is Preset.MINIMUM
    assert view.budget.pulse.name == "long"
    assert view.radius_m == pytest.approx(1.25 * 6.0 * 1852.0)
    assert (view.heading_deg, view.leeway_deg, picture.frame.up_deg) == (40.0, 3.0, 40.0)
    assert picture.screen().shape == (200, 200)
    assert picture.shown.controls.gain_db == -2.0
    assert picture.well.sea_clutter > 0.0
    with pytest.raises(InputError, match="pulse"):
        _pictures().at(leg_index=0, along_m=0.0, choice=replace(choice, pulse="huge"))


def test_each_radar_has_its_own_planned_scale_and_pulse() -> None:
    pictures = _pictures()
    radars = pictures.outcome.request.ship.radars
    for index, radar in enumerate(radars):
        for leg in pictures.outcome.plan.legs[:4]:
            for stretch in (s for s in leg.scales if s.radar == radar.name):
                along_m = (stretch.from_along_m + stretch.to_along_m) / 2.0
                choice = PictureChoice(radar_index=index, size_px=200)
                view = pictures.at(leg_index=leg.leg_index, along_m=along_m, choice=choice).view
                assert view.scale_m == stretch.scale_m
                assert view.budget.pulse.name == stretch.pulse


def test_own_blind_sectors_turn_with_the_heading() -> None:
    leg_index, along_m = _in_window()
    picture = _pictures().at(leg_index=leg_index, along_m=along_m)
    assert (picture.view.own == Own.BLIND).any()
    turned = picture.turned((picture.view.heading_deg or 0.0) + 90.0)
    moved = np.roll(picture.view.own, picture.view.bearings // 4)
    assert np.mean(turned.view.own == moved) > 0.995
    assert not picture.turned(None).view.own.any()


def test_off_the_route_and_beyond_the_data_is_a_gap() -> None:
    pictures = _pictures()
    start = pictures.outcome.plan.passage.waypoints[0].position
    away = pictures.off_route(start, course_deg=90.0)
    assert away.lines == ()
    assert away.frame.up_deg == 90.0
    far = pictures.off_route(
        Position(lat_deg=start.lat_deg + 5.0, lon_deg=start.lon_deg), course_deg=0.0
    )
    # The cell own ship stands in aside.
    assert np.all(far.view.ground[:, 1:] == Paint.UNKNOWN)


def test_marks_and_letters_are_named_once_and_the_caption_names_the_leg() -> None:
    pictures = _pictures()
    leg_index, along_m = _in_window()
    picture = pictures.at(leg_index=leg_index, along_m=along_m)
    names = [patch.name for patch in picture.patches if patch.name]
    assert len(set(names)) == len(names)
    marks = {mark.name for mark in pictures.outcome.request.marks}
    assert all(p.kind is EchoKind.MARK for p in picture.patches if p.name in marks)
    text = "\n".join(pictures.caption(picture, leg_index=leg_index, along_m=along_m))
    assert f"leg {leg_index + 1}" in text
    assert "elevation.tif" in text


def test_a_mark_echoes_like_its_kind_at_its_weakest_from_its_own_height() -> None:
    mark = Mark(
        name="m",
        position=Position(lat_deg=0.0, lon_deg=0.0),
        height_above_water_m=7.0,
        is_fixed=True,
        kind="buoy",
    )
    (target,) = mark_targets((mark,), Band.S)
    assert target.target.height_m == 7.0
    # The standard's typical buoy, handbook 7.2.
    assert target.target.rcs_m2 == 0.5
