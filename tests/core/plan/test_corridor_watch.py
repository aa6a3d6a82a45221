"""The corridor against the range error, on invented islets; twice the error by hand."""

import pytest

from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.corridor_result import CorridorWatch
from core.plan.plan_result import Plan, Role
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, findings_of, planned

CABLE = 185.2


def scene(corridor_m: float, *, off_nm: float = 0.8) -> tuple[LandModel, Passage, Coverage]:
    sea = flat_sea(half_width_m=10.0 * NM, cell_m=60.0)
    for north_nm in (-2.0, 0.0, 2.0):
        sea = sea.land(islet(off_nm * NM, north_nm * NM, width_m=120.0), 38.0)
    land = sea.model()
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM), corridor_m=corridor_m)
    return land, passage, covered(land, passage)


def plan_with(corridor_m: float, *, off_nm: float = 0.8) -> Plan:
    return planned(*scene(corridor_m, off_nm=off_nm))


def watch_of(plan: Plan) -> CorridorWatch:
    watch = plan.legs[0].corridor_watch
    assert watch is not None
    return watch


def test_smallest_corridor_is_twice_the_range_error_of_the_scale_in_use() -> None:
    """Job note 14.8 and T20 (IMO MSC.192(79) 5.12.2): 0.3 c on 3 NM, so 0.6 c; 2.0 c passes."""
    plan = plan_with(2.0 * CABLE)
    watch = watch_of(plan)
    assert watch.scale_m == pytest.approx(3.0 * NM)
    assert watch.range_error_m / CABLE == pytest.approx(0.3, abs=5e-3)
    assert watch.least_corridor_m / CABLE == pytest.approx(0.6, abs=5e-3)
    assert watch.is_watched
    assert watch.better_scale_m is None
    assert findings_of(plan, "corridor-not-watchable") == []


def test_a_narrower_corridor_is_flagged_once_with_the_scale_that_could() -> None:
    # 0.5 c is less than 0.6 on the 3 NM scale, and more than 0.32 (twice 30 m) on 1.5 NM.
    plan = plan_with(0.5 * CABLE)
    watch = watch_of(plan)
    assert not watch.is_watched
    assert watch.better_scale_m == pytest.approx(1.5 * NM)
    assert findings_of(plan, "corridor-not-watchable") == [1]
    assert findings_of(plan, "corridor-within-error") == []
    (finding,) = [f for f in plan.findings if f.code == "corridor-not-watchable"]
    assert "0.05 NM is less than twice the range error on the 3 NM scale, 0.06 NM" in finding.what
    assert "1.5 NM" in (finding.todo or "")


@pytest.mark.parametrize(("corridor_m", "off_nm"), [(0.3 * CABLE, 0.8), (0.5 * CABLE, 2.0)])
def test_where_no_scale_can_watch_it_that_is_said(corridor_m: float, off_nm: float) -> None:
    # 0.3 c is under 2 x 30 m on every scale; at 2.0 NM the islets show on 3 NM and longer alone.
    plan = plan_with(corridor_m, off_nm=off_nm)
    assert watch_of(plan).better_scale_m is None
    (finding,) = [f for f in plan.findings if f.code == "corridor-not-watchable"]
    assert "another aid" in (finding.todo or "")


def test_a_leg_without_a_primary_line_has_nothing_to_watch_it_by() -> None:
    land, passage, coverage = scene(2.0 * CABLE, off_nm=8.0)
    leg = planned(land, passage, coverage).legs[0]
    assert not [line for line in leg.lines if line.role is Role.PRIMARY] or leg.corridor_watch
    empty = flat_sea(half_width_m=10.0 * NM, cell_m=300.0).land(islet(9.0 * NM, 9.0 * NM), 5.0)
    model = empty.model()
    assert planned(model, passage, covered(model, passage)).legs[0].corridor_watch is None
