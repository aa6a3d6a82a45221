"""All sheets of a passage: pages, cautions, words, room."""

import re
from dataclasses import replace
from functools import lru_cache

import pytest

from core.base.findings import Finding, Severity, Where
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine
from core.sheets.book import make_book
from core.sheets.leg_sheet import leg_sheet
from core.sheets.object_list import legs_using, object_rows
from core.sheets.page import Area, Page, Stroke, Symbol, Text, part_titles, text_box
from core.sheets.passage_sheet import front_page_count, front_pages
from core.sheets.sheet_frame import LEFT_MM
from core.words.bridge_words import Bridge
from core.words.messages import Say
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_FORBIDDEN = re.compile(r"\bsafe|will be seen|\bwill paint", re.I)


@lru_cache(maxsize=1)
def _book() -> tuple[Page, ...]:
    return make_book(sample_outcome(), FixedMeasure())


def _leg(number: int) -> Page:
    return next(page for page in _book() if page.name == f"Leg {number} of 3")


def _words(page: Page) -> str:
    return "\n".join(item.text for item in page.items if isinstance(item, Text))


def test_one_sheet_a_leg_after_the_front_sheet_with_pages_counted() -> None:
    pages = _book()
    for number, page in enumerate(pages):
        assert f"Page {number + 1} of {len(pages)}" in _words(page)
        assert (page.width_mm, page.height_mm) == (210.0, 297.0)
    names = [page.name for page in pages]
    first = names.index("Leg 1 of 3")
    assert names[first : first + 3] == ["Leg 1 of 3", "Leg 2 of 3", "Leg 3 of 3"]
    assert names[first + 3 : first + 5] == [Say.SETTING_UP, Say.SETUP_LIST]
    assert names[:2] == [Say.PASSAGE_SHEET, Bridge.WAYPOINTS]


def test_the_contents_tell_where_each_part_begins() -> None:
    pages = _book()
    told = re.findall(r"^([A-Z].*)\n(\d+)$", _words(pages[0]), re.M)
    assert [title for title, _page in told] == list(part_titles(pages))
    for title, page in told:
        parts = [one.part for one in pages]
        assert parts.index(title) == int(page) - 1


def test_everything_stands_on_the_paper() -> None:
    for page in _book():
        for item in page.items:
            if isinstance(item, Text):
                room = text_box(item, FixedMeasure())
                if item.angle_deg == 0.0:
                    assert room.x_mm >= 5.0, item
                    assert room.right_mm <= 205.0, item
                    assert room.bottom_mm <= 292.0, item
            elif isinstance(item, Stroke):
                assert all(5.0 <= x <= 205.0 and 4.0 <= y <= 292.0 for x, y in item.points)
            elif isinstance(item, Area):
                assert all(5.0 <= x <= 205.0 for ring in item.rings for x, _y in ring)
            elif isinstance(item, Symbol):
                assert 5.0 <= item.x_mm <= 205.0


def test_no_letter_is_smaller_than_nine_points() -> None:
    for page in _book():
        assert min(item.size_pt for item in page.items if isinstance(item, Text)) >= 9.0


def test_no_sheet_says_what_may_not_be_said() -> None:
    for page in _book():
        assert _FORBIDDEN.search(_words(page)) is None


def test_every_sheet_carries_cautions_data_antenna_and_boxes() -> None:
    for page in _book():
        words = _words(page).replace("\n", " ")
        for needed in (
            "Planning aid only",
            "take precedence",
            "depths",
            "invented_heights.tif, 2024",
            "invented_coast.geojson",
            "Antenna 25.0 m above the water now",
            "k 1.33",
            "Tide 3.2 m above chart datum",
            "Prepared",
            "Checked",
            "Rev 1",
        ):
            assert needed in words, needed


def test_the_front_sheet_lists_legs_findings_voyage_and_contents() -> None:
    words = _words(_book()[0])
    for needed in (
        "Islet turn",
        "MUST FIX, leg 3",
        "INCOMPLETE",
        "NONE",
        "Voyage no.",
        "Contents",
        "Antennas above water",
        sample_outcome().digest[:12],
    ):
        assert needed in words, needed


