"""Recovery, recent files, read-only projects and copies, through the window."""

import os
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialogButtonBox, QLabel, QLineEdit, QListWidget
from pytestqt.qtbot import QtBot

from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.state.recent import MOST, Recent
from app.state.settings import OFFICER, Settings
from app.window import safe_actions
from app.window.ask import Ask, Overwrite, overwrite_box
from app.window.copy_dialog import CopyDialog
from app.window.main_window import MainWindow
from app.window.recent_menu import RecentMenu, entry_words
from app.window.recovery_dialog import RecoveryDialog, lost_words
from app.window.safe_actions import is_newer
from app.work.keeping import Keeping
from core.base.errors import OutputError
from core.files.autosave_file import Autosave
from core.files.autosave_folder import OwnAutosave
from core.files.hashing import sha256_of
from core.files.project import Options, Project, read_project, write_project
from tests.helpers.three_islets import ROUTE
from tests.helpers.window_jobs import StandIns

_PROJECT = Project(route_text=ROUTE, route_name="Three islets")
_EDITED = replace(_PROJECT, options=Options(tide_m=1.2, mean_sea_level_m=2.0))


@pytest.fixture
def state(tmp_path: Path) -> Path:
    return tmp_path / "state"


@pytest.fixture
def kept(
    qtbot: QtBot,
    qapp: QApplication,
    document: Document,
    settings: Settings,
    stand_ins: StandIns,
    state: Path,
) -> Iterator[MainWindow]:
    """A window that keeps autosaves."""
    qapp.setStyle("Fusion")
    load_fonts()
    made = MainWindow(document, stand_ins.jobs(), settings, Keeping(document, state))
    made.show()
    yield made
    document.undo_stack.setClean()
    made.close()
    qapp.setStyleSheet("")
    made.deleteLater()


def _save(path: Path | None, project: Project = _EDITED, **more: Any) -> Autosave:
    save = Autosave(
        count=0,
        saved_utc=datetime.now(UTC),
        project=project,
        path=path,
        base_sha256="" if path is None or not path.exists() else sha256_of(path),
        title="Three islets",
        last_edit="change conditions",
    )
    return replace(save, **more)


def _crashed(state: Path, save: Autosave) -> None:
    """What a window that was killed leaves."""
    own = OwnAutosave(state / "autosave")
    own.write(save)
    assert own._lock is not None
    own._lock.release(is_removed=False)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "islets.legsheet"
    write_project(made, _PROJECT)
    return made


def _answers(monkeypatch: pytest.MonkeyPatch, do: Callable[[RecoveryDialog], None]) -> list[str]:
    """Let a function stand in for the officer at the dialog; what was offered."""
    offered: list[str] = []

    def run(dialog: RecoveryDialog) -> int:
        rows = dialog.findChildren(QListWidget)[0]
        offered.extend(rows.item(i).text() for i in range(rows.count()))
        dialog.show()
        do(dialog)
        return dialog.result()

    monkeypatch.setattr(RecoveryDialog, "exec", run)
    return offered


def _press(key: Qt.Key, *held: Qt.KeyboardModifier) -> Callable[[RecoveryDialog], None]:
    modifiers = held[0] if held else Qt.KeyboardModifier.NoModifier

    def press(dialog: RecoveryDialog) -> None:
        dialog.activateWindow()
        QTest.keyClick(dialog.findChildren(QListWidget)[0], key, modifiers)

    return press


_ENTER = _press(Qt.Key.Key_Return)
_ESCAPE = _press(Qt.Key.Key_Escape)


def _button(dialog: RecoveryDialog, words: str) -> None:
    buttons = dialog.findChildren(QDialogButtonBox)[0].buttons()
    next(b for b in buttons if words in b.text()).click()


