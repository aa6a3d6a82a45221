"""Labels of the strip: none over another, none on the ruler, none cut."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.passage.passage import Side
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan
from core.sheets.bar_names import initials
from core.sheets.labels import Labels
from core.sheets.name_spots import broken, name_spots
from core.sheets.page import Rectangle, Text, text_box
from core.sheets.strip_block import make_strip
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()
_ROOM = Rectangle(x_mm=78.0, y_mm=100.0, width_mm=122.0, height_mm=110.0)
_NAMES = st.text(alphabet="abcdefghijk", min_size=2, max_size=9).map(str.title)
_MARK_NAMES = st.lists(_NAMES, min_size=1, max_size=4).map(" ".join)


def _with_names(names: list[str]) -> Outcome:
    """The sample passage with its objects named like marks."""
    outcome = sample_outcome()
    by_id: dict[str, str] = {}

    def named(line: IndexLine) -> IndexLine:
        name = by_id.setdefault(line.object.id, names[len(by_id) % len(names)] + f" {len(by_id)}")
        return replace(line, object=replace(line.object, id=name, name=name))

    def leg_named(leg: LegPlan) -> LegPlan:
        return replace(leg, lines=tuple(named(line) for line in leg.lines))

    plan = replace(outcome.plan, legs=tuple(leg_named(leg) for leg in outcome.plan.legs))
    return replace(outcome, plan=plan)


@given(names=st.lists(_MARK_NAMES, min_size=6, max_size=6, unique=True), leg=st.integers(0, 2))
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_no_label_lies_on_the_ruler_or_on_another(names: list[str], leg: int) -> None:
    strip = make_strip(_with_names(names), leg, frame=_ROOM, measure=_MEASURE)
    frame = strip.frame
    level = [
        item
        for item in strip.items
        if isinstance(item, Text) and item.on_paper and item.angle_deg == 0.0
    ]
    boxes = [(text, text_box(text, _MEASURE)) for text in level]
    port, starboard = (frame.spine_edge_mm(side) for side in Side)
    left, right = min(port, starboard), max(port, starboard)
    for text, box in boxes:
        if text.reference.startswith(("object:", "line:", "waypoint:", "wheel-over")):
            assert box.right_mm <= left + 0.5 or box.x_mm >= right - 0.5, text
        assert box.x_mm >= frame.water.x_mm - 0.5, text
        assert box.right_mm <= frame.water.right_mm + 0.5, text
        assert not text.text.endswith("…")
    for (one, first), (other, second) in combinations(boxes, 2):
        if one.reference == other.reference:
            continue
        overlap = min(first.bottom_mm, second.bottom_mm) - max(first.y_mm, second.y_mm)
        across = min(first.right_mm, second.right_mm) - max(first.x_mm, second.x_mm)
        assert overlap < 0.5 or across < 0.5, (one.text, other.text)


def test_a_label_that_must_stand_still_keeps_off_what_is_barred() -> None:
    labels = Labels(_MEASURE, Rectangle(x_mm=0.0, y_mm=0.0, width_mm=40.0, height_mm=40.0))
    labels.bar(Rectangle(x_mm=0.0, y_mm=0.0, width_mm=20.0, height_mm=40.0))
    labels.keep_free(Rectangle(x_mm=20.0, y_mm=0.0, width_mm=20.0, height_mm=40.0))
    over = Text(x_mm=5.0, y_mm=20.0, text="abc", size_pt=9.0)
    beside = replace(over, x_mm=25.0)
    assert labels.place([over, beside]) == ()
    assert labels.place([over, beside], must=True) == (beside,)
    assert labels.place([over], must=True) == ()


def test_of_places_that_are_all_taken_the_emptiest_wins() -> None:
    labels = Labels(_MEASURE, Rectangle(x_mm=0.0, y_mm=0.0, width_mm=60.0, height_mm=40.0))
    labels.keep_free(Rectangle(x_mm=0.0, y_mm=0.0, width_mm=30.5, height_mm=40.0))
    full = Text(x_mm=5.0, y_mm=20.0, text="abc", size_pt=9.0)
    touching = replace(full, x_mm=30.0)
    assert labels.place([full, touching], must=True) == (touching,)


@given(name=_MARK_NAMES)
def test_however_a_name_is_broken_no_letter_of_it_is_lost(name: str) -> None:
    for lines in broken(name):
        assert " ".join(lines) == name
    for block in name_spots(50.0, 50.0, 2.0, name, True, "object:x"):
        assert " ".join(text.text for text in block) == name


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("A", "A"),
        ("BA", "BA"),
        ("Sound Rock Beacon", "SRB"),
        ("Strand Tower", "ST"),
        ("Light", "Lig"),
    ],
)
def test_initials_are_short_and_never_end_in_dots(name: str, short: str) -> None:
    assert initials(name) == short
