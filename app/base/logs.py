"""The log file: our own records, Qt's messages and what a bug left behind."""

import logging
import sys
from collections.abc import Callable
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QMessageLogContext, QtMsgType, qInstallMessageHandler

from core.base.language import tr

log = logging.getLogger(__name__)

_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}


def _take_qt_message(kind: QtMsgType, _context: QMessageLogContext, text: str) -> None:
    logging.getLogger("qt").log(_LEVELS.get(kind, logging.WARNING), "%s", text)


def start_logging(folder: Path) -> Path | None:
    """Write one rotating log file in a folder, Qt's messages included.

    Returns
    -------
    Path or None
        The log file; None where the folder cannot be written, and then nothing is kept.
    """
    root = logging.getLogger()
    root.setLevel(logging.INFO)
    qInstallMessageHandler(_take_qt_message)
    path = folder / "legsheet.log"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(path, maxBytes=500_000, backupCount=2, encoding="utf-8")
    except OSError:
        root.addHandler(logging.NullHandler())
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    root.addHandler(handler)
    return path


def install_excepthook(tell: Callable[[str], None]) -> None:
    """Send every bug to the log and one sentence about it to ``tell``."""

    def hook(kind: type[BaseException], value: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, value, trace)
            return
        log.critical("a bug", exc_info=(kind, value, trace))
        sys.__excepthook__(kind, value, trace)
        tell(
            tr(
                "This program has a fault ({fault}). The last step may not "
                "have worked. Save the project under another name and start "
                "again; the log file has the details.",
                fault=kind.__name__,
            )
        )

    sys.excepthook = hook
