"""Marks and named places in hidden water, through the whole plan on hand-made coasts."""

import pytest

from core.base.findings import Severity
from core.passage.passage import Side
from core.plan.plan_result import LegPlan, Mark, Plan
from core.plan.waters_result import HiddenMark
from tests.helpers.islands import NM, Sea, box, flat_sea, headland_with_bay, track
from tests.helpers.plans import covered, mark, planned

_NORTH = track((0.0, -4.0 * NM), (0.0, 4.0 * NM), corridor_m=0.3 * NM)
_MOUTH = mark("Mouth", 2.0 * NM, 1.5 * NM, kind="harbour mouth")


def _plan(sea: Sea, *, marks: tuple[Mark, ...] = (), places: tuple[Mark, ...] = ()) -> Plan:
    land = sea.model()
    coverage = covered(land, _NORTH, radius_m=8.0 * NM)
    return planned(land, _NORTH, coverage, marks=marks, places=places)


def _hidden(leg: LegPlan) -> tuple[HiddenMark, ...]:
    assert leg.waters is not None
    return leg.waters.hidden_marks


def _head_and_bay() -> Sea:
    head = headland_with_bay(tip_east_m=1.0 * NM, tip_north_m=0.0)
    return flat_sea(half_width_m=9.0 * NM, cell_m=15.0).land(head, 60.0)


def test_harbour_mouth_behind_a_head_opens_fifteen_minutes_before_abeam() -> None:
    # job.md T25 (computed by hand there): 3.0 NM before abeam, 15.0 min at 12 kn, from the track;
    # from 0.3 NM to port the ray from (2.0, 1.5) through (1, 0) meets x = -0.3 at y = -1.95, from
    # 0.3 to starboard at y = -1.05: there it opens last, 2.55 NM or 12.75 min before abeam
    (mouth,) = _hidden(_plan(_head_and_bay(), places=(_MOUTH,)).legs[0])
    ((start, stop),) = mouth.hidden
    assert (mouth.abeam_m - stop) / NM == pytest.approx(3.0, abs=0.03)
    assert (mouth.abeam_m - stop) / NM / 12.0 * 60.0 == pytest.approx(15.0, abs=0.15)
    assert mouth.open_before_abeam_s is not None
    assert mouth.open_before_abeam_s / 60.0 == pytest.approx(12.75, abs=0.15)
    assert mouth.side is Side.STARBOARD
    assert mouth.is_place
    # within 6 NM all along: 4 NM south of the head to the opening, 2.5 NM and 2.95 NM
    assert start == pytest.approx(0.0, abs=1.0)
    assert mouth.track_hidden_s / 60.0 == pytest.approx(2.5 * 5.0, abs=0.2)
    assert mouth.hidden_s / 60.0 == pytest.approx(2.95 * 5.0, abs=0.2)


def test_what_stands_open_all_the_way_is_no_news() -> None:
    west = mark("Slip", -1.0 * NM, 0.0, kind="ferry slip")
    assert _hidden(_plan(_head_and_bay(), places=(west,)).legs[0]) == ()


def test_a_beacon_in_the_bay_is_told_and_a_light_on_the_head_is_not() -> None:
    beacon = mark("Bay beacon", 2.0 * NM, 1.5 * NM)
    light = mark("Head light", 2.0 * NM, -0.3 * NM, kind="lighthouse")
    found = _hidden(_plan(_head_and_bay(), marks=(beacon, light)).legs[0])
    assert [(one.name, one.is_place) for one in found] == [("Bay beacon", False)]


def test_a_place_is_nothing_to_index_on() -> None:
    islet = box(-1.2 * NM, -0.1 * NM, -1.0 * NM, 0.1 * NM)
    plan = _plan(_head_and_bay().land(islet, 30.0), places=(_MOUTH,))
    assert "Mouth" not in {thing.id for thing in plan.objects}
    assert "Mouth" not in {line.object.id for line in plan.legs[0].lines}


def test_islet_abeam_hides_a_place_for_a_while_and_then_it_opens_again() -> None:
    islet = box(1.0 * NM, -0.2 * NM, 1.2 * NM, 0.2 * NM)
    slip = mark("Slip", 2.0 * NM, 0.0, kind="ferry slip")
    (found,) = _hidden(
        _plan(flat_sea(half_width_m=9.0 * NM, cell_m=20.0).land(islet, 40.0), places=(slip,)).legs[
            0
        ]
    )
    # rays through the far corners (1.2, -0.2) and (1.2, 0.2): x = 0 at y = -0.5 and 0.5 (by hand)
    ((start, stop),) = found.hidden
    assert (start / NM, stop / NM) == pytest.approx((3.5, 4.5), abs=0.03)
    # it is hidden while abeam: nothing opens before
    assert found.opens_m is None


def test_heads_that_leave_too_little_time_are_one_finding() -> None:
    plan = _plan(_head_and_bay())
    (finding,) = [f for f in plan.findings if f.code == "emergence-short"]
    assert finding.severity is Severity.CHECK
    assert finding.what.startswith("on leg 1 a craft may come out")
    assert [f for f in _plan(flat_sea(cell_m=60.0)).findings if f.code == "emergence-short"] == []
