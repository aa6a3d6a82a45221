"""Text set into columns: broken, shortened, never run over."""

from hypothesis import given
from hypothesis import strategies as st

from core.sheets.flow import Entry, Section, fit_sections, fitted, section_items, wrap
from core.sheets.page import Rectangle, Text
from tests.helpers.fixed_measure import FixedMeasure

_MEASURE = FixedMeasure()


@given(text=st.text(alphabet="ab cde  fghij", max_size=120), width_mm=st.floats(4.0, 80.0))
def test_no_line_is_wider_than_its_column(text: str, width_mm: float) -> None:
    lines = wrap(text, width_mm, _MEASURE)
    assert all(_MEASURE.width_mm(line, size_pt=9.0) <= width_mm + 1e-9 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_cut_text_says_that_something_is_missing() -> None:
    assert fitted("headland", 100.0, _MEASURE) == "headland"
    assert fitted("headland", 9.0, _MEASURE).endswith("…")


def _sections(count: int) -> tuple[Section, ...]:
    return tuple(
        Section(title=f"Part {n}", entries=tuple(Entry(text=f"entry {i}") for i in range(count)))
        for n in range(3)
    )


def test_sections_shorten_until_they_fit_and_count_what_they_leave_out() -> None:
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=70.0)
    fit = fit_sections(_sections(20), room, _MEASURE)
    for section in fit:
        assert len(section.entries) + section.left_out == 20
    items = section_items(_sections(20), room, _MEASURE)
    assert max(item.y_mm for item in items if isinstance(item, Text)) <= room.bottom_mm
    assert any(isinstance(i, Text) and "more, see the plan file" in i.text for i in items)


def test_sections_that_fit_are_left_alone() -> None:
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=200.0)
    assert fit_sections(_sections(3), room, _MEASURE) == _sections(3)


def test_a_room_too_small_for_anything_stays_empty() -> None:
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=2.0)
    assert section_items(_sections(3), room, _MEASURE) == ()


def test_an_inline_lead_stands_in_the_first_line_of_its_text() -> None:
    section = Section(title="T", entries=(Entry(lead="A", text="word " * 30, is_inline=True),))
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=200.0)
    texts = [i for i in section_items((section,), room, _MEASURE) if isinstance(i, Text)]
    lead = next(i for i in texts if i.text == "A")
    first = next(i for i in texts if i.text.startswith("word"))
    assert lead.y_mm == first.y_mm
    assert first.x_mm > lead.x_mm
