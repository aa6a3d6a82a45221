"""Widgets with texts as long as another language may make them, and what of them is then cut."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QHeaderView,
    QLabel,
    QPushButton,
    QStyle,
    QTabBar,
    QToolButton,
    QWidget,
)

_GROWTH = 0.3
_FILLER = "ogaverning"


def _longer(text: str) -> str:
    """A text a third longer, in whole letters; its mnemonic stays."""
    if not text.strip() or text.startswith("<"):
        return text
    extra = round(len(text) * _GROWTH) + 1
    return text + (_FILLER * (extra // len(_FILLER) + 1))[:extra]


def lengthen(root: QWidget) -> None:
    """Make every label, button and tab below a widget a third longer."""
    for label in root.findChildren(QLabel):
        if label.pixmap().isNull():
            label.setText(_longer(label.text()))
    for button in root.findChildren(QAbstractButton):
        if button.text():
            button.setText(_longer(button.text()))
    for tabs in root.findChildren(QTabBar):
        for number in range(tabs.count()):
            tabs.setTabText(number, _longer(tabs.tabText(number)))
    for box in root.findChildren(QComboBox):
        for number in range(box.count()):
            box.setItemText(number, _longer(box.itemText(number)))


def cut_texts(root: QWidget) -> list[str]:
    """Texts of visible labels and buttons that do not fit where they stand."""
    found = []
    for label in root.findChildren(QLabel):
        # Words that may be any length are set to be cut, and show whole in a tip.
        is_free = label.sizePolicy().horizontalPolicy() is label.sizePolicy().Policy.Ignored
        if not label.isVisible() or is_free or not label.text():
            continue
        if label.wordWrap():
            needed = label.heightForWidth(label.width())
            if needed > label.height() + 1:
                found.append(f"label «{label.text()[:40]}» {label.height()} of {needed} px high")
        elif label.sizeHint().width() > label.width() + 1:
            found.append(f"label «{label.text()[:40]}» {label.width()} px")
    for button in root.findChildren(QAbstractButton):
        is_worded = isinstance(button, QPushButton | QToolButton) and button.text()
        if not button.isVisible() or not is_worded:
            continue
        words = button.text().replace("&", "")
        needed = button.fontMetrics().size(Qt.TextFlag.TextShowMnemonic, words).width()
        if needed > button.width():
            found.append(f"button «{words}» {button.width()} of {needed} px")
    return found


def cut_heads(root: QWidget) -> list[str]:
    """Heads of columns that do not fit where they stand."""
    found = []
    for head in root.findChildren(QHeaderView):
        if not head.isVisible() or head.orientation() is Qt.Orientation.Vertical:
            continue
        margin = head.style().pixelMetric(QStyle.PixelMetric.PM_HeaderMargin, None, head)
        for number in range(head.count()):
            text = str(head.model().headerData(number, head.orientation()) or "")
            wide, high = head.sectionSize(number) - 2 * margin, head.height()
            needed = head.fontMetrics().size(0, text)
            if head.defaultAlignment().value & Qt.TextFlag.TextWordWrap.value:
                room = QRect(0, 0, wide, 10_000)
                wrapped = head.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, text)
                needed = wrapped.size()
            if head.isSectionHidden(number) or not text:
                continue
            if needed.width() > wide + 1 or needed.height() > high + 1:
                found.append(
                    f"head «{text}» {wide} x {high} of {needed.width()} x {needed.height()} px"
                )
    return found
