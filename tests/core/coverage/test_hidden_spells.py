"""Stretches of a leg over which a place is hidden, by the worked figures of job.md T7, T22, T25."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from core.coverage.coverage_result import SweepSettings
from core.coverage.hidden_spells import HiddenSpells, hidden_spells
from core.coverage.profiles import Grid, grid_of
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell
from tests.helpers.islands import (
    NM,
    box,
    flat_sea,
    headland_with_bay,
    place,
    ridge_across,
    track,
)

_SETTINGS = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=12.0 * NM)
_NORTH = track((0.0, -4.0 * NM), (0.0, 4.0 * NM)).line(0)


def _islet_grid() -> Grid:
    """T22's islet, 40 m high and 0.10 NM long along the track, 1.0 NM to starboard.

    Heights run evenly from cell to cell, so the islet ends where they pass the ray, 27.3 m
    there: a third of a cell beyond its outer cells. Twelve cells of 15 m and twice that make
    0.10 NM to 5 m.
    """
    shape = box(1.0 * NM, -0.05 * NM, 1.0 * NM + 60.0, 0.05 * NM)
    return grid_of(flat_sea(half_width_m=3.0 * NM, cell_m=5.0).land(shape, 40.0).model())


def _look(
    grid: Grid,
    line: LegLine = _NORTH,
    *,
    east_nm: float,
    north_nm: float,
    height_m: float,
    cross_nm: tuple[float, ...] = (0.0,),
    within_nm: float = 6.0,
) -> HiddenSpells:
    return hidden_spells(
        place(east_nm * NM, north_nm * NM),
        line,
        grid,
        _SETTINGS,
        height_m=height_m,
        cross_m=tuple(c * NM for c in cross_nm),
        within_m=within_nm * NM,
    )


def test_islet_hides_an_object_a_minute_and_from_the_corridor_a_little_longer() -> None:
    # job.md T22 (computed by hand there): hidden while abeam +/- 0.10 NM (1.0 min at 12 kn) from
    # the track, +/- 0.085 from 0.3 NM to starboard, +/- 0.115 from 0.3 to port; union 0.23 NM
    # and 1.15 min
    track_10 = track((0.0, -1.0 * NM), (0.0, 1.0 * NM)).line(0)
    found = _look(
        _islet_grid(), track_10, east_nm=2.0, north_nm=0.0, height_m=30.0,
        cross_nm=(-0.3, 0.0, 0.3),
    )  # fmt: skip
    lengths = []
    for spells, half_nm in zip(found.hidden, (0.115, 0.10, 0.085), strict=True):
        (spell,) = spells
        assert (1.0 - spell[0] / NM, spell[1] / NM - 1.0) == pytest.approx(
            (half_nm, half_nm), abs=0.004
        )
        lengths.append(spell[1] - spell[0])
    union_m = max(s[0][1] for s in found.hidden) - min(s[0][0] for s in found.hidden)
    assert union_m / NM == pytest.approx(0.23, abs=0.008)
    assert union_m / (12.0 * NM / 60.0) == pytest.approx(1.15, abs=0.04)
    assert lengths[1] / (12.0 * NM / 60.0) == pytest.approx(1.0, abs=0.04)


def test_object_as_high_as_the_ray_is_in_sight_over_the_islet() -> None:
    # job.md T22: the ray stands 55 m high at the object on a flat Earth; curvature is worth
    # 0.2 m there, so 57 m is in sight
    line = track((0.0, -1.0 * NM), (0.0, 1.0 * NM)).line(0)
    grid = _islet_grid()
    assert _look(grid, line, east_nm=2.0, north_nm=0.0, height_m=57.0).hidden == ((),)
    assert _look(grid, line, east_nm=2.0, north_nm=0.0, height_m=53.0).hidden != ((),)


def test_harbour_mouth_opens_fifteen_minutes_before_it_is_abeam() -> None:
    # job.md T25 (computed by hand there): head at (1.0, 0), mouth at (2.0, 1.5), ship on x = 0
    # going north at 12 kn: opens at y = -1.5, 3.0 NM or 15.0 min before abeam
    sea = flat_sea(half_width_m=5.0 * NM, cell_m=15.0)
    head = headland_with_bay(tip_east_m=1.0 * NM, tip_north_m=0.0)
    found = _look(grid_of(sea.land(head, 60.0).model()), east_nm=2.0, north_nm=1.5, height_m=5.0)
    ((spell,),) = found.hidden
    abeam_nm = 4.0 + 1.5
    minutes = (abeam_nm - spell[1] / NM) / 12.0 * 60.0
    assert minutes == pytest.approx(15.0, abs=0.15)


def test_ridge_hides_an_island_below_the_ray() -> None:
    # job.md T7 (computed by hand there): antenna 25 m, ridge 60 m at 3 NM, island at 6 NM:
    # hidden below 98.6 m on the 4/3 Earth; on a flat one below 95 m
    sea = flat_sea(half_width_m=7.0 * NM, cell_m=20.0)
    wall = ridge_across(range_m=3.0 * NM - 30.0, half_length_m=2.0 * NM, thickness_m=60.0)
    grid = grid_of(sea.land(wall, 60.0).model())
    line = track((0.0, 0.0), (0.0, 60.0)).line(0)

    def is_hidden(height_m: float) -> bool:
        return _look(grid, line, east_nm=0.0, north_nm=6.0, height_m=height_m).hidden != ((),)

    assert is_hidden(40.0)
    assert is_hidden(97.6)
    assert not is_hidden(100.4)
    assert not is_hidden(120.0)


def test_only_the_track_within_range_is_asked() -> None:
    grid = grid_of(flat_sea(half_width_m=5.0 * NM, cell_m=60.0).model())
    found = _look(grid, east_nm=2.0, north_nm=0.0, height_m=5.0, within_nm=2.5)
    # sqrt(2.5^2 - 2^2) = 1.5 NM either side of abeam
    ((start, stop),) = found.within
    assert (start / NM, stop / NM) == pytest.approx((2.5, 5.5), abs=0.002)
    assert _look(grid, east_nm=3.0, north_nm=0.0, height_m=5.0, within_nm=2.5).within == ()


def test_heights_that_are_not_known_are_told_apart() -> None:
    sea = flat_sea(half_width_m=5.0 * NM, cell_m=30.0)
    sea = sea.without_heights(box(1.0 * NM, -0.5 * NM, 1.5 * NM, 0.5 * NM), Cell.VOID)
    found = _look(grid_of(sea.model()), east_nm=2.0, north_nm=0.0, height_m=5.0)
    assert found.hidden == ((),)
    (((start, stop),),) = found.unknown
    assert start < 4.0 * NM < stop


_ISLET = box(1.0 * NM, -0.2 * NM, 1.3 * NM, 0.2 * NM)
_GRID = grid_of(flat_sea(half_width_m=5.0 * NM, cell_m=30.0).land(_ISLET, 40.0).model())


@settings(max_examples=25, deadline=None)
@given(st.floats(-2.0, 2.0), st.floats(1.6, 2.6), st.floats(-0.3, 0.3))
def test_hidden_is_what_a_straight_line_over_the_plane_says(
    north_nm: float, east_nm: float, cross_nm: float
) -> None:
    # An islet higher than the antenna hides whatever lies behind it: plain geometry, in which
    # its edge is known to a cell
    found = _look(
        _GRID, east_nm=east_nm, north_nm=north_nm, height_m=5.0, cross_nm=(cross_nm,),
        within_nm=8.0,
    )  # fmt: skip
    thing = (east_nm * NM, north_nm * NM)
    for along_m in np.linspace(0.0, _NORTH.length_m, 161):
        ray = shapely.LineString([(cross_nm * NM, along_m - 4.0 * NM), thing])
        is_hidden = any(start <= along_m <= stop for start, stop in found.hidden[0])
        if ray.intersects(_ISLET.buffer(-40.0)):
            assert is_hidden
        elif not ray.intersects(_ISLET.buffer(40.0)):
            assert not is_hidden
