"""The sheets read back by another program: poppler's pdftotext, pdffonts, pdfimages, pdftoppm.

Source: poppler-utils, the readers of Debian 12. What they find in the file is compared with what
was put in; nothing of our own reads it. Each test skips where the reader is not installed.
"""

import re
import shutil
import subprocess
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtWidgets import QApplication

from app.paint.measure import QtMeasure
from app.paint.pdf import write_pdf
from app.paint.qt_setup import load_fonts
from core.sheets.book import make_book
from core.words.messages import CAUTION_SHORT
from tests.helpers.sample_outcome import sample_outcome


def _run(tool: str, *arguments: str) -> str:
    path = shutil.which(tool)
    if path is None:
        pytest.skip(f"{tool} (poppler-utils) is not installed")
    done = subprocess.run([path, *arguments], check=True, capture_output=True, text=True)
    return done.stdout


@lru_cache(maxsize=1)
def _written(folder: str) -> str:
    load_fonts()
    path = Path(folder) / "plan.pdf"
    write_pdf(make_book(sample_outcome(), QtMeasure()), path, sample_outcome())
    return str(path)


@pytest.fixture
def plan_pdf(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> str:
    return _written(str(tmp_path_factory.getbasetemp()))


@lru_cache(maxsize=1)
def _names() -> tuple[str, ...]:
    return tuple(page.name for page in make_book(sample_outcome(), QtMeasure()))


def _number(name: str) -> int:
    return _names().index(name) + 1


def _page_text(path: str, number: int) -> str:
    return _run("pdftotext", "-f", str(number), "-l", str(number), "-layout", path, "-")


def test_there_is_a_front_sheet_one_a4_sheet_a_leg_and_the_set_up_sheets(plan_pdf: str) -> None:
    about = _run("pdfinfo", plan_pdf)
    count = len(_names())
    assert re.search(rf"^Pages: +{count}$", about, re.M)
    assert "A4" in about
    assert "Legsheet: Invented sound, outbound" in about
    for number, name in enumerate(_names(), start=1):
        text = _page_text(plan_pdf, number)
        assert f"Page {number} of {count}" in text
        if name.startswith("Leg "):
            assert name in text
    assert [name for name in _names() if name.startswith("Leg ")] == [
        "Leg 1 of 3",
        "Leg 2 of 3",
        "Leg 3 of 3",
    ]
    for title in ("Passage sheet", "Setting up the radar"):
        assert title in _names()


def test_index_numbers_and_sides_are_found_by_search(plan_pdf: str) -> None:
    text = _page_text(plan_pdf, _number("Leg 1 of 3"))
    for words in (
        "Leg 1 of 3",
        "Outer buoy to Islet turn",
        "000° T",
        "STARBOARD",
        "1.20",
        "0.90",
        "0500–0526",
        "0.57 NM before Islet turn",
        "TO STARBOARD new course 060° T",
        "060/240",
        "In sight, geometry only",
        "from UTC",
    ):
        assert words in text, words


def test_cautions_stand_on_every_sheet(plan_pdf: str) -> None:
    for number in range(1, len(_names()) + 1):
        text = " ".join(_page_text(plan_pdf, number).split())
        assert CAUTION_SHORT in text


def test_a_gap_is_found_by_its_words(plan_pdf: str) -> None:
    text = _page_text(plan_pdf, _number("Leg 3 of 3"))
    assert "no data" in text
    assert "INCOMPLETE" in text
    assert "NO INDEX LINE ON THIS LEG" in text


def test_the_bundled_font_is_embedded_with_its_letters(plan_pdf: str) -> None:
    rows = _run("pdffonts", plan_pdf).splitlines()[2:]
    assert rows
    for row in rows:
        assert "DejaVuSans" in row
        embedded, _subset, unicode = row.split()[-5:-2]
        assert (embedded, unicode) == ("yes", "yes")


def test_there_are_no_pictures_only_lines(plan_pdf: str) -> None:
    assert _run("pdfimages", "-list", plan_pdf).splitlines()[2:] == []


def _colours(path: str, folder: Path, *arguments: str) -> NDArray[np.uint8]:
    """Red, green and blue of one page, from the plain PPM that pdftoppm writes."""
    stem = folder / "page"
    page = str(_number("Leg 2 of 3"))
    _run("pdftoppm", "-r", "60", "-f", page, "-l", page, *arguments, path, str(stem))
    data = next(iter(folder.glob("page*"))).read_bytes()
    _kind, size, _depth, pixels = data.split(b"\n", 3)
    width, height = (int(part) for part in size.split())
    return np.frombuffer(pixels, dtype=np.uint8).reshape(height, width, 3)


def test_nothing_on_a_sheet_is_coloured(plan_pdf: str, tmp_path: Path) -> None:
    colours = _colours(plan_pdf, tmp_path).astype(np.int16)
    assert int(np.ptp(colours, axis=2).max()) == 0
    assert int(colours.min()) < 60
    assert int(colours.max()) == 255


def test_a_sheet_is_mostly_paper_and_never_a_black_block(plan_pdf: str, tmp_path: Path) -> None:
    colours = _colours(plan_pdf, tmp_path)
    dark = colours[:, :, 0] < 100
    assert float(dark.mean()) < 0.12
    side = 40
    for row in range(0, dark.shape[0] - side, side):
        for column in range(0, dark.shape[1] - side, side):
            assert float(dark[row : row + side, column : column + side].mean()) < 0.9
