"""A passage planned the other way round is ranked anew (job.md B17), on an invented coast."""

from pathlib import Path

import numpy as np
import pytest

from core.files.project import Options, Project
from core.jobs.reverse_project import left_out_words, reversed_project
from core.passage.passage import Passage, Side
from core.passage.reverse import reversed_passage
from core.plan.plan_result import KnownObject, LegPlan, Override, Plan, Role
from tests.helpers.islands import NM, box, flat_sea, islet, track
from tests.helpers.plans import covered, planned

# North for 8 NM, then west for 5. A wall on the starboard side of the first leg hides the islet
# behind it; another islet lies inside the corner.
_LAND = (
    flat_sea(half_width_m=10.0 * NM, cell_m=90.0)
    .land(islet(1.0 * NM, 7.8 * NM, width_m=180.0), 40.0)
    .land(islet(-2.0 * NM, 5.0 * NM, width_m=180.0), 40.0)
    .land(box(0.45 * NM, 6.9 * NM, 1.4 * NM, 7.1 * NM), 80.0)
    .model()
)
_THERE = track((0.0, 0.0), (0.0, 8.0 * NM), (-5.0 * NM, 8.0 * NM))


def _plan(passage: Passage, known: tuple[KnownObject, ...] = ()) -> Plan:
    return planned(_LAND, passage, covered(_LAND, passage), known_objects=known)


@pytest.fixture(scope="module")
def there() -> Plan:
    return _plan(_THERE)


@pytest.fixture(scope="module")
def back(there: Plan) -> Plan:
    return _plan(reversed_passage(_THERE), there.known_objects)


def _primaries(leg: LegPlan) -> list[str]:
    return [line.object.id for line in leg.lines if line.role is Role.PRIMARY]


def test_another_object_is_best_where_the_leg_ends_elsewhere(there: Plan, back: Plan) -> None:
    west, east = there.legs[1], back.legs[0]
    assert east.course_deg == pytest.approx((west.course_deg + 180.0) % 360.0, abs=0.01)
    assert _primaries(west) != _primaries(east)
    # The westbound leg has no turn at its end, so its line runs to the last waypoint; the
    # eastbound one ends at a wheel-over of its own, for the turn to the south.
    assert west.wheel_over is None
    assert east.wheel_over is not None
    assert east.wheel_over.new_course_deg == pytest.approx(180.0, abs=0.01)
    assert east.wheel_over.line is not None
    assert there.legs[0].wheel_over is not None
    assert there.legs[0].wheel_over.line is not None
    assert east.wheel_over.line.cross_index_range_m != pytest.approx(
        there.legs[0].wheel_over.line.cross_index_range_m, abs=0.1 * NM
    )


def test_every_line_lies_on_the_side_and_at_the_range_seen_on_the_new_course(
    back: Plan,
) -> None:
    passage = reversed_passage(_THERE)
    seen = 0
    for leg in back.legs:
        line = passage.line(leg.leg_index)
        for item in leg.lines:
            if item.role is Role.WHEEL_OVER:
                continue
            place = item.object.position
            _along, cross = line.track_coordinates(
                np.array([place.lat_deg]), np.array([place.lon_deg])
            )
            assert abs(float(cross[0])) == pytest.approx(item.cross_index_range_m, abs=1.0)
            assert (float(cross[0]) > 0.0) is (item.side is Side.STARBOARD)
            seen += 1
    assert seen >= 2


def test_letters_stay_with_their_places(there: Plan, back: Plan) -> None:
    before = {thing.id: thing.position for thing in there.known_objects}
    now = {thing.id: thing.position for thing in back.known_objects}
    assert before.items() <= now.items()


def test_turned_round_twice_it_plans_as_at_first(there: Plan) -> None:
    again = _plan(reversed_passage(reversed_passage(_THERE)), there.known_objects)
    assert again.legs == there.legs


def test_a_project_turned_round_leaves_choices_and_start_behind() -> None:
    choice = Override(leg_number=1, role="primary", object_id="A")
    options = Options(refraction_k=1.2)
    project = Project(route_text="x", overrides=(choice,), options=options)
    turned = reversed_project(project)
    assert (turned.is_reversed, turned.overrides) == (True, ())
    assert turned.options == options
    assert not reversed_project(turned).is_reversed
    assert left_out_words(project) == "1 choice of index objects is left out."
    assert not left_out_words(turned)


def test_stream_and_leeway_of_the_other_voyage_are_left_out() -> None:
    project = Project(
        streams=Path("streams.csv"), options=Options(set_deg=45.0, drift_mps=0.5, sea_state=2.0)
    )
    assert left_out_words(project) == "Stream and leeway are left out."
    turned = reversed_project(project)
    assert turned.streams is None
    assert turned.options == Options(sea_state=2.0)
