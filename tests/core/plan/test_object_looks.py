"""Index objects in full over hand-made land; sizes and slopes as built, answers by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import Coverage
from core.land.land_model import Cell, LandModel
from core.passage.passage import Passage
from core.plan import reason_codes
from core.plan.data_grain import data_grain_m
from core.plan.object_result import Grade, ObjectLook
from core.plan.plan_result import Edge, Plan
from tests.helpers.islands import NM, box, flat_sea, islet, track
from tests.helpers.plans import SHIP, covered, mark, planned

Scene = tuple[LandModel, Passage, Coverage]


@pytest.fixture(scope="module")
def scene() -> Scene:
    """North 10 NM past a steep islet, a low one behind a wall, and a beach."""
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0)
    # 360 m square, 40 m high, 1.0 NM to starboard of the track to its near side.
    sea = sea.land(islet(1.0 * NM + 180.0, 0.0, width_m=360.0), 40.0)
    # From 25 m over a wall of 15 m at 0.8 NM the ray is at 12.5 m over the sea at 1.0 NM: an
    # islet of 16 m shows over it by 3.5 m, 5 m lower not at all.
    sea = sea.land(islet(-1.0 * NM - 120.0, -2.0 * NM, width_m=240.0), 16.0)
    sea = sea.land(box(-0.8 * NM - 60.0, -4.0 * NM, -0.8 * NM, 0.0), 15.0)
    # 300 m square islets of 4 m, lower than heights err, and of 30 m beside heights missing.
    sea = sea.land(islet(-1.5 * NM, 3.0 * NM, width_m=300.0), 4.0)
    sea = sea.land(islet(1.6 * NM, 3.5 * NM, width_m=300.0), 30.0)
    sea = sea.without_heights(islet(1.6 * NM + 400.0, 3.5 * NM, width_m=240.0), Cell.VOID)
    land = sea.model()
    passage = track((0.0, -5.0 * NM), (0.0, 5.0 * NM))
    return land, passage, covered(land, passage)


@pytest.fixture(scope="module")
def plan(scene: Scene) -> Plan:
    return planned(
        *scene,
        marks=(
            mark("Charted", 1.5 * NM, -3.0 * NM),
            mark("Seen Once", -1.5 * NM, 4.5 * NM, is_on_chart=False),
            mark("Buoy", 0.7 * NM, 1.0 * NM, is_fixed=False, kind="buoy"),
        ),
    )


def of_height(plan: Plan, height_m: float) -> ObjectLook:
    return next(
        look
        for look in plan.legs[0].looks
        if look.object.height_above_water_m == pytest.approx(height_m, abs=0.5)
        and look.object.confirm_on_chart
    )


def named(plan: Plan, name: str) -> ObjectLook:
    return next(look for look in plan.legs[0].looks if look.object.id == name)


def codes(look: ObjectLook) -> set[str]:
    return {reason.code for reason in look.confidence.reasons}


def test_places_count_from_one_best_first_and_weak_ones_last(plan: Plan) -> None:
    looks = plan.legs[0].looks
    assert [look.place for look in looks] == list(range(1, len(looks) + 1))
    weak = [look.is_weak for look in looks]
    assert weak == sorted(weak)
    assert [look.object.id for look in looks] == [
        thing.id for thing, reason in plan.legs[0].candidates if reason.code != "floating-mark"
    ]


def test_width_stands_against_the_beam(plan: Plan) -> None:
    # The diagonal of 360 m is 509 m; a beam of 1.9 deg is 61.4 m wide at 1 NM.
    look = of_height(plan, 40.0)
    assert look.extent_m == pytest.approx(360.0 * math.sqrt(2.0), rel=2e-3)
    beam_m = math.radians(SHIP.radars[0].horizontal_beamwidth_deg) * look.cross_index_range_m
    assert look.beams_ratio == pytest.approx(look.extent_m / beam_m)
    assert look.object.edge is Edge.NEAR_SIDE


def test_a_cliff_is_steep_to_and_its_edge_stays(plan: Plan) -> None:
    look = of_height(plan, 40.0)
    assert look.is_steep_to
    # 40 m in half a cell: 4 m of tide move the edge by a tenth of 30 m.
    assert look.tide_moves_m == pytest.approx(3.0, abs=1.0)
    assert look.confidence.grade is Grade.GOOD
    assert look.confidence.height_could_hide is False


def test_an_islet_that_just_clears_a_wall_could_be_hidden_by_an_error_of_heights(
    plan: Plan,
) -> None:
    look = of_height(plan, 16.0)
    assert look.confidence.height_could_hide is True
    assert reason_codes.HEIGHT_COULD_HIDE in codes(look)
    assert look.confidence.grade is Grade.FAIR
    assert not look.is_likely_conspicuous


def test_an_islet_lower_than_heights_err_is_poor(plan: Plan) -> None:
    look = of_height(plan, 4.0)
    assert look.confidence.grade is Grade.POOR
    assert reason_codes.HEIGHT_WITHIN_ERROR in codes(look)
    assert look.confidence.height_could_hide is True


def test_missing_heights_beside_it_make_an_object_poor(plan: Plan) -> None:
    look = of_height(plan, 30.0)
    assert look.confidence.grade is Grade.POOR
    assert codes(look) == {reason_codes.HEIGHTS_MISSING}


def test_marks_rest_on_the_officers_word(plan: Plan) -> None:
    charted, once = named(plan, "Charted"), named(plan, "Seen Once")
    assert charted.confidence.grade is Grade.GOOD
    assert charted.confidence.height_could_hide is None
    assert codes(once) == {reason_codes.NOT_SEEN_ON_CHART}
    assert once.object.confirm_on_chart
    assert not charted.object.confirm_on_chart


def test_nothing_floating_has_a_place(plan: Plan) -> None:
    assert "Buoy" not in {look.object.id for look in plan.legs[0].looks}
    assert ("Buoy", reason_codes.FLOATING) in {
        (thing.id, reason.code) for thing, reason in plan.legs[0].candidates
    }


def test_confidence_falls_with_the_error_of_the_heights(scene: Scene) -> None:
    land, passage, coverage = scene
    doubtful = replace(land, height_error_m=45.0)
    look = of_height(planned(doubtful, passage, coverage), 40.0)
    assert look.confidence.grade is Grade.POOR
    assert look.confidence.height_could_hide is True


def test_assumed_heights_are_poor(scene: Scene) -> None:
    land, passage, coverage = scene
    assumed = replace(land, heights_assumed=True)
    look = of_height(planned(assumed, passage, coverage), 40.0)
    assert look.confidence.grade is Grade.POOR
    assert reason_codes.HEIGHTS_ASSUMED in codes(look)


def test_grain_of_the_data_is_two_cells_or_a_side_of_the_coast() -> None:
    # Squares of 90 and of 600 m: half of the length of coast is drawn in sides of 600 m.
    sea = flat_sea(half_width_m=4.0 * NM, cell_m=60.0).land(islet(0.0, 0.0, width_m=90.0), 10.0)
    fine = sea.model()
    every = np.arange(fine.points.lat_deg.size)
    assert data_grain_m(fine, every, cell_m=60.0) == pytest.approx(120.0)
    coarse = sea.land(islet(2.0 * NM, 0.0, width_m=600.0), 10.0).model()
    every = np.arange(coarse.points.lat_deg.size)
    assert data_grain_m(coarse, every, cell_m=60.0) == pytest.approx(600.0, rel=0.01)
    assert data_grain_m(coarse, every[:0], cell_m=60.0) is None


def test_every_leg_says_what_its_data_cannot_hold(plan: Plan) -> None:
    assert plan.legs[0].data_grain_m is not None
    assert plan.legs[0].data_grain_m >= 120.0
