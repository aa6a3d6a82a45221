"""Rows of predicted echoes: names, order of loss, what took them; and picking."""

from dataclasses import replace

import numpy as np
import pytest

from core.picture.controls import Controls
from core.picture.display_chain import Paint
from core.picture.echo_rows import EchoKind, NamedPlace, echo_patches, echo_rows
from core.picture.expected_picture import frame_of, make_picture
from core.picture.pick_echo import Picked
from core.picture.picture_view import PictureView
from core.picture.point_echoes import PictureTarget
from core.picture.screen_frame import Orientation, ScreenFrame
from core.radar.echo_budget import Conditions
from core.ship.ship import BlindSector
from tests.helpers.islands import NM, place
from tests.helpers.picture_views import buoy, view_of

VIEW = view_of(
    targets=(buoy(1.5 * NM), buoy(3.5 * NM, "far buoy"), buoy(4.5 * NM, "drum", rcs_m2=0.5))
)
WALL = NamedPlace(name="The Wall", position=place(2.05 * NM, 0.0), reach_m=0.5 * NM)


def _frame(view: PictureView, size_px: int = 700) -> ScreenFrame:
    return frame_of(view, Orientation.NORTH_UP, size_px=size_px, course_deg=0.0)


def test_land_goes_under_its_name_and_the_rest_by_runs() -> None:
    patches = echo_patches(VIEW, (WALL,))
    wall = next(p for p in patches if p.name == "The Wall")
    assert wall.kind is EchoKind.LAND
    assert wall.range_m == pytest.approx(2.05 * NM, rel=0.1)
    assert wall.bearing_deg == pytest.approx(90.0, abs=16.0)
    east = wall.cols * VIEW.cell_m * np.sin(2.0 * np.pi * wall.rows / VIEW.bearings)
    north = wall.cols * VIEW.cell_m * np.cos(2.0 * np.pi * wall.rows / VIEW.bearings)
    assert np.hypot(east - 2.05 * NM, north).max() < 0.5 * NM + 2.0 * VIEW.cell_m
    unnamed = [p for p in patches if p.kind is EchoKind.LAND and not p.name]
    assert unnamed
    # No cell of land belongs to two patches.
    cells = np.concatenate([p.rows * 10_000 + p.cols for p in patches if p.kind is EchoKind.LAND])
    assert np.unique(cells).size == cells.size


def test_marks_are_rows_of_their_own_and_no_land() -> None:
    patches = echo_patches(VIEW)
    marks = {p.name: p for p in patches if p.kind is EchoKind.MARK}
    assert set(marks) == {"buoy", "far buoy", "drum"}
    assert marks["buoy"].range_m == pytest.approx(1.5 * NM, rel=1e-3)
    assert marks["buoy"].well_margin_db > marks["far buoy"].well_margin_db
    north = [
        p for p in patches
        if p.kind is EchoKind.LAND and (p.bearing_deg < 3.0 or p.bearing_deg > 357.0)
    ]  # fmt: skip
    assert north == []


def test_a_mark_on_land_merges_with_it() -> None:
    view = view_of(targets=(buoy(1.5 * NM), _on_wall()))
    marks = {p.name: p for p in echo_patches(view) if p.kind is EchoKind.MARK}
    assert marks["on wall"].merges
    assert not marks["buoy"].merges


def _on_wall() -> PictureTarget:
    return replace(buoy(0.0, "on wall", height_m=50.0), position=place(2.02 * NM, 0.0))


def test_the_weaker_the_sooner_lost() -> None:
    patches = echo_patches(VIEW, (WALL,))
    gone: list[str] = []
    for gain_db in np.arange(0.0, -40.5, -0.5):
        rows = echo_rows(VIEW, patches, Controls(gain_db=float(gain_db)))
        order = [row.well_margin_db for row in rows]
        assert order == sorted(order)
        lost = [row for row in rows if row.is_lost]
        kept = [row.well_margin_db for row in rows if row.margin_db >= 0.0]
        # All that is gone was weaker than all that is left.
        assert not kept or not lost or max(r.well_margin_db for r in lost) < min(kept) + 1e-6
        gone += [r.patch.name for r in lost if r.patch.name and r.patch.name not in gone]
        assert all(row.taken_by == "gain_db" for row in lost)
    assert gone.index("far buoy") < gone.index("buoy")


