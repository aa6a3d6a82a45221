"""RTZ and GPX against the outside world.

Sources: the schemas of RTZ 1.0, 1.1 and 1.2 (IEC 61174; ``rtz_xsd`` of the test data), the
sample routes beside them (``rtz_samples``, MIT), the parser samples ``gpx_samples``
(Apache-2.0), and the routes of the land areas, each written there in four formats.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from lxml import etree

from core.base.errors import InputError
from core.base.units import m_from_nm, mps_from_kn
from core.files.readers import read_passage
from core.files.rtz_write import write_rtz
from core.geodesy.leg_line import LegKind
from core.passage.passage import Passage
from tests.helpers.passages import passages


@pytest.fixture(scope="session")
def schema(real_data: Path) -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(real_data / "rtz_xsd" / "RTZ_Schema_version_1_2.xsd"))


def test_the_schema_finds_faults(schema: etree.XMLSchema) -> None:
    # Guards the tests below against a schema that accepts anything.
    bad = b'<route xmlns="http://www.cirm.org/RTZ/1/2" version="1.2"><waypoints/></route>'
    assert not schema.validate(etree.fromstring(bad))


@settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(passages())
def test_whatever_is_written_is_valid(schema: etree.XMLSchema, passage: Passage) -> None:
    schema.assertValid(etree.fromstring(write_rtz(passage)))


def _routes(real_data: Path) -> list[Path]:
    return sorted(real_data.glob("*/routes/*.*")) + sorted(real_data.glob("rtz_samples/*.rtz"))


def test_every_real_route_is_read_and_written_valid(
    real_data: Path, schema: etree.XMLSchema, tmp_path: Path
) -> None:
    routes = _routes(real_data)
    assert len(routes) == 22
    for path in routes:
        passage = read_passage(path).passage
        data = write_rtz(passage)
        schema.assertValid(etree.fromstring(data))
        (tmp_path / "back.rtz").write_bytes(data)
        assert read_passage(tmp_path / "back.rtz").passage == passage


def test_the_four_formats_of_a_route_agree(real_data: Path) -> None:
    stems = sorted(path.with_suffix("") for path in real_data.glob("*/routes/*.gpx"))
    assert len(stems) == 4
    for stem in stems:
        gpx, *rtz = (
            read_passage(stem.parent / name).passage
            for name in (
                f"{stem.name}.gpx",
                f"{stem.name}.rtz",
                f"{stem.name}_rtz11.rtz",
                f"{stem.name}_rtz12.rtz",
            )
        )
        lines = [gpx.line(index) for index in range(len(gpx.legs))]
        for passage in rtz:
            assert [w.name for w in passage.waypoints] == [w.name for w in gpx.waypoints]
            for index, line in enumerate(lines):
                other = passage.line(index)
                assert other.length_m == pytest.approx(line.length_m, abs=0.01)
                assert other.course_deg == pytest.approx(line.course_deg, abs=1e-6)
            assert {leg.speed_mps for leg in passage.legs} == {mps_from_kn(12.0)}
            assert rtz[0].legs == passage.legs


def test_default_values_of_a_sample(real_data: Path) -> None:
    # Read off rtz_samples/DefaultWaypoint.rtz by eye.
    passage = read_passage(real_data / "rtz_samples" / "DefaultWaypoint.rtz").passage
    assert {w.turn_radius_m for w in passage.waypoints} == {m_from_nm(0.6)}
    assert [leg.kind for leg in passage.legs] == [
        *[LegKind.RHUMB] * 4,
        LegKind.GEODESIC,
        *[LegKind.RHUMB] * 6,
    ]
    knots = [8, 15, 15, 15, 15, 15, 15, 8, 8, 8, 8]
    assert [leg.speed_mps for leg in passage.legs] == [mps_from_kn(speed) for speed in knots]
    ocean = passage.legs[4]
    assert (ocean.corridor_port_m, ocean.corridor_starboard_m) == (m_from_nm(4.0), m_from_nm(4.0))
    assert ocean.note == (
        "UTC Noon reporting during transatlantic leg; Specific leg info; "
        "Specifics about ETA/ETD; Specific local remarks"
    )
    assert passage.legs[0].corridor_port_m == m_from_nm(0.1)


def test_the_schedule_of_a_sample(real_data: Path) -> None:
    # Manual speeds, calculated times where the manual part has none; ids out of order.
    sample = real_data / "rtz_samples" / "RTZ1.2AllOptionalElementsAndAttributes.rtz"
    route = read_passage(sample)
    waypoints = route.passage.waypoints
    assert [str(w.eta_utc) for w in waypoints[:3]] == [
        "None",
        "2020-02-18 00:04:22+00:00",
        "2020-02-25 17:36:25+00:00",
    ]
    assert str(waypoints[5].etd_utc) == "2020-02-27 23:38:42+00:00"
    assert {leg.speed_mps for leg in route.passage.legs} == {mps_from_kn(20.0)}
    assert [f.code for f in route.findings] == ["several-schedules"]


def test_the_date_line_and_all_four_quarters_of_a_sample(real_data: Path) -> None:
    sample = real_data / "rtz_samples" / "RTZ1.0MandatoryElementsAndAttributes.rtz"
    passage = read_passage(sample).passage
    assert [(w.position.lat_deg, w.position.lon_deg) for w in passage.waypoints] == [
        (34.25855, 137.17881667),
        (22.2433308, -158.686186),
        (-45.10568333, 150.38398333),
        (-36.93133333, 20.64783333),
        (-6.95285, -32.8543),
        (44.55386667, -56.39596667),
    ]
    # The first leg takes the short way over the date line: about 3 560 NM, not 16 000.
    assert 3_000 < passage.line(0).length_m / 1852 < 4_000


@pytest.mark.parametrize(
    ("name", "count", "codes"),
    [
        ("gpx1.0_with_all_fields.gpx", 3, ["several-routes", "leg-kind-assumed"]),
        ("gpx1.1_with_all_fields.gpx", 3, ["several-routes", "leg-kind-assumed"]),
        ("route.gpx", 55, ["leg-kind-assumed"]),
    ],
)
def test_gpx_samples_with_routes(real_data: Path, name: str, count: int, codes: list[str]) -> None:
    route = read_passage(real_data / "gpx_samples" / name)
    assert len(route.passage.waypoints) == count
    assert [f.code for f in route.findings] == codes


@pytest.mark.parametrize("name", ["gpx1.1_with_extensions.gpx", "unicode_with_bom.gpx"])
def test_gpx_samples_without_routes(real_data: Path, name: str) -> None:
    with pytest.raises(InputError) as caught:
        read_passage(real_data / "gpx_samples" / name)
    assert str(caught.value) == (
        f"{name}: the file has no route, only 1 waypoint without order. Export the route itself."
    )
