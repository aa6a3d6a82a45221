"""Cells and heads of tables that cannot be read whole, told by Qt's own sizes."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetricsF
from PySide6.QtWidgets import QHeaderView, QStyle, QTableView

_SLACK_PX = 0.01


def cut_cells(table: QTableView) -> list[str]:
    """What is cut: words wider than their column, lines below their row, columns out of sight."""
    found = [*_cut_heads(table.horizontalHeader())]
    model, root = table.model(), table.rootIndex()
    margin = table.style().pixelMetric(QStyle.PixelMetric.PM_FocusFrameHMargin, None, table) + 1
    columns = range(model.columnCount(root))
    across = sum(table.columnWidth(column) for column in columns)
    if across > table.viewport().width():
        found.append(f"{across} px of columns in {table.viewport().width()}")
    for row in range(model.rowCount(root)):
        is_note = table.columnSpan(row, 0) > 1
        if not is_note and table.sizeHintForRow(row) > table.rowHeight(row):
            found.append(f"row {row}: {table.rowHeight(row)} of {table.sizeHintForRow(row)} px")
        for column in columns[:1] if is_note else columns:
            index = model.index(row, column)
            words = str(index.data() or "")
            font = QFont(table.font())
            font.setBold(bool(index.data(Qt.ItemDataRole.FontRole)) and not is_note)
            room = (across if is_note else table.columnWidth(column)) - 2 * margin
            needed = _longest(words, QFontMetricsF(font))
            if needed > room + _SLACK_PX:
                found.append(f"cell «{words}» {room} of {needed:.1f} px")
    return found


def _cut_heads(head: QHeaderView) -> list[str]:
    found = []
    margin = head.style().pixelMetric(QStyle.PixelMetric.PM_HeaderMargin, None, head)
    flags = int(Qt.AlignmentFlag.AlignLeft.value | Qt.TextFlag.TextWordWrap.value)
    for column in range(head.count()):
        title = str(head.model().headerData(column, Qt.Orientation.Horizontal) or "")
        room = QRect(0, 0, head.sectionSize(column) - 2 * margin, head.height())
        needed = head.fontMetrics().boundingRect(room, flags, title)
        if needed.height() > room.height():
            found.append(f"head «{title}» {needed.height()} px high")
        if _longest(title, QFontMetricsF(head.font())) > room.width() + _SLACK_PX:
            found.append(f"head «{title}» {room.width()} px wide")
    return found


def _longest(words: str, metrics: QFontMetricsF) -> float:
    return max((metrics.horizontalAdvance(word) for word in words.split()), default=0.0)
