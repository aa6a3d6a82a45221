"""A leg shifted parallel to itself; lengths by plane geometry near the equator."""

import pytest

from core.passage.offset import leg_alone, length_beside_m, shifted_leg
from core.passage.passage import Passage
from tests.helpers.islands import NM, place, track

# East 4 NM, north 6 NM, west 4 NM.
_PASSAGE = track((0.0, 0.0), (4.0 * NM, 0.0), (4.0 * NM, 6.0 * NM), (0.0, 6.0 * NM))


def _ends(passage: Passage, leg_index: int) -> list[tuple[float, float]]:
    return [
        (waypoint.position.lat_deg, waypoint.position.lon_deg)
        for waypoint in passage.waypoints[leg_index : leg_index + 2]
    ]


@pytest.mark.parametrize(("shift_nm", "east_nm"), [(0.5, 4.5), (-1.0, 3.0)])
def test_starboard_of_a_northbound_leg_is_east_and_the_neighbours_follow(
    shift_nm: float, east_nm: float
) -> None:
    moved = shifted_leg(_PASSAGE, 1, shift_nm * NM)
    for (lat, lon), north_nm in zip(_ends(moved, 1), (0.0, 6.0), strict=True):
        expected = place(east_nm * NM, north_nm * NM)
        assert lat == pytest.approx(expected.lat_deg, abs=1e-6)
        assert lon == pytest.approx(expected.lon_deg, abs=1e-6)
    assert moved.waypoints[0] == _PASSAGE.waypoints[0]
    assert moved.waypoints[3] == _PASSAGE.waypoints[3]
    # Both legs beside it grow or shrink by the shift: 14 NM become 15, or 12.
    change = length_beside_m(moved, 1) - length_beside_m(_PASSAGE, 1)
    assert change == pytest.approx(2.0 * shift_nm * NM, abs=1.0)


def test_a_leg_alone_keeps_the_beginning_of_the_next() -> None:
    alone = leg_alone(_PASSAGE, 1, NM)
    assert len(alone.legs) == 2
    assert alone.line(0).length_m == pytest.approx(_PASSAGE.line(1).length_m)
    assert alone.line(1).length_m == pytest.approx(NM, abs=0.01)
    assert alone.line(1).course_deg == pytest.approx(270.0, abs=0.01)
    assert len(leg_alone(_PASSAGE, 2, NM).legs) == 1
    # A next leg shorter than that stays whole.
    assert leg_alone(_PASSAGE, 1, 9.0 * NM).waypoints[2].position == _PASSAGE.waypoints[3].position
