from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QPageSize, QWheelEvent
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from app.paint.palette import DAY
from app.paint.qt_setup import load_fonts
from app.views.open_menu import OpenMenu
from app.window.page_choice import typed_pages
from app.window.printing import numbers_chosen, print_pages
from app.window.sheets_dialog import SheetsDialog
from core.base.errors import Cancelled, InputError, OutputError
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
    assert list(numbers_chosen(printer, 3)) == [1, 2, 3]
    printer.setFromTo(2, 3)
    assert list(numbers_chosen(printer, 3)) == [2, 3]
    printer.setFromTo(2, 9)
    assert list(numbers_chosen(printer, 3)) == [2, 3]


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
    dialog = SheetsDialog(DAY, print_them=lambda _numbers: None, export_them=lambda _numbers: None)
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


def test_parts_of_the_book_are_left_out_and_taken_in(qtbot: QtBot) -> None:
    load_fonts()
    printed: list[tuple[int, ...]] = []
    dialog = SheetsDialog(DAY, print_them=printed.append, export_them=lambda _numbers: None)
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
    assert printed == [(3,)]
    dialog.choose_part("two", is_chosen=False)
    prints.click()
    assert printed == [(3,)], "nothing is printed where nothing is chosen, and why is told"
    told = [label.text() for label in dialog.findChildren(QLabel) if label.isVisible()]
    assert any("No part is chosen" in text for text in told)
    dialog.choose_part("one", is_chosen=True)
    dialog.choose_part("two", is_chosen=True)
    assert dialog.view.pages == pages
    dialog.accept()
    dialog.deleteLater()


@pytest.mark.parametrize(
    ("text", "numbers"),
    [("", (1, 2, 3, 4, 5)), ("2", (2,)), ("4-5, 1", (1, 4, 5)), (" 2 – 3;3 ", (2, 3))],
)
def test_pages_are_typed_as_numbers_and_spans(text: str, numbers: tuple[int, ...]) -> None:
    assert typed_pages(text, 5) == numbers


@pytest.mark.parametrize("text", ["0", "6", "3-2", "2-", "a", "1,,2", "-1", "99999999999999999999"])
def test_what_is_no_page_is_told_with_what_to_type(text: str) -> None:
    with pytest.raises(InputError, match=r"pages.*Type pages from 1 to 5"):
        typed_pages(text, 5)


def test_typed_pages_are_those_looked_at_printed_and_written(qtbot: QtBot) -> None:
    load_fonts()
    printed: list[tuple[int, ...]] = []
    dialog = SheetsDialog(DAY, print_them=printed.append, export_them=lambda _numbers: None)
    dialog.show()
    pages = tuple(
        replace(page, part=part) for page, part in zip(_PAGES, ("one", "one", "two"), strict=True)
    )
    dialog.show_pages(pages)
    field = dialog.findChild(QLineEdit)
    prints = next(b for b in dialog.findChildren(QPushButton) if b.text() == "&Print…")
    assert field is not None
    field.setFocus()
    QTest.keyClicks(field, "2-3")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert dialog.view.pages == pages[1:]
    prints.click()
    dialog.choose_part("two", is_chosen=False)
    prints.click()
    assert printed == [(2, 3), (2,)]
    # Nothing is printed that is not there, and why is told.
    dialog.type_pages("3")
    prints.click()
    dialog.type_pages("7")
    prints.click()
    assert printed == [(2, 3), (2,)]
    told = [label.text() for label in dialog.findChildren(QLabel) if label.isVisible()]
    assert any("not in a book of 3 pages" in text for text in told)
    dialog.type_pages("")
    assert dialog.view.pages == pages[:2]
    dialog.accept()
    dialog.deleteLater()


def _shown(qtbot: QtBot, pages: tuple[Page, ...]) -> SheetsDialog:
    load_fonts()
    dialog = SheetsDialog(DAY, print_them=lambda _numbers: None, export_them=lambda _numbers: None)
    dialog.resize(700, 700)
    dialog.show()
    dialog.show_pages(pages)
    qtbot.waitUntil(lambda: dialog.view.image is not None)
    return dialog


