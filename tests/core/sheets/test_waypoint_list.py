"""The waypoint list: to which waypoint the values of a leg belong."""

from core.sheets.waypoint_pages import lay_out_waypoints
from core.words import quantities
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_NAME, _COURSE, _MILES, _SPEED, _CORRIDOR = 1, 3, 4, 7, 10


def test_a_leg_stands_at_the_waypoint_it_leads_from() -> None:
    # Common practice, no source: course to next.
    outcome = sample_outcome()
    plan = outcome.plan
    rows = [
        [cell.text for cell in row.cells]
        for table in lay_out_waypoints(outcome, FixedMeasure()).tables
        for row in table.rows
        if row.cells
    ]
    assert [row[_NAME] for row in rows] == [one.name for one in plan.passage.waypoints]
    for column in (_COURSE, _MILES, _SPEED, _CORRIDOR):
        assert rows[-1][column] == quantities.DASH
    for row, leg in zip(rows[:-1], plan.legs, strict=True):
        assert f"{row[_COURSE]}° T" == quantities.track(leg.course_deg)
        assert f"{row[_MILES]} NM" == quantities.distance(leg.distance_m, 2)
        assert f"{row[_SPEED]} kn" == quantities.speed(leg.speed_mps)
        assert row[_CORRIDOR].startswith(quantities.cables_number(leg.corridor_port_m))