@pytest.mark.parametrize(
    ("controls", "taken_by"),
    [
        (Controls(mistuning_db=30.0, gain_db=-1.0), "mistuning_db"),
        (Controls(sea_clutter=1.0, mistuning_db=8.0), "sea_clutter"),
        (Controls(gain_db=-30.0, sea_clutter=0.1), "gain_db"),
    ],
)
def test_what_took_an_echo_is_what_brings_it_back(controls: Controls, taken_by: str) -> None:
    rows = echo_rows(VIEW, echo_patches(VIEW), controls)
    buoy_row = next(row for row in rows if row.patch.name == "buoy")
    assert buoy_row.is_lost
    assert buoy_row.taken_by == taken_by


def test_rain_clutter_control_takes_ground_behind_a_front() -> None:
    # A wall has a front and stays; a gentle rise without one goes.
    rows = echo_rows(VIEW, echo_patches(VIEW, (WALL,)), Controls(rain_clutter=1.0))
    wall = next(row for row in rows if row.patch.name == "The Wall")
    assert wall.margin_db > 0.0


def test_an_echo_in_a_blind_sector_is_not_expected() -> None:
    view = view_of(
        targets=(buoy(1.5 * NM),),
        sectors=(BlindSector(from_relative_deg=355.0, to_relative_deg=5.0),),
    )
    row = next(r for r in echo_rows(view, echo_patches(view), Controls()) if r.patch.name)
    assert row.well_margin_db < -50.0
    assert not row.is_lost


def test_picking_tells_marks_land_shadow_gap_and_water() -> None:
    view = view_of("gap", targets=(buoy(1.5 * NM),))
    picture = make_picture(view, _frame(view), names=(WALL,))

    def at(range_nm: float, bearing_deg: float) -> Picked:
        return picture.pick(*picture.frame.to_px(range_nm * NM, bearing_deg))

    mark = at(1.5, 0.0)
    assert (mark.what, mark.name) == ("mark", "buoy")
    assert mark.patch is not None
    assert mark.margin_db == pytest.approx(mark.patch.well_margin_db, abs=0.6)
    assert mark.range_m == pytest.approx(1.5 * NM, rel=1e-6)
    wall = at(2.05, 90.0)
    assert (wall.what, wall.name, wall.paint) == ("land", "The Wall", Paint.STRONG)
    assert at(4.0, 90.0).what == "hidden by land"
    assert at(3.4, 207.0).what == "no data"
    assert at(2.5, 45.0).what in ("nothing expected", "noise")
    assert picture.pick(1.0, 1.0).what == "outside"
    assert 0.0 <= at(2.5, 45.0).bearing_deg < 360.0


def test_picking_clutter_tells_sea_from_rain_and_a_lost_echo_keeps_its_name() -> None:
    sea = view_of("bare", conditions=Conditions(sea_state=5.0))
    picture = make_picture(sea, _frame(sea), controls=Controls())
    assert picture.pick(*picture.frame.to_px(0.5 * NM, 10.0)).what == "sea clutter"
    rain = view_of("bare", conditions=Conditions(rain_mm_h=20.0))
    picture = make_picture(rain, _frame(rain), controls=Controls())
    assert picture.pick(*picture.frame.to_px(1.5 * NM, 10.0)).what == "rain clutter"
    lost = make_picture(VIEW, _frame(VIEW), controls=Controls(gain_db=-35.0))
    found = lost.pick(*lost.frame.to_px(1.5 * NM, 0.0))
    assert (found.what, found.name) == ("mark", "buoy")
    assert found.margin_db is not None
    assert found.margin_db < 0.0


def test_a_change_of_control_or_frame_leaves_the_rest() -> None:
    picture = make_picture(VIEW, _frame(VIEW), names=(WALL,))
    less = picture.under(Controls(gain_db=-20.0))
    assert less.patches is picture.patches
    assert (less.screen() >= Paint.UNCERTAIN).sum() < (picture.screen() >= Paint.UNCERTAIN).sum()
    small = picture.framed(_frame(VIEW, 200), Orientation.NORTH_UP)
    assert small.screen().shape == (200, 200)
    assert small.shown is picture.shown