def test_it_says_which_page_of_the_book_and_of_those_chosen(qtbot: QtBot) -> None:
    pages = tuple(
        replace(page, part=part) for page, part in zip(_PAGES, ("one", "two", "two"), strict=True)
    )
    dialog = _shown(qtbot, pages)
    assert dialog.where.startswith("Page 1 of 3")
    assert "chosen" not in dialog.where
    dialog.choose_part("one", is_chosen=False)
    assert dialog.where.startswith("Page 2 of 3, 1 of 2 chosen")
    QTest.keyClick(dialog.view, Qt.Key.Key_PageDown)
    assert dialog.where.startswith("Page 3 of 3, 2 of 2 chosen")
    field = dialog.findChild(QLineEdit)
    assert field is not None
    assert field.fontMetrics().horizontalAdvance(field.placeholderText()) < field.width() - 8
    dialog.accept()
    dialog.deleteLater()


def test_a_sheet_is_made_larger_and_smaller(qtbot: QtBot) -> None:
    dialog = _shown(qtbot, _PAGES)
    area, view = dialog.area, dialog.view
    whole = area.percent
    assert area.verticalScrollBar().maximum() == area.horizontalScrollBar().maximum() == 0
    QTest.keyClick(view, Qt.Key.Key_W)
    assert area.horizontalScrollBar().maximum() == 0
    assert area.verticalScrollBar().maximum() > 0
    assert area.percent > whole
    QTest.keyClick(view, Qt.Key.Key_Down)
    assert area.verticalScrollBar().value() > 0, "arrows scroll"
    assert view.number == 0
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert view.number == 1
    assert area.verticalScrollBar().value() == 0, "a page begins at its top"
    QTest.keyClick(view, Qt.Key.Key_1)
    assert area.percent == 100
    assert view.width() == round(210.0 * view.logicalDpiX() / 25.4)
    wheel = QWheelEvent(
        QPointF(50.0, 50.0),
        QPointF(50.0, 50.0),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.ControlModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(area.viewport(), wheel)
    assert area.percent == 125
    old = view.image
    qtbot.waitUntil(lambda: view.image is not old and view.image is not None)
    for _press in range(20):
        QTest.keyClick(view, Qt.Key.Key_Plus)
    assert area.percent == 300
    QTest.keyClick(view, Qt.Key.Key_0)
    assert area.percent == whole
    QTest.keyClick(view, Qt.Key.Key_Down)
    assert view.number == 2, "arrows turn pages where all of the page is seen"
    dialog.accept()
    dialog.deleteLater()


def test_parts_are_ticked_one_after_the_other_and_all_at_once(qtbot: QtBot) -> None:
    pages = tuple(
        replace(page, part=part) for page, part in zip(_PAGES, ("one", "two", "six"), strict=True)
    )
    dialog = _shown(qtbot, pages)
    (menu,) = dialog.findChildren(OpenMenu)
    menu.popup(dialog.pos())
    qtbot.waitUntil(menu.isVisible)
    by_text = {action.text(): action for action in menu.actions()}

    def click(text: str) -> None:
        place = menu.actionGeometry(by_text[text]).center()
        QTest.mouseMove(menu, place)
        QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=place)

    def parts() -> list[str]:
        return list(dialog.parts)

    click("one")
    click("six")
    assert parts() == ["two"]
    click("&No part")
    assert parts() == []
    menu.setActiveAction(by_text["six"])
    QTest.keyClick(menu, Qt.Key.Key_Space)
    assert parts() == ["six"]
    click("&All parts")
    assert parts() == ["one", "two", "six"]
    assert menu.isVisible()
    QTest.keyClick(menu, Qt.Key.Key_Escape)
    assert not menu.isVisible()
    dialog.accept()
    dialog.deleteLater()
