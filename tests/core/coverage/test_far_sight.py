"""First sight over hand-made land; horizon numbers of the design notes, geometry by hand."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.errors import Cancelled
from core.base.progress import Quiet
from core.coverage.coverage_result import FirstSight, Moment, SweepSettings
from core.coverage.far_sight import first_sights, highest_land_reach_m
from core.coverage.sight_scene import SightTarget
from core.geodesy.position import Bounds, Position
from core.land.land_model import Cell, LandModel
from core.land.sources import HeightWindow
from core.passage.passage import Passage
from tests.helpers.islands import NM, Sea, box, flat_sea, islet, place, ridge_across, track

_K = 4.0 / 3.0
_K_221 = 1.3147
"""Refraction factor at which the horizon is 2.21 NM a root metre (definitions.md)."""


def _settings(antenna_m: float = 25.0, k: float = _K) -> SweepSettings:
    return SweepSettings(antenna_height_m=antenna_m, refraction_k=k, radius_m=24.0 * NM)


def _target(position: Position, height_m: float, *, is_on_land: bool = True) -> SightTarget:
    return SightTarget(
        object_id="A",
        name="invented",
        position=position,
        height_above_water_m=height_m,
        is_on_land=is_on_land,
    )


def _only(
    passage: Passage,
    land: LandModel,
    target: SightTarget,
    settings: SweepSettings | None = None,
    heights: "FakeHeights | None" = None,
) -> FirstSight:
    ((sight,),) = first_sights(passage, land, (target,), settings or _settings(), heights, Quiet())
    return sight


def _from(sight: FirstSight) -> Moment:
    assert sight.in_sight_from is not None, sight.in_sight_from_reason
    assert sight.in_sight_from_reason == ""
    return sight.in_sight_from


class FakeHeights:
    """Elevation files by a hand-made sea; heights are above mean sea level."""

    def __init__(self, sea: Sea) -> None:
        self._model = sea.model()
        self.cell_m: float | None = None

    def window(self, bounds: Bounds, cell_m: float | None = None) -> HeightWindow:
        del bounds
        self.cell_m = cell_m
        return HeightWindow(
            lattice=self._model.lattice,
            heights_m=self._model.heights_m.copy(),
            is_missing=self._model.cell == Cell.BEYOND,
            sources=(),
        )


def _open_sea() -> Sea:
    return flat_sea(half_width_m=48.0 * NM, cell_m=250.0)


@pytest.mark.parametrize(
    ("antenna_m", "height_m", "k", "range_nm"),
    [
        (25.0, 100.0, _K_221, 33.15),  # job.md T5b, 2.21 (5 + 10)
        (25.0, 100.0, _K, 33.38),  # job.md T5b, exact 4/3
        (25.0, 100.0, 2.0, 40.9),  # job.md T6c and T18
        (25.0, 100.0, 1.0, 28.9),  # job.md T18
        (25.0, 100.0, 0.8, 25.9),  # job.md T18
        (15.0, 60.0, _K_221, 25.68),  # job.md T6
        (15.0, 6.0, _K_221, 13.97),  # job.md T6
        (35.0, 30.0, _K_221, 25.18),  # job.md T16, X band
        (40.0, 30.0, _K_221, 26.08),  # job.md T16, S band
        (25.0, 20.0, _K_221, 20.93),  # job.md T17b, high water
        (25.0, 25.0, _K_221, 22.10),  # job.md T17b, 5 m lower water
        (16.0, 64.0, _K_221, 26.52),  # check value 1.05: Radar and ARPA Manual 3.8.1.1
    ],
)
def test_land_over_open_sea_comes_in_sight_at_its_horizon(
    antenna_m: float, height_m: float, k: float, range_nm: float
) -> None:
    passage = track((0.0, -45.0 * NM), (0.0, 0.0))
    land = _open_sea().land(islet(0.0, 2.0 * NM, width_m=500.0), height_m).model()
    moment = _from(
        _only(passage, land, _target(place(0.0, 2.0 * NM), height_m), _settings(antenna_m, k))
    )
    assert moment.range_m / NM == pytest.approx(range_nm, rel=0.01)
    assert moment.along_m == pytest.approx(47.0 * NM - moment.range_m, abs=5.0)
    assert moment.bearing_deg == pytest.approx(0.0, abs=0.01) or moment.bearing_deg > 359.99


def test_place_of_first_sight_is_good_to_a_fiftieth_of_a_mile() -> None:
    passage = track((0.0, -45.0 * NM), (0.0, 0.0))
    land = _open_sea().land(islet(0.0, 2.0 * NM, width_m=500.0), 100.0).model()
    moment = _from(_only(passage, land, _target(place(0.0, 2.0 * NM), 100.0)))
    # sqrt(2 k R) (5 + 10) = 61 824 m by hand; seen from just inside it
    assert 61_824.0 - 0.02 * NM - 1.0 <= moment.range_m <= 61_824.5


def test_start_at_45_miles_and_15_knots_gives_0647() -> None:
    # job.md T6b: leg starts 0600 at 45 NM, 15 kn, straight at a 100 m cliff: from 0647 (2.21)
    passage = track((0.0, -45.0 * NM), (0.0, -5.0 * NM))
    land = _open_sea().land(islet(0.0, 0.0, width_m=500.0), 100.0).model()
    moment = _from(_only(passage, land, _target(place(0.0, 0.0), 100.0), _settings(k=_K_221)))
    assert moment.along_m / NM / 15.0 * 60.0 == pytest.approx(47.4, abs=0.1)


def test_island_behind_a_ridge_comes_in_sight_when_the_ray_clears_it() -> None:
    # job.md T7 turned round: at 3 NM from the ridge the ray stands 98.6 m high at the island
    # 3 NM behind it; nearer, it stands higher. So a 120 m island is lost on the way in.
    sea = flat_sea(half_width_m=10.0 * NM, cell_m=60.0)
    sea = sea.land(ridge_across(range_m=-30.0, half_length_m=2.0 * NM, thickness_m=240.0), 60.0)
    passage = track((0.0, -8.0 * NM), (0.0, -0.5 * NM))
    sight = _only(passage, sea.model(), _target(place(0.0, 3.0 * NM), 120.0))
    assert sight.in_sight_from is None
    assert sight.in_sight_from_reason == "in sight from the start of the passage"
    assert sight.lost is not None
    # flat: (120 - 25) / (d + 3) = (60 - 25) / d, d = 1.75 NM; curvature d * 3 / (2 k R) in NM^2
    # is worth 1.11 m at the ridge: (120 - 25) d / (d + 3) - 1.11 = 35 gives d = 1.84 NM
    off_nm = 8.0 - sight.lost.along_m / NM
    assert off_nm == pytest.approx(1.84, abs=0.025)


def test_low_island_behind_a_ridge_never_comes_in_sight_and_says_why() -> None:
    sea = flat_sea(half_width_m=10.0 * NM, cell_m=60.0)
    sea = sea.land(ridge_across(range_m=0.0, half_length_m=2.0 * NM, thickness_m=240.0), 60.0)
    passage = track((0.0, -8.0 * NM), (0.0, -3.0 * NM))
    sight = _only(passage, sea.model(), _target(place(0.0, 3.0 * NM), 40.0))
    assert sight.in_sight_from is None
    assert sight.in_sight_from_reason == (
        "never in sight on this leg: hidden by land 60 m high, 3.0 NM off"
    )
    assert sight.lost is None


def test_target_below_the_horizon_says_how_far() -> None:
    passage = track((0.0, -45.0 * NM), (0.0, -30.0 * NM))
    sight = _only(passage, _open_sea().model(), _target(place(0.0, 0.0), 16.0))
    # nearest 30 NM, 2.2256 (5 + 4) = 20.0 NM
    assert sight.in_sight_from_reason == (
        "never above the horizon on this leg: 30.0 NM off at the nearest, horizon at 20.0 NM"
    )


def test_headland_opens_a_harbour_where_the_ray_says() -> None:
    # job.md T25: head at (1.0, 0), harbour mouth at (2.0, 1.5), ship on x = 0 going north: the
    # mouth opens at y = -1.5, where the line from (2, 1.5) through (1, 0) meets x = 0, that is
    # 3.0 NM before it is abeam
    head = box(1.0 * NM, -1.0 * NM, 3.0 * NM, 0.0)
    sea = flat_sea(half_width_m=6.0 * NM, cell_m=30.0).land(head, 60.0)
    passage = track((0.0, -5.0 * NM), (0.0, 3.0 * NM))
    target = _target(place(2.0 * NM, 1.5 * NM), 3.0, is_on_land=False)
    moment = _from(_only(passage, sea.model(), target))
    # the tip is known to a cell of 30 m, seen at twice the distance: 0.03 NM
    assert moment.along_m / NM == pytest.approx(3.5, abs=0.04)


def test_islet_hides_an_object_while_abeam() -> None:
    # job.md T22: antenna 25 m, islet 40 m at 1.0 NM to starboard, 0.10 NM long, object 30 m high
    # 2.0 NM off: hidden while abeam +/- 0.10 NM
    shape = box(1.0 * NM, -0.05 * NM, 1.0 * NM + 90.0, 0.05 * NM)
    sea = flat_sea(half_width_m=4.0 * NM, cell_m=10.0).land(shape, 40.0)
    target = _target(place(2.0 * NM, 0.0), 30.0, is_on_land=False)
    coming = _only(track((0.0, -1.0 * NM), (0.0, 0.0)), sea.model(), target)
    assert coming.lost is not None
    assert 1.0 - coming.lost.along_m / NM == pytest.approx(0.10, abs=0.025)
    going = _from(_only(track((0.0, 0.0), (0.0, 1.0 * NM)), sea.model(), target))
    assert going.along_m / NM == pytest.approx(0.10, abs=0.025)


def test_each_leg_tells_its_own_story() -> None:
    passage = track((0.0, -45.0 * NM), (0.0, -30.0 * NM), (0.0, -20.0 * NM), (0.0, -40.0 * NM))
    land = _open_sea().land(islet(0.0, 2.0 * NM, width_m=500.0), 100.0).model()
    target = _target(place(0.0, 2.0 * NM), 100.0)
    legs = first_sights(passage, land, (target,), _settings(), None, Quiet())
    assert _from(legs[0][0]).range_m / NM == pytest.approx(33.38, abs=0.03)
    assert legs[1][0].in_sight_from_reason == "in sight from the start of this leg"
    assert legs[1][0].lost is None
    lost = legs[2][0].lost
    assert lost is not None
    assert lost.range_m / NM == pytest.approx(33.38, abs=0.03)


def test_void_in_front_is_not_promised_and_unknown_outside_is_told() -> None:
    passage = track((0.0, -15.0 * NM), (0.0, -9.0 * NM))
    target = _target(place(0.0, 0.0), 40.0)
    patch = box(-2.0 * NM, -6.0 * NM, 2.0 * NM, -5.0 * NM)
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=120.0).land(islet(0.0, 0.0, width_m=400.0), 40.0)
    void = _only(passage, sea.without_heights(patch, Cell.VOID).model(), target)
    assert void.in_sight_from is None
    # nearest to the target the ship is 9 NM off, and 3 NM from the gap
    assert void.in_sight_from_reason == (
        "not known to come in sight on this leg: heights 3.0 NM off are unknown"
    )
    beyond = _only(passage, sea.without_heights(patch, Cell.BEYOND).model(), target)
    assert beyond.in_sight_from_reason == "in sight from the start of the passage"


def test_land_outside_the_model_is_found_through_coarse_heights() -> None:
    # the model ends 5 NM round the track; the mountain stands 40 NM off, a wall 20 NM off
    fine = flat_sea(half_width_m=10.0 * NM, cell_m=120.0)
    far = flat_sea(half_width_m=50.0 * NM, cell_m=250.0)
    mountain = islet(0.0, 40.0 * NM, width_m=500.0)
    passage = track((0.0, -8.0 * NM), (0.0, 8.0 * NM))
    target = _target(place(0.0, 40.0 * NM), 250.0)
    heights = FakeHeights(far.land(mountain, 250.0))
    moment = _from(_only(passage, fine.model(), target, heights=heights))
    # 2.2256 (5 + sqrt(250)) = 46.32 NM
    assert moment.range_m / NM == pytest.approx(46.32, abs=0.03)
    assert heights.cell_m is not None
    assert heights.cell_m >= 250.0
    wall = ridge_across(range_m=20.0 * NM, half_length_m=3.0 * NM, thickness_m=1500.0)
    hidden = _only(
        passage,
        fine.model(),
        target,
        heights=FakeHeights(far.land(mountain, 250.0).land(wall, 400.0)),
    )
    assert hidden.in_sight_from is None
    assert "hidden by land 400 m high" in hidden.in_sight_from_reason


def test_without_coarse_heights_the_way_outside_the_model_is_called_unknown() -> None:
    fine = flat_sea(half_width_m=10.0 * NM, cell_m=120.0)
    passage = track((0.0, -8.0 * NM), (0.0, 8.0 * NM))
    sight = _only(passage, fine.model(), _target(place(0.0, 40.0 * NM), 250.0))
    assert _from(sight).range_m / NM == pytest.approx(46.32, abs=0.03)
    assert sight.passes_unknown


def test_coarse_heights_are_brought_to_the_water_now() -> None:
    fine = flat_sea(half_width_m=10.0 * NM, cell_m=120.0)
    low = Sea(half_width_m=fine.half_width_m, cell_m=fine.cell_m, water_level_m=30.0)
    wall = ridge_across(range_m=15.0 * NM, half_length_m=3.0 * NM, thickness_m=1500.0)
    heights = FakeHeights(flat_sea(half_width_m=50.0 * NM, cell_m=250.0).land(wall, 130.0))
    target = _target(place(0.0, 25.0 * NM), 60.0)
    passage = track((0.0, 0.0), (0.0, 4.0 * NM))
    sight = _only(passage, low.model(), target, heights=heights)
    assert "hidden by land 100 m high" in sight.in_sight_from_reason


def test_own_land_round_a_target_does_not_hide_it() -> None:
    # a headland tip: the highest cell lies 90 m in front of the point that stands for it
    shape = islet(0.0, 0.0, width_m=300.0)
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=60.0).land(shape, 40.0)
    passage = track((0.0, -10.0 * NM), (0.0, -2.0 * NM))
    sight = _only(passage, sea.model(), _target(place(0.0, -30.0), 40.0))
    assert sight.in_sight_from_reason == "in sight from the start of the passage"
    # the far side of a flat top is hidden by its near edge, unless the whole islet is meant
    back = _target(place(0.0, 110.0), 40.0)
    assert "hidden by land 40 m high" in _only(passage, sea.model(), back).in_sight_from_reason
    whole = _only(passage, sea.model(), replace(back, own_radius_m=260.0))
    assert whole.in_sight_from_reason == "in sight from the start of the passage"


def test_reach_of_the_highest_land() -> None:
    land = flat_sea(half_width_m=3000.0).land(islet(0.0, 0.0, width_m=500.0), 100.0).model()
    reach_m = highest_land_reach_m(land, antenna_height_m=25.0, refraction_k=2.0)
    assert reach_m / NM == pytest.approx(40.9, rel=0.002)  # job.md T18
    empty = flat_sea(half_width_m=3000.0).model()
    # own horizon of 25 m alone: 2.2256 * 5 = 11.13 NM
    assert highest_land_reach_m(empty, antenna_height_m=25.0, refraction_k=_K) / NM == (
        pytest.approx(11.13, abs=0.01)
    )


def test_no_targets_no_sights() -> None:
    passage = track((0.0, 0.0), (0.0, NM), (NM, NM))
    land = flat_sea(half_width_m=3000.0).model()
    assert first_sights(passage, land, (), _settings(), None, Quiet()) == ((), ())


def test_a_stop_is_obeyed_and_every_leg_named() -> None:
    class Stopping:
        texts: list[str]

        def __init__(self) -> None:
            self.texts = []

        def report(self, fraction: float, text: str = "") -> None:
            del fraction
            self.texts.append(text)
            if "leg 2" in text:
                raise Cancelled

    progress = Stopping()
    passage = track((0.0, 0.0), (0.0, NM), (NM, NM))
    land = flat_sea(half_width_m=3000.0).model()
    with pytest.raises(Cancelled):
        first_sights(passage, land, (_target(place(0.0, 0.0), 9.0),), _settings(), None, progress)
    assert "First sight: leg 1 of 2" in progress.texts


def test_hundreds_of_targets_agree_with_one_at_a_time() -> None:
    rng = np.random.default_rng(3)
    sea = flat_sea(half_width_m=20.0 * NM, cell_m=120.0)
    spots = rng.uniform(-15.0, 15.0, (60, 2)) * NM
    heights = rng.uniform(5.0, 90.0, 60)
    for (east, north), height in zip(spots, heights, strict=True):
        sea = sea.land(islet(east, north, width_m=400.0), float(height))
    land = sea.model()
    targets = tuple(
        _target(place(float(e), float(n)), float(h))
        for (e, n), h in zip(spots, heights, strict=True)
    )
    passage = track((-10.0 * NM, -10.0 * NM), (10.0 * NM, 12.0 * NM))
    (together,) = first_sights(passage, land, targets, _settings(), None, Quiet())
    for number in (0, 7, 31, 59):
        ((alone,),) = first_sights(passage, land, (targets[number],), _settings(), None, Quiet())
        assert alone == together[number]
    assert sum(s.in_sight_from is not None for s in together) > 10
