"""The marks and danger limits of the project, listed; new, changed and taken out by keys."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QTableView,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from app.views.table_model import Row, WordsTable
from app.window.careful_dialog import CarefulDialog
from app.window.limit_dialog import LimitDialog
from app.window.mark_dialog import MarkDialog
from core.base.language import tr
from core.base.units import nm_from_m
from core.files.marks_file import is_place
from core.plan.plan_result import DangerLimit, Mark
from core.words import quantities
from core.words.kept_words import shown

_MARK_HEADS = (tr("Name"), tr("Position"), tr("Kind"), tr("Height"), tr("Stands"), tr("On chart"))
_LIMIT_HEADS = (tr("Off"), tr("Leg"), tr("Not less than"), tr("Not more than"), tr("Note"))
_DECIMALS = 3


def mark_rows(marks: Sequence[Mark]) -> tuple[Row, ...]:
    """Marks in words."""
    return tuple(
        Row(
            cells=(
                mark.name,
                quantities.position(mark.position),
                shown(mark.kind),
                quantities.DASH
                if is_place(mark.kind)
                else quantities.fine_height(mark.height_above_water_m),
                tr("place in the water")
                if is_place(mark.kind)
                else (tr("fixed") if mark.is_fixed else tr("floating")),
                tr("yes") if mark.is_on_chart else tr("no"),
            )
        )
        for mark in marks
    )


def limit_rows(limits: Sequence[DangerLimit]) -> tuple[Row, ...]:
    """Danger limits in words."""
    return tuple(
        Row(
            cells=(
                limit.object_id,
                tr("every leg")
                if limit.leg_number is None
                else tr("leg {leg_number}", leg_number=limit.leg_number),
                *(_miles(value) for value in (limit.least_m, limit.most_m)),
                limit.note,
            )
        )
        for limit in limits
    )


def _miles(value_m: float | None) -> str:
    if value_m is None:
        return quantities.DASH
    text = f"{nm_from_m(value_m):.{_DECIMALS}f}"
    return f"{text.removesuffix('0')} NM"


class _List(QTableView):
    """A list whose Return, Insert and Delete keys are those of the buttons below it."""

    def __init__(self, heads: Sequence[str], name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.words = WordsTable(heads, self)
        self.setModel(self.words)
        self.setAccessibleName(name)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.verticalHeader().hide()
        self.horizontalHeader().setStretchLastSection(True)
        self.new: Callable[[], None] = lambda: None
        self.change: Callable[[], None] = lambda: None
        self.delete: Callable[[], None] = lambda: None
        self.doubleClicked.connect(lambda _index: self._if_open(self.change))

    def show_rows(self, rows: Sequence[Row], number: int) -> None:
        """Show other rows and choose one."""
        self.words.set_rows(rows)
        self.resizeColumnsToContents()
        if rows:
            self.selectRow(min(max(number, 0), len(rows) - 1))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return changes, Insert makes a new one, Delete takes out."""
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._if_open(self.change)
        elif key == Qt.Key.Key_Insert:
            self._if_open(self.new)
        elif key == Qt.Key.Key_Delete:
            self._if_open(self.delete)
        else:
            super().keyPressEvent(event)

    def _if_open(self, do: Callable[[], None]) -> None:
        """Do it, unless the list is there to be looked at alone."""
        if self.editTriggers() != QAbstractItemView.EditTrigger.NoEditTriggers:
            do()


