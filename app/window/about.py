"""What this is, with its cautions, and the list of keys."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QScrollArea,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.window.action_table import ACTIONS
from core import __version__
from core.words.messages import CAUTIONS

_PANE_KEYS = (
    ("Leg strip", "Up, Down", "Own ship one viewpoint ahead or astern"),
    ("Leg strip", "Page Up, Page Down", "Own ship ten viewpoints ahead or astern"),
    ("Leg strip", "Shift+Up, Shift+Down", "Own ship one minute ahead or astern"),
    ("Leg strip", "Home, End", "Own ship to the start or end of the leg"),
    ("Leg strip", "Left, Right", "To the next thing on own ship's level, explained in words"),
    ("Leg strip", "Enter", "Change the line or object pointed at"),
    ("Leg strip", "+, -, 0", "Narrower or wider water across the leg, as on the sheet"),
    ("Leg strip", "Mouse", "Click or drag: own ship. Drag a line sideways: move it; Esc: not"),
    ("Leg strip", "Wheel", "Own ship ahead or astern; with Ctrl narrower or wider water"),
    ("Area", "Arrow keys", "Move the plan, or the waypoint or cross; with Shift a tenth as far"),
    ("Area", "+, -", "Nearer or farther"),
    ("Area", "Page Up, Page Down", "Choose a waypoint, to be moved by the arrow keys"),
    ("Area", "Enter, Esc", "Set what was moved or measured; let it go"),
    ("Area", "Insert, Shift+Insert", "A waypoint behind the one chosen, or before it"),
    ("Area", "Delete", "Take the chosen waypoint out"),
    ("Area", "M", "A cross to be moved; Enter measures from there"),
    ("Area", "Menu key", "Mark, danger limit, waypoint or measure at the place worked on"),
    ("Area", "Mouse", "Drag a waypoint: move it; Esc: not. Right button: what can be done there"),
    ("Waypoint table", "Enter", "Type in the cell"),
    ("Waypoint table", "Insert, Shift+Insert", "A row below or above"),
    ("Waypoint table", "Delete", "Take the row out"),
    ("Tables, findings", "Enter", "Change the index object or limit, or go to the place"),
    ("Index table", "Letters, figures", "Another object for an index line, distance of a margin"),
)


def _closing(dialog: QDialog) -> QDialogButtonBox:
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, dialog)
    buttons.rejected.connect(dialog.reject)
    return buttons


class AboutDialog(QDialog):
    """Name, version, what it is for and every caution."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("About and cautions")
        head = QLabel(
            f"<b>Legsheet {__version__}</b><br>Plans the use of the radar along a passage, leg by "
            "leg, from open elevation and coast data. Works without any network.",
            self,
        )
        head.setWordWrap(True)
        cautions = QLabel("\n\n".join(CAUTIONS), self)
        cautions.setTextFormat(Qt.TextFormat.PlainText)
        cautions.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.addWidget(head)
        title = QLabel("<b>Cautions</b>", self)
        layout.addWidget(title)
        # However long they are in other words or on a small screen, all of them can be read.
        room = QScrollArea(self)
        room.setWidget(cautions)
        room.setWidgetResizable(True)
        room.setAccessibleName("Cautions")
        layout.addWidget(room, 1)
        layout.addWidget(_closing(self))
        self.resize(640, 560)


class KeysDialog(QDialog):
    """All keys, from the table of actions."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        rows = [(row.menu.value.replace("&", ""), row.shortcut, row.tip) for row in ACTIONS] + list(
            _PANE_KEYS
        )
        table = QTableWidget(len(rows), 3, self)
        table.setHorizontalHeaderLabels(["Where", "Key", "What it does"])
        for number, cells in enumerate(rows):
            for column, text in enumerate(cells):
                table.setItem(number, column, QTableWidgetItem(text))
        table.verticalHeader().hide()
        table.setShowGrid(False)
        table.setTabKeyNavigation(False)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        head = table.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        layout = QVBoxLayout(self)
        layout.addWidget(table)
        layout.addWidget(_closing(self))
        self.resize(680, 560)
