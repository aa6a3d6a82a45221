"""What is covered shows leg by leg while the rest is computed, and stays when it is stopped."""

from dataclasses import replace

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.views.leg_list import LegListModel
from app.views.leg_words import leg_rows
from app.window.main_window import MainWindow
from core.plan.plan_result import Override
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import StandIns, no_leg_covered


@pytest.fixture
def covering(
    qtbot: QtBot, window: MainWindow, document: Document, stand_ins: StandIns
) -> MainWindow:
    """The demo being computed: two legs of three are covered."""
    sample_outcome()
    stand_ins.gate.clear()
    window.files.open_demo()
    qtbot.waitUntil(lambda: document.first_legs.numbers == {0, 1}, timeout=20_000)
    qtbot.waitUntil(lambda: window.panes.strip.is_current, timeout=20_000)
    return window


def _picture(window: MainWindow) -> QImage:
    return window.panes.strip.grab().toImage()


def test_a_covered_leg_is_drawn_and_marked_as_not_planned(
    covering: MainWindow, document: Document
) -> None:
    drawn = covering.panes.strip.drawn
    assert drawn is not None
    assert document.outcome is None
    assert document.leg_plan is None
    assert [row.alerts[:1] for row in leg_rows(document)] == [
        ("NOT PLANNED YET",),
        ("NOT PLANNED YET",),
        (),
    ]
    # The plan of this leg has lines; none is drawn before it is known.
    assert sample_outcome().plan.legs[0].lines
    names = {item.reference for item in drawn.strip.items}
    assert not any(name.startswith("line:") for name in names)
    for name in ("print", "export_pdf", "issue_revision"):
        assert not covering.actions_by_id[name].isEnabled()


def test_a_leg_that_is_not_covered_yet_says_so(covering: MainWindow, document: Document) -> None:
    document.set_leg(2)
    assert covering.panes.strip.drawn is None
    assert "Not computed yet" in leg_rows(document)[2].lines


def test_the_area_shows_coast_and_hidden_water_of_covered_legs(
    qtbot: QtBot, covering: MainWindow
) -> None:
    pictures = covering.panes.area.pictures
    qtbot.waitUntil(
        lambda: (
            pictures.scene is not None
            and [leg.source_leg for leg in pictures.scene.legs] == [0, 1, None]
        ),
        timeout=10_000,
    )
    assert pictures.scene is not None
    assert pictures.scene.land is not None
    qtbot.waitUntil(lambda: pictures.cover is not None, timeout=10_000)


def test_another_leg_done_draws_nothing_anew(
    qtbot: QtBot, covering: MainWindow, document: Document
) -> None:
    before = covering.panes.strip.drawn
    legs = sample_outcome().coverage.legs
    first = no_leg_covered()
    for leg in legs:
        first = first.with_leg(leg)
    document.take_first(first, document.project)
    assert document.first_legs.numbers == {0, 1, 2}
    qtbot.wait(50)
    assert covering.panes.strip.drawn is before


def test_the_plan_takes_the_place_of_first_results_without_a_blank(
    qtbot: QtBot, covering: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    pictures: list[QImage] = []
    document.outcome_changed.connect(lambda: pictures.append(_picture(covering)))
    stand_ins.gate.set()
    qtbot.waitUntil(lambda: document.outcome is not None, timeout=20_000)
    assert pictures
    assert all(_ink(image) > 0.01 for image in pictures)
    qtbot.waitUntil(lambda: covering.panes.strip.is_current, timeout=10_000)
    assert document.first_legs.numbers == frozenset()


def _ink(image: QImage) -> float:
    """Share of the picture that is not as its upper left corner, at a hundred places a side."""
    paper = image.pixel(2, 2)
    steps = range(1, 100)
    others = sum(
        image.pixel(image.width() * x // 100, image.height() * y // 100) != paper
        for x in steps
        for y in steps
    )
    return others / len(steps) ** 2


def test_a_stop_keeps_what_is_covered(
    qtbot: QtBot, covering: MainWindow, document: Document
) -> None:
    before = covering.panes.strip.drawn
    covering.actions_by_id["stop"].trigger()
    qtbot.waitUntil(lambda: not document.job.is_running, timeout=10_000)
    assert document.first_legs.numbers == {0, 1}
    assert covering.panes.strip.drawn is before
    assert "NOT PLANNED YET" in leg_rows(document)[0].alerts
    notice = document.notices.waiting[-1]
    assert notice.kind is NoticeKind.STOPPED
    assert notice.text == "Legs 1 to 2 are covered; compute again (F5) for the rest."
    assert "2 of 3 legs covered" in covering.findChildren(QLabel, "job_text")[0].text()
    # Other air leaves nothing of them, so that nothing may say they are covered.
    document.set_options(replace(document.project.options, refraction_k=1.2))
    assert document.notices.waiting == ()
    assert "covered" not in covering.findChildren(QLabel, "job_text")[0].text()


def test_what_is_out_of_date_is_said_to_be_computed_meanwhile(
    qtbot: QtBot, planned: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    document.set_options(replace(document.project.options, refraction_k=1.2))
    assert leg_rows(document)[0].alerts[0] == "OUT OF DATE: compute again"
    before = _picture(planned)
    stand_ins.gate.clear()
    planned.actions_by_id["compute"].trigger()
    assert leg_rows(document)[0].alerts[0] == "OUT OF DATE: being computed now"
    model = planned.panes.legs.model()
    assert isinstance(model, LegListModel)
    assert model.rows == leg_rows(document)
    assert _picture(planned) != before
    planned.actions_by_id["stop"].trigger()
    qtbot.waitUntil(lambda: not document.job.is_running, timeout=10_000)
    assert document.notices.waiting[-1].text.startswith("The plan shown is the one before. ")
    assert leg_rows(document)[0].alerts[0] == "OUT OF DATE: compute again"


def test_a_choice_made_meanwhile_leaves_them_other_air_does_not(
    covering: MainWindow, document: Document
) -> None:
    document.set_override(Override(leg_number=1, role="primary", object_id="A"))
    assert document.first_legs.numbers == {0, 1}
    document.set_options(replace(document.project.options, refraction_k=1.2))
    assert document.first_legs.numbers == frozenset()
    assert covering.panes.strip.drawn is None
