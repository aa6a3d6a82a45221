"""Where land data comes from, and the promise a reader of heights keeps."""

from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from core.base.arrays import BoolArray, Float32Array, HoldsArrays
from core.geodesy.position import Bounds
from core.land.lattice import Lattice


@dataclass(frozen=True, slots=True, kw_only=True)
class DataSource:
    """One file that land came from, for sheets and receipt."""

    role: str
    """``elevation``, ``coast`` or ``classes``."""
    name: str
    """File name without folders."""
    sha256: str
    resolution: str = ""
    """Cell size or vertex spacing in words, such as ``3 arc-seconds (about 93 x 52 m)``."""
    released: str = ""
    """Date or year of the data as its file states it, empty if it does not."""
    licence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundCodes:
    """A raster of kinds of ground, and the number of kind that each of its codes stands for."""

    path: Path
    numbers: tuple[tuple[int, int], ...]
    """Code and number, ascending by code; other codes stand for nothing that is known."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeightWindow(HoldsArrays):
    """Heights cut from files onto one lattice.

    ``heights_m`` (rows, cols) is above mean sea level, NaN where unknown; ``is_missing`` marks
    the unknown cells that lie outside all files, the other unknown ones are voids in a file.
    """

    lattice: Lattice
    heights_m: Float32Array
    is_missing: BoolArray
    sources: tuple[DataSource, ...]


class HeightSource(Protocol):
    """Elevation files, one or many, seen as one."""

    def window(self, bounds: Bounds, cell_m: float | None = None) -> HeightWindow:
        """Heights for a box on the finest lattice of the files that meet it.

        Parameters
        ----------
        bounds : Bounds
            The box; the window covers it whole, with missing cells where no file reaches.
        cell_m : float or None
            Coarser cells of about this size, m, each with the greatest height in it;
            None is the files' own resolution.
        """
