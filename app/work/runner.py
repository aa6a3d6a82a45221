"""One job at a time off the GUI thread: the newest wins, a stop ends it, results come back."""

import logging
import queue
import threading
from collections.abc import Callable
from contextlib import nullcontext
from dataclasses import dataclass, field
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal

from app.base.collector import much_is_made
from app.base.give_way import give_way
from app.base.throttle import RateGate
from core.base.errors import Cancelled, LegsheetError

log = logging.getLogger(__name__)

_REPORTS_HZ = 20.0
_JOIN_S = 20.0


class JobProgress:
    """Progress of one job: passes on at most 20 reports a second, raises at a stop."""

    def __init__(self, send: Callable[[float, str], None]) -> None:
        self._send = send
        self._stop = threading.Event()
        self._gate = RateGate(_REPORTS_HZ)

    def report(self, fraction: float, text: str = "") -> None:
        """Pass a report on, or end the job.

        Raises
        ------
        Cancelled
            A stop was asked for.
        """
        if self._stop.is_set():
            raise Cancelled
        if self._gate.is_due():
            self._send(fraction, text)

    def stop(self) -> None:
        """Ask for the end of the job at its next report."""
        self._stop.set()

    @property
    def is_stopped(self) -> bool:
        """Whether the end was asked for."""
        return self._stop.is_set()


@dataclass(frozen=True, slots=True)
class _Job:
    number: int
    work: Callable[[JobProgress], Any]
    done: Callable[[Any], None]
    failed: Callable[[LegsheetError], None]
    stopped: Callable[[], None]
    progress: JobProgress = field(compare=False)


@dataclass(frozen=True, slots=True)
class _End:
    """How a job ended: a value, an error for the officer, a stop, or a bug."""

    job: _Job
    value: Any = None
    error: LegsheetError | None = None
    is_cancelled: bool = False
    bug: BaseException | None = None


class Runner(QObject):
    """Runs jobs in one worker thread of its own.

    ``submit`` stops the job before and drops its result. ``done``, ``failed`` and ``stopped``
    are called on the thread of the runner, which must have an event loop. A bug in any job,
    also in one overtaken, is raised there, so that the excepthook sees it.
    """

    progressed = Signal(float, str)
    _reported = Signal(int, float, str)
    _ended = Signal(object)

    def __init__(
        self, name: str, parent: QObject | None = None, *, makes_much: bool = False
    ) -> None:
        """``makes_much``: its jobs make so much that looking for garbage waits for their end."""
        super().__init__(parent)
        self._name = name
        self._makes_much = makes_much
        self._queue: queue.SimpleQueue[_Job | None] = queue.SimpleQueue()
        self._thread: threading.Thread | None = None
        self._newest: _Job | None = None
        self._next: Callable[[], None] | None = None
        self._number = 0
        self._is_closed = False
        self._reported.connect(self._pass_on, Qt.ConnectionType.QueuedConnection)
        self._ended.connect(self._take, Qt.ConnectionType.QueuedConnection)

    @property
    def is_busy(self) -> bool:
        """Whether the newest job has not ended yet, or one waits."""
        return self._newest is not None or self._next is not None

    def submit(
        self,
        work: Callable[[JobProgress], Any],
        *,
        done: Callable[[Any], None],
        failed: Callable[[LegsheetError], None],
        stopped: Callable[[], None] = lambda: None,
    ) -> None:
        """Run a job next; one still running is stopped and its result dropped."""
        if self._is_closed:
            return
        self._next = None
        if self._newest is not None:
            self._newest.progress.stop()
        self._number += 1
        number = self._number
        progress = JobProgress(lambda f, text: self._reported.emit(number, f, text))
        self._newest = _Job(number, work, done, failed, stopped, progress)
        if self._thread is None:
            self._thread = threading.Thread(target=self._loop, name=self._name)
            self._thread.start()
        self._queue.put(self._newest)

    def follow(
        self,
        work: Callable[[JobProgress], Any],
        *,
        done: Callable[[Any], None],
        failed: Callable[[LegsheetError], None],
    ) -> None:
        """Run a job after the one that runs, in place of any that waits.

        For what follows a hand on the mouse: results keep coming while requests do, and those in
        between are dropped.
        """
        if self._newest is None:
            self.submit(work, done=done, failed=failed)
        else:
            self._next = lambda: self.submit(work, done=done, failed=failed)

    def _begin_next(self) -> None:
        if self._newest is None and self._next is not None:
            self._next()

    def stop(self) -> None:
        """Stop the job and what waits; ``stopped`` is called when it has ended."""
        self._next = None
        if self._newest is not None:
            self._newest.progress.stop()

    def close(self) -> None:
        """Stop the job and wait for the thread; nothing is called back afterwards."""
        self._is_closed = True
        self.stop()
        self._newest = None
        if self._thread is not None:
            self._queue.put(None)
            self._thread.join(_JOIN_S)
            if self._thread.is_alive():
                log.error("the worker %s did not end within %g s", self._name, _JOIN_S)
            self._thread = None

    def _loop(self) -> None:
        # All alike: one that holds the interpreter must not wait for a core behind another.
        give_way()
        while (job := self._queue.get()) is not None:
            with much_is_made() if self._makes_much else nullcontext():
                end = self._run(job)
            if not self._is_closed:
                self._ended.emit(end)

    @staticmethod
    def _run(job: _Job) -> _End:
        try:
            if job.progress.is_stopped:
                return _End(job, is_cancelled=True)
            return _End(job, value=job.work(job.progress))
        except Cancelled:
            return _End(job, is_cancelled=True)
        except LegsheetError as exc:
            return _End(job, error=exc)
        except Exception as exc:  # noqa: BLE001 - a bug crosses to the GUI thread and is raised there
            return _End(job, bug=exc)

    def _pass_on(self, number: int, fraction: float, text: str) -> None:
        if self._newest is not None and self._newest.number == number:
            self.progressed.emit(fraction, text)

    def _take(self, end: _End) -> None:
        try:
            self._tell(end)
        finally:
            self._begin_next()

    def _tell(self, end: _End) -> None:
        if self._is_closed:
            return
        is_newest = end.job is self._newest
        if is_newest:
            self._newest = None
        if end.bug is not None:
            if is_newest:
                end.job.stopped()
            raise end.bug
        if not is_newest:
            return
        if end.is_cancelled or end.job.progress.is_stopped:
            end.job.stopped()
        elif end.error is not None:
            end.job.failed(end.error)
        else:
            end.job.done(end.value)
