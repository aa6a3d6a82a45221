"""Writing whole files or none."""

import errno
import os
import stat
from pathlib import Path

import pytest

from core.base.errors import OutputError
from core.files.writing import (
    atomic_target,
    atomic_targets,
    check_writable,
    remove_left_over,
    write_atomic,
)


def _text_of_error(path: Path) -> str:
    with pytest.raises(OutputError) as caught:
        write_atomic(path, b"new")
    return str(caught.value)


def _only(folder: Path, *names: str) -> bool:
    return sorted(entry.name for entry in folder.iterdir()) == sorted(names)


def test_a_new_file_is_written(tmp_path: Path) -> None:
    write_atomic(tmp_path / "a.pdf", b"new")
    assert (tmp_path / "a.pdf").read_bytes() == b"new"
    assert _only(tmp_path, "a.pdf")


def test_an_old_file_is_replaced_and_keeps_its_mode(tmp_path: Path) -> None:
    target = tmp_path / "a.pdf"
    target.write_bytes(b"old")
    target.chmod(0o640)
    write_atomic(target, b"new")
    assert target.read_bytes() == b"new"
    assert target.stat().st_mode & 0o777 == 0o640


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "a.pdf", tmp_path / "link.pdf"
    target.write_bytes(b"old")
    try:
        link.symlink_to(target)
    except OSError:
        pytest.skip("no symbolic links here")
    write_atomic(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"


def test_the_temporary_path_keeps_the_suffix(tmp_path: Path) -> None:
    with atomic_target(tmp_path / "a.tif") as temporary:
        assert temporary.suffix == ".tif"
        assert temporary.parent == tmp_path
        temporary.write_bytes(b"x")


@pytest.mark.parametrize("stop", [ValueError, KeyboardInterrupt])
def test_a_stop_in_the_middle_leaves_the_old_file_alone(
    tmp_path: Path, stop: type[BaseException]
) -> None:
    target = tmp_path / "a.pdf"
    target.write_bytes(b"old")
    with pytest.raises(stop), atomic_target(target) as temporary:  # noqa: PT012 - the block is the subject
        temporary.write_bytes(b"half")
        temporary.with_name(temporary.name + ".aux.xml").write_bytes(b"beside")
        raise stop
    assert target.read_bytes() == b"old"
    assert _only(tmp_path, "a.pdf")


def test_missing_folder(tmp_path: Path) -> None:
    path = tmp_path / "no" / "a.pdf"
    assert _text_of_error(path) == (
        f"{path}: the folder {path.parent} does not exist. Create it or choose another."
    )


def test_target_is_a_folder(tmp_path: Path) -> None:
    assert _text_of_error(tmp_path) == (
        f"{tmp_path}: this is a folder, not a file. Name a file in it."
    )


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no such device here")
def test_a_device_is_refused_and_not_replaced() -> None:
    assert _text_of_error(Path("/dev/full")) == (
        "/dev/full: this is not an ordinary file. Choose another name."
    )
    assert Path("/dev/full").is_char_device()


def test_write_protected_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "a.pdf"
    target.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda _path, _mode: False)  # root may write anything
    assert _text_of_error(target) == (
        f"{target}: this file is write-protected. Choose another name."
    )
    assert target.read_bytes() == b"old"


@pytest.mark.parametrize(
    ("code", "sentence"),
    [
        (errno.ENOSPC, "the disk is full. Free some space and write again."),
        (errno.EACCES, "nothing may be written there. Choose another folder."),
        (errno.EROFS, "nothing may be written there. Choose another folder."),
        (errno.EIO, "it cannot be written (input/output error). Choose another name or folder."),
    ],
)
def test_what_the_system_refuses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, sentence: str
) -> None:
    target = tmp_path / "a.pdf"
    target.write_bytes(b"old")

    def refuse(_descriptor: int) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync", refuse)
    assert _text_of_error(target) == f"{target}: {sentence}"
    assert target.read_bytes() == b"old"
    assert _only(tmp_path, "a.pdf")