def test_edits_of_a_killed_window_are_offered_and_open_as_modified(
    qtbot: QtBot,
    kept: MainWindow,
    document: Document,
    state: Path,
    path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    _crashed(state, _save(path))
    (old,) = (one for one in (state / "autosave").iterdir() if one.is_dir())
    offered = _answers(monkeypatch, _ENTER)
    kept.files.begin(None)
    (words,) = offered
    for said in ("Three islets", "UTC, last: change conditions", path.name, str(path.parent)):
        assert said in words
    assert document.project == _EDITED
    assert (document.path, document.is_modified) == (path, True)
    assert kept.isWindowModified()
    assert document.outcome is None
    assert any("Recovered: edits of" in notice.text for notice in document.notices.waiting)
    # Ours stands in place of the old one, and goes with saving.
    files = state / "autosave"
    qtbot.waitUntil(lambda: not old.exists())
    assert list(files.glob("*/[!.]*.autosave"))
    assert kept.files.save()
    qtbot.waitUntil(lambda: list(files.glob("*/[!.]*.autosave")) == [])
    assert read_project(path) == _EDITED


def test_later_keeps_it_for_the_next_start_and_throwing_away_does_not(
    kept: MainWindow,
    document: Document,
    state: Path,
    path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    _crashed(state, _save(path))
    offered = _answers(monkeypatch, _ESCAPE)
    assert not kept.files.safe.recover_at_start()
    assert not kept.files.safe.recover_at_start()
    assert len(offered) == 2
    _answers(monkeypatch, lambda dialog: _button(dialog, "Throw"))
    kept.actions_by_id["recover"].trigger()
    assert document.project == Project()
    kept.actions_by_id["recover"].trigger()
    assert "No window ended" in document.notices.waiting[-1].text
    assert list((state / "autosave").iterdir()) == []


def test_of_several_one_is_taken_and_the_rest_wait(
    kept: MainWindow, document: Document, state: Path, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = datetime.now(UTC)
    _crashed(state, _save(None, replace(_EDITED, route_name="Old"), saved_utc=now - timedelta(1)))
    _crashed(state, _save(path, saved_utc=now))
    offered = _answers(monkeypatch, lambda dialog: _button(dialog, "Recover"))
    assert kept.files.safe.recover_at_start()
    assert path.name in offered[0], "the newest stands first"
    assert "Never saved as a project" in offered[1]
    assert document.project == _EDITED
    offered = _answers(monkeypatch, _ESCAPE)
    kept.actions_by_id["recover"].trigger()
    assert len(offered) == 1


def test_a_damaged_autosave_is_told_and_cannot_be_opened(
    kept: MainWindow, document: Document, state: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _crashed(state, _save(None))
    for file in (state / "autosave").glob("*/[!.]*.autosave"):
        file.write_bytes(file.read_bytes()[:300])
    offered = _answers(monkeypatch, _ENTER)
    assert not kept.files.safe.recover_at_start()
    assert offered == ["Edits that cannot be read any more (the file is damaged)"]
    assert document.project == Project()


def test_only_what_the_file_does_not_hold_is_newer(path: Path, tmp_path: Path) -> None:
    assert is_newer(_save(path))
    assert is_newer(_save(None))
    assert is_newer(_save(tmp_path / "gone.legsheet"))
    assert not is_newer(_save(path, _PROJECT)), "the file says the same"
    early = _save(path, saved_utc=datetime(2020, 1, 1, tzinfo=UTC))
    assert is_newer(early), "made on this very file, whatever the clocks say"
    write_project(path, replace(_PROJECT, route_name="Later"))
    assert not is_newer(early), "saved after it"
    os.utime(path, (1_500_000_000.0, 1_500_000_000.0))
    assert is_newer(early)
    path.write_text("{", encoding="utf-8")
    assert is_newer(early), "better than a project that cannot be read"


def test_words_of_what_was_lost(path: Path, tmp_path: Path) -> None:
    when = datetime(2031, 5, 14, 6, 2, tzinfo=UTC)
    assert lost_words(_save(path, saved_utc=when)) == (
        "Three islets: edits of 2031-05-14 06:02 UTC, last: change conditions\n"
        f"Project {path.name} in {path.parent}, without these edits"
    )
    changed = _save(path)
    write_project(path, _EDITED)
    assert "changed by another window since" in lost_words(changed)
    assert "not there now" in lost_words(_save(tmp_path / "gone.legsheet"))


# Read-only


def _open_as_copy(window: MainWindow, monkeypatch: pytest.MonkeyPatch, target: Path) -> None:
    def run(dialog: CopyDialog) -> int:
        edit = dialog.findChildren(QLineEdit)[0]
        assert not dialog._go_on.isEnabled() or edit.text()
        edit.setText("2/O A. Example")
        dialog._go_on.click()
        return dialog.result()

    monkeypatch.setattr(CopyDialog, "exec", run)
    monkeypatch.setattr(Ask, "target", lambda *_words: target)
    window.actions_by_id["save_copy"].trigger()


def test_a_copy_says_who_made_it_and_is_changed_only_under_another_name(
    qtbot: QtBot,
    kept: MainWindow,
    document: Document,
    settings: Settings,
    path: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    kept.files.open_path(path)
    qtbot.waitUntil(lambda: document.outcome is not None)
    _open_as_copy(kept, monkeypatch, path)
    assert "Give the copy another name" in document.notices.waiting[-1].text
    assert read_project(path).read_only_copy is None
    copy = tmp_path / "for the master.legsheet"
    _open_as_copy(kept, monkeypatch, copy)
    assert settings.get(OFFICER) == "2/O A. Example"
    assert document.path == path, "the project itself stays open"

    kept.files.open_path(copy)
    words = document.standing.sentences[0]
    assert words.startswith(f"READ ONLY. This is a copy of {path.name}, made by 2/O A. Example on ")
    assert "Ctrl+Shift+S" in words
    assert "(read only)" in kept.windowTitle()
    assert kept.findChildren(QLabel, "standing_text")[0].isVisible()
    document.set_options(Options(tide_m=5.0))
    assert document.project == _PROJECT, "nothing is changed"
    assert document.notices.waiting[-1].text == (
        "Change conditions: this project is read-only. To change it, save it as another file "
        "(Ctrl+Shift+S)."
    )
    kept.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: document.outcome is not None)

    monkeypatch.setattr(Ask, "target", lambda *_words: copy)
    assert not kept.files.save(), "a copy is not written over by itself"
    own = tmp_path / "mine.legsheet"
    monkeypatch.setattr(Ask, "target", lambda *_words: own)
    assert kept.files.save()
    assert document.standing.read_only == ""
    assert "(read only)" not in kept.windowTitle()
    assert not document.is_stale, "the plan stays the plan"
    document.set_options(Options(tide_m=5.0))
    assert document.project.options.tide_m == 5.0
    assert read_project(own).read_only_copy is None
    assert read_project(copy).read_only_copy is not None


def test_a_project_that_cannot_be_written_opens_read_only(
    kept: MainWindow, document: Document, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_paths: object) -> None:
        raise OutputError("nothing may be written there", where=str(path))

    monkeypatch.setattr(safe_actions, "check_writable", refuse)
    kept.files.open_path(path)
    assert document.standing.read_only == (
        "islets.legsheet cannot be written where it is: nothing may be written there."
    )


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may write everywhere"
)
def test_a_project_in_a_folder_that_cannot_be_written_opens_read_only(
    kept: MainWindow, document: Document, path: Path
) -> None:
    path.parent.chmod(0o500)
    try:
        kept.files.open_path(path)
    finally:
        path.parent.chmod(0o700)
    assert "cannot be written where it is" in document.standing.read_only


def test_a_project_on_a_read_only_disk_opens_read_only(
    kept: MainWindow, document: Document, tmp_path: Path
) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)]
    if subprocess.run(mount, capture_output=True, check=False).returncode != 0:
        pytest.skip("a small file system cannot be mounted here")
    try:
        write_project(disk / "p.legsheet", _PROJECT)
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        kept.files.open_path(disk / "p.legsheet")
        assert "p.legsheet cannot be written where it is" in document.standing.read_only
    finally:
        subprocess.run(["umount", str(disk)], check=False, capture_output=True)


def test_the_second_window_on_a_project_is_told(
    kept: MainWindow,
    document: Document,
    settings: Settings,
    state: Path,
    path: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    other = Document()
    second = MainWindow(other, StandIns().jobs(), settings, Keeping(other, state))
    second.show()
    try:
        kept.files.open_path(path)
        assert document.standing.read_only == ""
        second.files.open_path(path)
        assert other.standing.read_only == (
            "This project is open in another window, where it can be changed."
        )
        mine = tmp_path / "mine.legsheet"
        monkeypatch.setattr(Ask, "target", lambda *_words: mine)
        assert second.files.save()
        assert other.standing.read_only == ""
        monkeypatch.setattr(Ask, "target", lambda *_words: path)
        assert not second.files.save_as(), "the other window has it open"
        assert "is open in another window" in other.notices.waiting[-1].text
    finally:
        second.close()
        second.deleteLater()


def test_a_file_that_somebody_else_wrote_is_not_written_over_unasked(
    kept: MainWindow, document: Document, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.files.open_path(path)
    document.set_options(Options(tide_m=5.0))
    theirs = replace(_PROJECT, route_name="Theirs")
    write_project(path, theirs)
    asked: list[Path] = []
    answers = iter([Overwrite.STAY, Overwrite.YES])

    def ask(_ask: Ask, of: Path) -> Overwrite:
        asked.append(of)
        return next(answers)

    monkeypatch.setattr(Ask, "overwrite", ask)
    assert not kept.files.save()
    assert read_project(path) == theirs
    assert kept.files.save()
    assert read_project(path).options.tide_m == 5.0
    assert kept.files.save()
    assert asked == [path, path], "our own writing is not somebody else's"


def test_the_question_about_it_defaults_to_doing_nothing(kept: MainWindow, path: Path) -> None:
    box, answers = overwrite_box(kept, path)
    assert answers[box.defaultButton()] is Overwrite.STAY
    assert answers[box.escapeButton()] is Overwrite.STAY
    assert path.name in box.text()
    box.deleteLater()


# An old plan


def test_what_changed_since_the_last_plan_is_told_when_it_is_opened(
    qtbot: QtBot, kept: MainWindow, document: Document, path: Path, tmp_path: Path
) -> None:
    kept.files.open_path(path)
    qtbot.waitUntil(lambda: document.outcome is not None)
    assert kept.files.save()
    last = read_project(path).last_plan
    assert last is not None
    assert document.outcome is not None
    assert last.digest == document.outcome.digest

    kept.files.open_path(path)
    assert document.outcome is None, "an old plan is not made new by itself"
    assert document.standing.is_old
    (words,) = document.standing.sentences
    for said in ("STALE.", "Last plan of ", last.digest[:12], "(F5)"):
        assert said in words
    # The stand-in's plan was made from other files than this project names.
    qtbot.waitUntil(lambda: "no land data is given" in document.standing.sentences[-1])
    kept.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: document.outcome is not None)
    assert document.standing.sentences == ()


def test_what_is_stale_is_told_as_it_is_after_an_edit(
    kept: MainWindow, document: Document, tmp_path: Path
) -> None:
    path = tmp_path / "old.legsheet"
    write_project(path, replace(_PROJECT, options=Options(tide_m=2.5, mean_sea_level_m=2.0)))
    kept.files.open_path(path)
    assert "tide 2.5 m" in document.standing.sentences[0]
    document.set_options(Options(tide_m=2.2, mean_sea_level_m=2.0))
    assert "tide 2.2 m" in document.standing.sentences[0]
    document.set_options(Options())
    assert not document.standing.is_old
    document.undo_stack.undo()
    assert "tide 2.2 m" in document.standing.sentences[0]


# Recent files


def _menu(window: MainWindow) -> RecentMenu:
    menu = window.findChildren(RecentMenu)[0]
    window.actions_by_id["open_recent"].trigger()
    return menu


def test_recent_files_open_by_a_digit_and_missing_ones_are_grey(
    qtbot: QtBot, kept: MainWindow, document: Document, path: Path, tmp_path: Path
) -> None:
    menu = _menu(kept)
    assert [a.text() for a in menu.actions()] == ["No file was opened or saved yet"]
    menu.close()
    gone = tmp_path / "gone & lost.legsheet"
    write_project(gone, _PROJECT)
    kept.files.open_path(gone)
    kept.files.open_path(path)
    gone.unlink()
    menu = _menu(kept)
    qtbot.waitUntil(lambda: not menu.actions()[1].isEnabled())
    first, second = menu.actions()
    assert first.text().startswith("&1  islets.legsheet   in ")
    assert first.text().endswith(tmp_path.name)
    assert second.text().startswith("&2  gone && lost.legsheet")
    assert second.text().endswith("(not there now)")
    document.open_project(Project(), None)
    QTest.keyClick(menu, Qt.Key.Key_1)
    assert document.path == path
    assert not menu.isVisible()


def test_unsaved_edits_are_asked_about_before_a_recent_file_opens(
    kept: MainWindow, document: Document, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.files.open_path(path)
    document.set_options(Options(tide_m=5.0))
    monkeypatch.setattr(type(kept.files), "may_drop_edits", lambda _files: False)
    menu = _menu(kept)
    menu.actions()[0].trigger()
    menu.close()
    assert document.is_modified


def test_nine_are_kept_the_last_one_first_and_none_twice(
    settings: Settings, tmp_path: Path
) -> None:
    recent = Recent(settings)
    for number in (*range(12), 5):
        recent.add(tmp_path / f"{number}.legsheet")
    names = [path.stem for path in recent.paths]
    assert names == ["5", "11", "10", "9", "8", "7", "6", "4", "3"]
    assert len(names) == MOST


def test_long_folders_are_shortened_at_their_start() -> None:
    words = entry_words(3, Path("/a" * 60) / "p.legsheet", is_missing=False)
    assert words.startswith("&3  p.legsheet   in …")
    assert len(words) < 90
