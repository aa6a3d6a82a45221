"""Autosaves of the window: when they are written, when they go, what happens on a full disk."""

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.work import keeping as keeping_module
from app.work.keeping import Keeping
from core.base.errors import OutputError
from core.files.autosave_file import Autosave
from core.files.autosave_folder import LeftBehind, OwnAutosave, left_behind
from core.files.project import Options, Project, write_project

_PROJECT = Project(route=Path("/elsewhere/a.rtz"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state"


@pytest.fixture
def keeping(document: Document, folder: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Keeping]:
    monkeypatch.setattr(keeping_module, "WAIT_MS", 60)
    monkeypatch.setattr(keeping_module, "SOON_MS", 60)
    made = Keeping(document, folder)
    yield made
    made.close()


def _edit(document: Document, tide_m: float) -> None:
    document.set_options(Options(tide_m=tide_m))


def _files(folder: Path) -> list[Path]:
    return sorted((folder / "autosave").glob("*/[!.]*.autosave"))


def _as_after_a_crash(keeping: Keeping) -> tuple[LeftBehind, ...]:
    """What the next window finds; the lock is let go as the end of the process does."""
    assert keeping._own is not None
    assert keeping._own._lock is not None
    keeping._own._lock.release(is_removed=False)
    assert keeping._folder is not None
    return left_behind(keeping._folder / "autosave")


def test_an_edit_after_a_calm_is_kept_at_once_and_the_next_ones_together(
    qtbot: QtBot, document: Document, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping_module, "WAIT_MS", 1500)
    monkeypatch.setattr(keeping_module, "SOON_MS", 20)
    written = list[float]()
    write = OwnAutosave.write

    def watched(own: OwnAutosave, save: Autosave) -> None:
        written.append(time.monotonic())
        write(own, save)

    monkeypatch.setattr(OwnAutosave, "write", watched)
    made = Keeping(document, folder)
    document.open_project(_PROJECT, None)
    began = time.monotonic()
    _edit(document, 1.0)
    qtbot.waitUntil(lambda: len(written) == 1)
    assert written[0] - began < 1.0
    for tide_m in (2.0, 3.0, 4.0):
        _edit(document, tide_m)
    qtbot.waitUntil(lambda: len(written) == 2)
    assert written[1] - written[0] > 1.2
    qtbot.wait(100)
    assert len(written) == 2
    made.close()


def test_an_edit_is_kept_some_seconds_later_off_the_gui_thread(
    qtbot: QtBot,
    document: Document,
    keeping: Keeping,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names = []
    write = OwnAutosave.write

    def watched(own: OwnAutosave, save: Autosave) -> None:
        names.append(threading.current_thread().name)
        write(own, save)

    monkeypatch.setattr(OwnAutosave, "write", watched)
    document.open_project(_PROJECT, None)
    assert not folder.exists(), "nothing to lose yet"
    _edit(document, 1.0)
    _edit(document, 2.0)
    assert _files(folder) == []
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)
    qtbot.wait(200)
    assert names == ["legsheet-keep"], "two edits in one go are one autosave"
    (one,) = _as_after_a_crash(keeping)
    assert one.save is not None
    assert one.save.project == document.project
    assert (one.save.path, one.save.last_edit) == (None, "change conditions")
    one.leave()


def test_it_is_kept_at_once_before_a_computation(
    qtbot: QtBot, document: Document, folder: Path
) -> None:
    made = Keeping(document, folder)
    document.open_project(_PROJECT, None)
    _edit(document, 1.0)
    document.job.start("Computing the plan")
    qtbot.waitUntil(lambda: len(_files(folder)) == 1, timeout=2000)
    document.job.end()
    made.close()


def test_saved_undone_or_dropped_edits_leave_nothing(
    qtbot: QtBot, document: Document, keeping: Keeping, folder: Path, tmp_path: Path
) -> None:
    document.open_project(_PROJECT, None)
    _edit(document, 1.0)
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)
    document.saved_as(tmp_path / "a.legsheet")
    qtbot.waitUntil(lambda: _files(folder) == [])
    _edit(document, 2.0)
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)
    document.undo_stack.undo()
    qtbot.waitUntil(lambda: _files(folder) == [])
    _edit(document, 3.0)
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)
    document.open_project(Project(), None)
    qtbot.waitUntil(lambda: _files(folder) == [])


