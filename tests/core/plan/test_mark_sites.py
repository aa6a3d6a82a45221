"""Marks on rocks, islets and tips: each echo counted once. All is invented."""

from dataclasses import replace

import shapely

from core.plan.land_objects import islets
from core.plan.mark_objects import mark_features
from core.plan.mark_sites import on_their_sites
from core.plan.plan_result import Edge, LegPlan, Mark, Role
from core.plan.rules import DEFAULT_RULES
from tests.helpers.islands import NM, Sea, box, disc, flat_sea, islet, track
from tests.helpers.plans import candidate_ids, covered, mark, planned

SEA = flat_sea(half_width_m=6.0 * NM, cell_m=60.0)


def sites(sea: Sea, *marks: Mark) -> tuple[list[str], int]:
    """Sites of the marks, and how many islets are left."""
    land = sea.model()
    found, left = on_their_sites(
        mark_features(marks), islets(land, DEFAULT_RULES), land, DEFAULT_RULES
    )
    return [feature.site for feature in found], len(left)


def test_a_beacon_takes_the_place_of_the_rock_it_stands_on() -> None:
    sea = SEA.land(islet(NM, 0.0, width_m=80.0), 12.0)
    assert sites(sea, mark("Rock Beacon", NM + 20.0, 10.0)) == ([""], 0)


def test_a_beacon_on_a_large_islet_leaves_it_its_edge_and_knows_it() -> None:
    sea = SEA.land(disc(NM, 0.0, 300.0), 12.0)
    assert sites(sea, mark("Top", NM, 0.0)) == (["line 0"], 1)
    assert sites(sea, mark("Shore", NM - 280.0, 0.0)) == (["line 0"], 1)
    assert sites(sea, mark("Off", NM - 500.0, 0.0)) == ([""], 1)


def test_a_buoy_takes_no_ones_place() -> None:
    sea = SEA.land(islet(NM, 0.0, width_m=80.0), 12.0)
    assert sites(sea, mark("Rock Buoy", NM, 0.0, is_fixed=False, kind="buoy")) == ([""], 1)


def leg_with(sea: Sea, *marks: Mark) -> LegPlan:
    land = sea.model()
    passage = track((0.0, -3.0 * NM), (0.0, 3.0 * NM))
    return planned(land, passage, covered(land, passage), marks=marks).legs[0]


def test_the_index_is_laid_on_the_mark_and_not_beside_it_on_its_rock() -> None:
    sea = SEA.land(islet(NM, 0.0, width_m=80.0), 12.0)
    beacon = mark("Rock Beacon", NM + 20.0, 10.0, height_m=18.0)
    leg = leg_with(sea, beacon)
    assert candidate_ids(leg) == ["Rock Beacon"]
    (primary,) = [line for line in leg.lines if line.role is Role.PRIMARY]
    assert primary.object.edge is Edge.POSITION
    assert primary.object.position == beacon.position


def test_a_light_on_a_headland_takes_the_place_of_its_tip() -> None:
    point = shapely.Polygon([(3.2 * NM, -0.4 * NM), (1.5 * NM, 0.0), (3.2 * NM, 0.4 * NM)])
    coast = shapely.union(box(3.0 * NM, -5.0 * NM, 5.0 * NM, 5.0 * NM), point)
    sea = SEA.land(coast, 40.0)
    light = mark("Head Light", 1.55 * NM, 0.0, height_m=50.0)
    assert len(candidate_ids(leg_with(sea))) == 1
    assert candidate_ids(leg_with(sea, light)) == ["Head Light"]
    elsewhere = replace(light, position=mark("x", 1.5 * NM, 0.4 * NM).position)
    assert len(candidate_ids(leg_with(sea, elsewhere))) == 2


def test_an_islet_and_the_beacon_on_it_never_check_each_other() -> None:
    sea = SEA.land(disc(1.3 * NM, 0.0, 300.0), 12.0)
    leg = leg_with(sea, mark("Top", 1.3 * NM, 0.0, height_m=30.0))
    assert len(candidate_ids(leg)) == 2
    assert {line.role for line in leg.lines} == {Role.PRIMARY}
    assert len({line.object.id for line in leg.lines}) == 1
