"""Where a route goes: in place of the one that is open, or into a passage of its own."""

from enum import Enum

from PySide6.QtWidgets import QAbstractButton, QMessageBox, QWidget

from core.base.language import tr


class Where(Enum):
    """What becomes of the passage that is open."""

    IN_PLACE = "in place"
    """The route takes the place of its route; all else stays."""
    ANEW = "anew"
    """It is left as it is saved, and another one begins."""
    NOWHERE = "nowhere"


def same_name_box(parent: QWidget, name: str) -> tuple[QMessageBox, dict[QAbstractButton, Where]]:
    """The question about a route with the name of the open one, and what each button answers."""
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Route of the same name"))
    box.setText(
        tr(
            "The open passage is called {name} too.\nIs this its route as it is now, or another "
            "passage?",
            name=name,
        )
    )
    here = box.addButton(tr("&Put in its place"), QMessageBox.ButtonRole.AcceptRole)
    anew = box.addButton(tr("&New passage"), QMessageBox.ButtonRole.AcceptRole)
    stay = box.addButton(tr("&Back"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(anew)
    box.setEscapeButton(stay)
    return box, {here: Where.IN_PLACE, anew: Where.ANEW, stay: Where.NOWHERE}


def ask_where(parent: QWidget, name: str) -> Where:
    """Let the officer say where a route of the same name goes."""
    box, answers = same_name_box(parent, name)
    box.exec()
    answer = answers.get(box.clickedButton(), Where.NOWHERE)
    box.deleteLater()
    return answer