def test_at_most_five_findings_stand_on_the_front_sheet() -> None:
    page = front_pages(_crowded(), page_count=9, measure=FixedMeasure())[0]
    leads = [i for i in page.items if isinstance(i, Text) and i.text.endswith(", leg 1")]
    assert 1 <= len(leads) <= 5
    assert "more, in the plan file" in _words(page)


def test_a_leg_without_an_index_line_says_so_and_why() -> None:
    words = _words(_leg(3))
    assert "NO INDEX LINE ON THIS LEG" in words
    assert "no fixed object is in sight within the planned screen" in words


def _crowded() -> Outcome:
    outcome = sample_outcome()
    findings = tuple(
        Finding(
            severity=Severity.CHECK if n % 2 else Severity.MUST_FIX,
            code=f"finding-{n}",
            what=f"something long to read about number {n} that goes on for a good while",
            where=Where(leg_number=1),
            todo="Do something about it",
        )
        for n in range(30)
    )
    leg = outcome.plan.legs[0]
    crowded = replace(
        leg,
        lines=leg.lines * 6,
        first_sights=leg.first_sights * 10,
        hand_overs=leg.hand_overs * 10,
        scales=leg.scales * 8,
    )
    plan = replace(outcome.plan, legs=(crowded, *outcome.plan.legs[1:]))
    return replace(outcome, plan=plan, findings=findings)


def test_a_crowded_leg_is_shortened_and_never_runs_over() -> None:
    page = leg_sheet(_crowded(), 0, page_number=2, page_count=4, measure=FixedMeasure())
    texts = [item for item in page.items if isinstance(item, Text)]
    assert any("more, in the plan file" in text.text for text in texts)
    level = [text for text in texts if text.angle_deg == 0.0 and text.x_mm < 70.0]
    boxes = [(text, text_box(text, FixedMeasure())) for text in level]
    for number, (first, one) in enumerate(boxes):
        for second, other in boxes[number + 1 :]:
            overlap = min(one.bottom_mm, other.bottom_mm) - max(one.y_mm, other.y_mm)
            if one.meets(other):
                assert overlap < 1.2, (first.text, second.text)


def test_at_most_five_findings_stand_on_a_leg_sheet() -> None:
    page = leg_sheet(_crowded(), 0, page_number=2, page_count=4, measure=FixedMeasure())
    leads = [i for i in page.items if isinstance(i, Text) and i.text in ("MUST FIX", "CHECK")]
    assert 1 <= len(leads) <= 5
    assert leads[0].text == "MUST FIX"


def test_many_legs_go_on_to_another_front_sheet() -> None:
    outcome = sample_outcome()
    plan = outcome.plan
    # Leg numbers must stay those of the sample's waypoints and coverage; only their count grows.
    legs = tuple(replace(plan.legs[n % 3], leg_index=n % 3) for n in range(20))
    timetable = replace(
        plan.timetable, leg_start_s=(0.0,) * 20, leg_speed_mps=plan.timetable.leg_speed_mps[:1] * 20
    )
    many = replace(outcome, plan=replace(plan, legs=legs, timetable=timetable))
    pages = front_pages(many, page_count=22, measure=FixedMeasure())
    assert len(pages) == front_page_count(many, FixedMeasure()) >= 3
    assert "continued" in _words(pages[1])
    assert "Page 2 of 22" in _words(pages[1])


def test_without_a_start_time_the_sheets_count_from_the_start() -> None:
    outcome = sample_outcome()
    timetable = replace(outcome.plan.timetable, start_utc=None)
    pages = make_book(
        replace(
            outcome,
            plan=replace(outcome.plan, timetable=timetable),
            request=replace(outcome.request, start_utc=None),
        ),
        FixedMeasure(),
    )
    assert all(re.search(r"\bUTC\b", _words(page)) is None for page in pages)
    words = _words(next(page for page in pages if page.name == "Leg 1 of 3"))
    assert "+0:37" in words