def test_a_window_that_closes_leaves_nothing(
    qtbot: QtBot, document: Document, folder: Path
) -> None:
    made = Keeping(document, folder)
    document.open_project(_PROJECT, None)
    _edit(document, 1.0)
    made.keep_now()
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)
    made.close()
    assert list((folder / "autosave").iterdir()) == []


def test_a_full_disk_is_told_once_and_tried_again(
    qtbot: QtBot, document: Document, keeping: Keeping, monkeypatch: pytest.MonkeyPatch
) -> None:
    tries = []

    def full(_own: OwnAutosave, _save: object) -> None:
        tries.append(1)
        raise OutputError("the disk is full", where="0.autosave", todo="Free some space")

    with monkeypatch.context() as patched:
        patched.setattr(OwnAutosave, "write", full)
        document.open_project(_PROJECT, None)
        _edit(document, 1.0)
        qtbot.waitUntil(lambda: len(tries) >= 3)
    (notice,) = document.notices.waiting
    assert notice.kind is NoticeKind.TROUBLE
    assert notice.text == (
        "No autosave is kept: the disk is full. Save the project yourself (Ctrl+S)."
    )
    assert keeping._folder is not None
    folder = keeping._folder
    qtbot.waitUntil(lambda: len(_files(folder)) == 1)


def test_what_is_recovered_is_kept_anew_before_the_old_is_thrown_away(
    qtbot: QtBot, document: Document, keeping: Keeping, folder: Path
) -> None:
    document.open_project(_PROJECT, None)
    _edit(document, 1.0)
    keeping.keep_now()
    qtbot.waitUntil(lambda: not keeping._runner.is_busy)
    (old,) = _as_after_a_crash(keeping)
    other = Document()
    second = Keeping(other, folder)
    assert old.save is not None
    other.open_project(old.save.project, None, is_recovered=True)
    assert other.is_modified
    second.adopt(old)
    assert old.folder.exists()
    qtbot.waitUntil(lambda: not old.folder.exists())
    assert len(_files(folder)) == 1
    second.close()


def test_a_project_open_in_one_window_is_not_free_for_another(
    document: Document, keeping: Keeping, folder: Path, tmp_path: Path
) -> None:
    path = tmp_path / "a.legsheet"
    write_project(path, _PROJECT)
    assert keeping.take(path)
    document.open_project(_PROJECT, path)
    other = Document()
    second = Keeping(other, folder)
    assert second.is_open_elsewhere(path)
    assert not second.take(path)
    assert keeping.take(path), "our own is ours"
    assert not keeping.is_open_elsewhere(path)
    document.open_project(Project(), None)
    assert not second.is_open_elsewhere(path)
    assert second.take(path)
    second.close()


def test_a_file_written_by_somebody_else_is_noticed(
    document: Document, keeping: Keeping, tmp_path: Path
) -> None:
    path = tmp_path / "a.legsheet"
    write_project(path, _PROJECT)
    keeping.take(path)
    assert not keeping.is_changed_on_disk(path)
    write_project(path, Project())
    assert keeping.is_changed_on_disk(path)
    keeping.take(path)
    assert not keeping.is_changed_on_disk(path)


def test_where_no_state_can_be_kept_work_goes_on(document: Document, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    made = Keeping(document, tmp_path / "file")
    path = tmp_path / "a.legsheet"
    write_project(path, _PROJECT)
    assert made.left_behind() == ()
    assert not made.is_open_elsewhere(path)
    assert made.take(path)
    made.close()
