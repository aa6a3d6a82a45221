import logging
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import qInstallMessageHandler, qWarning

from app.base.logs import install_excepthook, start_logging


@pytest.fixture
def logging_restored(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    root = logging.getLogger()
    handlers, level = list(root.handlers), root.level
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    before = qInstallMessageHandler(None)
    yield
    qInstallMessageHandler(before)
    for handler in [h for h in root.handlers if h not in handlers]:
        root.removeHandler(handler)
        handler.close()
    root.setLevel(level)


@pytest.mark.usefixtures("logging_restored")
def test_what_qt_says_and_bugs_go_to_the_log_and_one_sentence_to_the_officer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "__excepthook__", lambda *_args: None)
    path = start_logging(tmp_path / "state")
    assert path is not None
    qWarning("a warning of Qt")
    told: list[str] = []
    install_excepthook(told.append)
    sys.excepthook(KeyError, KeyError("planted"), None)
    text = path.read_text(encoding="utf-8")
    assert "a warning of Qt" in text
    assert "planted" in text
    assert len(told) == 1
    assert "KeyError" in told[0]


@pytest.mark.usefixtures("logging_restored")
def test_a_folder_that_cannot_be_written_keeps_no_log_and_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    assert start_logging(tmp_path / "file") is None