@pytest.mark.parametrize("leg_index", [0, 1, 2])
def test_numbers_in_large_letters_are_never_cut(leg_index: int) -> None:
    page = _leg(leg_index + 1)
    for item in page.items:
        if isinstance(item, Text) and item.size_pt >= 12.0 and any(c.isdigit() for c in item.text):
            assert "…" not in item.text


def test_what_a_sheet_leaves_out_stands_in_full_at_the_end_and_its_page_is_told() -> None:
    outcome = _crowded()
    pages = make_book(outcome, FixedMeasure())
    names = [page.name for page in pages]
    first = names.index("Leg 1 of 3")
    more = pages[first + len(outcome.plan.legs) :]
    assert more
    last = "\n".join(_words(page) for page in more).replace("\n", " ")
    for number in range(30):
        assert f"about number {number} that goes" in last
    assert "Leg 1: Index lines" in last
    leg_words = _words(pages[first])
    told = [int(n) for n in re.findall(r"more, page (\d+)", leg_words)]
    assert told
    for number in told:
        words = _words(pages[number - 1])
        assert "Leg 1: " in words or "Leg 1, " in words
    assert "plan file" not in " ".join(_words(page) for page in pages)
    for number, page in enumerate(pages):
        assert f"Page {number + 1} of {len(pages)}" in _words(page)
        for item in page.items:
            if isinstance(item, Text) and item.angle_deg == 0.0:
                assert text_box(item, FixedMeasure()).bottom_mm <= 292.0, item


def test_nothing_on_a_leg_sheet_is_cut_short() -> None:
    long_name = "Breakwater of the Very Long and Winding Harbour, Northern Arm, Seaward End"
    outcome = sample_outcome()
    waypoints = tuple(
        replace(w, name=f"{w.name} {long_name[:30]}") for w in outcome.plan.passage.waypoints
    )
    passage = replace(outcome.plan.passage, waypoints=waypoints)
    legs = tuple(
        replace(leg, lines=tuple(_renamed(line, long_name) for line in leg.lines))
        for leg in outcome.plan.legs
    )
    long = replace(outcome, plan=replace(outcome.plan, passage=passage, legs=legs))
    for index in range(3):
        page = leg_sheet(long, index, page_number=1, page_count=1, measure=FixedMeasure())
        cut = [i.text for i in page.items if isinstance(i, Text) and i.text.endswith("…")]
        assert cut == []


def _renamed(line: IndexLine, name: str) -> IndexLine:
    return replace(line, object=replace(line.object, name=f"{name} {line.object.id}"))


def test_used_objects_known_from_data_have_boxes_for_chart_and_edition_once() -> None:
    # Job note 2.4.9: confirmed on the chart; once for the passage, so not on the legs' sheets.
    outcome = sample_outcome()
    rows = {row.reference: row for row in object_rows(outcome)}
    used = legs_using(outcome)
    assert {thing.confirm_on_chart for thing in outcome.plan.objects} == {True, False}
    for thing in outcome.plan.objects:
        boxes = [cell.is_blank_box for cell in rows[f"object:{thing.id}"].cells[-2:]]
        assert boxes == [thing.confirm_on_chart and thing.id in used] * 2
    listed = [page for page in _book() if page.name == Say.OBJECT_LIST]
    assert any("likely conspicuous" in " ".join(_words(page).split()) for page in listed)
    for number in (1, 2, 3):
        assert str(Say.COLUMN_EDITION) not in _words(_leg(number))


def test_a_leg_says_what_its_data_cannot_hold() -> None:
    # Whether rows break in the sentence depends on the font, so words of its lines are joined.
    left = [i for i in _leg(1).items if isinstance(i, Text) and i.x_mm == LEFT_MM]
    lines = " ".join(item.text for item in sorted(left, key=lambda item: item.y_mm))
    assert "Data may lack rocks and piers under about 190 m." in lines
