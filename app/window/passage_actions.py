"""Editing by forms: the waypoint table, marks and danger limits, own ship."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QDialog, QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import OF_THE_LINE
from app.views.area_view import AreaView
from app.views.leg_words import numbered_legs
from app.window.drawn_dialog import DrawnDialog
from app.window.limit_dialog import LimitDialog
from app.window.look_only import look_only
from app.window.mark_dialog import MarkDialog
from app.window.waypoint_dialog import WaypointDialog
from app.work.runner import Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.project import Project
from core.geodesy.position import Position
from core.jobs.edit_project import limits_of, marks_of, with_limits, with_marks
from core.jobs.reverse_project import left_out_words, turned_words
from core.plan.plan_result import DangerLimit, Mark
from core.ship.ship import Ship

if TYPE_CHECKING:
    from app.window.ship_dialog import ShipDialog

T = TypeVar("T")
_Drawn = tuple[tuple[Mark, ...], tuple[DangerLimit, ...]]


class PassageActions(QObject):
    """Handlers of what is edited by forms; what they show is read off the GUI thread."""

    def __init__(self, window: QWidget, document: Document, area: AreaView) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self._area = area
        self._runner = Runner("legsheet-forms", self)
        area.mark_asked.connect(self.new_mark)
        area.limit_asked.connect(self.new_limit)
        area.table_asked.connect(self.table)

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {"waypoints": self.waypoints, "drawn": self.drawn, "edit_ship": self.edit_ship}

    def close_threads(self) -> None:
        """Stop what is read in the background."""
        self._runner.close()

    # Waypoints

    def waypoints(self) -> None:
        """Let the officer type in the waypoint table, at the waypoint or leg chosen."""
        chosen = self._area.tools.chosen
        self.table(self._document.leg_index + 1 if chosen is None else chosen)

    def table(self, row: int) -> None:
        """Let the officer type in the waypoint table, at a row."""
        document, line = self._document, self._document.line
        if line is None:
            return
        dialog = WaypointDialog(line, row, self._window)
        look_only(dialog, document)
        is_taken = dialog.exec() == QDialog.DialogCode.Accepted
        edit, is_turned = dialog.edit, dialog.is_turned
        dialog.deleteLater()
        if not is_taken or edit is None or document.line is not line:
            return
        left_out = left_out_words(document.project) if is_turned else ""
        before = document.project
        self._try(
            lambda: document.edit_passage(
                tr("edit waypoints"), lambda _passage: edit, is_turned=is_turned
            )
        )
        if is_turned and document.project != before:
            document.notices.post(NoticeKind.CHECK, turned_words(left_out), about=OF_THE_LINE)

    # Own ship

    def edit_ship(self) -> None:
        """Let the officer edit own ship; what is changed is kept in the project."""
        self._ask_about(_ship_form_of, lambda form: self._edit_ship(*form))

    def _edit_ship(self, make_dialog: "type[ShipDialog]", ship: Ship) -> None:
        dialog = make_dialog(ship, self._window)
        look_only(dialog, self._document)
        is_taken, text = dialog.exec() == QDialog.DialogCode.Accepted, dialog.text
        dialog.deleteLater()
        if is_taken:
            document = self._document
            document.edit(tr("change own ship"), replace(document.project, ship_text=text))

    # Marks and danger limits

    def drawn(self) -> None:
        """List marks and danger limits and take over what is changed of them."""

        def ask(drawn: _Drawn) -> None:
            dialog = DrawnDialog(*drawn, self._object_names(), self._leg_words(), self._window)
            look_only(dialog, self._document)
            is_taken = dialog.exec() == QDialog.DialogCode.Accepted
            marks, limits = dialog.marks, dialog.limits
            dialog.deleteLater()
            if is_taken:
                self._put(tr("edit marks and danger limits"), drawn, (marks, limits))

        self._read(ask)

    def new_mark(self, place: Position) -> None:
        """Ask for a mark at a place."""
        if self._document.refuses(tr("add a mark")):
            return

        def ask(drawn: _Drawn) -> None:
            marks, limits = drawn
            taken = frozenset(mark.name.casefold() for mark in marks)
            dialog = MarkDialog(None, place, taken, self._window)
            is_taken, mark = dialog.exec() == QDialog.DialogCode.Accepted, dialog.mark
            dialog.deleteLater()
            if is_taken and mark is not None:
                self._put(tr("add mark {name}", name=mark.name), drawn, ((*marks, mark), limits))

        self._read(ask)

    def new_limit(self, name: str) -> None:
        """Ask for a danger limit off an object or mark."""
        if self._document.refuses(tr("add a danger limit")):
            return

        def ask(drawn: _Drawn) -> None:
            marks, limits = drawn
            names = tuple(dict.fromkeys((*(m.name for m in marks), *self._object_names())))
            dialog = LimitDialog(
                None,
                names,
                self._leg_words(),
                frozenset((limit.object_id.casefold(), limit.leg_number) for limit in limits),
                object_id=name,
                leg_index=self._document.leg_index,
                parent=self._window,
            )
            is_taken, limit = dialog.exec() == QDialog.DialogCode.Accepted, dialog.limit
            dialog.deleteLater()
            if is_taken and limit is not None:
                self._put(
                    tr("add danger limit off {object_id}", object_id=limit.object_id),
                    drawn,
                    (marks, (*limits, limit)),
                )

        self._read(ask)

    def _read(self, ask: Callable[[_Drawn], None]) -> None:
        self._ask_about(lambda project: (marks_of(project), limits_of(project)), ask)

    def _ask_about(self, read: Callable[[Project], T], ask: Callable[[T], None]) -> None:
        """Read something of the project off the GUI thread, then ask, if it is the same still."""
        project = self._document.project

        def done(found: T) -> None:
            if self._document.project == project:
                ask(found)

        self._runner.submit(lambda _progress: read(project), done=done, failed=self._trouble)

    def _put(self, text: str, before: _Drawn, after: _Drawn) -> None:
        """One step; a file that nothing of was changed stays the file."""

        def put() -> None:
            project = self._document.project
            if after[0] != before[0]:
                project = with_marks(project, after[0])
            if after[1] != before[1]:
                project = with_limits(project, after[1])
            self._document.edit(text, project)

        self._try(put)

    def _object_names(self) -> tuple[str, ...]:
        outcome = self._document.outcome or self._document.outcome_before_edit
        return () if outcome is None else tuple(item.id for item in outcome.plan.objects)

    def _leg_words(self) -> tuple[str, ...]:
        return numbered_legs(self._document.passage)

    def _try(self, do: Callable[[], None]) -> None:
        try:
            do()
        except LegsheetError as exc:
            self._trouble(exc)
        except ValueError as exc:
            self._document.notices.post(NoticeKind.TROUBLE, tr("Not done: {reason}.", reason=exc))

    def _trouble(self, error: LegsheetError) -> None:
        self._document.notices.post(NoticeKind.TROUBLE, str(error))


def _ship_form_of(project: Project) -> tuple["type[ShipDialog]", Ship]:
    """The dialog for own ship, loaded here since radars and presets come with it, and the ship."""
    from app.window.ship_dialog import ShipDialog
    from core.files.ship_file import default_ship, read_ship

    source = project.source_of("ship")
    return ShipDialog, default_ship() if source is None else read_ship(source)[0]
