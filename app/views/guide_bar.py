"""Five lines for whoever opens the window for the first time."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from core.base.language import tr

LINES = (
    tr(
        "The passage open at first is invented, planned so that there is "
        "something to look at. Nothing needs to be set up."
    ),
    tr(
        "The strip is the leg, ship running up the page: Up and Down move "
        "own ship, Ctrl+Down goes to the next leg, F6 to the next pane."
    ),
    tr(
        "Your own passage: 1 Route (Ctrl+O), 2 Land (Ctrl+Shift+L), 3 Ship "
        "(Ctrl+H), 4 Compute (F5). Files can also be dropped on the window."
    ),
    tr(
        "Findings, lower right, say what must be put right and what to "
        "check; Enter goes to the place."
    ),
    tr(
        "Sheets to look at and print: Ctrl+Shift+P. Dark bridge: F8. All "
        "keys: F1. This guide again: Ctrl+F2."
    ),
)


class GuideBar(QFrame):
    """The guide above the panes, until it is closed."""

    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("guide_bar")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        lines = QVBoxLayout()
        lines.setSpacing(1)
        for number, words in enumerate(LINES, start=1):
            line = QLabel(f"{number}   {words}", self)
            line.setTextFormat(Qt.TextFormat.PlainText)
            line.setWordWrap(True)
            lines.addWidget(line)
        close = QPushButton(tr("Close &guide"), self)
        close.clicked.connect(self.closed)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 4)
        layout.addLayout(lines, 1)
        layout.addWidget(close, 0, Qt.AlignmentFlag.AlignTop)
