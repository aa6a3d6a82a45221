"""Which ink each pixel of a picture takes: flat fills, outlines and hatches, as in print."""

import numpy as np

from core.base.arrays import ByteArray
from core.base.compiled import kernel
from core.picture.display_chain import Paint
from core.picture.inks import Ink

_OUTSIDE = int(Paint.OUTSIDE)
_SHADOW = int(Paint.SHADOW)
_BLIND = int(Paint.BLIND)
_UNKNOWN = int(Paint.UNKNOWN)
_SPECKLE = int(Paint.SPECKLE)
_CLUTTER = int(Paint.CLUTTER)
_UNCERTAIN = int(Paint.UNCERTAIN)
_PAINTED = int(Paint.PAINTED)
_STRONG = int(Paint.STRONG)
_I_GROUND = int(Ink.GROUND)
_I_WATER = int(Ink.WATER)
_I_FAINT = int(Ink.FAINT_HATCH)
_I_SECTOR = int(Ink.SECTOR_HATCH)
_I_GAP = int(Ink.GAP)
_I_SPECK = int(Ink.SPECK)
_I_CLUTTER = int(Ink.CLUTTER)
_I_ECHO = int(Ink.ECHO)
_I_FULL = int(Ink.FULL_ECHO)
_I_OUTLINE = int(Ink.OUTLINE)


@kernel
def _ink(screen: ByteArray, period: int, pen: int, out: ByteArray) -> None:
    height, width = screen.shape
    for i in range(height):
        up, down = max(i - pen, 0), min(i + pen, height - 1)
        for j in range(width):
            code = screen[i, j]
            ink = _I_WATER
            if code == _OUTSIDE:
                ink = _I_GROUND
            elif code == _SHADOW:
                if (i + j) % (2 * period) < pen:
                    ink = _I_FAINT
            elif code == _BLIND:
                if (i - j) % period < pen:
                    ink = _I_SECTOR
            elif code == _UNKNOWN:
                # Both ways: on paper too it is told from water hidden by land.
                if (i + j) % period < pen or (i - j) % period < pen:
                    ink = _I_GAP
            elif code == _SPECKLE:
                ink = _I_SPECK
            elif code == _CLUTTER:
                ink = _I_CLUTTER
            elif code >= _UNCERTAIN:
                if code < _PAINTED:
                    if (i + 2 * j) % period < pen:
                        ink = _I_OUTLINE
                else:
                    ink = _I_FULL if code == _STRONG else _I_ECHO
                    left, right = max(j - pen, 0), min(j + pen, width - 1)
                    beside = min(screen[i, left], screen[i, right])
                    if min(beside, screen[up, j], screen[down, j]) < _PAINTED:
                        ink = _I_OUTLINE
            out[i, j] = ink


def swatch_codes(paint: Paint, height_px: int, width_px: int, *, px_per_mm: float) -> ByteArray:
    """Codes of ``Ink`` of a small box of one kind of paint, for a key: (H, W) uint8."""
    screen = np.full((height_px, width_px), paint, dtype=np.uint8)
    if paint in (Paint.SPECKLE, Paint.CLUTTER):
        # A sprinkle, as it looks on the water.
        share = 0.45 if paint is Paint.CLUTTER else 0.04
        screen[np.random.default_rng(1).random(screen.shape) >= share] = Paint.NOTHING
    return ink_codes(screen, px_per_mm=px_per_mm)


def ink_codes(screen: ByteArray, *, px_per_mm: float) -> ByteArray:
    """Codes of ``Ink`` from codes of ``Paint``: (H, W) uint8 both.

    Parameters
    ----------
    screen : (H, W) uint8
        ``on_screen``.
    px_per_mm : float
        How finely the picture will be shown, for pens and hatches.
    """
    out = np.empty_like(screen)
    _ink(screen, max(round(0.9 * px_per_mm), 4), max(round(0.16 * px_per_mm), 1), out)
    return out
