import threading
from collections.abc import Iterator
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.work.runner import JobProgress, Runner
from core.base.errors import InputError, LegsheetError


class Ears:
    """Hears how jobs end, and on which thread."""

    def __init__(self) -> None:
        self.heard: list[tuple[str, Any]] = []
        self.threads: list[str] = []

    def done(self, value: Any) -> None:
        self._hear("done", value)

    def failed(self, error: LegsheetError) -> None:
        self._hear("failed", str(error))

    def stopped(self) -> None:
        self._hear("stopped", None)

    def _hear(self, how: str, value: Any) -> None:
        self.heard.append((how, value))
        self.threads.append(threading.current_thread().name)


@pytest.fixture
def runner() -> Iterator[Runner]:
    made = Runner("test-worker")
    yield made
    made.close()


def _submit(runner: Runner, ears: Ears, work: Any) -> None:
    runner.submit(work, done=ears.done, failed=ears.failed, stopped=ears.stopped)


def _until_stopped(progress: JobProgress) -> None:
    while True:
        progress.report(0.5, "turning")
        threading.Event().wait(0.002)


def test_work_runs_off_the_gui_thread_and_its_result_comes_back_on_it(
    qtbot: QtBot, runner: Runner
) -> None:
    ears = Ears()
    _submit(runner, ears, lambda _progress: threading.current_thread().name)
    qtbot.waitUntil(lambda: bool(ears.heard))
    assert ears.heard == [("done", "test-worker")]
    assert ears.threads == [threading.main_thread().name]
    assert not runner.is_busy


def test_a_stop_ends_the_job(qtbot: QtBot, runner: Runner) -> None:
    ears = Ears()
    with qtbot.waitSignal(runner.progressed):
        _submit(runner, ears, _until_stopped)
    runner.stop()
    qtbot.waitUntil(lambda: bool(ears.heard))
    assert ears.heard == [("stopped", None)]


def test_the_newest_job_wins(qtbot: QtBot, runner: Runner) -> None:
    first, second = Ears(), Ears()
    _submit(runner, first, _until_stopped)
    _submit(runner, second, lambda _progress: 2)
    qtbot.waitUntil(lambda: bool(second.heard))
    assert second.heard == [("done", 2)]
    assert first.heard == []


def test_a_user_error_is_handed_over_as_one_sentence(qtbot: QtBot, runner: Runner) -> None:
    ears = Ears()

    def work(_progress: JobProgress) -> None:
        raise InputError("the file is empty", where="a.rtz", todo="Open another one")

    _submit(runner, ears, work)
    qtbot.waitUntil(lambda: bool(ears.heard))
    assert ears.heard == [("failed", "a.rtz: the file is empty. Open another one.")]


def test_a_bug_reaches_the_excepthook(qtbot: QtBot, runner: Runner) -> None:
    ears = Ears()
    with qtbot.captureExceptions() as caught:
        _submit(runner, ears, lambda _progress: 1 / 0)
        qtbot.waitUntil(lambda: bool(caught))
    assert caught[0][0] is ZeroDivisionError
    assert ears.heard == [("stopped", None)]


def test_a_bug_in_an_overtaken_job_is_still_raised(qtbot: QtBot, runner: Runner) -> None:
    first, second = Ears(), Ears()
    begun, gate = threading.Event(), threading.Event()

    def work(_progress: JobProgress) -> None:
        begun.set()
        gate.wait(5.0)
        raise KeyError("planted")

    with qtbot.captureExceptions() as caught:
        _submit(runner, first, work)
        assert begun.wait(5.0)
        _submit(runner, second, lambda _progress: 2)
        gate.set()
        qtbot.waitUntil(lambda: bool(second.heard) and bool(caught))
    assert caught[0][0] is KeyError
    assert second.heard == [("done", 2)]
    assert first.heard == []


def test_at_most_twenty_reports_a_second_pass(qtbot: QtBot, runner: Runner) -> None:
    ears, reports = Ears(), []
    runner.progressed.connect(lambda fraction, text: reports.append((fraction, text)))

    def work(progress: JobProgress) -> None:
        for step in range(200):
            progress.report(step / 200, f"step {step}")
            threading.Event().wait(0.001)

    _submit(runner, ears, work)
    qtbot.waitUntil(lambda: bool(ears.heard))
    assert reports[0] == (0.0, "step 0")
    assert 2 <= len(reports) < 60


def test_closing_stops_the_job_and_calls_nobody(qtbot: QtBot, runner: Runner) -> None:
    ears = Ears()
    with qtbot.waitSignal(runner.progressed):
        _submit(runner, ears, _until_stopped)
    runner.close()
    qtbot.wait(20)
    assert ears.heard == []
    _submit(runner, ears, lambda _progress: 1)
    assert not runner.is_busy


def test_what_follows_is_not_stopped_and_only_the_newest_wish_comes_after_it(
    qtbot: QtBot, runner: Runner
) -> None:
    ears, gate, begun = Ears(), threading.Event(), threading.Event()

    def first(_progress: JobProgress) -> str:
        begun.set()
        gate.wait(5.0)
        return "first"

    runner.follow(first, done=ears.done, failed=ears.failed)
    qtbot.waitUntil(begun.is_set)
    ran: list[int] = []
    for number in range(5):

        def later(_progress: JobProgress, number: int = number) -> int:
            ran.append(number)
            return number

        runner.follow(later, done=ears.done, failed=ears.failed)
    assert runner.is_busy
    gate.set()
    qtbot.waitUntil(lambda: not runner.is_busy)
    assert ears.heard == [("done", "first"), ("done", 4)]
    assert ran == [4]


def test_a_failure_does_not_hold_up_what_waits(qtbot: QtBot, runner: Runner) -> None:
    ears, gate = Ears(), threading.Event()

    def first(_progress: JobProgress) -> None:
        gate.wait(5.0)
        raise InputError("no")

    runner.follow(first, done=ears.done, failed=ears.failed)
    runner.follow(lambda _progress: 1, done=ears.done, failed=ears.failed)
    gate.set()
    qtbot.waitUntil(lambda: len(ears.heard) == 2)
    assert [how for how, _value in ears.heard] == ["failed", "done"]


def test_stopping_forgets_what_waits(qtbot: QtBot, runner: Runner) -> None:
    ears = Ears()
    _submit(runner, ears, _until_stopped)
    runner.follow(lambda _progress: 1, done=ears.done, failed=ears.failed)
    runner.stop()
    qtbot.waitUntil(lambda: not runner.is_busy)
    assert ears.heard == [("stopped", None)]
