"""Limits of a first paint never err the wrong way: voids, corridors, margins between places."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from core.base.arrays import FloatArray, IntArray
from core.coverage.coverage_result import SweepSettings
from core.coverage.first_paint import STRONG_REFRACTION_K
from core.coverage.paint_gauge import Gauge, Look, PaintTarget
from core.coverage.paint_search import LegView, first_limits, leg_view
from core.coverage.sight_limits import sight_limits
from core.coverage.sight_scene import SightTarget, scene_of
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.radar.echo_budget import EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.islands import NM, Sea, disc, flat_sea, place, track


def _view(passage: Passage, sea: Sea, position: Position, height_m: float) -> LegView:
    sight = SightTarget(
        object_id="A",
        name="invented A",
        position=position,
        height_above_water_m=height_m,
        is_on_land=True,
        own_radius_m=300.0,
    )
    target = PaintTarget(sight=sight, reach_m=300.0)
    settings = SweepSettings(antenna_height_m=25.0, refraction_k=2.0, radius_m=24.0 * NM)
    scene = scene_of(passage, sea.model(), (sight,), settings, None, None)
    return leg_view(passage, 0, scene, Gauge(scene, (target,)), lambda: None)


def test_unknown_heights_on_the_way_do_not_put_off_the_earliest() -> None:
    # What may be sea may be looked over: seen there, an echo is not too early.
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=120.0).land(disc(0.0, 0.0, 300.0), 60.0)
    void = sea.without_heights(shapely.box(-2.0 * NM, -4.0 * NM, 2.0 * NM, -2.0 * NM))
    passage = track((0.0, -12.0 * NM), (0.0, -0.5 * NM), corridor_m=0.0)
    view = _view(passage, void, place(0.0, 0.0), 60.0)
    (clear,) = sight_limits(view, antenna_height_m=25.0, refraction_k=4.0 / 3.0)
    (earliest,) = sight_limits(
        view, antenna_height_m=25.0, refraction_k=STRONG_REFRACTION_K, is_earliest=True
    )
    assert clear.moment is not None
    assert clear.moment.along_m > 7.0 * NM
    assert earliest.is_from_start


def test_the_earliest_is_from_anywhere_in_the_corridor() -> None:
    # A wall 4 NM off reaches to 0.4 NM east of the track; from the starboard edge, 0.8 NM east,
    # the islet dead ahead at 8 NM past it shows over the wall's end as long as
    # 0.8 - 0.8 t > 0.4, t the share of the way the wall stands at: t < 0.5.
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0).land(disc(0.0, 6.0 * NM, 200.0), 40.0)
    sea = sea.land(shapely.box(-2.0 * NM, 2.0 * NM, 0.4 * NM, 2.06 * NM), 150.0)
    narrow, wide = (
        _view(track((0.0, -8.0 * NM), (0.0, 1.9 * NM), corridor_m=c), sea, place(0.0, 6.0 * NM), 40)
        for c in (0.0, 0.8 * NM)
    )
    (never,) = sight_limits(narrow, antenna_height_m=25.0, refraction_k=2.0, is_earliest=True)
    (early,) = sight_limits(wide, antenna_height_m=25.0, refraction_k=2.0, is_earliest=True)
    assert never.moment is None
    assert early.moment is not None
    # t = (2 - y) / (6 - y) < 0.5 from y = -2 on, 6 NM along; later by a cell of the wall
    assert 5.9 * NM < early.moment.along_m < 6.6 * NM


class _Slanting(Gauge):
    """A gauge of one object whose margins are given: by how far north and where abreast."""

    def __init__(self) -> None:
        pass

    @property
    def count(self) -> int:
        return 1

    def seen_from(self, look: Look, at: Position, objects: IntArray) -> FloatArray:
        del look
        north_nm = at.lat_deg * 60.0
        # From the track 0 dB at 3.6 NM, from the starboard edge at 3.9 NM and steeper.
        margin = 8.0 * (north_nm - 3.6)
        if at.lon_deg > -30.0 + 1e-4:
            margin = min(margin, 20.0 * (north_nm - 3.9))
        return np.full(objects.size, margin)

    def target(self, number: int) -> SightTarget:
        del number
        return SightTarget(
            object_id="A", name="A", position=place(0.0, 9.0 * NM), height_above_water_m=9.0,
            is_on_land=True,
        )  # fmt: skip


def test_a_limit_over_the_corridor_is_that_of_its_worst_place() -> None:
    # The margins rise evenly between the places looked from, so the limit is that of the edge;
    # the track's margin at the place before is not so bad.
    passage = track((0.0, 0.0), (0.0, 8.0 * NM), corridor_m=500.0)
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=250.0).land(disc(0.0, 9.0 * NM, 500.0), 9.0)
    view = replace(_view(passage, sea, place(0.0, 9.0 * NM), 9.0), gauge=_Slanting())
    radar = preset_set(Band.X, Preset.TYPICAL)
    look = Look(budget=EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=25.0))
    (limit,) = first_limits(view, look, view.crosses_m, lambda _t: "never")
    assert limit.moment is not None
    assert view.place(limit.moment.along_m).lat_deg * 60.0 == pytest.approx(3.9, abs=0.01)
