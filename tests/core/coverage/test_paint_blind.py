"""First paints and blind sectors of own structure. Answers by hand; all is invented."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.coverage.coverage_result import SweepSettings
from core.coverage.first_paint import PaintLooks, first_paints_on
from core.coverage.first_paint_result import FirstPaint, PaintLimit
from core.coverage.own_blind import BlindArc
from core.coverage.paint_gauge import Gauge, Look, PaintTarget
from core.coverage.piece_light import Eye
from core.coverage.sight_scene import SightTarget, scene_of
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.radar.echo_budget import EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.islands import NM, disc, flat_sea, place, track

_OBJECT = place(1.0 * NM, 8.0 * NM)
"""1 NM to starboard of a leg northwards, abeam at 8 NM along."""
_BOW = BlindArc(from_off_deg=345.0, width_deg=30.0, words="345° to 015° rel, crane")


class _From(Gauge):
    """A gauge of one strong object that echoes from a place along the leg on."""

    def __init__(self, north_nm: float) -> None:
        self._north_nm = north_nm

    @property
    def count(self) -> int:
        return 1

    def anew(self, kept: Eye | None = None) -> Gauge:
        del kept
        return self

    @property
    def targets(self) -> tuple[PaintTarget, ...]:
        return (PaintTarget(sight=self.target(0), reach_m=300.0),)

    @property
    def is_land(self) -> BoolArray:
        return np.ones(1, dtype=np.bool_)

    def seen_from(self, look: Look, at: Position, objects: IntArray) -> FloatArray:
        del look
        is_seen = at.lat_deg * 60.0 * 1852.2 / 1852.0 >= self._north_nm
        return np.full(objects.size, 40.0 if is_seen else -np.inf)

    def bearings_deg(self, place: Position) -> FloatArray:
        _distance, bearing_deg, _back = geodesic.inverse(
            from_lat_deg=place.lat_deg,
            from_lon_deg=place.lon_deg,
            to_lat_deg=np.array([_OBJECT.lat_deg]),
            to_lon_deg=np.array([_OBJECT.lon_deg]),
        )
        return bearing_deg

    def target(self, number: int) -> SightTarget:
        del number
        return SightTarget(
            object_id="A", name="A", position=_OBJECT, height_above_water_m=60.0, is_on_land=True
        )


def paint(
    *arcs: BlindArc, from_nm: float, to_nm: float = 12.0, corridor_m: float = 0.0
) -> FirstPaint:
    """First paint on a leg of 12 NM."""
    passage = track((0.0, 0.0), (0.0, to_nm * NM), corridor_m=corridor_m)
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=250.0).land(disc(NM, 8.0 * NM, 300.0), 60.0)
    target = PaintTarget(
        sight=_From(0.0).target(0),
        reach_m=300.0,
    )
    settings = SweepSettings(antenna_height_m=25.0, refraction_k=2.0, radius_m=24.0 * NM)
    scene = scene_of(passage, sea.model(), (target.sight,), settings, None, None)
    radar = preset_set(Band.X, Preset.TYPICAL)
    look = Look(budget=EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=25.0))
    looks = replace(
        PaintLooks(main_name="X", main=look, poorest=look), arcs=((arcs,),) if arcs else ()
    )
    (found,) = first_paints_on(passage, 0, scene, _From(from_nm), looks, lambda: None).paints
    return found


def along_nm(limit: PaintLimit) -> float:
    assert limit.moment is not None, limit.reason
    return limit.moment.along_m / NM


def test_without_sectors_limits_are_where_it_echoes() -> None:
    found = paint(from_nm=2.2)
    assert along_nm(found.normally_by) == pytest.approx(2.2, abs=0.07)
    assert along_nm(found.overdue) == pytest.approx(2.2, abs=0.07)
    assert found.normally_by.held_by == found.overdue.held_by == ""


def test_by_and_overdue_wait_until_it_stands_clear_of_the_sector() -> None:
    # 1 NM off and finer than 15 deg on the bow until 1 / tan 15 = 3.73 NM before abeam.
    found = paint(_BOW, from_nm=2.2)
    clear = 8.0 - 1.0 / math.tan(math.radians(15.0))
    for limit in (found.normally_by, found.corridor_by, found.overdue):
        assert along_nm(limit) == pytest.approx(clear, abs=0.07)
        assert along_nm(limit) >= clear - 0.005
    assert found.normally_by.held_by == found.overdue.held_by == "345° to 015° rel, crane"
    # What is geometry alone, and where it would paint, is told as it is.
    assert found.normally_from.moment == paint(from_nm=2.2).normally_from.moment
    assert found.stretches[0].begins.along_m / NM == pytest.approx(2.2, abs=0.07)


def test_overdue_waits_for_the_edge_of_the_corridor_that_comes_clear_last() -> None:
    # From the starboard edge, 0.4 NM over, the object is 0.6 NM off: clear 2.24 NM before abeam.
    found = paint(_BOW, from_nm=2.2, corridor_m=0.4 * NM)
    assert along_nm(found.normally_by) == pytest.approx(4.27, abs=0.07)
    assert along_nm(found.overdue) == pytest.approx(5.76, abs=0.07)


def test_what_painted_from_the_start_but_for_the_sector_comes_on_the_leg() -> None:
    assert paint(from_nm=-5.0).normally_by.is_from_start
    found = paint(_BOW, from_nm=-5.0)
    assert not found.normally_by.is_from_start
    assert along_nm(found.normally_by) == pytest.approx(4.27, abs=0.07)
    assert along_nm(found.overdue) == pytest.approx(4.27, abs=0.07)


def test_an_object_that_stays_in_the_sector_never_calls_the_master() -> None:
    found = paint(_BOW, from_nm=1.0, to_nm=4.0)
    for limit in (found.normally_by, found.overdue):
        assert limit.moment is None
        assert not limit.is_from_start
        assert limit.reason == (
            "stands in own blind sector 345° to 015° rel, crane where it might paint"
        )


def test_a_sector_that_lies_elsewhere_changes_nothing() -> None:
    astern = BlindArc(from_off_deg=170.0, width_deg=20.0, words="astern")
    assert paint(astern, from_nm=2.2) == paint(from_nm=2.2)
