"""The inks of a picture; apart from what lays them, so that drawing needs no kernels."""

from enum import IntEnum


class Ink(IntEnum):
    """Inks by number; a palette gives each a colour."""

    GROUND = 0
    """Outside the picture."""
    WATER = 1
    FAINT_HATCH = 2
    """Hidden by land."""
    SECTOR_HATCH = 3
    """Behind own structure."""
    GAP = 4
    """Heights are missing."""
    SPECK = 5
    CLUTTER = 6
    ECHO = 7
    """Fill of an echo."""
    FULL_ECHO = 8
    """Fill of a strong echo."""
    OUTLINE = 9
    """Edge of echoes, and the hatch of uncertain ones."""