class DrawnDialog(CarefulDialog):
    """Both lists; nothing is changed before they are taken over."""

    def __init__(
        self,
        marks: tuple[Mark, ...],
        limits: tuple[DangerLimit, ...],
        object_names: tuple[str, ...],
        legs: tuple[str, ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Marks and danger limits"))
        self.marks, self.limits = marks, limits
        self._object_names = object_names
        self._legs = legs
        self.mark_list = _List(_MARK_HEADS, tr("Marks"), self)
        self.limit_list = _List(_LIMIT_HEADS, tr("Danger limits"), self)
        self._tabs = QTabWidget(self)
        self._tabs.addTab(
            self._page(self.mark_list, self._new_mark, self._change_mark, self._delete_mark), ""
        )
        self._tabs.addTab(
            self._page(self.limit_list, self._new_limit, self._change_limit, self._delete_limit),
            "",
        )
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.setMinimumHeight(self._trouble.fontMetrics().lineSpacing() * 2)
        buttons = QDialogButtonBox(self)
        for text, role in (
            (tr("Take &over"), QDialogButtonBox.ButtonRole.AcceptRole),
            (tr("&Cancel"), QDialogButtonBox.ButtonRole.RejectRole),
        ):
            buttons.addButton(text, role).setAutoDefault(False)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self._tabs, 1)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        self.resize(860, 420)
        self._show(0, 0)
        self.mark_list.setFocus()

    def _page(
        self,
        view: _List,
        new: Callable[[], None],
        change: Callable[[], None],
        delete: Callable[[], None],
    ) -> QWidget:
        view.new, view.change, view.delete = new, change, delete
        page = QWidget(self)
        row = QHBoxLayout()
        for text, do in ((tr("&New…"), new), (tr("C&hange…"), change), (tr("&Delete"), delete)):
            button = QPushButton(text, page)
            button.setAutoDefault(False)
            button.clicked.connect(lambda _checked, do=do: do())
            row.addWidget(button)
        keys = QLabel(tr("Insert: new. Return: change. Delete: take out."), page)
        row.addWidget(keys, 1)
        layout = QVBoxLayout(page)
        layout.addWidget(view, 1)
        layout.addLayout(row)
        return page

    def _show(self, mark: int, limit: int) -> None:
        self.mark_list.show_rows(mark_rows(self.marks), mark)
        self.limit_list.show_rows(limit_rows(self.limits), limit)
        self._tabs.setTabText(0, tr("&Marks ({count})", count=len(self.marks)))
        self._tabs.setTabText(1, tr("Danger &limits ({count})", count=len(self.limits)))
        self._trouble.setText("")

    def state(self) -> object:
        """Both lists."""
        return self.marks, self.limits

    def _chosen(self, view: _List, count: int) -> int | None:
        row = view.currentIndex().row()
        return row if 0 <= row < count else None

    # Marks

    def _ask_mark(self, mark: Mark | None) -> Mark | None:
        taken = frozenset(m.name.casefold() for m in self.marks if m is not mark)
        dialog = MarkDialog(mark, None, taken, self)
        is_taken = dialog.exec() == QDialog.DialogCode.Accepted
        dialog.deleteLater()
        return dialog.mark if is_taken else None

    def _new_mark(self) -> None:
        mark = self._ask_mark(None)
        if mark is not None:
            self.marks = (*self.marks, mark)
            self._show(len(self.marks) - 1, self.limit_list.currentIndex().row())

    def _change_mark(self) -> None:
        index = self._chosen(self.mark_list, len(self.marks))
        if index is None:
            return
        was = self.marks[index]
        mark = self._ask_mark(was)
        if mark is not None:
            self.marks = (*self.marks[:index], mark, *self.marks[index + 1 :])
            self.limits = tuple(
                replace(limit, object_id=mark.name)
                if limit.object_id.casefold() == was.name.casefold()
                else limit
                for limit in self.limits
            )
            self._show(index, self.limit_list.currentIndex().row())

    def _delete_mark(self) -> None:
        index = self._chosen(self.mark_list, len(self.marks))
        if index is None:
            return
        name = self.marks[index].name
        if any(limit.object_id.casefold() == name.casefold() for limit in self.limits):
            self._trouble.setText(
                tr("«{name}» has a danger limit: take that out first.", name=name)
            )
            return
        self.marks = (*self.marks[:index], *self.marks[index + 1 :])
        self._show(index, self.limit_list.currentIndex().row())

    # Danger limits

    def _ask_limit(self, limit: DangerLimit | None) -> DangerLimit | None:
        taken = frozenset(
            (other.object_id.casefold(), other.leg_number)
            for other in self.limits
            if other is not limit
        )
        names = tuple(dict.fromkeys((*(m.name for m in self.marks), *self._object_names)))
        dialog = LimitDialog(limit, names, self._legs, taken, parent=self)
        is_taken = dialog.exec() == QDialog.DialogCode.Accepted
        dialog.deleteLater()
        return dialog.limit if is_taken else None

    def _new_limit(self) -> None:
        limit = self._ask_limit(None)
        if limit is not None:
            self.limits = (*self.limits, limit)
            self._show(self.mark_list.currentIndex().row(), len(self.limits) - 1)

    def _change_limit(self) -> None:
        index = self._chosen(self.limit_list, len(self.limits))
        if index is None:
            return
        limit = self._ask_limit(self.limits[index])
        if limit is not None:
            self.limits = (*self.limits[:index], limit, *self.limits[index + 1 :])
            self._show(self.mark_list.currentIndex().row(), index)

    def _delete_limit(self) -> None:
        index = self._chosen(self.limit_list, len(self.limits))
        if index is not None:
            self.limits = (*self.limits[:index], *self.limits[index + 1 :])
            self._show(self.mark_list.currentIndex().row(), index)
