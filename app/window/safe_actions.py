"""Nothing is lost and nothing is overwritten: recovery, copies, files that others write."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.recent import Recent
from app.state.settings import Settings
from app.views.stale_words import old_plan_words
from app.window.ask import Ask, Overwrite
from app.window.copy_dialog import CopyDialog
from app.window.recent_menu import RecentMenu
from app.window.recovery_dialog import RecoveryDialog
from app.work.core_jobs import CoreJobs
from app.work.keeping import Keeping
from app.work.runner import Runner
from core.base.errors import InputError, LegsheetError, OutputError
from core.base.language import tr
from core.files.autosave_file import Autosave
from core.files.autosave_folder import LeftBehind
from core.files.copy_mark import CopyMark
from core.files.hashing import sha256_of
from core.files.project import Project, read_project, write_project
from core.files.writing import check_writable
from core.words.old_plan_words import change_list_words, moment_words


class SafeActions:
    """Handlers of recovery, recent files and copies; what opening and saving must ask first."""

    def __init__(
        self,
        window: QWidget,
        document: Document,
        jobs: CoreJobs,
        settings: Settings,
        keeping: Keeping,
        ask: Ask,
        open_asked: Callable[[Path], None],
        may_drop_edits: Callable[[], bool],
    ) -> None:
        self._window = window
        self._document = document
        self._jobs = jobs
        self._settings = settings
        self._keeping = keeping
        self._ask = ask
        self._may_drop_edits = may_drop_edits
        self._recent = Recent(settings)
        self._recent_menu = RecentMenu(self._recent, open_asked, window)
        self._looker = Runner("legsheet-changes", window)
        document.project_changed.connect(self._say_again)

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {
            "open_recent": lambda: self._recent_menu.show_over(self._window),
            "recover": self.recover,
            "save_copy": self.save_copy,
        }

    def close(self) -> None:
        """End all threads; the officer has saved or dropped what there was."""
        self._looker.close()
        self._recent_menu.close_threads()
        self._keeping.close()

    # Opening

    def open_project(self, project: Project, path: Path) -> bool:
        """Open a project that was read; whether there is nothing old in it to look at first."""
        read_only = self._why_read_only(project, path)
        old_plan = old_plan_words(project)
        self._document.open_project(project, path, read_only=read_only, old_plan=old_plan)
        self.opened(path)
        return not old_plan

    def opened(self, path: Path) -> None:
        """A file was opened or saved."""
        self._recent.add(path)

    def _why_read_only(self, project: Project, path: Path) -> str:
        is_ours = self._keeping.take(path)
        mark = project.read_only_copy
        if mark is not None:
            made = {
                "maker": mark.by or tr("an unnamed officer"),
                "when": moment_words(mark.made_utc),
            }
            if mark.of:
                return tr(
                    "This is a copy of {project}, made by {maker} on {when}.",
                    project=mark.of,
                    **made,
                )
            return tr("This is a copy, made by {maker} on {when}.", **made)
        if not is_ours:
            return tr("This project is open in another window, where it can be changed.")
        try:
            check_writable((path,))
        except OutputError as exc:
            return tr(
                "{name} cannot be written where it is: {trouble}.", name=path.name, trouble=exc.what
            )
        return ""

    def _say_again(self) -> None:
        """What of an old plan is to be looked at, as the inputs are now."""
        project, standing = self._document.project, self._document.standing
        self._looker.stop()
        if not standing.is_waiting:
            return
        standing.tell_old_plan(old_plan_words(project))
        last = project.last_plan
        if last is None:
            return

        def tell(words: str) -> None:
            if standing.is_old:
                standing.tell_changes(words)

        self._looker.submit(
            lambda progress: self._jobs.changes_since(project, last, progress),
            done=lambda changes: tell(change_list_words(changes)),
            failed=lambda error: tell(str(error)),
        )

    # Saving

    def may_write(self, path: Path) -> bool:
        """Whether a project may be written there; asks or tells where it may not."""
        document = self._document
        if self._keeping.is_open_elsewhere(path):
            self._tell(
                tr("{name} is open in another window. Save under another name.", name=path.name)
            )
            return False
        if (
            document.standing.read_only
            and document.path is not None
            and _is_same(path, document.path)
        ):
            self._tell(tr("{name} is read-only here. Save under another name.", name=path.name))
            return False
        if self._keeping.is_changed_on_disk(path):
            return self._ask.overwrite(path) is Overwrite.YES
        return True

    def written(self, path: Path) -> None:
        """The project was written there; to be told before the document."""
        self._keeping.take(path)
        self.opened(path)

    def save_copy(self) -> None:
        """Write the project as it stands as a copy that others only look at."""
        document = self._document
        dialog = CopyDialog(self._settings, self._window)
        is_meant = dialog.exec() == CopyDialog.DialogCode.Accepted
        who = dialog.who
        dialog.deleteLater()
        if not is_meant:
            return
        of = "" if document.path is None else document.path.name
        stem = "passage" if document.path is None else document.path.stem
        path = self._ask.target(
            tr("Read-only copy"), "project", tr("{stem}-copy.legsheet", stem=stem), "legsheet"
        )
        if path is None:
            return
        is_own = document.path is not None and _is_same(path, document.path)
        if is_own or self._keeping.is_open_elsewhere(path):
            self._tell(
                tr(
                    "{name} is the project that is open. Give the copy another name.",
                    name=path.name,
                )
            )
            return
        made = f"{datetime.now(UTC):%Y-%m-%dT%H:%M:%SZ}"
        mark = CopyMark(by=who, made_utc=made, of=of)
        try:
            write_project(path, replace(document.project_to_keep, read_only_copy=mark))
        except LegsheetError as exc:
            self._tell(str(exc))
            return
        document.notices.post(NoticeKind.DONE, tr("Read-only copy written: {path}.", path=path))

    # Recovery

    def recover(self) -> None:
        """Offer what is there, or say that there is nothing."""
        left = self._worth_while()
        if not left:
            self._document.notices.post(
                NoticeKind.DONE, tr("No window ended with edits that were not saved.")
            )
        else:
            self._offer(left)

    def recover_at_start(self) -> bool:
        """Offer what is there, if there is; whether something was recovered."""
        left = self._worth_while()
        return bool(left) and self._offer(left)

    def _worth_while(self) -> list[LeftBehind]:
        kept = []
        for one in self._keeping.left_behind():
            if one.save is None or is_newer(one.save):
                kept.append(one)
            else:
                one.throw_away()
        return kept

    def _offer(self, left: list[LeftBehind]) -> bool:
        waiting: list[LeftBehind | None] = list(left)

        def throw_away(index: int) -> None:
            one = waiting[index]
            if one is not None:
                one.throw_away()
                waiting[index] = None

        dialog = RecoveryDialog([one.save for one in left], throw_away, self._window)
        dialog.exec()
        chosen = dialog.chosen
        dialog.deleteLater()
        taken: LeftBehind | None = None
        if chosen is not None and self._may_drop_edits():
            taken, waiting[chosen] = waiting[chosen], None
        for one in waiting:
            if one is not None:
                one.leave()
        if taken is None or taken.save is None:
            return False
        self._open_recovered(taken.save)
        self._keeping.adopt(taken)
        return True

    def _open_recovered(self, save: Autosave) -> None:
        document, path, more = self._document, save.path, ""
        if path is not None:
            project = replace(save.project, read_only_copy=None)
            trouble = self._why_read_only(project, path)
            if trouble:
                path, more = (
                    None,
                    tr("{trouble} Save these edits under another name.", trouble=trouble),
                )
            else:
                self._keeping.take(path, base_sha256=save.base_sha256)
        document.open_project(
            save.project,
            path,
            is_demo=save.is_demo,
            is_recovered=True,
            old_plan=old_plan_words(save.project),
        )
        document.notices.post(
            NoticeKind.CHECK,
            tr(
                "Recovered: edits of {moment}, not saved yet. {what_to_do}",
                moment=moment_words(save.saved_utc.isoformat()),
                what_to_do=more
                or tr("Look at them, save the project (Ctrl+S), then compute the plan (F5)."),
            ),
        )

    def _tell(self, words: str) -> None:
        self._document.notices.post(NoticeKind.TROUBLE, words)


def is_newer(save: Autosave) -> bool:
    """Whether an autosave holds edits that its project file does not."""
    path = save.path
    if path is None or not path.exists():
        return True
    try:
        written = read_project(path)
        if written == save.project:
            return False
        return sha256_of(path) == save.base_sha256 or (
            save.saved_utc.timestamp() > path.stat().st_mtime
        )
    except (InputError, OSError):
        return True


def _is_same(one: Path, other: Path) -> bool:
    return one.resolve() == other.resolve()
