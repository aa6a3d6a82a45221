"""Prints and photocopies in one bit at 150 dots an inch, as an office machine makes them."""

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from app.paint.page_image import page_image
from app.paint.palette import PAPER
from core.sheets.page import Page, Rectangle

DPI = 150.0
PX_PER_MM = DPI / 25.4
Ink = NDArray[np.bool_]


def printed(page: Page) -> Ink:
    """Ink of a page on a one-bit printer: dark where more than half is."""
    grey = page_image(
        page.items,
        width_mm=page.width_mm,
        height_mm=page.height_mm,
        px_per_mm=PX_PER_MM,
        ratio=1.0,
        colours=PAPER,
    ).convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), grey.bytesPerLine())
    return rows[:, : grey.width()] < 128


def copied(ink: Ink) -> Ink:
    """A photocopy: laid on a quarter of a dot askew, seen through a soft lens, in one bit."""
    dark = ink.astype(np.float64)
    moved = 0.75 * dark + 0.25 * np.roll(dark, (1, 1), axis=(0, 1))
    padded = np.pad(moved, 1)
    kernel = np.array([[1.0, 2.0, 1.0], [2.0, 4.0, 2.0], [1.0, 2.0, 1.0]]) / 16.0
    height, width = dark.shape
    soft = sum(
        kernel[r, c] * padded[r : r + height, c : c + width] for r in range(3) for c in range(3)
    )
    # A machine is set a little dark, so that thin strokes come out.
    return np.asarray(soft) > 0.4


def cut_out(ink: Ink, room: Rectangle) -> Ink:
    """The part of a page in a room."""
    top, bottom = round(room.y_mm * PX_PER_MM), round(room.bottom_mm * PX_PER_MM)
    left, right = round(room.x_mm * PX_PER_MM), round(room.right_mm * PX_PER_MM)
    return ink[max(top, 0) : bottom, max(left, 0) : right]


def likeness(one: Ink, other: Ink) -> float:
    """Correlation of two patches, bare, for the best of small shifts; 1 is the same."""
    best = -1.0
    a = one.astype(np.float64) - one.mean()
    for down in (-1, 0, 1):
        for across in (-1, 0, 1):
            b = np.roll(other, (down, across), axis=(0, 1)).astype(np.float64)
            b -= b.mean()
            scale = float(np.sqrt((a * a).sum() * (b * b).sum()))
            if scale > 0.0:
                best = max(best, float((a * b).sum()) / scale)
    return best
