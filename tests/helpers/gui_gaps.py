"""How long the window was deaf, and how busy the machine was with other things meanwhile."""

import faulthandler
import os
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryFile

from PySide6.QtCore import QEventLoop, QObject, Qt, QTimer
from PySide6.QtWidgets import QApplication

MOST_S = 0.05
"""No gap may be longer (platform rule of the window: never deaf for more than 50 ms)."""
_TICK_MS = 5
_TOLD_S = 0.025
_QUIET_CORES = 0.15
"""So much of a core taken by others is a quiet machine."""
_BUSY_RATIO = 4.0
"""By how much a core taken by others may lengthen gaps: whoever holds the interpreter then waits
for a core too (measured: 165 ms with four to five others at work on two cores)."""


@dataclass(frozen=True, slots=True)
class Gap:
    """A time in which no event was handled."""

    stage: str
    seconds: float
    where: tuple[str, ...]
    """Where the thread of the window was, innermost last; empty where it was waiting."""


def _busy_s() -> float:
    """CPU seconds that all processes of the machine took; not known on every system."""
    try:
        fields = Path("/proc/stat").read_text(encoding="ascii").splitlines()[0].split()[1:]
    except OSError:
        return time.process_time()
    ticks = [int(field) for field in fields]
    # All but idle, waiting for a disk, and guests counted already.
    used = sum(ticks[:8]) - ticks[3] - ticks[4]
    return used / float(os.sysconf("SC_CLK_TCK"))


def _where_is(thread_id: int) -> tuple[str, ...]:
    """What a thread is at, innermost last, as text.

    Frames of another thread must not be held: with them the last hold on a part of the window may
    be let go here, and Qt's objects do not bear to be taken apart off their thread (it crashed).
    """
    with TemporaryFile("w+") as file:
        faulthandler.dump_traceback(file, all_threads=True)
        file.seek(0)
        lines = file.read().splitlines()
    heads = [n for n, line in enumerate(lines) if f"0x{thread_id:016x} " in line]
    found = []
    for line in lines[heads[0] + 1 :] if heads else ():
        if not line.startswith("  File "):
            break
        found.append(line.strip())
    return tuple(reversed(found[:5]))


class GapRecorder(QObject):
    """Counts gaps between the ticks of a timer of 5 ms in the thread of the window."""

    def __init__(self) -> None:
        super().__init__()
        self.gaps: list[Gap] = []
        self.others_cores = 0.0
        self.sleeper_s = 0.0
        """Longest gap of a thread that only sleeps: what the interpreter and the machine did."""
        self._stage = ""
        self._last_s = 0.0
        self._where: tuple[str, ...] | None = None
        self._is_on = False
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(_TICK_MS)
        self._timer.timeout.connect(self._tick)
        self._thread_id = threading.get_ident()

    @contextmanager
    def running(self) -> Iterator["GapRecorder"]:
        """Record until the end of the block."""
        sleeper = threading.Thread(target=self._watch, name="gap-sleeper")
        began_s, busy_s, own_s = time.perf_counter(), _busy_s(), time.process_time()
        self._is_on, self._last_s = True, time.perf_counter()
        self._timer.start()
        sleeper.start()
        try:
            yield self
        finally:
            self._is_on = False
            self._timer.stop()
            sleeper.join()
            spent_s = max(time.perf_counter() - began_s, 1e-3)
            others_s = (_busy_s() - busy_s) - (time.process_time() - own_s)
            self.others_cores = max(others_s / spent_s, 0.0)

    def stage(self, name: str) -> None:
        """What happens from now on."""
        self._stage = name

    @property
    def most_s(self) -> float:
        """The longest gap that is allowed with what others did on the machine."""
        return MOST_S * (1.0 + _BUSY_RATIO * max(self.others_cores - _QUIET_CORES, 0.0))

    def worst(self) -> list[Gap]:
        """Gaps worth telling, the longest first."""
        return sorted(self.gaps, key=lambda gap: -gap.seconds)

    def told(self) -> str:
        """What was recorded, for whoever reads the test's output."""
        lines = [
            f"others took {self.others_cores:.2f} cores; a thread that only sleeps had gaps up to "
            f"{self.sleeper_s * 1000.0:.0f} ms; allowed {self.most_s * 1000.0:.0f} ms"
        ]
        for stage in dict.fromkeys(gap.stage for gap in self.gaps):
            own = [gap.seconds for gap in self.gaps if gap.stage == stage]
            over = sum(seconds > MOST_S for seconds in own)
            lines.append(f"{stage}: {over} over 50 ms, longest {max(own) * 1000.0:.0f} ms")
        for gap in self.worst()[:8]:
            lines.append(f"  {gap.seconds * 1000.0:.0f} ms, {gap.stage}")
            lines += [f"      {place}" for place in gap.where]
        return "\n".join(lines)

    def _tick(self) -> None:
        now_s = time.perf_counter()
        gap_s, self._last_s = now_s - self._last_s, now_s
        if gap_s > _TOLD_S:
            self.gaps.append(Gap(self._stage, gap_s, self._where or ()))
        self._where = None

    def _watch(self) -> None:
        before_s = time.perf_counter()
        while self._is_on:
            time.sleep(_TICK_MS / 1000.0)
            now_s = time.perf_counter()
            self.sleeper_s = max(self.sleeper_s, now_s - before_s)
            before_s = now_s
            if now_s - self._last_s > _TOLD_S and self._where is None:
                self._where = _where_is(self._thread_id)


def spin(seconds: float) -> None:
    """Let the window work for a while."""
    loop = QEventLoop()
    QTimer.singleShot(round(seconds * 1000.0), loop.quit)
    loop.exec()


def spin_until(is_done: Callable[[], bool], *, most_s: float) -> None:
    """Let the window work until something is so.

    Raises
    ------
    TimeoutError
        It is not so after ``most_s``.
    """
    end_s = time.perf_counter() + most_s
    while not is_done():
        if time.perf_counter() > end_s:
            raise TimeoutError(f"not done after {most_s:g} s")
        spin(0.02)


@contextmanager
def dialogs_closed_after(seconds: float) -> Iterator[list[str]]:
    """Put every dialog that opens away after a while, as by Esc; gives their titles."""
    seen: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is not None and not dialog.property("is_met"):
            dialog.setProperty("is_met", True)
            seen.append(dialog.windowTitle())
            QTimer.singleShot(round(seconds * 1000.0), dialog, dialog.close)

    timer = QTimer()
    timer.setInterval(50)
    timer.timeout.connect(look)
    timer.start()
    try:
        yield seen
    finally:
        timer.stop()
