"""Reading RTZ."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.base.units import m_from_nm, mps_from_kn
from core.files.readers import RouteFile, passage_from_blob, read_passage
from core.files.reading import blob_of
from core.geodesy.leg_line import LegKind

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"
_TWO = (
    '<waypoint id="1" name="A"><position lat="1" lon="2"/></waypoint>'
    '<waypoint id="2" name="B"><position lat="1" lon="3"/></waypoint>'
)


def _route(
    inside: str, *, head: str = 'xmlns="http://www.cirm.org/RTZ/1/2" version="1.2"'
) -> bytes:
    return f'<route {head}><routeInfo routeName="R"/>{inside}</route>'.encode()


def _read(inside: str, **head: str) -> RouteFile:
    return passage_from_blob(blob_of("a.rtz", _route(inside, **head)))


def _points(inside: str) -> str:
    return f"<waypoints>{inside}</waypoints>"


def _text_of_error(inside: str) -> str:
    with pytest.raises(InputError) as caught:
        _read(inside)
    return str(caught.value)


def _codes(route: RouteFile) -> list[str]:
    return [finding.code for finding in route.findings]


def test_everything_a_route_says_is_read() -> None:
    route = read_passage(_SAMPLES / "invented_strait.rtz")
    passage = route.passage
    assert (route.kind, passage.name) == ("RTZ 1.1", "Invented strait")
    assert [w.name for w in passage.waypoints] == ["North entrance", "Beacon turn", "WP 3"]
    assert [w.position.lon_deg for w in passage.waypoints] == [179.9, -179.95, -179.8]
    assert [w.turn_radius_m for w in passage.waypoints] == [
        m_from_nm(0.4),
        m_from_nm(0.75),
        m_from_nm(0.4),
    ]
    first, second = passage.legs
    assert first.kind is LegKind.GEODESIC
    assert (first.corridor_port_m, first.corridor_starboard_m) == (m_from_nm(0.05), m_from_nm(0.2))
    assert first.note == "VHF 12; Strong set"
    assert second.kind is LegKind.RHUMB
    assert (second.corridor_port_m, second.corridor_starboard_m) == (m_from_nm(0.3), m_from_nm(0.2))
    assert route.findings == ()


def test_schedule_manual_before_calculated_and_before_the_speed_of_the_leg() -> None:
    passage = read_passage(_SAMPLES / "invented_strait.rtz").passage
    assert passage.waypoints[0].etd_utc == datetime(2030, 5, 1, 6, tzinfo=UTC)
    assert passage.waypoints[1].eta_utc == datetime(2030, 5, 1, 7, 10, tzinfo=UTC)
    assert passage.waypoints[2].eta_utc == datetime(2030, 5, 1, 8, 20, tzinfo=UTC)
    assert [leg.speed_mps for leg in passage.legs] == [mps_from_kn(10.5), mps_from_kn(14.0)]


def test_the_misspelt_schedule_element_of_version_1_0_is_read() -> None:
    schedule = (
        '<schedules><schedule id="1"><manual>'
        '<sheduleElement waypointId="2" speed="9"/></manual></schedule></schedules>'
    )
    assert _read(_points(_TWO) + schedule).passage.legs[0].speed_mps == mps_from_kn(9.0)


def test_of_several_schedules_the_first_is_taken_and_said_so() -> None:
    one = '<schedule id="{0}" name="Plan {0}"><manual><scheduleElement waypointId="2" speed="{0}"/>'
    one += "</manual></schedule>"
    empty = '<schedule id="9"/>'
    inside = _points(_TWO) + f"<schedules>{empty}{one.format(7)}{one.format(8)}</schedules>"
    route = _read(inside)
    assert route.passage.legs[0].speed_mps == mps_from_kn(7.0)
    (finding,) = [f for f in route.findings if f.code == "several-schedules"]
    assert (
        str(finding) == "a.rtz, line 1: the route has 2 schedules; the first was taken, “Plan 7”."
    )


def test_a_schedule_that_runs_backwards_is_a_finding() -> None:
    inside = _points(_TWO) + (
        '<schedules><schedule id="1"><manual>'
        '<scheduleElement waypointId="1" etd="2030-01-02T00:00:00Z"/>'
        '<scheduleElement waypointId="2" eta="2030-01-01T00:00:00Z"/>'
        "</manual></schedule></schedules>"
    )
    assert "schedule-backwards" in _codes(_read(inside))


@pytest.mark.parametrize(
    "head",
    [
        'xmlns="http://www.cirm.org/RTZ/1/0" version="1.0"',
        'xmlns="urn:someone:else" version="1.1"',
        'version="1.2"',
    ],
)
def test_foreign_default_namespaces_do_not_matter(head: str) -> None:
    route = _read(_points(_TWO), head=head)
    assert [w.name for w in route.passage.waypoints] == ["A", "B"]
    assert "rtz-version-unknown" not in _codes(route)


def test_prefixed_elements_do_not_matter() -> None:
    data = (
        b'<r:route xmlns:r="http://www.cirm.org/RTZ/1/2" xmlns="urn:x" version="1.2">'
        b'<r:waypoints><r:waypoint r:id="1"><r:position lat="1" lon="2"/></r:waypoint>'
        b'<r:waypoint id="2"><r:position lat="2" lon="2"/></r:waypoint></r:waypoints></r:route>'
    )
    route = passage_from_blob(blob_of("strait.rtz", data))
    assert (route.kind, route.passage.name) == ("RTZ 1.2", "strait")
    assert len(route.passage.waypoints) == 2


def test_an_unknown_version_is_read_with_a_finding() -> None:
    route = _read(_points(_TWO), head='xmlns="http://www.cirm.org/RTZ/2/0" version="2.0"')
    (finding,) = [f for f in route.findings if f.code == "rtz-version-unknown"]
    assert finding.severity is Severity.CHECK
    assert str(finding) == (
        "a.rtz, line 1: the RTZ version is “2.0”; read as far as versions 1.0 to 1.2 go. "
        "Check the waypoints and limits against the source."
    )


def test_odd_order_and_extensions_everywhere_do_not_matter() -> None:
    extension = (
        '<extensions><extension><waypoint id="8"/><leg radius="x"/></extension></extensions>'
    )
    inside = (
        f"{extension}<schedules/>"
        f'<waypoints>{extension}<waypoint id="1">{extension}<leg/><position lat="1" lon="2"/>'
        f'</waypoint><waypoint id="2"><position lon="3" lat="1"/>{extension}</waypoint>'
        '<defaultWaypoint radius="0.5"/></waypoints>'
    )
    route = _read(inside)
    assert [w.turn_radius_m for w in route.passage.waypoints] == [m_from_nm(0.5)] * 2


def test_a_leg_without_a_kind_is_a_rhumb_line_and_said_so() -> None:
    route = _read(_points(_TWO))
    assert route.passage.legs[0].kind is LegKind.RHUMB
    assert [str(f) for f in route.findings] == [
        "a.rtz: legs whose kind is not stated are taken as rhumb lines."
    ]


@pytest.mark.parametrize("value", ["-1", "NaN", "inf", "0", "0.0", "11", "many", "1e3", "0x1"])
def test_an_unsound_radius_is_left_out_with_a_finding(value: str) -> None:
    inside = _TWO.replace('name="B"', f'name="B" radius="{value}"')
    route = _read(_points(inside))
    assert route.passage.waypoints[1].turn_radius_m is None
    (finding,) = [f for f in route.findings if f.code == "turn-radius-dropped"]
    assert finding.severity is Severity.CHECK
    assert str(finding) == (
        f"a.rtz, waypoint B: turn radius “{value}” is not above 0 and at most 10 NM and was left "
        "out. Correct it in the route if it is needed."
    )


@pytest.mark.parametrize(
    ("attribute", "code", "words"),
    [
        (
            "portsideXTD",
            "corridor-dropped",
            "cross-track limit “-0.1” is not above 0 and at most 50",
        ),
        ("starboardXTD", "corridor-dropped", "cross-track limit “-0.1” is not above 0"),
        ("speedMax", "speed-dropped", "speed “-0.1” is not above 0 and at most 100 kn"),
        ("geometryType", "leg-kind-dropped", "leg kind “-0.1” is neither rhumb line nor great"),
    ],
)
def test_unsound_values_of_a_leg_are_left_out(attribute: str, code: str, words: str) -> None:
    inside = _TWO.replace('lon="3"/>', f'lon="3"/><leg {attribute}="-0.1"/>')
    (finding,) = [f for f in _read(_points(inside)).findings if f.code == code]
    assert words in str(finding)


def test_a_speed_above_100_knots_is_left_out() -> None:
    inside = _TWO.replace('lon="3"/>', 'lon="3"/><leg speedMax="100.1"/>')
    assert "speed-dropped" in _codes(_read(_points(inside)))


def test_one_finding_for_many_like_faults() -> None:
    many = "".join(
        f'<waypoint id="{n}"><position lat="{n}" lon="2"/></waypoint>' for n in range(1, 8)
    )
    route = _read(_points('<defaultWaypoint radius="-2"/>' + many))
    (finding,) = [f for f in route.findings if f.code == "turn-radius-dropped"]
    assert "the like at 7 places (WP 1, WP 2, WP 3 and 4 more)" in str(finding)


def test_an_unsound_time_is_left_out() -> None:
    inside = _points(_TWO) + (
        '<schedules><schedule id="1"><manual><scheduleElement waypointId="2" eta="soon"/>'
        "</manual></schedule></schedules>"
    )
    (finding,) = [f for f in _read(inside).findings if f.code == "time-dropped"]
    assert str(finding) == (
        "a.rtz, waypoint id 2: time “soon” is no date and time like 2030-01-31T12:00:00Z and was "
        "left out. Correct it in the route if it is needed."
    )


@pytest.mark.parametrize(
    ("position", "sentence"),
    [
        ("", "the latitude is missing. Add it, or export the route again."),
        ('<position lon="3"/>', "the latitude is missing. Add it, or export the route again."),
        (
            '<position lat="1" lon=" "/>',
            "the longitude is missing. Add it, or export the route again.",
        ),
        (
            '<position lat="NaN" lon="3"/>',
            "latitude “NaN” is not a number of degrees. Correct the position.",
        ),
        (
            '<position lat="1" lon="3,5"/>',
            "longitude “3,5” is not a number of degrees. Correct the position.",
        ),
        (
            '<position lat="90.5" lon="3"/>',
            "latitude 90.5 is not within -90 and 90 degrees. Correct the position.",
        ),
        (
            '<position lat="1" lon="-180.01"/>',
            "longitude -180.01 is not within -180 and 180 degrees. Correct the position.",
        ),
        (
            '<position lat="90" lon="3"/>',
            "latitude 90 is too near the pole for a course. Correct the position.",
        ),
    ],
)
def test_an_unsound_position_is_an_error(position: str, sentence: str) -> None:
    inside = _TWO.replace('<position lat="1" lon="3"/>', position)
    assert _text_of_error(_points(inside)) == f"a.rtz, line 1, waypoint B: {sentence}"


def test_one_waypoint() -> None:
    one = '<waypoint id="1"><position lat="1" lon="2"/></waypoint>'
    assert _text_of_error(_points(one)) == (
        "a.rtz: the route has one waypoint, and a passage needs two. Add the missing waypoints."
    )


def test_no_waypoint() -> None:
    assert _text_of_error(_points("")) == (
        "a.rtz: the route has no waypoint, and a passage needs two. Add the missing waypoints."
    )


def test_no_list_of_waypoints() -> None:
    assert _text_of_error("") == (
        "a.rtz, line 1: the route has no list of waypoints. Export it again."
    )


def test_a_repeated_waypoint() -> None:
    inside = _TWO.replace('lon="3"', 'lon="2.000001"')
    assert _text_of_error(_points(inside)) == (
        "a.rtz, line 1: leg 1 has no length, because waypoints A and B are at one place. "
        "Remove one of them."
    )


def test_a_place_visited_twice_is_no_repetition() -> None:
    inside = _TWO + '<waypoint id="3" name="A"><position lat="1" lon="2"/></waypoint>'
    assert len(_read(_points(inside)).passage.legs) == 2


def test_longitude_180_is_the_date_line() -> None:
    inside = _TWO.replace('lon="3"', 'lon="180"')
    assert _read(_points(inside)).passage.waypoints[1].position.lon_deg == -180.0


def test_more_waypoints_than_a_route_holds() -> None:
    many = "".join(
        f'<waypoint id="{n}"><position lat="{n / 100}" lon="2"/></waypoint>' for n in range(2001)
    )
    assert _text_of_error(_points(many)) == (
        "a.rtz: the route has more than 2000 waypoints. "
        "Split it, or choose the planned route and not a recorded track."
    )


def test_names_come_out_fit_to_print() -> None:
    inside = _TWO.replace('name="A"', 'name="  Cape&#10;&#9;Long&#x202E; "').replace(
        'name="B"', f'name="{"x" * 300}"'
    )
    first, second = _read(_points(inside)).passage.waypoints
    assert first.name == "Cape Long"
    assert len(second.name) == 120