def test_a_limit_set_by_the_system_is_met_for_real(tmp_path: Path) -> None:
    resource = pytest.importorskip("resource")
    target = tmp_path / "a.pdf"
    target.write_bytes(b"old")
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, hard))
    try:
        with pytest.raises(OutputError) as caught:
            write_atomic(target, bytes(5000))
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert str(caught.value).startswith(f"{target}: it cannot be written (file too large)")
    assert target.read_bytes() == b"old"
    assert _only(tmp_path, "a.pdf")


def test_a_name_too_long(tmp_path: Path) -> None:
    path = tmp_path / ("a" * 300 + ".pdf")
    assert _text_of_error(path) == f"{path}: the name is too long. Choose a shorter name."


def test_a_name_with_a_null() -> None:
    assert _text_of_error(Path("a\0b.pdf")) == (
        "a?b.pdf: it cannot be written (its name is not valid). Choose another name or folder."
    )


def test_nothing_written_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(OutputError) as caught, atomic_target(tmp_path / "a.pdf"):
        pass
    assert str(caught.value) == (
        f"{tmp_path / 'a.pdf'}: nothing was written there. Check the folder and write again."
    )


def test_of_several_files_none_is_replaced_when_one_fails(tmp_path: Path) -> None:
    first, second = tmp_path / "a.json", tmp_path / "b.pdf"
    first.write_bytes(b"old")
    with (  # noqa: PT012 - the block is the subject
        pytest.raises(OutputError) as caught,
        atomic_targets((first, second)) as (new_first, new_second),
    ):
        new_first.write_bytes(b"new")
        raise OSError(errno.ENOSPC, "No space left on device", str(new_second))
    assert str(caught.value) == f"{second}: the disk is full. Free some space and write again."
    assert first.read_bytes() == b"old"
    assert _only(tmp_path, "a.json")


def test_several_files_are_replaced_together(tmp_path: Path) -> None:
    paths = (tmp_path / "a.json", tmp_path / "b.pdf")
    paths[0].write_bytes(b"old")
    with atomic_targets(paths) as temporaries:
        for temporary in temporaries:
            temporary.write_bytes(b"new")
        assert paths[0].read_bytes() == b"old"
    assert [path.read_bytes() for path in paths] == [b"new", b"new"]
    assert _only(tmp_path, "a.json", "b.pdf")


def test_looking_beforehand_leaves_no_trace(tmp_path: Path) -> None:
    (tmp_path / "b.pdf").write_bytes(b"old")
    check_writable((tmp_path / "a.json", tmp_path / "b.pdf"))
    assert _only(tmp_path, "b.pdf")
    assert (tmp_path / "b.pdf").read_bytes() == b"old"


def test_one_file_for_two_outputs(tmp_path: Path) -> None:
    with pytest.raises(OutputError) as caught:
        check_writable((tmp_path / "a.json", tmp_path / "." / "a.json"))
    assert str(caught.value) == (
        f"{tmp_path / 'a.json'}: this file is named for two outputs. Name two files."
    )


def test_file_and_folder_reach_the_disk_in_that_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A rename is safe over a power loss once the file, then its folder, were flushed (fsync(2)
    of Linux: «does not necessarily ensure that the entry in the directory ... has also reached
    disk. For that an explicit fsync() on a file descriptor for the directory is also needed»)."""
    target, flushed = tmp_path / "a.pdf", []
    flush = os.fsync

    def watched(handle: int) -> None:
        is_folder = stat.S_ISDIR(os.fstat(handle).st_mode)
        flushed.append(("folder" if is_folder else "file", target.exists()))
        flush(handle)

    monkeypatch.setattr(os, "fsync", watched)
    write_atomic(target, b"new")
    assert flushed == [("file", False), ("folder", True)]


def test_only_old_parts_of_the_same_kind_of_file_are_swept(tmp_path: Path) -> None:
    names = (".part-1.legsheet", ".part-2.legsheet", ".part-3.pdf", "other.legsheet")
    for name in names:
        (tmp_path / name).write_bytes(b"x")
        if name != ".part-2.legsheet":
            os.utime(tmp_path / name, (1.0e9, 1.0e9))
    remove_left_over(tmp_path / "a.legsheet")
    assert _only(tmp_path, *names[1:])
