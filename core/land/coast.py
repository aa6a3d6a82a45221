"""Coastlines as lines on the ellipsoid, and points spread evenly along them."""

from dataclasses import dataclass

from core.base.arrays import BoolArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.geodesy.position import Bounds


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CoastLine(HoldsArrays):
    """One stretch of true coast, land on the left or right as the file has it.

    ``lat_deg`` and ``lon_deg`` (n,), n >= 2; a closed line repeats its first point at the end.
    """

    lat_deg: FloatArray
    lon_deg: FloatArray
    is_closed: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Coast:
    """All coast in reach.

    ``declared`` is the area the coast data says it covers: water inside it without land is sea.
    ``from_elevation`` is True where no coast file was given and the line is the waterline of the
    heights.
    """

    lines: tuple[CoastLine, ...]
    declared: tuple[Bounds, ...]
    from_elevation: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CoastPoints(HoldsArrays):
    """Points spread along the coast, each standing for a piece of it.

    lat_deg, lon_deg, length_m : (n,) arrays; ``line`` (n,) is the index of the coast line,
    ``is_line_start`` (n,) marks the first point of each line, ``height_m`` (n,) the greatest
    height above water within one cell or 100 m of the point, whichever is more.
    """

    lat_deg: FloatArray
    lon_deg: FloatArray
    length_m: FloatArray
    height_m: Float32Array
    line: IntArray
    is_line_start: BoolArray
