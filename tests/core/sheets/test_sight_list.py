"""What comes in sight: in short on the leg's sheet, in full at the end of the book."""

from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import FirstSight
from core.geodesy import geodesic
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.book import make_book
from core.sheets.page import Text
from core.sheets.sight_list import sight_rows, sight_section
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import words_of
from tests.helpers.sample_outcome import sample_outcome

_REASONS = {
    "N": "in sight from the start of this leg",
    "O": "in sight from the start of the passage",
    "Q": "never in sight on this leg: hidden by land 84 m high, 2.1 NM off",
    "R": "not known to come in sight on this leg: heights 3.0 NM off are unknown",
}


def _with_reasons() -> Outcome:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    model = leg.first_sights[1]
    more = tuple(
        replace(
            model,
            object_id=letter,
            name=f"headland 38 m high, 2.6 NM E of {letter}",
            height_above_water_m=38.0,
            in_sight_from=None,
            in_sight_from_reason=reason,
            lost=None,
        )
        for letter, reason in _REASONS.items()
    )
    full = replace(leg, first_sights=(*leg.first_sights, *more))
    return replace(outcome, plan=replace(outcome.plan, legs=(full, *outcome.plan.legs[1:])))


def _leg(outcome: Outcome) -> LegPlan:
    return outcome.plan.legs[0]


def test_what_is_in_sight_already_and_what_never_is_stand_apart_by_letter() -> None:
    outcome = _with_reasons()
    section = sight_section(outcome, _leg(outcome), where="page 9", is_shortened=True)
    letters = {entry.lead: entry.text for entry in section.entries if not entry.facts}
    assert letters == {
        "In sight from the start of the leg": "N, O",
        "Not in sight on this leg": "Q",
        "Not known, heights missing": "R",
    }
    assert section.last_line == "all in full: page 9"
    coming = [entry for entry in section.entries if entry.facts]
    assert {entry.lead for entry in coming} == {"A", "B", "C"}
    assert all(entry.has_box for entry in coming)


def test_the_list_names_every_object_with_height_time_range_and_bearing() -> None:
    outcome = _with_reasons()
    pages = make_book(outcome, FixedMeasure())
    listing = next(
        page for page in pages if page.name.startswith("In sight, all objects, leg by leg")
    )
    words = words_of(listing)
    rows = sight_rows(outcome, _leg(outcome))
    assert [row.cells[0].text for row in rows][-4:] == ["N", "O", "Q", "R"]
    for sight in _leg(outcome).first_sights:
        assert sight.object_id in words
        assert f"{sight.height_above_water_m:.0f} m" in words
    assert "headland, 2.6 NM E of N" in words
    assert "hidden by land 84 m high" in words.replace("\n", " ")
    assert "Leg 1, " in words
    assert "Leg 2, " in words


def test_what_is_in_sight_already_is_given_as_it_bears_at_the_start_of_the_leg() -> None:
    outcome = _with_reasons()
    sight = next(s for s in _leg(outcome).first_sights if s.object_id == "N")
    start = outcome.plan.passage.waypoints[0].position
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=np.array([start.lat_deg]),
        from_lon_deg=np.array([start.lon_deg]),
        to_lat_deg=np.array([sight.position.lat_deg]),
        to_lon_deg=np.array([sight.position.lon_deg]),
    )
    row = next(r for r in sight_rows(outcome, _leg(outcome)) if r.cells[0].text == "N")
    figures = [cell.text for cell in row.cells[2:6]]
    assert figures[0] == "start"
    assert float(figures[2]) == pytest.approx(float(distance[0]) / 1852.0, abs=0.006)
    assert float(figures[3]) == pytest.approx(float(bearing[0]), abs=0.51)


def test_a_sight_over_no_data_is_called_the_earliest() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    unsure = tuple(replace(s, passes_unknown=s.object_id == "B") for s in leg.first_sights)
    leg = replace(leg, first_sights=unsure)
    section = sight_section(outcome, leg, where="", is_shortened=False)
    said = {e.lead: "at the earliest" in e.text for e in section.entries if e.facts}
    assert said == {"A": False, "B": True, "C": False}
    rows = {row.cells[0].text: row.cells[0].beside for row in sight_rows(outcome, leg)}
    assert "at the earliest" in rows["B"]


def _far(sight: FirstSight, letter: str, along_m: float, range_m: float) -> FirstSight:
    assert sight.in_sight_from is not None
    moment = replace(sight.in_sight_from, along_m=along_m, range_m=range_m)
    return replace(sight, object_id=letter, name=letter, in_sight_from=moment)


def test_what_the_leg_uses_and_sights_first_outlasts_the_rest() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    model = leg.first_sights[1]
    sights = (
        _far(model, "X", 500.0, 60_000.0),
        _far(model, "Y", 2_000.0, 9_000.0),
        _far(model, "Z", 3_000.0, 30_000.0),
        *leg.first_sights,
    )
    section = sight_section(
        outcome, replace(leg, first_sights=sights), where="", is_shortened=False
    )
    by_rank = sorted((e for e in section.entries if e.facts), key=lambda e: e.rank)
    order = [entry.lead for entry in by_rank]
    # A, B and C are used on the leg, and one of them is sighted first of all.
    assert set(order[:3]) == {"A", "B", "C"}
    assert order[-2:] == ["Z", "X"]


def test_a_book_whose_sheets_hold_everything_has_no_list() -> None:
    pages = make_book(sample_outcome(), FixedMeasure())
    assert not any(
        isinstance(item, Text) and item.text.startswith("In sight, all objects")
        for page in pages
        for item in page.items
    )
