"""The placer of labels, names round their signs, names along their bars."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.passage.passage import Side
from core.sheets.bar_names import BarNames, BarPart
from core.sheets.labels import Block, Labels, Over
from core.sheets.name_spots import broken, led_spots, near_spots, with_number
from core.sheets.page import Item, Rectangle, Stroke, Text, Tone, text_box
from core.sheets.strip_frame import strip_frame
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()
_ROOM = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=40.0)
_WORD = st.text(alphabet="abcdefghijk", min_size=2, max_size=9).map(str.title)
_MARK_NAMES = st.lists(_WORD, min_size=1, max_size=4).map(" ".join)


def _block(x_mm: float, y_mm: float = 20.0) -> Block:
    return Block(texts=(Text(x_mm=x_mm, y_mm=y_mm, text="abc", size_pt=9.0),))


def test_the_first_place_that_is_free_is_taken_and_none_twice() -> None:
    labels = Labels(_MEASURE, _ROOM)
    labels.keep_free(Rectangle(x_mm=0.0, y_mm=0.0, width_mm=20.0, height_mm=40.0))
    blocks = [_block(5.0), _block(25.0), _block(45.0)]
    assert labels.place(blocks) == blocks[1].texts
    assert labels.place(blocks) == blocks[2].texts
    assert labels.place(blocks, Over.LINES) == ()


def test_a_line_is_covered_only_where_that_is_allowed_and_nothing_else_is_free() -> None:
    labels = Labels(_MEASURE, _ROOM)
    labels.rather_not_cross([(26.0, 0.0), (26.0, 40.0)], Over.LINES)
    labels.rather_not_cross([(6.0, 0.0), (6.0, 40.0)], Over.COAST)
    both = [_block(25.0), _block(5.0)]
    assert labels.place(both) == ()
    assert labels.place(both, Over.COAST) == both[1].texts
    assert labels.place_as_can_be(both) == both[0].texts


def test_no_label_leaves_the_room() -> None:
    labels = Labels(_MEASURE, _ROOM)
    assert labels.place([_block(58.0), _block(-3.0), _block(10.0, 41.0)], Over.LINES) == ()


def test_a_turned_label_takes_the_room_it_covers() -> None:
    labels = Labels(_MEASURE, _ROOM)
    turned = Text(x_mm=20.0, y_mm=20.0, text="a long name", size_pt=9.0, angle_deg=-90.0)
    box = text_box(turned, _MEASURE)
    assert box.bottom_mm == pytest.approx(20.0)
    assert box.height_mm == pytest.approx(_MEASURE.width_mm("a long name", size_pt=9.0))
    assert labels.place([Block(texts=(turned,))]) == (turned,)
    assert labels.place([_block(18.0, 10.0)]) == ()
    assert labels.place([_block(24.0, 10.0)]) != ()


def test_a_leader_crosses_no_label_and_no_label_covers_it() -> None:
    labels = Labels(_MEASURE, _ROOM)
    labels.place([_block(20.0)])
    through = Stroke(points=((10.0, 19.0), (40.0, 19.0)), width_mm=0.15, tone=Tone.OBJECT)
    led = Block(texts=_block(42.0).texts, leader=through)
    assert labels.place([led], Over.LINES) == ()
    above = replace(through, points=((10.0, 5.0), (40.0, 5.0)))
    assert labels.place([replace(led, leader=above)]) == (above, *led.texts)
    assert labels.place([_block(25.0, 6.0)], Over.LINES) == ()


@given(name=_MARK_NAMES)
def test_however_a_name_is_broken_no_letter_of_it_is_lost(name: str) -> None:
    for lines in broken(name):
        assert " ".join(lines) == name
    for lines in with_number(name, "1.20"):
        assert " ".join(" ".join(lines).split()) == f"{name} 1.20"
        assert any("1.20" in line for line in lines)


@given(
    name=_MARK_NAMES,
    outward=st.sampled_from([-1.0, 1.0]),
    is_strong=st.booleans(),
)
def test_names_stand_clear_of_their_sign_and_begin_outward(
    name: str, outward: float, is_strong: bool
) -> None:
    sign = Rectangle(x_mm=48.7, y_mm=48.7, width_mm=2.6, height_mm=2.6)
    near = near_spots(
        (50.0, 50.0),
        2.6,
        broken(name),
        is_strong=is_strong,
        is_bold=is_strong,
        reference="object:x",
        outward=outward,
    )
    led = list(
        led_spots(
            (50.0, 50.0),
            2.6,
            broken(name),
            is_strong=is_strong,
            is_bold=is_strong,
            reference="object:x",
            outward=outward,
        )
    )
    first = text_box(near[0].texts[0], _MEASURE)
    assert (first.x_mm > 50.0) is (outward > 0.0)
    for block in (*near, *led):
        assert " ".join(text.text for text in block.texts) == name
        for text in block.texts:
            assert text.size_pt >= 9.0
            assert not text_box(text, _MEASURE).meets(sign)
    for block in led:
        assert block.leader is not None
        end = block.leader.points[-1]
        nearest = min(_off(text_box(text, _MEASURE), end) for text in block.texts)
        assert nearest < 2.5


def _off(box: Rectangle, place: tuple[float, float]) -> float:
    """Distance of a place from a box, mm."""
    x, y = place
    across = max(box.x_mm - x, 0.0, x - box.right_mm)
    upright = max(box.y_mm - y, 0.0, y - box.bottom_mm)
    return float((across**2 + upright**2) ** 0.5)


def _bar_name(name: str, short: str, *, long_mm: float, is_plain: bool = True) -> tuple[Item, ...]:
    frame = strip_frame(
        sample_outcome().plan.legs[0],
        Rectangle(x_mm=20.0, y_mm=30.0, width_mm=125.0, height_mm=170.0),
    )
    bar = Rectangle(x_mm=frame.water.right_mm + 0.8, y_mm=80.0, width_mm=3.4, height_mm=long_mm)
    names = BarNames(frame, Side.STARBOARD, _MEASURE)
    parts = [BarPart(bar=bar, is_filled=True, is_plain=is_plain)]
    names.keep_bars(parts)
    return names.place(name, short, parts, span=bar, is_bold=True, reference="line:0")


def _only_text(items: tuple[Item, ...]) -> Text:
    (text,) = items
    assert isinstance(text, Text)
    return text


def test_a_long_name_is_turned_along_its_bar_in_full() -> None:
    text = _only_text(_bar_name("Sound Rock Beacon", "S.R.B.", long_mm=60.0))
    assert text.text == "Sound Rock Beacon"
    assert text.angle_deg == 90.0
    assert text.tone is Tone.PAPER
    hatched = _only_text(_bar_name("Sound Rock Beacon", "S.R.B.", long_mm=60.0, is_plain=False))
    assert hatched.on_paper


@pytest.mark.parametrize("long_mm", [3.0, 10.0, 25.0])
def test_a_bar_too_short_for_its_name_has_it_near_by_whole_or_in_short(long_mm: float) -> None:
    text = _only_text(_bar_name("Sound Rock Beacon", "S.R.B.", long_mm=long_mm))
    assert text.text in ("Sound Rock Beacon", "S.R.B.")


def test_a_letter_stands_level_at_the_end_of_its_bar() -> None:
    text = _only_text(_bar_name("AB", "AB", long_mm=60.0))
    assert (text.text, text.angle_deg) == ("AB", 0.0)
