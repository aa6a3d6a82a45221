"""The index table and the wheel-over block."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.plan.plan_result import IndexLine, Limit, Role
from core.sheets.leg_tables import index_table, shown_lines
from core.sheets.page import Text
from core.sheets.tables import table_items
from core.sheets.wheel_over_block import wheel_over_block
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()


def _texts(lines: tuple[IndexLine, ...], most_rows: int = 8) -> list[Text]:
    outcome = sample_outcome()
    plan = replace(outcome.plan.legs[0], lines=lines)
    table = index_table(plan, outcome.plan.timetable)
    items, _y = table_items(table, x_mm=0.0, y_mm=0.0, most_rows=most_rows, measure=_MEASURE)
    return [item for item in items if isinstance(item, Text)]


def test_the_range_stands_large_with_its_side_spelled_out() -> None:
    texts = _texts(sample_outcome().plan.legs[0].lines)
    number = next(text for text in texts if text.text == "1.20")
    assert number.size_pt >= 12.0
    assert number.is_bold
    side = next(text for text in texts if text.text == "STARBOARD")
    assert side.size_pt >= 12.0


def test_a_margin_is_rounded_to_the_side_that_warns_early() -> None:
    line = sample_outcome().plan.legs[0].lines[2]
    assert line.role is Role.MARGIN
    for limit, number in ((Limit.NOT_LESS_THAN, "0.91"), (Limit.NOT_MORE_THAN, "0.90")):
        tight = replace(line, limit=limit, cross_index_range_m=m_from_nm(0.905))
        words = [text.text for text in _texts((tight,))]
        assert number in words
        assert limit.value in words


def test_rows_that_find_no_room_are_counted() -> None:
    line = sample_outcome().plan.legs[0].lines[0]
    words = [text.text for text in _texts((line,) * 11, most_rows=8)]
    assert "+ 3 more, in the plan file" in words


def test_a_margin_never_gives_way_to_a_check_line() -> None:
    plan = sample_outcome().plan.legs[0]
    check = replace(plan.lines[0], role=Role.CHECK)
    margin = plan.lines[2]
    crowded = replace(plan, lines=(*[check] * 9, margin))
    assert margin in shown_lines(crowded)[:8]


def test_objects_known_from_data_alone_carry_a_star() -> None:
    words = [text.text for text in _texts(sample_outcome().plan.legs[0].lines)]
    assert "A *" in words
    assert "B" in words


def test_the_wheel_over_block_tells_line_side_range_and_check() -> None:
    outcome = sample_outcome()
    items, bottom = wheel_over_block(
        outcome.plan.legs[0],
        outcome.plan.timetable,
        "Islet turn",
        x_mm=0.0,
        y_mm=0.0,
        width_mm=188.0,
        measure=_MEASURE,
    )
    words = " | ".join(item.text for item in items if isinstance(item, Text))
    assert "0537" in words
    assert "0.57 NM before Islet turn" in words
    assert "TO STARBOARD new course 060° T" in words
    assert "060/240" in words
    assert "C *  STARBOARD  0.91 NM" in words
    assert all(item.y_mm < bottom for item in items if isinstance(item, Text))


def test_a_turn_without_a_line_says_why() -> None:
    outcome = sample_outcome()
    items, _bottom = wheel_over_block(
        outcome.plan.legs[1],
        outcome.plan.timetable,
        "North gate",
        x_mm=0.0,
        y_mm=0.0,
        width_mm=188.0,
        measure=_MEASURE,
    )
    words = [item.text for item in items if isinstance(item, Text)]
    assert "no line: nothing in sight near the new track" in words


def test_a_long_description_is_broken_and_whole() -> None:
    line = sample_outcome().plan.legs[0].lines[0]
    name = "steep shore 546 m high, 2.9 NM SW of Dorvane Gap and Beyond the Stack"
    texts = _texts((replace(line, object=replace(line.object, name=name)),))
    words = " ".join(text.text for text in texts)
    assert "steep shore 546 m, 2.9 NM SW of Dorvane Gap and Beyond the Stack" in words
    assert all(text.size_pt >= 9.0 for text in texts)


def test_a_mark_is_named_whole_with_its_short_form() -> None:
    line = sample_outcome().plan.legs[0].lines[0]
    name = "Strand Breakwater of the Northern Harbour East"
    mark = replace(line.object, id=name, name=name)
    words = " ".join(text.text for text in _texts((replace(line, object=mark),)))
    assert name in words
    assert "(S.B.o.t.N.H.E.)" in words
