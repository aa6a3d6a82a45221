"""What this is, with its cautions, and the list of keys."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.views.plan_tables import WordsView
from app.views.table_model import Row
from app.window.action_table import ACTIONS
from core import __version__
from core.base.language import tr
from core.words.messages import CAUTIONS, Say

_PANE_KEYS = (
    (tr("Leg strip"), tr("Up, Down"), tr("Own ship one viewpoint ahead or astern")),
    (tr("Leg strip"), tr("Page Up, Page Down"), tr("Own ship ten viewpoints ahead or astern")),
    (tr("Leg strip"), "Shift+Up, Shift+Down", tr("Own ship one minute ahead or astern")),
    (tr("Leg strip"), tr("Home, End"), tr("Own ship to the start or end of the leg")),
    (
        tr("Leg strip"),
        tr("Left, Right"),
        tr("To the next thing on own ship's level, explained in words"),
    ),
    (tr("Leg strip"), tr("Enter"), tr("Change the line or object pointed at")),
    (tr("Leg strip"), "+, -, 0", tr("Narrower or wider water across the leg, as on the sheet")),
    (
        tr("Leg strip"),
        tr("Mouse"),
        tr("Click or drag: own ship. Drag a line sideways: move it; Esc: not"),
    ),
    (
        tr("Leg strip"),
        tr("Wheel"),
        tr("Own ship ahead or astern; with Ctrl narrower or wider water"),
    ),
    (
        tr("Area"),
        tr("Arrow keys"),
        tr("Move the plan, or the waypoint or cross; with Shift a tenth as far"),
    ),
    (tr("Area"), "+, -", tr("Nearer or farther")),
    (tr("Area"), tr("Page Up, Page Down"), tr("Choose a waypoint, to be moved by the arrow keys")),
    (tr("Area"), tr("Enter, Esc"), tr("Set what was moved or measured; let it go")),
    (tr("Area"), tr("Insert, Shift+Insert"), tr("A waypoint behind the one chosen, or before it")),
    (tr("Area"), tr("Delete"), tr("Take the chosen waypoint out")),
    (tr("Area"), "M", tr("A cross to be moved; Enter measures from there")),
    (
        tr("Area"),
        tr("Menu key"),
        tr("Mark, danger limit, waypoint or measure at the place worked on"),
    ),
    (
        tr("Area"),
        tr("Mouse"),
        tr("Drag a waypoint: move it; Esc: not. Right button: what can be done there"),
    ),
    (tr("Sheets"), tr("Page Up, Page Down"), tr("Turn pages; Home and End to the first and last")),
    (tr("Sheets"), "0, W, 1", tr("All of the page, its width, or as large as it prints")),
    (tr("Sheets"), "+, -", tr("Larger or smaller, as Ctrl with the wheel; arrows scroll")),
    (tr("Waypoint table"), tr("Enter"), tr("Type in the cell")),
    (tr("Waypoint table"), tr("Insert, Shift+Insert"), tr("A row below or above")),
    (tr("Waypoint table"), tr("Delete"), tr("Take the row out")),
    (
        tr("Tables, findings"),
        tr("Enter"),
        tr("Change the index object or limit, or go to the place"),
    ),
    (
        tr("Index table"),
        tr("Letters, figures"),
        tr("Another object for an index line, distance of a margin"),
    ),
)


def _closing(dialog: QDialog) -> QDialogButtonBox:
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, dialog)
    buttons.rejected.connect(dialog.reject)
    return buttons


class AboutDialog(QDialog):
    """Name, version, what it is for and every caution."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("About and cautions"))
        head = QLabel(
            tr(
                "<b>Legsheet {version}</b><br>Plans the use of the radar along a "
                "passage, leg by leg, from open elevation and coast data. Works "
                "without any network.",
                version=__version__,
            ),
            self,
        )
        head.setWordWrap(True)
        cautions = QLabel("\n\n".join(CAUTIONS), self)
        cautions.setTextFormat(Qt.TextFormat.PlainText)
        cautions.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.addWidget(head)
        title = QLabel(f"<b>{Say.CAUTIONS}</b>", self)
        layout.addWidget(title)
        # However long they are in other words or on a small screen, all of them can be read.
        room = QScrollArea(self)
        room.setWidget(cautions)
        room.setWidgetResizable(True)
        room.setAccessibleName(tr("Cautions"))
        layout.addWidget(room, 1)
        layout.addWidget(_closing(self))
        self.resize(640, 560)


class KeysDialog(QDialog):
    """All keys, from the table of actions."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Keys"))
        rows = [(row.menu.value.replace("&", ""), row.shortcut, row.tip) for row in ACTIONS] + list(
            _PANE_KEYS
        )
        table = WordsView(tr("Keys"), (tr("Where"), tr("Key"), tr("What it does")), self)
        table.show_rows(tuple(Row(cells=cells) for cells in rows))
        layout = QVBoxLayout(self)
        layout.addWidget(table)
        layout.addWidget(_closing(self))
        self.resize(680, 560)
