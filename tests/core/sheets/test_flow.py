"""Text set into columns: broken, shortened, never run over."""

from hypothesis import given
from hypothesis import strategies as st

from core.sheets.flow import Entry, Section, fit_sections, section_items
from core.sheets.page import Rectangle, Stroke, Text
from core.sheets.wrapping import set_in, wrap
from tests.helpers.fixed_measure import FixedMeasure

_MEASURE = FixedMeasure()


@given(text=st.text(alphabet="ab cde  fghij", max_size=120), width_mm=st.floats(4.0, 80.0))
def test_no_line_is_wider_than_its_column(text: str, width_mm: float) -> None:
    lines = wrap(text, width_mm, _MEASURE)
    assert all(_MEASURE.width_mm(line, size_pt=9.0) <= width_mm + 1e-9 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@given(text=st.text(alphabet="ab cde  fghij", max_size=120), width_mm=st.floats(20.0, 80.0))
def test_a_text_too_long_for_its_line_is_set_smaller_and_then_broken_but_never_cut(
    text: str, width_mm: float
) -> None:
    lines, size_pt = set_in(text, width_mm, _MEASURE, sizes_pt=(14.0, 12.0, 9.0))
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert len(lines) <= 1 or size_pt == 9.0


def test_a_number_is_never_parted_from_its_unit() -> None:
    text = "headland 38 m high, 2.6 NM E of Ostrin South, 47° 07.46′ N 031° 44.45′ W"
    for width_mm in range(21, 60):
        for line in wrap(text, float(width_mm), _MEASURE)[:-1]:
            last = line.split()[-1]
            assert last not in ("38", "2.6", "47°", "07.46′", "031°", "44.45′"), (width_mm, line)


def test_the_first_line_leaves_room_for_what_stands_before_it() -> None:
    lines = wrap("steep shore 546 m", 40.0, _MEASURE, first_mm=20.0)
    assert _MEASURE.width_mm(lines[0], size_pt=9.0) <= 20.0
    assert wrap("steep shore", 40.0, _MEASURE, first_mm=3.0)[0] == ""


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
    assert any(isinstance(i, Text) and "more, in the plan file" in i.text for i in items)


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


def test_the_highest_rank_gives_way_first_and_counts_all_it_names() -> None:
    entries = (
        Entry(text="kept", rank=1),
        Entry(text="a long list", rank=9, count=7),
        Entry(text="kept too", rank=2),
    )
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=19.4)
    (fit,) = fit_sections((Section(title="T", entries=entries),), room, _MEASURE)
    assert [entry.text for entry in fit.entries] == ["kept", "kept too"]
    assert fit.left_out == 7


def test_below_what_they_keep_the_least_important_section_gives_way_first() -> None:
    def section(title: str, importance: int) -> Section:
        entries = tuple(Entry(text=f"{title} {n}") for n in range(4))
        return Section(title=title, entries=entries, keep=3, importance=importance)

    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=39.0)
    first, second = fit_sections((section("much", 5), section("little", 1)), room, _MEASURE)
    assert len(first.entries) >= 3
    assert len(second.entries) < 3


def test_facts_end_at_their_tabs_and_the_box_stands_clear_of_them() -> None:
    entry = Entry(lead="Strand Breakwater East", facts=("0614", "13.9"), text="x", has_box=True)
    section = Section(
        title="T", entries=(entry,), tabs_mm=(20.0, 31.0), heads=("UTC", "NM", "seen"), box_mm=18.0
    )
    room = Rectangle(x_mm=10.0, y_mm=0.0, width_mm=60.0, height_mm=100.0)
    items = section_items((section,), room, _MEASURE)
    ends = {i.text: i.x_mm for i in items if isinstance(i, Text) and i.text in ("0614", "13.9")}
    assert ends == {"0614": 30.0, "13.9": 41.0}
    frame = next(i for i in items if isinstance(i, Stroke) and len(i.points) == 5)
    assert min(x for x, _y in frame.points) > 41.0
    lead = next(i for i in items if isinstance(i, Text) and i.text == entry.lead)
    fact = next(i for i in items if isinstance(i, Text) and i.text == "0614")
    assert lead.y_mm < fact.y_mm
