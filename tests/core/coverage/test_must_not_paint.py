"""What must not paint really must not: heights as wrong as stated, gaps, corridor, every radar.

Each case is laid out by hand so that a sight line opens in one way alone; a control without that
way stays listed. Everything is invented.
"""

import pytest
import shapely

from core.base.progress import Quiet
from core.coverage.coverage_result import SweepSettings
from core.coverage.first_paint import PaintLooks, first_paints
from core.coverage.first_paint_result import LegPaints
from core.coverage.paint_gauge import Gauge, Look, PaintTarget
from core.coverage.sight_scene import SightTarget, scene_of
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from core.words.messages import Say
from tests.helpers.islands import NM, Sea, disc, flat_sea, place, track


def _look(antenna_m: float, *, band: Band = Band.X, k: float = 4.0 / 3.0) -> Look:
    radar = preset_set(band, Preset.TYPICAL)
    conditions = Conditions(refraction_k=k, rain_mm_h=0.0, sea_state=0.0)
    return Look(
        budget=EchoBudget(
            radar=radar, pulse=radar.long_pulse, antenna_height_m=antenna_m, conditions=conditions
        )
    )


def _target(east_m: float, north_m: float, height_m: float, reach_m: float) -> PaintTarget:
    sight = SightTarget(
        object_id="A",
        name="invented A",
        position=place(east_m, north_m),
        height_above_water_m=height_m,
        is_on_land=True,
        own_radius_m=reach_m,
    )
    return PaintTarget(sight=sight, reach_m=reach_m)


def _leg(
    passage: Passage,
    land: LandModel,
    target: PaintTarget,
    *,
    antenna_m: float = 25.0,
    others: tuple[tuple[str, Look], ...] = (),
) -> LegPaints:
    settings = SweepSettings(antenna_height_m=antenna_m, refraction_k=2.0, radius_m=24.0 * NM)
    scene = scene_of(passage, land, (target.sight,), settings, None, None)
    looks = PaintLooks(
        main_name="X band", main=_look(antenna_m), poorest=_look(antenna_m, k=1.0), others=others
    )
    (leg,) = first_paints(passage, scene, Gauge(scene, (target,)), looks, Quiet())
    return leg


@pytest.mark.parametrize(("height_m", "is_listed"), [(30.0, False), (70.0, True)])
def test_low_land_near_the_ship_hides_nothing_for_certain(height_m: float, is_listed: bool) -> None:
    # Antenna 25 m, wall 1 NM off, hill of 60 m at 10 NM, k 2: the sight line to its top passes
    # the wall at 25 + (60 - 13.5 - 25) / 10 + 0.1 = 27.3 m, so a wall of 30 m hides it; but one
    # of 25 m, 5 m lower, does not. Similar triangles and d^2 / (2 k R), handbook 1.1.
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0)
    sea = sea.land(shapely.box(-5.0 * NM, 1.0 * NM, 5.0 * NM, 1.1 * NM), height_m)
    sea = sea.land(disc(0.0, 10.0 * NM, 500.0), 60.0)
    passage = track((-9.0 * NM, 0.0), (3.0 * NM, 0.0))
    leg = _leg(passage, sea.model(), _target(0.0, 10.0 * NM, 60.0, 600.0))
    assert bool(leg.must_not) is is_listed


def _walled(*, gap_m: float) -> Sea:
    """A wall 2 NM north of the track, with a gap a little east of the middle; a hill behind."""
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0)
    middle_m = 0.25 * NM / 3.0 * 2.0
    sea = sea.land(shapely.box(-4.0 * NM, 2.0 * NM, middle_m - gap_m / 2.0, 2.06 * NM), 150.0)
    sea = sea.land(shapely.box(middle_m + gap_m / 2.0, 2.0 * NM, 4.0 * NM, 2.06 * NM), 150.0)
    return sea.land(disc(0.0, 6.0 * NM, 120.0), 60.0)


def test_a_gap_between_two_places_looked_from_ends_the_stretch() -> None:
    # The hill at (0, 6) shows through the gap at (0.17, 2) from the track at x = 0.25 NM, half
    # way between two of the places half a mile apart; the gap is 0.15 NM wide.
    passage = track((-9.0 * NM, 0.0), (9.0 * NM, 0.0), corridor_m=1.0)
    target = _target(0.0, 6.0 * NM, 60.0, 150.0)
    shows_m = 9.25 * NM

    def listed_at(gap_m: float) -> bool:
        leg = _leg(passage, _walled(gap_m=gap_m).model(), target)
        assert leg.must_not
        return any(i.begins.along_m <= shows_m <= i.ends.along_m for i in leg.must_not)

    assert listed_at(0.0)
    assert not listed_at(0.15 * NM)


