"""The window: panes, the strip of tools at the top, and what each action does."""

from collections.abc import Callable
from html import escape
from pathlib import Path

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.paint.palette import Palette
from app.state.document import Document
from app.state.settings import COLUMNS, GEOMETRY, GUIDE, Settings, as_bytes
from app.views.guide_bar import GuideBar
from app.views.job_bar import JobBar
from app.views.notice_bar import NoticeBar
from app.views.standing_bar import StandingBar
from app.views.steps_bar import StepsBar
from app.window.about import AboutDialog, KeysDialog
from app.window.action_table import ACTIONS
from app.window.actions import build_actions, enable_actions
from app.window.file_actions import FileActions
from app.window.help_dialog import HelpDialog
from app.window.light_keys import LIGHT_KEYS, LightKeys
from app.window.lighting import Lighting
from app.window.panes import Panes
from app.window.passage_actions import PassageActions
from app.window.put_light import PutLight
from app.window.revision_actions import RevisionActions
from app.window.sheet_actions import SheetActions
from app.window.strip_actions import StripActions
from app.work.core_jobs import CoreJobs
from app.work.keeping import Keeping
from app.work.plan_job import PlanJob
from core.base.language import tr
from core.words import quantities

CAUTION = tr(
    "Planning aid only. Not a chart, no depths. Charts, rules and the "
    "judgement of master and pilot take precedence."
)
_TOLD_MS = 4000
_MOST_NAME = 32
_APART_PX = 24


