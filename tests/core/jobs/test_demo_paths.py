"""The embedded demo passage: its files are there, and each reader takes them without complaint."""

from core.files.contingency_file import read_contingencies
from core.files.limits_file import read_limits
from core.files.marks_file import read_marks
from core.files.readers import read_passage
from core.files.ship_file import read_ship
from core.jobs.demo import demo_paths


def test_every_demo_file_is_read_without_findings() -> None:
    paths = demo_paths()
    route = read_passage(paths.route)
    assert route.findings == ()
    assert 10 <= len(route.passage.legs) <= 14
    assert all(leg.speed_mps and leg.corridor_port_m for leg in route.passage.legs)
    assert all(waypoint.turn_radius_m for waypoint in route.passage.waypoints[1:-1])
    assert [bool(waypoint.etd_utc) for waypoint in route.passage.waypoints].count(True) == 1
    for _values, findings, _sha256 in (
        read_ship(paths.ship),
        read_marks(paths.marks),
        read_limits(paths.limits),
        read_contingencies(paths.contingencies),
    ):
        assert findings == ()


def test_demo_limits_are_for_marks_and_legs_that_exist() -> None:
    paths = demo_paths()
    names = {mark.name for mark in read_marks(paths.marks)[0]}
    legs = len(read_passage(paths.route).passage.legs)
    for limit in read_limits(paths.limits)[0]:
        assert limit.object_id in names
        assert limit.leg_number is not None
        assert limit.leg_number <= legs


def test_the_demo_has_fixed_and_floating_marks() -> None:
    marks, _findings, _sha256 = read_marks(demo_paths().marks)
    assert {mark.is_fixed for mark in marks} == {True, False}
    assert {"racon", "pier", "breakwater end", "beacon", "tower", "buoy"} <= {m.kind for m in marks}
