"""What a place's radar looks upon, cell by cell in bearing and range: no radar values in it."""

from dataclasses import dataclass
from enum import IntEnum

from core.base.arrays import ByteArray, Float32Array, HoldsArrays


class Surface(IntEnum):
    """What a cell of bearing and range shows to the antenna."""

    HIDDEN = 0
    """All of it lies behind land or below the horizon."""
    SEA = 1
    """Water in sight, no land in sight."""
    LAND = 2
    """Some land in sight."""
    UNKNOWN = 3
    """Heights here or before it are unknown and not hidden by known land.

    What a cell in such a place says of land is only what known heights would show."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EchoField(HoldsArrays):
    """The lit surfaces round a place. B bearings, N range cells.

    Row b stands for the bearings up to half a step to each side of ``360 * b / B`` deg; cell n
    spans ranges ``n * cell_m`` to ``(n + 1) * cell_m``.

    face_m : (B, N) float32
        Height of the land in sight in the cell, measured across the line of sight, m: the
        vertical angle it fills times its range, summed over its facets. With a beam of effective
        width theta (rad) at range R a surface of constant gamma has the radar cross-section
        ``gamma * face_m * R * theta`` (handbook 4.2, 6.4: sigma0 = gamma sin psi, and the lit
        area times sin psi is the area across the line of sight).
    height_m : (B, N) float32
        Mean height above the water of that land, weighted by ``face_m``; NaN without.
    span_m : (B, N) float32
        Heights over which it is spread, m: ``sqrt(12)`` standard deviations, weighted likewise,
        so that an even wall has the whole of its lit height; NaN without.
    steepness : (B, N) float32
        Mean slope of that ground, rise over run, weighted likewise; NaN without.
    surface : (B, N) uint8, ``Surface``
    known_face_m : (B, N) float32 or None
        How much of ``face_m`` is ground of a known kind; None without a raster of kinds.
    known_gamma : (B, N) float32 or None
        Mean gamma at 10 GHz of that ground, bare, weighted by face; NaN without.
    """

    cell_m: float
    radius_m: float
    antenna_height_m: float
    refraction_k: float
    face_m: Float32Array
    height_m: Float32Array
    span_m: Float32Array
    steepness: Float32Array
    surface: ByteArray
    known_face_m: Float32Array | None = None
    known_gamma: Float32Array | None = None
