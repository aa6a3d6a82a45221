"""Puts the window into other colours: at once, or in turns that never hold it up for long."""

from functools import partial

from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from app.base.by_turns import ByTurns
from app.paint.palette import Palette
from app.views.light import EDGED, edged_palette, style_sheet, window_palette
from app.views.sheet_view import SheetView
from app.window.panes import Panes


class PutLight:
    """Colours of the window, its dialogs and tips, and of what the panes draw."""

    def __init__(self, window: QMainWindow, panes: Panes) -> None:
        self._window = window
        self._panes = panes
        self._turns = ByTurns(window)

    def now(self, palette: Palette) -> None:
        """Everything at once, as for a window that is not shown yet."""
        self._turns.finish()
        _colour_application(palette)
        self._style(palette)
        self._panes.set_colours(palette)

    def in_turns(self, palette: Palette) -> None:
        """Panes keep still while Qt changes its style, then come one by one.

        All at once takes twice as long as the window may be deaf.
        """
        parts = self._panes.parts

        def hold() -> None:
            _show(parts, is_shown=False)
            _colour_application(palette)

        self._turns.begin(
            (
                hold,
                partial(self._style, palette),
                partial(self._panes.set_colours, palette),
                partial(self._colour_sheets, palette),
                *(partial(_show, (part,), is_shown=True) for part in parts),
            )
        )

    def _colour_sheets(self, palette: Palette) -> None:
        """Sheets that are being looked at, in a dialog over the window."""
        for view in self._window.findChildren(SheetView):
            view.set_colours(palette)

    def _style(self, palette: Palette) -> None:
        # Dialogs and tips take the window's; for the whole application Qt takes four times as long.
        self._window.setStyleSheet(style_sheet(palette))


def _show(parts: tuple[QWidget, ...], *, is_shown: bool) -> None:
    for part in parts:
        part.setUpdatesEnabled(is_shown)


def _colour_application(palette: Palette) -> None:
    application = QApplication.instance()
    if isinstance(application, QApplication):
        application.setPalette(window_palette(palette))
        edged = edged_palette(palette)
        for name in EDGED:
            application.setPalette(edged, name)  # type: ignore[arg-type]  # the stub says bytes
