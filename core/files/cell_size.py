"""Where rasters and boxes meet, and how large cells are, in metres and in words."""

import math

from core.base.language import tr
from core.geodesy.position import Bounds
from core.land.lattice import Lattice

_METRES_PER_DEG = 111_320.0


def meet(a: Bounds, b: Bounds) -> bool:
    """Whether two boxes share any place, whichever way round the Earth they are written."""
    if a.south_deg > b.north_deg or b.south_deg > a.north_deg:
        return False
    gap = (b.west_deg - a.west_deg) % 360.0
    return gap <= a.east_deg - a.west_deg or 360.0 - gap <= b.east_deg - b.west_deg


def cell_size_m(lattice: Lattice, lat_deg: float) -> tuple[float, float]:
    """Size of a cell down and across at a latitude, m."""
    if not lattice.is_geographic:
        return lattice.cell_y, lattice.cell_x
    across = _METRES_PER_DEG * math.cos(math.radians(lat_deg))
    return lattice.cell_y * _METRES_PER_DEG, lattice.cell_x * across


def _short(size_m: float) -> str:
    """A size in whole metres, smaller ones with one decimal or two."""
    return f"{size_m:.0f}" if size_m >= 100.0 else f"{size_m:.3g}"


def resolution_words(lattice: Lattice, lat_deg: float) -> str:
    """Cell size in words, with metres north-south by east-west at a latitude."""
    down, across = cell_size_m(lattice, lat_deg)
    if not lattice.is_geographic:
        return f"{_short(down)} x {_short(across)} m"
    seconds = lattice.cell_y * 3600.0
    size = (
        tr("1 arc-second")
        if abs(seconds - 1.0) < 1e-6
        else tr("{seconds:.3g} arc-seconds", seconds=seconds)
    )
    return tr(
        "{size} (about {down} x {across} m)", size=size, down=_short(down), across=_short(across)
    )
