"""The files and folders of land a passage uses: looked through, and taken out one by one."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.window.careful_dialog import CarefulDialog
from core.base.language import tr, tr_n
from core.files.land_shelf import Shelf


def place_words(path: Path, shelf: Shelf) -> str:
    """A file or folder, where it stands, and what is in it."""
    name, folder = path.name or str(path), path.parent
    files = [file for file in shelf.below((path,)).files if file.kind != "unusable"]
    if not _is_there(path):
        return tr("{name} in {folder}: NOT THERE NOW", name=name, folder=folder)
    if not files:
        return tr("{name} in {folder}: NO LAND DATA known in it", name=name, folder=folder)
    return tr_n(
        "{name} in {folder}: {count} land file",
        "{name} in {folder}: {count} land files",
        len(files),
        name=name,
        folder=folder,
    )


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:
        return False


class LandPlacesDialog(CarefulDialog):
    """Nothing is taken out before it is taken over."""

    def __init__(self, land: tuple[Path, ...], shelf: Shelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Land in use"))
        about = QLabel(
            tr("Delete takes a file or folder out of this passage; on the disk it stays."), self
        )
        about.setWordWrap(True)
        self.places = QListWidget(self)
        self.places.setWordWrap(True)
        self.places.setAccessibleName(tr("Land in use"))
        for path in land:
            item = QListWidgetItem(place_words(path, shelf))
            item.setData(Qt.ItemDataRole.UserRole, str(path))
            item.setToolTip(str(path))
            self.places.addItem(item)
        self._out = QPushButton(tr("&Take out"), self)
        self._out.setAutoDefault(False)
        self._out.clicked.connect(self.take_out)
        QShortcut(QKeySequence(Qt.Key.Key_Delete), self.places, self.take_out)
        buttons = QDialogButtonBox(self)
        buttons.addButton(tr("Use the &rest"), QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(about)
        layout.addWidget(self.places, 1)
        layout.addWidget(self._out, 0, Qt.AlignmentFlag.AlignLeft)
        layout.addWidget(buttons)
        self.resize(680, 320)
        self.places.setCurrentRow(0)
        self.places.setFocus()

    @property
    def land(self) -> tuple[Path, ...]:
        """The files and folders that stay."""
        items = (self.places.item(row) for row in range(self.places.count()))
        return tuple(Path(str(item.data(Qt.ItemDataRole.UserRole))) for item in items)

    def state(self) -> object:
        """What stays."""
        return self.land

    def take_out(self) -> None:
        """Take the chosen one out."""
        if self.places.currentRow() >= 0:
            self.places.takeItem(self.places.currentRow())
        self._out.setEnabled(self.places.count() > 0)
        self.places.setFocus()