def test_what_shows_from_inside_a_wide_corridor_is_no_must_not() -> None:
    # The same gap seen along a track that leads through the place from which it shows: the ship
    # passes 0.75 NM to port of it, half way out to the edge of her corridor.
    target = _target(0.0, 6.0 * NM, 60.0, 150.0)
    shows_m = 9.25 * NM

    def listed_at(gap_m: float) -> bool:
        sea = _walled(gap_m=gap_m)
        passage = track((-9.0 * NM, -0.75 * NM), (9.0 * NM, -0.75 * NM), corridor_m=1.5 * NM)
        leg = _leg(passage, sea.model(), target)
        return any(i.begins.along_m <= shows_m <= i.ends.along_m for i in leg.must_not)

    assert listed_at(0.0)
    assert not listed_at(0.15 * NM)


def test_what_shows_beside_its_top_from_the_edge_of_the_corridor_is_no_must_not() -> None:
    # A long low hill whose top stands in the west. From about x = 2 the sight line to its east end
    # (0.62, 6) passes the wall (y = 2, up to x = 1.78) at 2 - 1.38 * 2 / 6 = 1.54 from the track,
    # shut, and at 2 - 1.38 * 0.5 / 4.5 = 1.85 from 1.5 NM north of it, open; the line to its top
    # (-0.5, 6.05) passes there at 1.73, shut.
    def listed(corridor_m: float) -> bool:
        sea = flat_sea(half_width_m=12.0 * NM, cell_m=60.0)
        sea = sea.land(shapely.box(-3.0 * NM, 2.0 * NM, 1.78 * NM, 2.06 * NM), 200.0)
        sea = sea.land(shapely.box(-0.9 * NM, 6.0 * NM, 0.62 * NM, 6.1 * NM), 60.0)
        target = _target(-0.5 * NM, 6.05 * NM, 60.0, 1.2 * NM)
        passage = track((-9.0 * NM, 0.0), (9.0 * NM, 0.0), corridor_m=corridor_m)
        leg = _leg(passage, sea.model(), target)
        return any(i.begins.along_m <= 10.9 * NM <= i.ends.along_m for i in leg.must_not)

    assert listed(100.0)
    assert not listed(1.5 * NM)


def test_what_the_higher_antenna_paints_is_no_must_not() -> None:
    # From 20 m the wall of 60 m 1 NM off hides a hill of 150 m at 8 NM even if it is 5 m lower:
    # the line passes it at 20 + 1/8 (150 + 10 - 8.6 - 20) = 36 m; from 70 m it does not.
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0)
    sea = sea.land(shapely.box(-5.0 * NM, 1.0 * NM, 5.0 * NM, 1.1 * NM), 60.0)
    sea = sea.land(disc(0.0, 8.0 * NM, 500.0), 150.0)
    passage = track((-9.0 * NM, 0.0), (3.0 * NM, 0.0))
    target = _target(0.0, 8.0 * NM, 150.0, 600.0)
    high = (("S band", _look(70.0, band=Band.S)),)
    alone = _leg(passage, sea.model(), target, antenna_m=20.0)
    both = _leg(passage, sea.model(), target, antenna_m=20.0, others=high)
    assert alone.must_not
    assert not both.must_not
    assert not both.echoes.is_masked.any()


def test_what_may_show_over_unknown_heights_is_no_must_not() -> None:
    # East of the wall the open sea shows the hill's east end from 8.6 NM on; where the heights
    # there are unknown it may, so no stretch goes on beyond.
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=60.0)
    sea = sea.land(shapely.box(-3.0 * NM, 2.0 * NM, -0.1 * NM, 2.06 * NM), 200.0)
    sea = sea.land(shapely.box(-0.9 * NM, 6.0 * NM, 0.62 * NM, 6.1 * NM), 60.0)
    void = sea.without_heights(shapely.box(-0.1 * NM, 1.5 * NM, 3.0 * NM, 2.06 * NM))
    passage = track((-9.0 * NM, 0.0), (9.0 * NM, 0.0))
    target = _target(-0.5 * NM, 6.05 * NM, 60.0, 1.2 * NM)
    (known,), (unknown,) = (_leg(passage, s.model(), target).must_not for s in (sea, void))
    assert unknown.ends.along_m <= known.ends.along_m


def test_an_object_on_unknown_ground_is_not_known_to_paint() -> None:
    # A gap is told as a gap, never as land that does not paint.
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0).land(disc(0.0, 0.0, 400.0), 60.0)
    sea = sea.without_heights(disc(0.0, 0.0, 500.0))
    leg = _leg(
        track((0.0, -9.0 * NM), (0.0, -1.0 * NM)), sea.model(), _target(0.0, 0.0, 60.0, 400.0)
    )
    (paint,) = leg.paints
    assert paint.normally_by.moment is None
    assert paint.normally_by.reason.startswith(str(Say.REASON_NOT_KNOWN))
    assert not leg.must_not
