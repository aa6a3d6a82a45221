"""Printing the sheets: the printer is asked for here, the pages are drawn by the worker."""

from collections.abc import Sequence

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QWidget

from app.paint.page_painter import PagePainter
from app.paint.palette import PAPER
from app.views.soft_caret import SoftCaret
from core.base.errors import OutputError
from core.base.language import tr
from core.base.progress import Progress
from core.sheets.page import Page


def ask_printer(parent: QWidget) -> QPrinter | None:
    """The printer the officer chooses, A4 upright without margins; None where none is chosen."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    printer.setColorMode(QPrinter.ColorMode.GrayScale)
    printer.setFullPage(True)
    printer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0), QPageLayout.Unit.Millimeter)
    dialog = QPrintDialog(printer, parent)
    dialog.setWindowTitle(tr("Print the sheets"))
    SoftCaret(dialog)
    accepted = dialog.exec() == QDialog.DialogCode.Accepted
    dialog.deleteLater()
    return printer if accepted else None


def numbers_chosen(printer: QPrinter, count: int) -> range:
    """Numbers of the pages within the range chosen at the printer, all where none is."""
    first, last = printer.fromPage(), printer.toPage()
    if first <= 0:
        return range(1, count + 1)
    return range(first, min(max(last, first), count) + 1)


def print_pages(printer: QPrinter, pages: Sequence[Page], progress: Progress) -> None:
    """Draw pages on a printer.

    Raises
    ------
    OutputError
        The printer takes nothing.
    """
    painter = QPainter()
    if not painter.begin(printer):
        raise OutputError(
            tr("the printer does not take anything"),
            where=printer.printerName() or printer.outputFileName() or tr("printer"),
            todo=tr("Choose another printer, or write a PDF and print that"),
        )
    try:
        artist = PagePainter(PAPER)
        scale = printer.resolution() / 25.4
        for number, page in enumerate(pages):
            progress.report(
                number / len(pages),
                tr("Printing page {number} of {count}", number=number + 1, count=len(pages)),
            )
            if number:
                printer.newPage()
            painter.resetTransform()
            painter.scale(scale, scale)
            artist.draw(painter, page.items)
    finally:
        painter.end()
