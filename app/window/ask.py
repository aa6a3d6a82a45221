"""Questions to the officer: files, and unsaved edits; always in the colours of the window."""

from enum import Enum
from pathlib import Path

from PySide6.QtCore import QFileInfo
from PySide6.QtGui import QAbstractFileIconProvider, QIcon
from PySide6.QtWidgets import (
    QAbstractButton,
    QFileDialog,
    QMessageBox,
    QSizePolicy,
    QToolButton,
    QWidget,
)

from app.state.settings import FOLDER, Settings
from app.views.soft_caret import SoftCaret
from core.base.language import tr

_ROUTES = tr("Routes (*.rtz *.rtzp *.gpx *.csv *.geojson *.json);;All files (*)")
_LAND = tr(
    "Land data (*.tif *.tiff *.hgt *.zip *.vrt *.geojson *.json *.shp "
    "*.gpkg *.dt1 *.dt2 *.asc);;All files (*)"
)
_SHIPS = tr("Ship files (*.toml);;All files (*)")
_MARKS = tr("Marks (*.csv *.geojson *.json);;All files (*)")
_LIMITS = tr("Danger limits (*.csv *.json *.toml);;All files (*)")
_STREAMS = tr("Streams by leg (*.csv);;All files (*)")
_CONTINGENCIES = tr("Contingency legs (*.csv);;All files (*)")
_SEEN = tr("First paints seen (*.csv);;All files (*)")
_CLASSES = tr("Kinds of ground (*.tif *.tiff);;All files (*)")
_PROJECTS = tr("Projects (*.legsheet);;All files (*)")

FILTERS = {
    "route": _ROUTES,
    "land": _LAND,
    "ship": _SHIPS,
    "marks": _MARKS,
    "limits": _LIMITS,
    "streams": _STREAMS,
    "contingencies": _CONTINGENCIES,
    "seen": _SEEN,
    "classes": _CLASSES,
    "project": _PROJECTS,
    "pdf": tr("PDF (*.pdf)"),
    "json": tr("JSON (*.json)"),
    "geojson": tr("GeoJSON (*.geojson)"),
    "png": tr("Picture (*.png)"),
    "csv": tr("CSV (*.csv)"),
    "route_out": tr("RTZ route (*.rtz);;GPX route (*.gpx)"),
}


_BUTTONS = {
    "backButton": tr("Back"),
    "forwardButton": "On",
    "toParentButton": "Up",
    "newFolderButton": tr("New folder"),
    "listModeButton": "",
    "detailModeButton": "",
}
"""Words in place of the pictures on the buttons of Qt's file dialog; empty hides the button."""


class _NoIcons(QAbstractFileIconProvider):
    """No pictures of folders: they shine at night and say nothing that words do not."""

    def icon(self, _of: QAbstractFileIconProvider.IconType | QFileInfo) -> QIcon:
        """An empty icon for everything."""
        return QIcon()


class Unsaved(Enum):
    """What to do with edits that are not saved."""

    SAVE = "save"
    DROP = "drop"
    STAY = "stay"


class Overwrite(Enum):
    """What to do with a file that somebody else wrote meanwhile."""

    YES = "yes"
    STAY = "stay"


def overwrite_box(
    parent: QWidget, path: Path
) -> tuple[QMessageBox, dict[QAbstractButton, Overwrite]]:
    """The question about such a file, and what each button answers."""
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Changed by somebody else"))
    box.setText(
        tr(
            "{name} was changed by another window or computer since you opened "
            "it.\nWriting over it drops those changes. Back lets you save under "
            "another name (Ctrl+Shift+S).",
            name=path.name,
        )
    )
    over = box.addButton(tr("&Write over it"), QMessageBox.ButtonRole.DestructiveRole)
    stay = box.addButton(tr("&Back"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(stay)
    box.setEscapeButton(stay)
    return box, {over: Overwrite.YES, stay: Overwrite.STAY}


def unsaved_box(parent: QWidget) -> tuple[QMessageBox, dict[QAbstractButton, Unsaved]]:
    """The question about edits that are not saved, and what each button answers."""
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Edits not saved"))
    box.setText(tr("Inputs or choices of this project are not saved."))
    save = box.addButton(tr("&Save"), QMessageBox.ButtonRole.AcceptRole)
    drop = box.addButton(tr("&Do not save"), QMessageBox.ButtonRole.DestructiveRole)
    stay = box.addButton(tr("&Back"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(save)
    box.setEscapeButton(stay)
    return box, {save: Unsaved.SAVE, drop: Unsaved.DROP, stay: Unsaved.STAY}


class Ask:
    """File dialogs that remember the folder, never native ones: those shine at night."""

    def __init__(self, window: QWidget, settings: Settings) -> None:
        self._window = window
        self._settings = settings
        self._icons = _NoIcons()

    def dialog(self, title: str, kind: str) -> QFileDialog:
        """A file dialog without pictures, in the folder last used."""
        dialog = QFileDialog(self._window, title, self._settings.get(FOLDER))
        dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
        dialog.setIconProvider(self._icons)
        if kind:
            dialog.setNameFilter(FILTERS[kind])
        for name, words in _BUTTONS.items():
            button = dialog.findChild(QToolButton, name)
            if isinstance(button, QToolButton):
                button.setIcon(QIcon())
                button.setText(words)
                button.setVisible(bool(words))
                # Made for pictures, the buttons are too narrow for words.
                button.setMinimumWidth(button.fontMetrics().horizontalAdvance(f"  {words}  "))
                button.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
        sidebar = dialog.findChild(QWidget, "sidebar")
        if isinstance(sidebar, QWidget):
            sidebar.hide()
        SoftCaret(dialog)
        dialog.resize(760, 480)
        return dialog

    def _run(self, dialog: QFileDialog) -> list[Path]:
        accepted = dialog.exec() == QFileDialog.DialogCode.Accepted
        paths = [Path(name) for name in dialog.selectedFiles()] if accepted else []
        if paths:
            folder = paths[0] if dialog.fileMode() == QFileDialog.FileMode.Directory else None
            self._settings.put(FOLDER, str(folder or paths[0].parent))
        dialog.deleteLater()
        return paths

    def file(self, title: str, kind: str) -> Path | None:
        """One file to read."""
        dialog = self.dialog(title, kind)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        paths = self._run(dialog)
        return paths[0] if paths else None

    def files(self, title: str, kind: str) -> list[Path]:
        """Several files to read."""
        dialog = self.dialog(title, kind)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        return self._run(dialog)

    def folder(self, title: str) -> Path | None:
        """A folder to read."""
        dialog = self.dialog(title, "")
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        paths = self._run(dialog)
        return paths[0] if paths else None

    def target(self, title: str, kind: str, name: str, ending: str) -> Path | None:
        """A file to write; asks before one is replaced."""
        dialog = self.dialog(title, kind)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setFileMode(QFileDialog.FileMode.AnyFile)
        dialog.setDefaultSuffix(ending)
        dialog.selectFile(name)
        paths = self._run(dialog)
        return paths[0] if paths else None

    def overwrite(self, path: Path) -> Overwrite:
        """Whether to write over what somebody else wrote."""
        box, answers = overwrite_box(self._window, path)
        box.exec()
        answer = answers.get(box.clickedButton(), Overwrite.STAY)
        box.deleteLater()
        return answer

    def unsaved(self) -> Unsaved:
        """Whether to save edits before they would be lost."""
        box, answers = unsaved_box(self._window)
        box.exec()
        answer = answers.get(box.clickedButton(), Unsaved.STAY)
        box.deleteLater()
        return answer