class MainWindow(QMainWindow):
    """Shows one document."""

    def __init__(
        self,
        document: Document,
        jobs: CoreJobs,
        settings: Settings,
        keeping: Keeping | None = None,
    ) -> None:
        """Without ``keeping`` nothing is saved by itself."""
        super().__init__()
        self._document = document
        self._settings = settings
        self.job = PlanJob(document, jobs, self)
        keeping = keeping or Keeping(document, None, self)
        self._files = FileActions(self, document, self.job, jobs, settings, keeping)
        self._lighting = Lighting(settings)
        self._light = self._lighting.palette
        self._sheets = SheetActions(
            self,
            document,
            self.job,
            jobs,
            self._files.ask,
            lambda: self._light,
            self._files.handlers()["export_pdf"],
        )
        self.panes = Panes(document, self._light, self)
        self._strip_actions = StripActions(self, document, self.panes)
        self._edits = PassageActions(self, document, self.panes.area)
        self.actions_by_id = build_actions(self, self._handlers())
        self._light_keys = LightKeys((self.actions_by_id[name] for name in LIGHT_KEYS), self)
        self._title = QLabel(self.menuBar())
        self._title.setObjectName("passage_title")
        self._title.setContentsMargins(8, 2, 10, 2)
        self.menuBar().setCornerWidget(self._title)
        self._caution = QLabel(CAUTION, self)
        self._job_bar = JobBar(document, self)
        self._job_bar.stop_asked.connect(self.job.stop)
        self._notice_bar = NoticeBar(document, self)
        self.guide = GuideBar(self)
        self.guide.setVisible(settings.get(GUIDE) == "show")
        self.guide.closed.connect(lambda: self._show_guide(is_shown=False))
        self.setAcceptDrops(True)
        self._build()
        self._connect()
        self.panes.picture.save_asked.connect(self.actions_by_id["save_picture"].trigger)
        self._put_light = PutLight(self, self.panes)
        self._put_light.now(self._light)
        self._restore()
        self._refresh()
        self._refresh_title()

    @property
    def files(self) -> FileActions:
        """Opening, saving and writing."""
        return self._files

    @property
    def light(self) -> Palette:
        """The palette of the window now."""
        return self._light

    def _handlers(self) -> dict[str, Callable[[], None]]:
        document = self._document
        return {
            **self._files.handlers(),
            **self._strip_actions.handlers(),
            **self._edits.handlers(),
            "preview": self._sheets.preview,
            "print": self._sheets.print_sheets,
            "quit": self._quit,
            "compare_offings": self._sheets.compare_offings,
            "compare_seen": self._sheets.compare_seen,
            **RevisionActions(self, document, self._settings).handlers(),
            "compute": self.job.compute,
            "stop": self.job.stop,
            "next_leg": lambda: document.set_leg(document.leg_index + 1),
            "last_leg": lambda: document.set_leg(document.leg_index - 1),
            "undo": document.undo_stack.undo,
            "redo": document.undo_stack.redo,
            "light": lambda: self._change_light(self._lighting.next()),
            "dimmer": lambda: self._change_light(self._lighting.step(-1)),
            "brighter": lambda: self._change_light(self._lighting.step(1)),
            "next_pane": self.panes.focus_next,
            "show_picture": self.panes.show_picture,
            "save_picture": lambda: self._files.save_picture(self.panes.picture.make_file),
            "whole_passage": self.panes.show_passage,
            "this_leg": self.panes.show_leg,
            "coast_scope": self.panes.area.next_scope,
            "dismiss": document.notices.dismiss,
            "guide": lambda: self._show_guide(is_shown=not self.guide.isVisible()),
            "help": self._show_help,
            "keys": self._show_keys,
            "about": self._show_about,
        }

    # Layout

    def _build(self) -> None:
        tools = QWidget(self)
        row = QHBoxLayout(tools)
        row.setContentsMargins(8, 2, 4, 2)
        row.setSpacing(4)
        row.addWidget(StepsBar(self._document, self.actions_by_id, tools))
        for action_row in ACTIONS:
            if action_row.in_strip:
                button = QToolButton(tools)
                button.setDefaultAction(self.actions_by_id[action_row.id])
                row.addWidget(button)
        row.addWidget(self._job_bar, 1)
        middle = QWidget(self)
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(tools)
        column.addWidget(self._notice_bar)
        column.addWidget(StandingBar(self._document, self))
        column.addWidget(self.guide)
        column.addWidget(self.panes, 1)
        self.setCentralWidget(middle)
        caution = self._caution
        caution.setObjectName("caution")
        caution.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        self.statusBar().addPermanentWidget(caution)
        self.statusBar().setSizeGripEnabled(False)
        self.setMinimumSize(1000, 640)

    def _connect(self) -> None:
        document = self._document
        for signal in (
            document.project_changed,
            document.passage_changed,
            document.outcome_changed,
            document.leg_changed,
            document.job.turned,
            document.notices.changed,
            document.undo_stack.indexChanged,
            document.undo_stack.cleanChanged,
        ):
            signal.connect(self._refresh)
        for signal in (document.project_changed, document.passage_changed):
            signal.connect(self._refresh_title)
        document.passage_changed.connect(self._close_guide)
        self.panes.area.place_shown.connect(self.say)
        self.panes.strip.said.connect(self.say)
        # What the pointer was on is of the leg before.
        document.leg_changed.connect(lambda: self.statusBar().clearMessage())
        self.statusBar().messageChanged.connect(self._shorten)

    def _restore(self) -> None:
        geometry = self._settings.get(GEOMETRY)
        if not geometry or not self.restoreGeometry(QByteArray(geometry)):
            self.resize(1366, 768)
        columns = self._settings.get(COLUMNS)
        if columns:
            self.panes.restoreState(QByteArray(columns))

    def _refresh(self) -> None:
        document = self._document
        enable_actions(self.actions_by_id, document)
        stack = document.undo_stack
        for name, text in (("undo", stack.undoText()), ("redo", stack.redoText())):
            self.actions_by_id[name].setText(_step_words(name, text))
        self.setWindowModified(document.is_modified)

    def _refresh_title(self) -> None:
        document = self._document
        passage = document.passage
        words = tr("No passage")
        if passage is not None:
            length_m = sum(passage.line(i).length_m for i in range(len(passage.legs)))
            words = tr(
                "{name}, {distance}", name=passage.name, distance=quantities.distance(length_m)
            )
        if document.is_demo and "INVENTED" not in words:
            words = tr("{passage}  INVENTED, no real place", passage=words)
        self._title.setText(
            f"<b>{escape(words)}</b>&nbsp;&nbsp; {escape(self._file_words(is_short=True))}"
        )
        self._title.setToolTip(self._file_words(is_short=False))
        # The menu bar makes room for its corner only when it is put there.
        self.menuBar().setCornerWidget(self._title)
        self._title.show()
        name = words
        if document.path is not None:
            name = tr("{passage} ({file_name})", passage=words, file_name=document.path.name)
        self.setWindowTitle(
            tr("{name}[*] (read only) - Legsheet", name=name)
            if document.standing.read_only
            else tr("{name}[*] - Legsheet", name=name)
        )

    def _file_words(self, *, is_short: bool) -> str:
        """Into which project file the passage is saved."""
        path = self._document.path
        if path is None:
            return tr("not saved as a project")
        if not is_short:
            return str(path)
        name = path.name
        return name if len(name) <= _MOST_NAME else f"{name[:_MOST_NAME]}…"

    # Light

    def _change_light(self, palette: Palette) -> None:
        self._light = palette
        self._put_light.in_turns(palette)
        self.statusBar().showMessage(self._lighting.words, _TOLD_MS)

    def set_light(self, name: str) -> None:
        """Put everything in the colours of day, dusk or night."""
        self._light = self._lighting.choose(name)
        self._put_light.now(self._light)

    # What actions do

    def choose_object(self) -> None:
        """Let the officer choose an index object for the leg."""
        self._strip_actions.choose_object()

    def say(self, words: str) -> None:
        """Words in the status line."""
        self.statusBar().showMessage(words)

    def _shorten(self, words: str) -> None:
        """As much of a message as stands free of the caution; all of it as the line's tip."""
        bar = self.statusBar()
        room = max(self._caution.x() - _APART_PX, 60)
        short = bar.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, room)
        if short != words:
            bar.showMessage(short)
            bar.setToolTip(words)
        elif not words.endswith("…"):
            bar.setToolTip("")

    def _close_guide(self) -> None:
        """Whoever opens a passage of her own needs the room more than the guide."""
        project = self._document.project
        has_own = project.route is not None or bool(project.route_text)
        if has_own and not self._document.is_demo and self.guide.isVisible():
            self._show_guide(is_shown=False)

    def _show_guide(self, *, is_shown: bool) -> None:
        """Show or close the guide; closed once, it stays away."""
        self.guide.setVisible(is_shown)
        if not is_shown:
            self._settings.put(GUIDE, "seen")

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Files may be dropped anywhere on the window."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Take the files dropped, whatever they are."""
        urls = event.mimeData().urls()
        paths = [Path(url.toLocalFile()) for url in urls if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self._files.intake.drop(paths)

    def _show_help(self) -> None:
        dialog = HelpDialog(self)
        dialog.exec()
        dialog.deleteLater()

    def _show_keys(self) -> None:
        dialog = KeysDialog(self)
        dialog.exec()
        dialog.deleteLater()

    def _show_about(self) -> None:
        dialog = AboutDialog(self)
        dialog.exec()
        dialog.deleteLater()

    def _quit(self) -> None:
        self.close()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved edits, stop what is computed, wait, then close."""
        if not self._files.may_drop_edits():
            event.ignore()
            return
        self._settings.put(GEOMETRY, as_bytes(self.saveGeometry()))
        self._settings.put(COLUMNS, as_bytes(self.panes.saveState()))
        self._settings.flush()
        self.job.close()
        self._files.close()
        self._edits.close_threads()
        self.panes.close_threads()
        event.accept()


def _step_words(name: str, step: str) -> str:
    """What undo or redo would do, as it stands in the menu."""
    if name == "undo":
        return tr("&Undo {step}", step=step) if step else tr("&Undo")
    return tr("&Redo {step}", step=step) if step else tr("&Redo")
