"""Contingency legs through the whole job: sides and ranges are those of their own course."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest

from core.base.errors import InputError
from core.base.progress import Quiet
from core.base.units import m_from_nm, nm_from_m
from core.files.plan_geojson import geojson_document
from core.files.plan_json import plan_bytes
from core.files.project import Options, Project
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.passage.passage import Side
from core.plan.outcome import ContingencyPlan, Outcome
from core.plan.plan_result import Role
from core.sheets.book import make_book
from core.sheets.page import Rectangle, Text
from core.sheets.strip_block import make_strip
from core.words.contingency_words import Abort, abort_words, last_words
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.small_job import Scene

_SCHEMA = Path(__file__).resolve().parents[3] / "resources" / "schema" / "plan-1.schema.json"
_ROWS = (
    "leg,from_nm_to_go,course_deg,distance_nm,name\n"
    "2,3.0,270,2.0,west water\n"
    # An islet to starboard of leg 1, 1.8 NM before its end, is then to port.
    "1,2.3,90,2.0,east water\n"
)


def _outcome(folder: Path, rows: str = _ROWS, **options: Any) -> Outcome:
    scene = Scene(folder=folder, lat_deg=40.0, lon_deg=-35.0)
    file = folder / "ways_out.csv"
    file.write_text(rows, encoding="utf-8")
    project = Project(
        route_text=scene.route_text(),
        land=scene.write_whole(),
        contingencies=file,
        options=Options(
            antenna_height_m=20.0, radius_m=m_from_nm(6.0), corridor_m=300.0, **options
        ),
    )
    return plan_passage(make_request(project), Quiet())


@pytest.fixture(scope="module")
def outcome(tmp_path_factory: pytest.TempPathFactory) -> Outcome:
    return _outcome(tmp_path_factory.mktemp("contingencies"))


def _lines_of(one: ContingencyPlan) -> list[tuple[Side, float, float]]:
    """Side and range as planned, and the signed range about the line, worked out anew."""
    line = one.outcome.plan.passage.line(1)
    found = []
    for index in one.leg.lines:
        if index.role in (Role.PRIMARY, Role.CHECK):
            place = index.object.position
            _along, cross = line.track_coordinates(
                np.array([place.lat_deg]), np.array([place.lon_deg])
            )
            found.append((index.side, index.cross_index_range_m, float(cross[0])))
    return found


def test_they_are_numbered_along_the_passage(outcome: Outcome) -> None:
    assert [(one.at.number, one.at.leg_number, one.name) for one in outcome.contingencies] == [
        (1, 1, "east water"),
        (2, 2, "west water"),
    ]


def test_sides_and_ranges_are_those_of_the_new_course(outcome: Outcome) -> None:
    """By the foot of the perpendicular on the contingency line itself (plain geometry)."""
    count = 0
    for one in outcome.contingencies:
        for side, range_m, cross_m in _lines_of(one):
            assert side is (Side.STARBOARD if cross_m > 0.0 else Side.PORT)
            assert range_m == pytest.approx(abs(cross_m), abs=40.0)
            count += 1
    assert count >= 2


def test_a_side_flips_where_the_course_says_so(outcome: Outcome) -> None:
    """An object on one hand of the leg that is left lies on the other of the contingency leg."""
    flipped = set()
    for one in outcome.contingencies:
        old = {
            line.object.id: line.side
            for line in outcome.plan.legs[one.parent_index].lines
            if line.role is not Role.WHEEL_OVER
        }
        new = {line.object.id: line.side for line in one.leg.lines}
        flipped |= {name for name in old.keys() & new.keys() if old[name] is not new[name]}
    assert flipped


def test_the_wheel_over_line_lies_about_the_contingency_course(outcome: Outcome) -> None:
    """|cross| about the line through the wheel-over position parallel to the new course."""
    for one in outcome.contingencies:
        turn = one.wheel_over
        assert turn is not None
        assert turn.new_course_deg == pytest.approx(one.leg.course_deg, abs=1e-6)
        assert one.last_m == turn.along_m < one.at.along_m
        old = outcome.plan.passage.line(one.parent_index)
        along, cross = old.track_coordinates(
            np.array([turn.position.lat_deg]), np.array([turn.position.lon_deg])
        )
        assert float(along[0]) == pytest.approx(turn.along_m, abs=1.0)
        assert abs(float(cross[0])) < 1.0
        if turn.line is None:
            continue
        place = turn.line.object.position
        new = one.outcome.plan.passage.line(1)
        lat, lon = np.array([place.lat_deg]), np.array([place.lon_deg])
        _a, about_new = new.track_coordinates(lat, lon)
        _a, start = new.track_coordinates(
            np.array([turn.position.lat_deg]), np.array([turn.position.lon_deg])
        )
        signed_m = float(about_new[0] - start[0])
        assert turn.line.cross_index_range_m == pytest.approx(abs(signed_m), abs=40.0)
        assert turn.line.side is (Side.STARBOARD if signed_m > 0.0 else Side.PORT)


def test_letters_are_those_of_the_passage_and_none_twice(outcome: Outcome) -> None:
    known = [thing.id for thing in outcome.plan.known_objects]
    assert len(known) == len(set(known))
    named = {thing.id: thing.name for thing in outcome.plan.objects}
    for one in outcome.contingencies:
        for thing in one.outcome.plan.objects:
            assert thing.id in known
            assert named.get(thing.id, thing.name) == thing.name


def test_the_passage_is_planned_as_without_them(outcome: Outcome, tmp_path: Path) -> None:
    alone = Scene(folder=tmp_path, lat_deg=40.0, lon_deg=-35.0)
    plain = alone.plan(alone.write_whole())
    assert [leg.lines for leg in plain.plan.legs] == [leg.lines for leg in outcome.plan.legs]
    assert plain.digest != outcome.digest
    assert plain.coverage.sweep_count == outcome.coverage.sweep_count


def test_the_plan_file_holds_them_and_fits_its_schema(outcome: Outcome) -> None:
    document = json.loads(plan_bytes(outcome))
    jsonschema.Draft202012Validator(json.loads(_SCHEMA.read_text(encoding="utf-8"))).validate(
        document
    )
    first = document["contingencies"][0]
    assert first["leaves_leg"] == 1
    assert first["leg"]["course_deg"] == pytest.approx(90.0, abs=0.01)
    assert first["last"]["to_go_nm"] > first["line_leaves_at"]["to_go_nm"] == 2.3
    assert {row["role"] for row in document["receipt"]["inputs"]} >= {"contingencies"}


def test_the_coverage_file_holds_their_lines_and_says_whose_they_are(outcome: Outcome) -> None:
    features = geojson_document(outcome)["features"]
    own = [f["properties"] for f in features if "contingency" in f["properties"]]
    assert {f["contingency"] for f in own} == {1, 2}
    for one in outcome.contingencies:
        lines = [f for f in own if f["kind"] == "index_line" and f["contingency"] == one.at.number]
        assert [f["object"]["id"] for f in lines] == [line.object.id for line in one.leg.lines]
        assert {f["leg"] for f in lines} == {one.at.leg_number}


def test_the_strip_of_the_leg_that_is_left_has_a_mark_at_the_last_moment(outcome: Outcome) -> None:
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=120.0, height_mm=160.0)
    strip = make_strip(outcome, 0, frame=room, measure=FixedMeasure())
    for one in outcome.contingencies:
        (mark,) = [
            item
            for item in make_strip(
                outcome, one.parent_index, frame=room, measure=FixedMeasure()
            ).items
            if isinstance(item, Text) and item.reference == f"abort:{one.at.number}"
        ]
        assert mark.text == f"abort {last_words(one).removeprefix('last ')}"
    (first,) = [
        item
        for item in strip.items
        if isinstance(item, Text) and item.reference.startswith("abort:")
    ]
    near = next(one for one in outcome.contingencies if one.parent_index == 0)
    assert abs(first.y_mm - 1.15 - strip.frame.y_mm(near.last_m)) < 8.0


def test_the_book_has_a_sheet_for_each_and_a_line_on_the_leg_it_leaves(outcome: Outcome) -> None:
    pages = make_book(outcome, FixedMeasure())
    own = [page for page in pages if page.part == Abort.PART]
    assert [page.name for page in own] == [
        "CONTINGENCY 1, from leg 1",
        "CONTINGENCY 2, from leg 2",
    ]
    for page in own:
        words = " ".join(item.text for item in page.items if isinstance(item, Text))
        assert "CONTINGENCY" in words
        assert "Wheel-over" in words
        assert "Planning aid only" in words
    for one in outcome.contingencies:
        sheet = next(p for p in pages if p.name == f"Leg {one.at.leg_number} of 3")
        words = " ".join(item.text for item in sheet.items if isinstance(item, Text))
        number = pages.index(own[one.at.number - 1]) + 1
        assert last_words(one) in words
        assert f"page {number}" in words
        assert words.index("Abort") < words.index(f"page {number}")


def test_the_line_says_when_how_far_and_which_way(outcome: Outcome) -> None:
    one = outcome.contingencies[1]
    words = abort_words(one, outcome.plan.legs[1].distance_m)
    to_go = nm_from_m(outcome.plan.legs[1].distance_m - one.last_m)
    assert float(words.split()[0]) >= to_go
    assert "PORT to 270° T" in words
    assert last_words(one).startswith("last +")


def test_changes_of_a_contingency_mark_the_leg_it_leaves(outcome: Outcome) -> None:
    items = dict(outcome.revision.legs[1].facts.items)
    assert "west water" in items["contingency 2"]
    assert any(what.startswith("contingency 2 primary") for what in items)
    assert not any(
        what.startswith("contingency") for what, _ in outcome.revision.legs[2].facts.items
    )


def test_a_leg_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        _outcome(tmp_path, "leg,from_nm_to_go,course_deg,distance_nm\n7,1,270,2\n")
    assert "ways_out.csv, line 2" in str(caught.value)
    assert "the passage has 3 legs" in str(caught.value)


def test_land_across_a_contingency_must_be_fixed_and_is_told_of_its_leg(tmp_path: Path) -> None:
    """The third islet lies 2.1 NM east of the second leg."""
    rows = "leg,from_nm_along,course_deg,distance_nm,name\n2,5.7,90,4,islet\n"
    planned = _outcome(tmp_path, rows)
    told = [f for f in planned.findings if f.what.startswith("contingency to islet")]
    assert told
    assert all(f.where.leg_number == 2 for f in told)
