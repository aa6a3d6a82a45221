"""Start of the window: application, font, settings, log, first document."""

import os
import sys
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QTimer
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from app.base.collector import all_stays, garbage_on_this_thread
from app.base.logs import install_excepthook, start_logging
from app.paint.qt_setup import FAMILY, choose_platform, has_screen, load_fonts
from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import Settings
from app.window.main_window import MainWindow
from app.window.plugged_jobs import load_parts, real_jobs
from app.work.keeping import Keeping
from core.base.errors import InputError
from core.base.language import tr

_FONT_PT = 9.5
SWITCH_S = 0.0002
"""How long the worker may hold the interpreter while the window waits; the default of 5 ms makes
gaps in painting half as long again (measured on the demo passage)."""


def _folder(kind: QStandardPaths.StandardLocation) -> Path:
    return Path(QStandardPaths.writableLocation(kind))


def make_application() -> QApplication:
    """The application with our style and font.

    Raises
    ------
    InputError
        There is no screen to open a window on.
    """
    if not has_screen() and not os.environ.get("QT_QPA_PLATFORM"):
        raise InputError(
            tr("there is no screen to open a window on"),
            todo=tr("Use «legsheet plan» or «legsheet demo», which need none"),
        )
    choose_platform()
    QApplication.setApplicationName("legsheet")
    application = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(application, QApplication):
        raise TypeError("an application without widgets is running")
    application.setStyle("Fusion")
    load_fonts()
    font = QFont(FAMILY)
    font.setPointSizeF(_FONT_PT)
    application.setFont(font)
    return application


def run_window(file: Path | None) -> int:
    """Open the window on a route, a project, or the demo passage, and run it to its end.

    Returns
    -------
    int
        0 once the window was closed.

    Raises
    ------
    InputError
        There is no screen.
    """
    sys.setswitchinterval(SWITCH_S)
    application = make_application()
    start_logging(_folder(QStandardPaths.StandardLocation.AppLocalDataLocation))
    settings = Settings(_folder(QStandardPaths.StandardLocation.AppConfigLocation) / "settings.ini")
    document = Document()
    install_excepthook(lambda text: document.notices.post(NoticeKind.FAULT, text))
    keeping = Keeping(document, _folder(QStandardPaths.StandardLocation.StateLocation))
    window = MainWindow(document, real_jobs(), settings, keeping)
    window.show()
    window.repaint()
    load_parts()
    all_stays()
    QTimer.singleShot(0, lambda: window.files.begin(file))
    with garbage_on_this_thread():
        return application.exec()
