"""The short help in a window of its own: topics left, words right; a word finds its topics."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.window.help_topics import TOPICS, Topic
from core.base.language import tr


class HelpDialog(QDialog):
    """All topics, or those that hold the words looked for."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Short help"))
        self.search = QLineEdit(self)
        self.search.setPlaceholderText(tr("overdue, hatch, dim …"))
        label = QLabel(tr("&Look for"), self)
        label.setBuddy(self.search)
        self.topics = QListWidget(self)
        self.topics.setAccessibleName(tr("Topics"))
        self.topics.setMaximumWidth(260)
        self.page = QTextBrowser(self)
        self.page.setAccessibleName(tr("Help"))
        self.page.setOpenLinks(False)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        left = QVBoxLayout()
        left.addWidget(label)
        left.addWidget(self.search)
        left.addWidget(self.topics, 1)
        both = QHBoxLayout()
        both.addLayout(left)
        both.addWidget(self.page, 1)
        layout = QVBoxLayout(self)
        layout.addLayout(both, 1)
        layout.addWidget(buttons)
        self.search.textChanged.connect(self._fill)
        self.topics.currentItemChanged.connect(self._show)
        SoftCaret(self)
        self.resize(860, 480)
        self._fill("")
        self.topics.setFocus()

    def _fill(self, words: str) -> None:
        """Topics that hold every word typed."""
        wanted = words.casefold().split()
        self.topics.clear()
        for topic in TOPICS:
            text = f"{topic.title} {' '.join(topic.paragraphs)}".casefold()
            if all(word in text for word in wanted):
                item = QListWidgetItem(topic.title)
                item.setData(Qt.ItemDataRole.UserRole, topic)
                self.topics.addItem(item)
        self.topics.setCurrentRow(0)
        if self.topics.count() == 0:
            self.page.setPlainText(tr("No topic holds these words."))

    def _show(self, item: QListWidgetItem | None) -> None:
        topic = None if item is None else item.data(Qt.ItemDataRole.UserRole)
        if isinstance(topic, Topic):
            words = "".join(f"<p>{escape(text)}</p>" for text in topic.paragraphs)
            self.page.setHtml(f"<h3>{escape(topic.title)}</h3>{words}")
