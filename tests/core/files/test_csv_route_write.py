"""A passage written as a table and read back."""

from hypothesis import given

from core.files.csv_route_write import csv_route_text
from core.files.readers import passage_from_text
from core.passage.passage import Passage
from tests.helpers.passages import passages

_EMPTY = ("-", "--", "---", "n/a", "na", "none", "null", "*")


def _near(one: float | None, other: float | None, within: float) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= within


@given(passages())
def test_a_passage_comes_back_as_it_was(passage: Passage) -> None:
    back = passage_from_text(csv_route_text(passage), passage.name).passage
    # A name of digits alone is a number: it comes back as «WP 7».
    assert [w.name for w in back.waypoints] == [
        f"WP {w.name}" if w.name.isdecimal() else w.name for w in passage.waypoints
    ]
    for one, other in zip(back.waypoints, passage.waypoints, strict=True):
        assert _near(one.position.lat_deg, other.position.lat_deg, 1e-9)
        apart = (one.position.lon_deg - other.position.lon_deg + 180.0) % 360.0 - 180.0
        assert abs(apart) <= 1e-9
        assert _near(one.turn_radius_m, other.turn_radius_m, 0.002)
        assert (one.eta_utc, one.etd_utc) == (other.eta_utc, other.etd_utc)
    for leg, was in zip(back.legs, passage.legs, strict=True):
        assert leg.kind is was.kind
        # Words that stand for an empty cell come back as one.
        assert leg.note == ("" if was.note.lower() in _EMPTY else was.note)
        assert _near(leg.corridor_port_m, was.corridor_port_m, 0.02)
        assert _near(leg.corridor_starboard_m, was.corridor_starboard_m, 0.02)
        assert _near(leg.speed_mps, was.speed_mps, 1e-5)
    again = passage_from_text(csv_route_text(back), passage.name).passage
    assert again == back
