"""The way from the leg to the page and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.units import m_from_nm
from core.passage.passage import Side
from core.sheets.page import Rectangle
from core.sheets.strip_frame import StripFrame, strip_frame
from tests.helpers.sample_outcome import sample_outcome

_ROOM = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=120.0, height_mm=160.0)


def _frame(leg_index: int = 0) -> StripFrame:
    return strip_frame(sample_outcome().plan.legs[leg_index], _ROOM)


@given(
    along_m=st.floats(-500.0, 15_000.0),
    cross_m=st.floats(-3_000.0, 3_000.0).filter(lambda value: abs(value) > 0.01),
)
def test_place_and_track_coordinates_are_inverse(along_m: float, cross_m: float) -> None:
    frame = _frame()
    along_back, cross_back = frame.track_coordinates(frame.place(along_m, cross_m))
    assert along_back == pytest.approx(along_m, abs=0.01)
    assert cross_back == pytest.approx(cross_m, abs=0.01)


def test_the_whole_spine_is_the_track() -> None:
    frame = _frame()
    for offset_mm in (-frame.spine_mm / 2.0, 0.0, frame.spine_mm / 2.0):
        _along, cross = frame.track_coordinates((frame.middle_mm + offset_mm, frame.y_mm(1000.0)))
        assert cross == 0.0


def test_ahead_is_up_port_is_left_and_starboard_right() -> None:
    frame = _frame()
    assert frame.y_mm(2000.0) < frame.y_mm(1000.0)
    assert frame.x_mm(-100.0) < frame.middle_mm < frame.x_mm(100.0)
    assert frame.half(Side.PORT).right_mm == pytest.approx(frame.spine_edge_mm(Side.PORT))
    assert frame.half(Side.STARBOARD).x_mm == pytest.approx(frame.spine_edge_mm(Side.STARBOARD))


def test_every_index_line_fits_the_chosen_width() -> None:
    for index, plan in enumerate(sample_outcome().plan.legs):
        frame = _frame(index)
        assert all(line.cross_index_range_m < frame.half_width_m for line in plan.lines)


def test_the_strip_reaches_before_the_start_and_past_the_end() -> None:
    frame = _frame()
    assert frame.low_along_m < 0.0
    assert frame.high_along_m > sample_outcome().plan.legs[0].distance_m


def test_stretch_is_the_ratio_of_the_two_scales() -> None:
    frame = _frame()
    along_mm = frame.y_mm(0.0) - frame.y_mm(m_from_nm(1.0))
    cross_mm = frame.x_mm(m_from_nm(1.5)) - frame.x_mm(m_from_nm(0.5))
    assert frame.stretch_ratio == pytest.approx(cross_mm / along_mm)


def test_a_width_that_is_asked_for_is_kept() -> None:
    plan = sample_outcome().plan.legs[0]
    frame = strip_frame(plan, _ROOM, cross_half_width_m=m_from_nm(6.0))
    assert frame.half_width_m == pytest.approx(m_from_nm(6.0))
