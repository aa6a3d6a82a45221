import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.work.plan_job import PlanJob
from core.base.errors import InputError
from core.files.project import Options
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import DEMO, StandIns


@pytest.fixture
def stand_ins() -> StandIns:
    return StandIns()


@pytest.fixture
def job(document: Document, stand_ins: StandIns) -> Iterator[PlanJob]:
    made = PlanJob(document, stand_ins.jobs())
    yield made
    stand_ins.gate.set()
    made.close()


def _wait_idle(qtbot: QtBot, document: Document) -> None:
    qtbot.waitUntil(lambda: not document.job.is_running)


def test_a_plan_comes_back_to_the_document_from_another_thread(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    with qtbot.waitSignal(job.computed):
        job.compute()
    assert document.outcome is sample_outcome()
    assert not document.is_stale
    assert not document.job.is_running
    assert threading.main_thread().name not in stand_ins.thread_names


def test_a_route_is_shown_before_there_is_a_plan(
    qtbot: QtBot, document: Document, job: PlanJob
) -> None:
    with qtbot.waitSignal(document.passage_changed, check_params_cb=lambda: True):
        document.open_project(DEMO, None)
    qtbot.waitUntil(lambda: document.passage is not None)
    assert document.outcome is None
    assert document.leg_count == 3


def test_legs_are_told_as_they_are_done(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    stand_ins.gate.clear()
    job.compute()
    qtbot.waitUntil(lambda: document.first_legs.numbers == {0, 1})
    assert document.passage is not None
    stand_ins.gate.set()
    _wait_idle(qtbot, document)
    assert document.first_legs.numbers == frozenset()


def test_a_stop_leaves_the_last_plan(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    job.compute()
    _wait_idle(qtbot, document)
    document.set_options(Options(refraction_k=1.2))
    stand_ins.gate.clear()
    job.compute()
    qtbot.waitUntil(lambda: document.job.fraction > 0.0)
    job.stop()
    assert document.job.is_stopping
    _wait_idle(qtbot, document)
    assert document.outcome is sample_outcome()
    assert document.is_stale
    assert stand_ins.planned == 1
    assert [notice.kind for notice in document.notices.waiting] == [NoticeKind.STOPPED]


def test_edits_made_while_a_plan_is_computed_leave_it_out_of_date(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    stand_ins.gate.clear()
    job.compute()
    document.set_options(Options(refraction_k=1.2))
    stand_ins.gate.set()
    _wait_idle(qtbot, document)
    assert document.outcome is not None
    assert document.is_stale


def test_a_user_error_becomes_a_notice_that_the_next_attempt_clears(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    _wait_idle(qtbot, document)
    stand_ins.error = InputError("no land data is given", todo="Add land")
    job.compute()
    _wait_idle(qtbot, document)
    assert [n.text for n in document.notices.waiting] == ["no land data is given. Add land."]
    stand_ins.error = None
    job.compute()
    assert not document.notices.waiting
    _wait_idle(qtbot, document)


def test_a_bug_ends_the_progress_line(
    qtbot: QtBot, document: Document, job: PlanJob, stand_ins: StandIns
) -> None:
    document.open_project(DEMO, None)
    _wait_idle(qtbot, document)
    stand_ins.bug = ZeroDivisionError("planted")
    with qtbot.captureExceptions() as caught:
        job.compute()
        qtbot.waitUntil(lambda: bool(caught))
    assert caught[0][0] is ZeroDivisionError
    assert not document.job.is_running
    assert document.outcome is None


def test_another_route_is_read_anew(qtbot: QtBot, document: Document, job: PlanJob) -> None:
    document.open_project(DEMO, None)
    qtbot.waitUntil(lambda: document.passage is not None)
    document.edit("open route", replace(DEMO, route=Path("other.rtz")))
    assert document.passage is None
    qtbot.waitUntil(lambda: document.passage is not None)
