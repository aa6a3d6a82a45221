"""Command line: exit codes, progress on standard error. Qt is imported late, where needed."""

import signal
import sys
import threading
import traceback
from collections.abc import Sequence
from types import FrameType

from app.base.arguments import Arguments, parse
from core.base.errors import Cancelled, LegsheetError
from core.base.language import tr

_BUG = tr("This is a fault in the program, not in your files; the lines above tell where")


class TerminalProgress:
    """Progress on standard error, a line a stage; a stop comes from a signal."""

    def __init__(self, *, is_quiet: bool) -> None:
        self._is_quiet = is_quiet
        self._last = ""
        self._stop = threading.Event()

    def stop(self, _number: int, _frame: FrameType | None) -> None:
        """Ask for a stop; the second one ends at once."""
        if self._stop.is_set():
            raise KeyboardInterrupt
        self._stop.set()

    def report(self, fraction: float, text: str = "") -> None:
        """Print a new stage; raise ``Cancelled`` after a stop."""
        if self._stop.is_set():
            raise Cancelled
        if text and text != self._last and not self._is_quiet:
            self._last = text
            sys.stderr.write(f"{fraction * 100.0:3.0f} %  {text}\n")
            sys.stderr.flush()


def _tell(sentence: str) -> None:
    sys.stderr.write(f"legsheet: {sentence}\n")


def _run(arguments: Arguments, progress: TerminalProgress) -> int:
    if arguments.command == "window":
        from app.start import run_window

        return run_window(arguments.file)
    from app.headless import run_command

    return run_command(arguments, progress)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Returns
    -------
    int
        0 done, 2 input or output unusable (one sentence on standard error), 130 stopped, 1 a bug.
    """
    arguments = parse(sys.argv[1:] if argv is None else argv)
    progress = TerminalProgress(is_quiet=arguments.is_quiet)
    if arguments.command != "window" and threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, progress.stop)
        signal.signal(signal.SIGTERM, progress.stop)
    try:
        return _run(arguments, progress)
    except LegsheetError as exc:
        _tell(str(exc))
        return exc.exit_code
    except (Cancelled, KeyboardInterrupt):
        _tell(tr("stopped, nothing was written"))
        return Cancelled.exit_code
    except MemoryError:
        _tell(tr("not enough memory for this area. Use a smaller radius."))
        return 2
    except Exception:  # noqa: BLE001 - the last door: a bug is told, with what the maker needs
        traceback.print_exc()
        _tell(f"{_BUG}.")
        return 1
