"""Makes sure Qt can draw text: an application, also without a screen, and the bundled font."""

import os
import sys

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QFontDatabase, QGuiApplication

from app.base.resources import resource_bytes

FAMILY = "DejaVu Sans"
"""Family of the bundled font, on paper and on screen alike."""

_FONT_FILES = ("fonts/DejaVuSans.ttf", "fonts/DejaVuSans-Bold.ttf", "fonts/DejaVuSansMono.ttf")


def has_screen() -> bool:
    """Whether there is a display to open a window on."""
    if not sys.platform.startswith("linux"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def choose_platform() -> None:
    """Draw off screen where there is no display; to be called before any application is made.

    Qt aborts the process when it finds no display. The ``minimal`` plugin has no text.
    """
    if not has_screen():
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def ensure_gui() -> QGuiApplication:
    """The running application, or a new one good for drawing pages and pictures.

    Raises
    ------
    TypeError
        An application without graphics is running already; text cannot be drawn then.
    """
    running = QCoreApplication.instance()
    if running is None:
        choose_platform()
        running = QGuiApplication(["legsheet"])
    if not isinstance(running, QGuiApplication):
        raise TypeError("a Qt application without graphics is running")
    load_fonts()
    return running


def load_fonts() -> None:
    """Register the bundled fonts once per application."""
    application = QCoreApplication.instance()
    if application is None:
        raise RuntimeError("fonts need a running application")
    if application.property("legsheetFonts"):
        return
    for name in _FONT_FILES:
        if QFontDatabase.addApplicationFontFromData(resource_bytes(name)) < 0:
            raise RuntimeError(f"the bundled font {name} cannot be loaded")
    application.setProperty("legsheetFonts", True)
