"""Legs of a ship with blind sectors, from land to plan. Answers by hand; all is invented."""

import re
from dataclasses import replace

import pytest

from core.base.units import mps_from_kn, nm_from_m
from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.plan_result import LegPlan, Role
from core.ship.ship import BlindSector, Ship
from core.words.reasons import sentence
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import SHIP, covered, mark, planned

Scene = tuple[LandModel, Passage, Coverage]
T14 = BlindSector(from_relative_deg=255.0, to_relative_deg=262.0, cause="deck cargo")


def with_sectors(*sectors: BlindSector, second: tuple[BlindSector, ...] = ()) -> Ship:
    main, other = SHIP.radars
    radars = (replace(main, blind_sectors=sectors), replace(other, blind_sectors=second))
    return replace(SHIP, radars=radars)


@pytest.fixture(scope="module")
def lone_islet() -> Scene:
    """A steep islet 2.0 NM to port of a leg of 8 NM, abeam half-way; a turn at its end."""
    sea = flat_sea(half_width_m=8.0 * NM, cell_m=90.0)
    land = sea.land(islet(-2.0 * NM, 0.0, width_m=60.0), 40.0).model()
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM), (3.0 * NM, 4.0 * NM))
    return land, passage, covered(land, passage)


def leg_of(scene: Scene, ship: Ship) -> LegPlan:
    leg = planned(*scene, ship=ship).legs[0]
    assert leg.speed_mps == pytest.approx(mps_from_kn(12.0))
    return leg


def primaries(leg: LegPlan) -> list[tuple[float, float]]:
    return [
        (nm_from_m(line.from_along_m), nm_from_m(line.to_along_m))
        for line in leg.lines
        if line.role is Role.PRIMARY
    ]


def test_t14_the_line_stops_while_the_object_is_in_the_sector(lone_islet: Scene) -> None:
    # T14: hidden from 0.28 to 0.54 NM after abeam (4.0 NM along), 1.3 min at 12 kn.
    (whole,) = primaries(leg_of(lone_islet, with_sectors()))
    leg = leg_of(lone_islet, with_sectors(T14))
    before, after = primaries(leg)
    assert before == pytest.approx((whole[0], 4.28), abs=0.01)
    assert after == pytest.approx((4.54, whole[1]), abs=0.01)
    assert leg.hand_overs == ()
    assert leg.blind_conflicts is not None
    (conflict,) = leg.blind_conflicts
    assert conflict.minutes == pytest.approx(1.3, abs=0.05)
    assert (conflict.role, conflict.radar, conflict.other_radar) == (
        Role.PRIMARY,
        "main",
        "second",
    )


def test_t14_is_said_in_words_on_the_leg(lone_islet: Scene) -> None:
    plan = planned(*lone_islet, ship=with_sectors(T14))
    (found,) = [f for f in plan.findings if f.code == "index-object-blind"]
    assert re.fullmatch(
        r"leg 1: main is blind to A from 4\.28 to 4\.54 NM along \(1\.3 min, 255° to 262° rel, "
        r"deck cargo\)\. Read it on second meanwhile\.",
        str(found),
    )
    (primary, *_others) = plan.legs[0].lines
    assert ", in a blind sector over 0.25 NM" in sentence(primary.reason)
    gap = next(g for g in plan.legs[0].index_gaps if 4.2 < nm_from_m(g.from_along_m) < 4.4)
    assert gap.substitute == (
        "A is in the blind sector 255° to 262° rel, deck cargo; read it on second"
    )


def test_a_second_radar_blind_as_well_is_no_help(lone_islet: Scene) -> None:
    leg = leg_of(lone_islet, with_sectors(T14, second=(T14,)))
    assert leg.blind_conflicts is not None
    assert leg.blind_conflicts[0].other_radar == ""
    assert any("open it by a few degrees" in gap.substitute for gap in leg.index_gaps)


def test_a_long_blind_stretch_ends_the_window(lone_islet: Scene) -> None:
    # 225 to 262 deg at 2.0 NM off: from 0.28 to 2.0 NM after abeam, 8.6 min at 12 kn.
    wide = BlindSector(from_relative_deg=225.0, to_relative_deg=262.0)
    first, *others = primaries(leg_of(lone_islet, with_sectors(wide)))
    assert first[1] == pytest.approx(4.28, abs=0.01)
    assert all(start >= 5.99 for start, _stop in others)


def test_a_shadow_sector_is_told_and_cuts_nothing(lone_islet: Scene) -> None:
    leg = leg_of(lone_islet, with_sectors(replace(T14, is_shadow=True)))
    assert primaries(leg) == primaries(leg_of(lone_islet, with_sectors()))
    assert leg.blind_conflicts is not None
    assert [c.is_shadow for c in leg.blind_conflicts] == [True]


def test_without_stated_sectors_nothing_is_claimed(lone_islet: Scene) -> None:
    assert leg_of(lone_islet, with_sectors()).blind_conflicts is None


def test_wheel_over_marks_stand_clear_of_blind_sectors(lone_islet: Scene) -> None:
    # Two beacons ahead at the wheel-over: one fine on the starboard bow, in the sector.
    beacons = (
        mark("Fine Bow", 0.35 * NM, 5.0 * NM, height_m=20.0),
        mark("Broad Bow", -1.2 * NM, 4.6 * NM, height_m=20.0),
    )
    over_bow = BlindSector(from_relative_deg=0.0, to_relative_deg=30.0)
    names = []
    for ship in (with_sectors(), with_sectors(over_bow)):
        turn = planned(*lone_islet, ship=ship, marks=beacons).legs[0].wheel_over
        assert turn is not None
        assert turn.second_mark is not None
        assert turn.line is not None
        names.append({turn.line.object.id, turn.second_mark.object.id})
    assert "Fine Bow" in names[0]
    assert "Fine Bow" not in names[1]
