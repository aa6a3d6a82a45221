"""Reading and writing GPX."""

from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.files.gpx_write import gpx_findings, write_gpx
from core.files.readers import RouteFile, passage_from_blob, read_passage
from core.files.reading import blob_of

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"
_A = '<{0} lat="1" lon="2"><name>A</name></{0}>'
_B = '<{0} lat="1" lon="3"/>'


def _read(
    inside: str, head: str = 'xmlns="http://www.topografix.com/GPX/1/1" version="1.1"'
) -> RouteFile:
    return passage_from_blob(blob_of("a.gpx", f"<gpx {head}>{inside}</gpx>".encode()))


def _text_of_error(inside: str) -> str:
    with pytest.raises(InputError) as caught:
        _read(inside)
    return str(caught.value)


_ROUTE = f"<rte><name>One</name>{_A.format('rtept')}{_B.format('rtept')}</rte>"
_TRACK = f"<trk><trkseg>{_A.format('trkpt') * 3}{_B.format('trkpt')}</trkseg></trk>"


def test_a_route_is_read_and_loose_waypoints_are_not_part_of_it() -> None:
    route = read_passage(_SAMPLES / "invented_strait.gpx")
    assert (route.kind, route.passage.name) == ("GPX 1.1", "Invented strait")
    assert [w.name for w in route.passage.waypoints] == ["North entrance", "Beacon turn", "WP 3"]
    assert [str(f) for f in route.findings] == [
        "invented_strait.gpx: legs whose kind is not stated are taken as rhumb lines."
    ]


def test_times_of_recording_are_no_schedule() -> None:
    passage = read_passage(_SAMPLES / "invented_strait.gpx").passage
    assert all(w.eta_utc is None and w.etd_utc is None for w in passage.waypoints)


def test_of_several_routes_the_first_is_taken_and_said_so() -> None:
    route = _read("<rte/>" + _ROUTE + _ROUTE.replace("One", "Two"))
    assert route.passage.name == "One"
    (finding,) = [f for f in route.findings if f.code == "several-routes"]
    assert str(finding) == (
        "a.gpx: the file has 2 routes; the first was taken, “One”. "
        "Export the one you want by itself if it is another."
    )


def test_a_track_is_taken_where_there_is_no_route_and_said_so() -> None:
    route = _read(_TRACK)
    assert [w.name for w in route.passage.waypoints] == ["A", "WP 2"]
    (finding,) = [f for f in route.findings if f.code == "track-taken-as-route"]
    assert finding.severity is Severity.CHECK
    assert str(finding) == (
        "a.gpx: the file has no route; its track of 2 points was taken as one, without 2 repeated "
        "points. Check that it is the planned track."
    )


def test_a_route_goes_before_a_track() -> None:
    assert "track-taken-as-route" not in [f.code for f in _read(_TRACK + _ROUTE).findings]


@pytest.mark.parametrize(
    ("head", "kind"),
    [
        ('xmlns="http://www.topografix.com/GPX/1/0" version="1.0"', "GPX 1.0"),
        ('version="1.1"', "GPX 1.1"),
        ('xmlns="urn:x" version="3"', "GPX 3"),
    ],
)
def test_versions(head: str, kind: str) -> None:
    route = _read(_ROUTE, head)
    assert route.kind == kind
    assert ("gpx-version-unknown" in [f.code for f in route.findings]) == (kind == "GPX 3")


def test_no_route() -> None:
    assert _text_of_error("") == "a.gpx: the file has no route. Export the route itself."


def test_only_loose_waypoints() -> None:
    assert _text_of_error(_A.format("wpt")) == (
        "a.gpx: the file has no route, only 1 waypoint without order. Export the route itself."
    )


@pytest.mark.parametrize(
    ("lat", "sentence"),
    [
        ("91", "latitude 91 is not within -90 and 90 degrees. Correct the position."),
        ("north", "latitude “north” is not a number of degrees. Correct the position."),
        ("", "the latitude is missing. Add it, or export the route again."),
    ],
)
def test_unsound_positions(lat: str, sentence: str) -> None:
    inside = _ROUTE.replace('lat="1" lon="3"', f'lat="{lat}" lon="3"')
    assert _text_of_error(inside) == f"a.gpx, line 1, waypoint WP 2: {sentence}"


def test_a_repeated_waypoint_of_a_route_is_an_error() -> None:
    assert _text_of_error(_ROUTE.replace('lon="3"', 'lon="2"')) == (
        "a.gpx, line 1: leg 1 has no length, because waypoints A and WP 2 are at one place. "
        "Remove one of them."
    )


def test_what_gpx_cannot_hold_is_said() -> None:
    passage = read_passage(_SAMPLES / "invented_strait.rtz").passage
    assert [str(f) for f in gpx_findings(passage, file="out.gpx")] == [
        "out.gpx: GPX holds no great-circle legs, turn radii, cross-track limits, speeds, times, "
        "notes; they were left out. Write RTZ to keep them."
    ]
    bare = read_passage(_SAMPLES / "invented_strait.gpx").passage
    assert gpx_findings(bare, file="out.gpx") == ()


def test_written_gpx_reads_back_equal() -> None:
    passage = read_passage(_SAMPLES / "invented_strait.gpx").passage
    data = write_gpx(passage)
    assert passage_from_blob(blob_of("b.gpx", data)).passage == passage
    assert write_gpx(passage) == data
