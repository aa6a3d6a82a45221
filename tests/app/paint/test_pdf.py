"""The PDF as bytes: the same twice, stamped as asked, grey, whole or not there."""

import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.paint.measure import QtMeasure
from app.paint.pdf import pdf_bytes, stamped_time, write_pdf
from app.paint.qt_setup import load_fonts
from core.base.errors import OutputError
from core.base.progress import Quiet
from core.jobs.check_pictures import check_pictures
from core.sheets.book import make_book
from core.sheets.page import Page
from tests.helpers.sample_outcome import sample_outcome


def _pages() -> tuple[Page, ...]:
    load_fonts()
    pictures = check_pictures(sample_outcome(), Quiet(), size_px=300)
    assert pictures
    return make_book(sample_outcome(), QtMeasure(), pictures)


def _bytes(created_utc: str = "2026-03-13T18:20:00Z", digest: str = "ab" * 32) -> bytes:
    return pdf_bytes(_pages(), title="Test", digest=digest, created_utc=created_utc)


def test_the_same_pages_give_the_same_bytes(qapp: QApplication) -> None:
    assert _bytes() == _bytes()


def test_another_process_gives_the_same_bytes(qapp: QApplication, tmp_path: Path) -> None:
    script = (
        "import sys; from pathlib import Path\n"
        "from app.paint.qt_setup import ensure_gui\n"
        "ensure_gui()\n"
        "from tests.app.paint.test_pdf import _bytes\n"
        "Path(sys.argv[1]).write_bytes(_bytes())\n"
    )
    target = tmp_path / "other.pdf"
    root = Path(__file__).resolve().parents[3]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONHASHSEED": "7"}
    subprocess.run(
        [sys.executable, "-c", script, str(target)], check=True, cwd=root, env=environment
    )
    assert target.read_bytes() == _bytes()


def test_only_the_stamp_differs_between_two_times(
    qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    one, other = _bytes("2026-03-13T18:20:00Z"), _bytes("2027-01-02T03:04:05Z")
    assert len(one) == len(other)
    differing = sum(a != b for a, b in zip(one, other, strict=True))
    assert 0 < differing < 60


def test_the_time_of_writing_is_nowhere_in_the_file(qapp: QApplication) -> None:
    data = _bytes("2001-02-03T04:05:06Z")
    assert data.count(b"D:20010203040506Z") == 2
    assert data.count(b"2001-02-03T04:05:06Z") == 2
    assert b"D:2026" not in data


def test_source_date_epoch_wins_over_the_stamp(monkeypatch: pytest.MonkeyPatch) -> None:
    # 1000000000 is 2001-09-09 01:46:40 UTC (reproducible-builds.org, SOURCE_DATE_EPOCH).
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    assert stamped_time("2026-03-13T18:20:00Z").isoformat() == "2001-09-09T01:46:40+00:00"


def test_the_document_id_follows_the_digest(qapp: QApplication) -> None:
    def identity(data: bytes) -> bytes:
        return data[data.rindex(b"/ID") : data.rindex(b"/ID") + 160]

    assert identity(_bytes()) == identity(_bytes("2027-01-02T03:04:05Z"))
    assert identity(_bytes()) != identity(_bytes(digest="cd" * 32))


def test_an_unwritable_place_is_one_sentence_and_leaves_nothing(
    qapp: QApplication, tmp_path: Path
) -> None:
    target = tmp_path / "no such folder" / "plan.pdf"
    with pytest.raises(OutputError, match=r"plan\.pdf|no such folder"):
        write_pdf(_pages(), target, sample_outcome())
    assert list(tmp_path.iterdir()) == []


def test_the_file_is_written_whole(qapp: QApplication, tmp_path: Path) -> None:
    target = tmp_path / "plan.pdf"
    write_pdf(_pages(), target, sample_outcome())
    data = target.read_bytes()
    assert data.startswith(b"%PDF-1.")
    assert data.rstrip().endswith(b"%%EOF")
    assert [path.name for path in tmp_path.iterdir()] == ["plan.pdf"]


def test_a_document_without_pages_is_a_fault(qapp: QApplication) -> None:
    with pytest.raises(ValueError, match="needs a page"):
        pdf_bytes((), title="x", digest="x", created_utc="2026-03-13T18:20:00Z")


def test_a_title_with_markup_does_not_break_the_metadata(qapp: QApplication) -> None:
    data = pdf_bytes(
        _pages()[:1],
        title="A & B <sound>",
        digest="x",
        created_utc="2026-03-13T18:20:00Z",
    )
    assert b"A &amp; B &lt;sound&gt;" in data


def test_pictures_are_grey_compressed_and_whole(qapp: QApplication) -> None:
    data = _bytes()
    heads = re.findall(rb"/Subtype /Image\n/Width (\d+)\n/Height (\d+)\n(.*?)>>", data, re.S)
    large = [rest for width, height, rest in heads if (width, height) == (b"300", b"300")]
    assert len(large) == 1
    assert b"/DeviceGray" in large[0]
    assert b"/FlateDecode" in large[0]
    assert b"/DCTDecode" not in data


def test_every_outcome_has_its_own_page_count(qapp: QApplication) -> None:
    outcome = sample_outcome()
    short = replace(outcome, plan=replace(outcome.plan, legs=outcome.plan.legs[:1]))
    pages = make_book(short, QtMeasure())
    data = pdf_bytes(
        pages,
        title="x",
        digest="x",
        created_utc="2026-03-13T18:20:00Z",
    )
    assert data.count(b"/Type /Page\n") == len(pages) < len(_pages())
