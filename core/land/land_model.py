"""Land for one passage: heights, what kind of cell each is, coast, water level."""

from dataclasses import dataclass
from enum import IntEnum

from core.base.arrays import ByteArray, Float32Array, HoldsArrays
from core.base.findings import Finding
from core.land.coast import Coast, CoastPoints
from core.land.lattice import Lattice
from core.land.sources import DataSource


class Cell(IntEnum):
    """What is known of a cell."""

    SEA = 0
    LAND = 1
    VOID = 2
    """Land or unknown with a void in the elevation file, inside the declared area."""
    MISSING = 3
    """No elevation file reaches here and the coast data does not show it to be sea,
    inside the declared area."""
    BEYOND = 4
    """Unknown and outside the declared area of the data."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, weakref_slot=True)
class LandModel(HoldsArrays):
    """Everything about land that one computation needs.

    heights_m : (rows, cols) float32
        Height above the water now, >= 0, exactly 0 on sea, NaN where unknown.
    cell : (rows, cols) uint8
        ``Cell`` codes.
    ground : (rows, cols) uint8 or None
        Number of the kind of ground (``CLASS_NUMBERS`` of the radar), 0 where none is known;
        None without a raster of them.
    """

    lattice: Lattice
    heights_m: Float32Array
    cell: ByteArray
    coast: Coast
    points: CoastPoints
    water_level_m: float
    """Height of the water now above mean sea level (tide minus mean sea level), m."""
    height_error_m: float
    """Error of the heights, 95 %, m."""
    heights_assumed: bool
    """True where only a coast was given and its height is an assumption."""
    sources: tuple[DataSource, ...]
    findings: tuple[Finding, ...]
    ground: ByteArray | None = None
