"""Radar fixes of whole legs over invented land."""

import numpy as np
import pytest

from core.geodesy import geodesic
from core.plan.cross_error import combined_error_m, worst_cross
from core.plan.error_budget import index_error_m
from core.plan.fix_result import Fix, FixBy, LegFixes
from core.plan.leg_fixes import fix_findings, fix_places_m
from core.plan.plan_result import Plan
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned


def fixing_of(plan: Plan, leg_index: int = 0) -> LegFixes:
    fixing = plan.legs[leg_index].fixing
    assert fixing is not None
    return fixing


@pytest.fixture(scope="module")
def plan() -> Plan:
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=120.0)
    sea = sea.land(islet(1.5 * NM, -2.0 * NM, width_m=240.0), 30.0)
    sea = sea.land(islet(-2.0 * NM, 1.0 * NM, width_m=240.0), 40.0)
    sea = sea.land(islet(2.5 * NM, 4.0 * NM, width_m=240.0), 40.0)
    land = sea.model()
    passage = track((0.0, -5.0 * NM), (0.0, 5.0 * NM), (4.0 * NM, 8.0 * NM))
    buoy = mark("Buoy", 0.7 * NM, 0.0, is_fixed=False, kind="buoy")
    return planned(land, passage, covered(land, passage), marks=(buoy,))


def test_fixes_stand_at_the_start_every_six_minutes_and_before_the_wheel_over(plan: Plan) -> None:
    # job.md 14.15, common practice, no source: every 6 min, 1.2 NM at 12 kn.
    leg, fixing = plan.legs[0], fixing_of(plan)
    places = [fix.along_m for fix in fixing.fixes]
    assert places[0] == 0.0
    assert leg.wheel_over is not None
    assert places[-1] == pytest.approx(leg.wheel_over.along_m - 180.0 * leg.speed_mps)
    assert max(np.diff(places)) <= 1.2 * NM * 4.0 / 3.0 + 1.0
    assert min(np.diff(places)) >= 0.4 * NM - 1.0


def test_ranges_are_those_of_the_nearest_part_in_sight(plan: Plan) -> None:
    """By geodesics from the ship to every point of the islets, independent of track geometry."""
    line, fixing = plan.passage.line(0), fixing_of(plan)
    half = 120.0
    middles = {
        thing.id: thing.position for thing in plan.objects if thing.kind.value in ("islet", "rock")
    }
    by_ranges = [fix for fix in fixing.fixes if fix.by is FixBy.RANGES]
    assert len(by_ranges) >= 5
    for fix in by_ranges:
        own = line.position_at(fix.along_m)
        for thing in fix.objects:
            place = middles[thing.object_id]
            distance, bearing, _back = geodesic.inverse(
                from_lat_deg=own.lat_deg,
                from_lon_deg=own.lon_deg,
                to_lat_deg=place.lat_deg,
                to_lon_deg=place.lon_deg,
            )
            # Nearest side, within the size of the islet and a cell.
            assert thing.range_m == pytest.approx(float(distance), abs=2.0 * half + 120.0)
            off = abs((thing.bearing_deg - float(bearing) + 180.0) % 360.0 - 180.0)
            assert off * float(distance) / 57.3 <= 2.0 * half + 120.0


def test_a_floating_mark_is_never_fixed_by(plan: Plan) -> None:
    for leg in plan.legs:
        assert leg.fixing is not None
        assert all(o.object_id != "Buoy" for fix in leg.fixing.fixes for o in fix.objects)


def test_every_fix_by_ranges_cuts_well_and_wide_ones_are_flagged(plan: Plan) -> None:
    # A22: cut 30 to 150 deg; B9: the ellipse within the corridor or flagged.
    for leg in plan.legs:
        fixing = leg.fixing
        assert fixing is not None
        for fix in fixing.fixes:
            if fix.by is FixBy.RANGES:
                assert len(fix.objects) >= 2
                assert 30.0 <= fix.cut_deg <= 150.0
        sizes = [fix.semi_major_m for fix in fixing.fixes if fix.objects]
        assert fixing.worst_m == (max(sizes) if sizes else None)
        assert fixing.is_wide is any(size > fixing.corridor_m for size in sizes)


def test_open_sea_has_no_fix_and_says_why_once_for_the_passage() -> None:
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=240.0)
    land = sea.land(islet(11.0 * NM, 11.0 * NM), 1.0).model()
    passage = track((0.0, -4.0 * NM), (0.0, 0.0), (0.0, 4.0 * NM))
    plan = planned(land, passage, covered(land, passage))
    for leg in plan.legs:
        assert leg.fixing is not None
        assert not leg.fixing.has_two_ranges
        assert all(fix.reason is not None for fix in leg.fixing.fixes)
    (finding,) = fix_findings(plan.legs)
    assert finding.what == "no radar fix by two ranges on legs 1, 2"
    assert [f.code for f in plan.findings].count("radar-fixes") == 1


def test_places_of_a_short_leg_are_its_start_its_middle_and_its_end() -> None:
    assert fix_places_m(start_m=0.0, end_m=1000.0, step_m=900.0, alert_m=0.0) == [
        0.0,
        500.0,
        1000.0,
    ]
    assert fix_places_m(start_m=300.0, end_m=200.0, step_m=900.0, alert_m=100.0) == [300.0]


def test_places_stay_few_on_a_very_long_leg() -> None:
    places = fix_places_m(start_m=0.0, end_m=1e6, step_m=900.0, alert_m=0.0)
    assert len(places) <= 122
    # Every tenth interval, the middle between two of them.
    assert max(np.diff(places)) <= 9000.0 * 4.0 / 3.0


def test_c4_one_object_gives_the_errors_of_t4() -> None:
    """T4, computed by hand: abeam at 2.0 NM 0.060, 30 deg off at 4.0 NM 0.067 NM."""
    for cross_nm, along_nm, error_nm in ((2.0, 0.0, 0.060), (2.0, 3.464, 0.067)):
        one = index_error_m(
            cross_m=cross_nm * NM,
            along_m=along_nm * NM,
            range_error_m=0.06 * NM,
            bearing_error_deg=1.0,
        )
        combined = combined_error_m([one])
        assert combined is not None
        assert combined / NM == pytest.approx(error_nm, abs=5e-4)
        # Two as good as one another, plain statistics: the error over the root of two.
        both = combined_error_m([one, one])
        assert both == pytest.approx(one / 2.0**0.5)
    assert combined_error_m([]) is None


def test_c4_the_worst_stretch_is_where_nothing_can_be_indexed() -> None:
    def at(along_m: float, error_m: float | None) -> Fix:
        return Fix(
            along_m=along_m,
            by=FixBy.NONE,
            scale_m=1.0,
            is_scale_in_use=True,
            objects=(),
            cut_deg=0.0,
            semi_major_m=0.0,
            semi_minor_m=0.0,
            major_axis_deg=0.0,
            across_m=0.0,
            reason=None,
            cross_error_m=error_m,
        )

    gap = worst_cross([at(0.0, 5.0), at(10.0, None), at(20.0, None), at(30.0, 9.0)])
    assert gap is not None
    assert (gap.from_along_m, gap.to_along_m, gap.error_m) == (5.0, 25.0, None)
    worst = worst_cross([at(0.0, 5.0), at(10.0, 9.0), at(20.0, 6.0)])
    assert worst is not None
    assert (worst.from_along_m, worst.to_along_m, worst.error_m) == (5.0, 15.0, 9.0)
