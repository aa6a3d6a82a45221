from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.paint.palette import DAY
from app.paint.qt_setup import load_fonts
from app.window.printing import pages_chosen, print_pages
from app.window.sheets_dialog import SheetsDialog
from core.base.errors import Cancelled, OutputError
from core.base.progress import Quiet
from core.sheets.page import Page, Text

_PAGES = tuple(
    Page(
        width_mm=210.0,
        height_mm=297.0,
        items=(Text(x_mm=30.0, y_mm=40.0, text=f"Leg {number}", size_pt=20.0),),
        name=f"leg {number}",
    )
    for number in (1, 2, 3)
)


def _printer(path: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    return printer


def test_every_page_is_printed(qapp: object, tmp_path: Path) -> None:
    load_fonts()
    print_pages(_printer(tmp_path / "a.pdf"), _PAGES, Quiet())
    data = (tmp_path / "a.pdf").read_bytes()
    assert data.startswith(b"%PDF")
    assert data.count(b"/Type /Page\n") == 3


def test_only_the_pages_asked_for_are_printed(qapp: object, tmp_path: Path) -> None:
    printer = _printer(tmp_path / "a.pdf")
    assert pages_chosen(printer, _PAGES) == _PAGES
    printer.setFromTo(2, 3)
    assert [page.name for page in pages_chosen(printer, _PAGES)] == ["leg 2", "leg 3"]


@pytest.mark.qt_log_ignore("QPainter::begin")
def test_a_printer_that_takes_nothing_is_told_in_one_sentence(qapp: object, tmp_path: Path) -> None:
    printer = _printer(tmp_path / "no such folder" / "a.pdf")
    with pytest.raises(OutputError, match="does not take anything"):
        print_pages(printer, _PAGES, Quiet())


def test_printing_can_be_stopped(qapp: object, tmp_path: Path) -> None:
    class Stops:
        def report(self, fraction: float, text: str = "") -> None:
            if fraction > 0.3:
                raise Cancelled

    with pytest.raises(Cancelled):
        print_pages(_printer(tmp_path / "a.pdf"), _PAGES, Stops())


def test_pages_are_turned_by_keys_and_buttons(qtbot: QtBot) -> None:
    load_fonts()
    dialog = SheetsDialog(DAY, print_them=lambda _parts: None, export_them=lambda _parts: None)
    dialog.show()
    dialog.show_pages(_PAGES)
    qtbot.waitUntil(lambda: dialog.view.image is not None)
    first = dialog.view.image
    QTest.keyClick(dialog.view, Qt.Key.Key_PageDown)
    qtbot.waitUntil(lambda: dialog.view.image is not first)
    assert dialog.view.number == 1
    QTest.keyClick(dialog.view, Qt.Key.Key_End)
    QTest.keyClick(dialog.view, Qt.Key.Key_PageDown)
    assert dialog.view.number == 2
    QTest.keyClick(dialog.view, Qt.Key.Key_Home)
    assert dialog.view.number == 0
    dialog.accept()
    dialog.deleteLater()


def test_parts_of_the_book_are_left_out_and_taken_in_but_never_all(qtbot: QtBot) -> None:
    load_fonts()
    printed: list[tuple[str, ...]] = []
    dialog = SheetsDialog(DAY, print_them=printed.append, export_them=lambda _parts: None)
    dialog.show()
    pages = tuple(
        replace(page, part=part) for page, part in zip(_PAGES, ("one", "one", "two"), strict=True)
    )
    dialog.show_pages(pages)
    assert dialog.parts == ("one", "two")
    dialog.choose_part("one", is_chosen=False)
    assert dialog.view.pages == (pages[2],)
    prints = next(b for b in dialog.findChildren(QPushButton) if b.text() == "&Print…")
    prints.click()
    assert printed == [("two",)]
    dialog.choose_part("two", is_chosen=False)
    assert dialog.parts
    assert dialog.view.pages
    dialog.choose_part("one", is_chosen=True)
    dialog.choose_part("two", is_chosen=True)
    assert dialog.view.pages == pages
    dialog.accept()
    dialog.deleteLater()
