"""Guarded reading of files and text."""

import hashlib
import os
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.files.reading import blob_of, decode_text, read_blob


def _text_of_error(path: Path, **limits: int) -> str:
    with pytest.raises(InputError) as caught:
        read_blob(path, **limits)
    return str(caught.value)


def test_a_file_becomes_its_name_bytes_and_hash(tmp_path: Path) -> None:
    path = tmp_path / "a.rtz"
    path.write_bytes(b"abc")
    blob = read_blob(path)
    assert (blob.name, blob.data) == ("a.rtz", b"abc")
    assert blob.sha256 == hashlib.sha256(b"abc").hexdigest()


def test_missing_file(tmp_path: Path) -> None:
    path = tmp_path / "a.rtz"
    assert _text_of_error(path) == f"{path}: there is no such file. Check the name and the folder."


def test_missing_folder(tmp_path: Path) -> None:
    path = tmp_path / "no" / "a.rtz"
    assert _text_of_error(path) == f"{path}: there is no such file. Check the name and the folder."


def test_folder_instead_of_file(tmp_path: Path) -> None:
    assert (
        _text_of_error(tmp_path) == f"{tmp_path}: this is a folder, not a file. Name a file in it."
    )


def test_empty_file(tmp_path: Path) -> None:
    path = tmp_path / "a.rtz"
    path.touch()
    assert _text_of_error(path) == f"{path}: this file is empty. Export or copy it again."


def test_file_over_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "a.rtz"
    path.write_bytes(bytes(1024 * 1024 + 1))
    assert (
        _text_of_error(path, limit_bytes=1024 * 1024)
        == f"{path}: this file is larger than 1 MB. Check that it is the right file."
    )


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    assert _text_of_error(path) == f"{path}: this is not an ordinary file. Name another file."


def test_unreadable_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.rtz"
    path.write_bytes(b"abc")

    def refuse(*_args: object, **_kwargs: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert _text_of_error(path) == f"{path}: this file may not be read. Check who may read it."


def test_a_null_in_the_name_is_one_sentence() -> None:
    assert _text_of_error(Path("a\0b.rtz")).startswith("a?b.rtz: this file cannot be read (")


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-32"], ids=lambda name: name
)
def test_unicode_text_is_decoded_without_a_finding(encoding: str) -> None:
    assert decode_text(blob_of("a.csv", "Säli 12°".encode(encoding))) == ("Säli 12°", ())


def test_other_text_is_windows_1252_with_a_finding_at_its_line() -> None:
    text, findings = decode_text(blob_of("a.csv", "first\nS\u00e4li".encode("cp1252")))
    assert text == "first\nSäli"
    (finding,) = findings
    assert finding.severity is Severity.CHECK
    assert str(finding) == (
        "a.csv, line 2: the text is not UTF-8 and was read as Windows-1252. "
        "Check names with accents."
    )


@pytest.mark.parametrize("data", [b"a\x00b", b"\xff\xfea", b"\x81\x8d", b"\xef\xbb\xbf\xff"])
def test_bytes_that_are_no_text(data: bytes) -> None:
    with pytest.raises(InputError) as caught:
        decode_text(blob_of("a.csv", data))
    assert str(caught.value) == (
        "a.csv: this is not a text file, or its encoding is unknown. Save it as UTF-8 text."
    )


def test_a_picture_is_no_text() -> None:
    with pytest.raises(InputError) as caught:
        decode_text(blob_of("a.csv", b"\x89PNG\r\n\x1a\n"))
    assert str(caught.value) == (
        "a.csv: this is a PNG picture, not a text file. Choose another file."
    )
