"""Text widths of a font in which every letter is equally wide."""

from core.sheets.page import POINT_MM


class FixedMeasure:
    """Each letter is half its size wide, bold a little more: about the bundled font in words."""

    def width_mm(self, text: str, *, size_pt: float, is_bold: bool = False) -> float:
        """Width of one line of text, mm."""
        return len(text) * size_pt * POINT_MM * (0.56 if is_bold else 0.5)
