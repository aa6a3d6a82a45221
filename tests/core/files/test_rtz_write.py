"""Writing RTZ 1.2."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.base.units import m_from_nm
from core.files.gpx_write import write_gpx
from core.files.readers import passage_from_blob, read_passage
from core.files.reading import blob_of
from core.files.rtz_write import decimal_text, rtz_findings, write_rtz
from core.passage.passage import Passage
from tests.helpers.passages import passages

_SAMPLE = Path(__file__).parents[2] / "data" / "routes" / "invented_strait.rtz"


def _back(data: bytes) -> Passage:
    return passage_from_blob(blob_of("a.rtz", data)).passage


@settings(max_examples=100, deadline=None)
@given(passages())
def test_any_passage_reads_back_equal_from_rtz(passage: Passage) -> None:
    data = write_rtz(passage)
    assert _back(data) == passage
    assert write_rtz(_back(data)) == data
    assert rtz_findings(passage, file="a.rtz") == ()


@settings(max_examples=50, deadline=None)
@given(passages())
def test_any_track_reads_back_equal_from_gpx(passage: Passage) -> None:
    back = _back(write_gpx(passage))
    assert [w.name for w in back.waypoints] == [w.name for w in passage.waypoints]
    assert [w.position for w in back.waypoints] == [w.position for w in passage.waypoints]
    assert back.name == passage.name


@settings(max_examples=50, deadline=None)
@given(radius_m=st.floats(1e-3, 9000.0), speed_mps=st.floats(1e-3, 50.0))
def test_any_size_reads_back_within_rounding(radius_m: float, speed_mps: float) -> None:
    passage = read_passage(_SAMPLE).passage
    leg = replace(passage.legs[0], speed_mps=speed_mps)
    turn = replace(passage.waypoints[1], turn_radius_m=radius_m)
    passage = replace(
        passage,
        legs=(leg, passage.legs[1]),
        waypoints=(passage.waypoints[0], turn, passage.waypoints[2]),
    )
    back = _back(write_rtz(passage))
    assert back.waypoints[1].turn_radius_m == pytest.approx(radius_m, rel=1e-14)
    assert back.legs[0].speed_mps == pytest.approx(speed_mps, rel=1e-14)


def test_numbers_come_back_in_the_digits_they_were_given() -> None:
    text = write_rtz(read_passage(_SAMPLE).passage).decode()
    assert 'radius="0.75"' in text
    assert 'starboardXTD="0.2" portsideXTD="0.05" geometryType="Orthodrome"' in text
    assert 'waypointId="2" eta="2030-05-01T07:10:00Z" speed="10.5"' in text


def test_a_planned_speed_is_not_written_as_the_highest_allowed() -> None:
    assert b"speedMax" not in write_rtz(read_passage(_SAMPLE).passage)


@pytest.mark.parametrize(
    ("number", "text"),
    [(1e-7, "0.0000001"), (-0.5, "-0.5"), (179.123456789012, "179.123456789012"), (5.0, "5.0")],
)
def test_decimals_have_no_exponent(number: float, text: str) -> None:
    assert decimal_text(number) == text


def test_what_rtz_cannot_hold_is_left_out_and_said() -> None:
    passage = read_passage(_SAMPLE).passage
    wide = replace(passage.legs[0], corridor_port_m=m_from_nm(12.0))
    round_turn = replace(passage.waypoints[2], turn_radius_m=m_from_nm(6.0))
    passage = replace(
        passage,
        legs=(wide, passage.legs[1]),
        waypoints=(*passage.waypoints[:2], round_turn),
    )
    assert [str(f) for f in rtz_findings(passage, file="out.rtz")] == [
        "out.rtz, waypoint Beacon turn: the cross-track limit is outside what RTZ 1.2 can hold and "
        "was left out. Set it in the receiving system.",
        "out.rtz, waypoint WP 3: the turn radius is outside what RTZ 1.2 can hold and was left "
        "out. Set it in the receiving system.",
    ]
    back = _back(write_rtz(passage))
    assert back.legs[0].corridor_port_m is None
    assert back.waypoints[2].turn_radius_m is None
