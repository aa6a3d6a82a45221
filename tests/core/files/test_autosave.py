"""Autosaves: what a killed process, a full disk or a damaged file leaves still opens."""

import errno
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.base.errors import InputError, OutputError
from core.files.autosave_file import Autosave, autosave_bytes, read_autosave
from core.files.autosave_folder import OwnAutosave, left_behind
from core.files.file_lock import HeldLock
from core.files.project import Options, Project
from tests.helpers.killed_saves import edited

ROOT = Path(__file__).resolve().parents[3]
_SAVE = Autosave(
    count=3,
    saved_utc=datetime(2031, 5, 14, 6, 0, tzinfo=UTC),
    project=Project(route=Path("/elsewhere/a.rtz"), options=Options(tide_m=1.2)),
    path=Path("/elsewhere/a.legsheet"),
    base_sha256="0" * 64,
    title="Æquator to Ω",
    last_edit="change conditions",
)


def _own(folder: Path, *numbers: int) -> OwnAutosave:
    own = OwnAutosave(folder)
    for number in numbers:
        own.write(replace(_SAVE, project=edited(Project(), number)))
    return own


def _die(own: OwnAutosave) -> None:
    """What the end of a process does: the lock goes, the files stay."""
    assert own._lock is not None
    own._lock.release(is_removed=False)


def test_an_autosave_comes_back_as_it_was_written(tmp_path: Path) -> None:
    path = tmp_path / "0.autosave"
    path.write_bytes(autosave_bytes(_SAVE, tmp_path))
    assert read_autosave(path) == _SAVE


def _killed(folder: Path, *words: str) -> dict[str, Any]:
    done = subprocess.run(
        [sys.executable, "-m", "tests.helpers.killed_saves", str(folder), *words],
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    assert told["troubles"] == []
    assert told["left_in_state"] == []
    # Otherwise no kill came at a moment that matters.
    assert told["killed_after_a_save"] > 0
    return told


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_after_two_hundred_kills_the_last_autosave_or_better_opens(tmp_path: Path) -> None:
    told = _killed(tmp_path, "200", "6")
    assert told["kills"] == 200
    assert told["killed_while_writing"] > 0


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_after_kills_of_the_windows_own_autosaves_as_well(tmp_path: Path) -> None:
    assert _killed(tmp_path, "60", "6", "window")["kills"] == 60


def test_a_window_that_runs_is_left_alone_and_a_dead_one_is_found_once(tmp_path: Path) -> None:
    own = _own(tmp_path, 1)
    assert left_behind(tmp_path) == ()
    _die(own)
    (one,) = left_behind(tmp_path)
    assert one.save is not None
    assert one.save.project == edited(Project(), 1)
    assert left_behind(tmp_path) == (), "it is being offered already"
    one.leave()
    (again,) = left_behind(tmp_path)
    again.throw_away()
    assert left_behind(tmp_path) == ()
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_left_where_all_was_saved(tmp_path: Path) -> None:
    own = _own(tmp_path, 1, 2)
    own.clear()
    _die(own)
    assert left_behind(tmp_path) == ()
    assert list(tmp_path.iterdir()) == []
    own = _own(tmp_path, 1)
    own.close()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.9, 0.99])
def test_a_truncated_autosave_gives_way_to_the_one_before(tmp_path: Path, share: float) -> None:
    own = _own(tmp_path, 1, 2, 3)
    newest = own._own / "1.autosave"
    data = newest.read_bytes()
    newest.write_bytes(data[: int(len(data) * share)])
    _die(own)
    (one,) = left_behind(tmp_path)
    assert one.save is not None
    assert (one.save.count, one.save.project) == (2, edited(Project(), 2))
    one.throw_away()


def test_blocks_of_nothing_in_a_file_are_noticed(tmp_path: Path) -> None:
    path = tmp_path / "0.autosave"
    good = autosave_bytes(_SAVE, tmp_path)
    path.write_bytes(good.replace(b'\\"tide_m\\": 1.2', b'\\"tide_m\\": 9.9'))
    with pytest.raises(InputError, match="cut short or damaged"):
        read_autosave(path)
    path.write_bytes(good[:200] + b"\0" * (len(good) - 200))
    with pytest.raises(InputError):
        read_autosave(path)


def test_where_none_can_be_read_it_is_told_and_not_hidden(tmp_path: Path) -> None:
    own = _own(tmp_path, 1)
    (own._own / "1.autosave").write_bytes(b"{")
    _die(own)
    (one,) = left_behind(tmp_path)
    assert one.save is None
    one.throw_away()


@given(st.binary(max_size=400), st.integers(0, 2000))
@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_damaged_autosaves_are_refused_in_a_sentence(tmp_path: Path, junk: bytes, at: int) -> None:
    path = tmp_path / "0.autosave"
    good = autosave_bytes(_SAVE, tmp_path)
    path.write_bytes(good[:at] + junk + good[at + len(junk) :])
    try:
        found = read_autosave(path)
    except InputError:
        return
    # The project has a digest; what stands beside it may read differently, never break.
    assert found.project == _SAVE.project


def test_an_autosave_of_a_newer_program_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "0.autosave"
    path.write_bytes(autosave_bytes(_SAVE, tmp_path).replace(b'"version": 1', b'"version": 9', 1))
    with pytest.raises(InputError, match="version 9"):
        read_autosave(path)


def test_a_full_disk_leaves_the_last_autosave(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = _own(tmp_path, 1, 2)

    def full(path: Path, data: bytes) -> int:
        with path.open("wb") as stream:
            stream.write(data[: len(data) // 2])
        raise OSError(errno.ENOSPC, "No space left on device", str(path))

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        with pytest.raises(OutputError, match="the disk is full"):
            own.write(replace(_SAVE, project=edited(Project(), 3)))
    _die(own)
    (one,) = left_behind(tmp_path)
    assert one.save is not None
    assert one.save.project == edited(Project(), 2)
    one.throw_away()


@pytest.fixture
def tiny_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 32 kB, made by root; without the right the tests skip and say so."""
    disk = tmp_path / "disk"
    disk.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=32k", "tmpfs", str(disk)],
        capture_output=True,
        check=False,
    )
    if made.returncode != 0:
        pytest.skip("a small file system cannot be mounted here")
    yield disk
    subprocess.run(["umount", str(disk)], check=False, capture_output=True)


def _fill(path: Path) -> None:
    with path.open("wb", buffering=0) as stream:
        while True:
            stream.write(b"x" * 512)


def test_a_disk_that_is_really_full_leaves_the_last_autosave(tiny_disk: Path) -> None:
    own = _own(tiny_disk, 1, 2)
    filler = tiny_disk / "filler"
    with pytest.raises(OSError, match="No space"):
        _fill(filler)
    with pytest.raises(OutputError):
        own.write(replace(_SAVE, project=edited(Project(), 3)))
    filler.unlink()
    own.write(replace(_SAVE, project=edited(Project(), 4)))
    _die(own)
    (one,) = left_behind(tiny_disk)
    assert one.save is not None
    assert one.save.project == edited(Project(), 4)
    one.throw_away()


def test_a_place_where_nothing_may_be_written_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(OutputError, match="no autosave can be kept there"):
        _own(tmp_path / "file" / "below", 1)


def test_a_lock_is_held_once_and_never_on_a_file_that_is_gone(tmp_path: Path) -> None:
    path = tmp_path / "a.lock"
    first = HeldLock.take(path)
    assert first is not None
    assert HeldLock.take(path) is None
    first.release()
    first.release()
    assert not path.exists()
    second = HeldLock.take(path)
    assert second is not None
    second.release()
