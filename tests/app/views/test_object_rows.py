"""Index objects as rows of the window."""

from app.views.object_rows import OBJECT_HEADS, object_rows
from core.plan.plan_result import Role
from core.words.reasons import beside_name
from tests.helpers.sample_outcome import sample_outcome


def test_every_object_has_figures_and_then_everything_that_is_known_of_it() -> None:
    outcome = sample_outcome()
    for leg in outcome.plan.legs:
        rows = object_rows(outcome, leg)
        assert len(rows) == 2 * len(leg.looks)
        for look, figures, note in zip(leg.looks, rows[::2], rows[1::2], strict=True):
            assert len(figures.cells) == len(OBJECT_HEADS)
            assert figures.cells[:2] == (str(look.place), look.object.id)
            assert beside_name(look.reason, look.object.name) in note.cells[0]
            assert f"confidence {look.confidence.grade.value}" in note.cells[0]
            assert ("confirm on chart" in note.cells[0]) == look.object.confirm_on_chart
            roles = [x.role for x in leg.lines if x.object.id == look.object.id]
            assert ("primary" in figures.cells[-1]) == (Role.PRIMARY in roles)
            assert note.is_note
