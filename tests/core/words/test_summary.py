"""The plan in plain lines for a terminal."""

from core.words.summary import summary_lines
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints


def test_every_leg_has_its_lines_and_missing_land_is_loud() -> None:
    outcome = sample_outcome()
    lines = summary_lines(outcome)
    heads = [line for line in lines if line.startswith("Leg ")]
    assert len(heads) == len(outcome.plan.legs)
    covered = {leg.leg_index: leg.is_complete for leg in outcome.coverage.legs}
    assert ["INCOMPLETE" in head for head in heads] == [
        not covered[leg.leg_index] for leg in outcome.plan.legs
    ]
    assert "planning aid only" in lines[0]


def test_what_first_paints_and_where_the_set_is_checked_are_told() -> None:
    outcome = with_paints(sample_outcome())
    lines = summary_lines(outcome)
    paint = outcome.plan.legs[0].first_paints[0]
    (first,) = [line for line in lines if "first to paint" in line]
    assert f"first to paint: {paint.object_id} by" in first
    assert "11.0 NM" in first
    checks = sum(leg.tune_check is not None for leg in outcome.plan.legs)
    assert sum("tune check" in line for line in lines) == checks
