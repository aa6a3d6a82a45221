"""Widths of the bundled font."""

import pytest
from PySide6.QtGui import QFontInfo, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.paint.measure import QtMeasure, page_font
from app.paint.qt_setup import FAMILY, ensure_gui, load_fonts
from core.sheets.book import make_book
from core.sheets.page import POINT_MM, Anchor, Text, text_box
from tests.helpers.sample_outcome import sample_outcome


def test_the_bundled_font_is_the_one_in_use(qapp: QApplication) -> None:
    load_fonts()
    for is_bold in (False, True):
        assert QFontInfo(page_font(is_bold=is_bold)).family() == FAMILY


def test_digits_are_as_wide_as_the_font_file_says(qapp: QApplication) -> None:
    load_fonts()
    # Advance of every digit of DejaVu Sans: 1303 of 2048 units (hmtx table of the file).
    expected = 1303.0 / 2048.0 * 10.0 * POINT_MM
    for digit in "0123456789":
        assert QtMeasure().width_mm(digit, size_pt=10.0) == pytest.approx(expected, rel=0.01)


def test_widths_grow_with_size_and_weight(qapp: QApplication) -> None:
    load_fonts()
    measure = QtMeasure()
    single = measure.width_mm("STARBOARD", size_pt=10.0)
    assert measure.width_mm("STARBOARD", size_pt=20.0) == pytest.approx(2.0 * single)
    assert measure.width_mm("STARBOARD", size_pt=10.0, is_bold=True) > single


def test_the_running_application_is_used(qapp: QApplication) -> None:
    assert ensure_gui() is qapp


def test_text_can_be_drawn_without_a_screen(qapp: QApplication) -> None:
    ensure_gui()
    image = QImage(40, 40, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    painter.setFont(page_font(is_bold=False))
    painter.drawText(0, 40, "H")
    painter.end()
    assert image.pixelColor(20, 20).value() < 255 or bytes(image.constBits()).count(0) > 0


def test_no_number_of_a_sheet_is_cut_in_the_real_font(qapp: QApplication) -> None:
    load_fonts()
    measure = QtMeasure()
    for page in make_book(sample_outcome(), measure):
        for item in page.items:
            if not isinstance(item, Text):
                continue
            if item.size_pt >= 12.0 and any(sign.isdigit() for sign in item.text):
                assert "…" not in item.text
            if item.angle_deg == 0.0:
                room = text_box(item, measure)
                assert room.x_mm >= 5.0, item
                assert room.right_mm <= 205.0, item
                assert item.anchor in Anchor
