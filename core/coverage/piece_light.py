"""Single pieces of land, the eye that looks at them, and what it finds of them lit."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.coverage.local_map import LocalMap
from core.geodesy import geodesic
from core.geodesy.position import Position


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces(HoldsArrays):
    """Pieces of land to look at, arrays (t,).

    reach_m : how far from its place a piece reaches; ground farther off is not part of it
    height_m : its height above the water now, for where the sea mirrors it
    own_m : higher ground is other land, that is near to it: an islet's own height; such a piece is
        looked at no wider than it is. Infinite, as it is when left out, where all ground counts
    """

    lat_deg: FloatArray
    lon_deg: FloatArray
    reach_m: FloatArray
    height_m: FloatArray
    own_m: FloatArray | None = None

    def around(self, place: Position) -> tuple[FloatArray, FloatArray]:
        """Ranges, m, and bearings, deg, of all pieces from a place, each (t,)."""
        range_m, bearing_deg, _final = geodesic.inverse(
            from_lat_deg=place.lat_deg,
            from_lon_deg=place.lon_deg,
            to_lat_deg=self.lat_deg,
            to_lon_deg=self.lon_deg,
        )
        return range_m, bearing_deg


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Around(HoldsArrays):
    """What a place knows of its surroundings, whatever it is looked from with.

    range_m, bearing_deg : (t,) of all pieces
    """

    range_m: FloatArray
    bearing_deg: FloatArray
    here: LocalMap
    """Reaches beyond all pieces that are looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """An antenna and the air and water it looks through."""

    antenna_height_m: float
    """Above the water as it stands then, m."""
    refraction_k: float
    water_rise_m: float = 0.0
    """How much higher than now the water stands, and the antenna with it, m; land lower than
    the elevation says is the same thing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Light(HoldsArrays):
    """The lit ground of n pieces from one place, as flat cells, piece after piece.

    Piece i has ``bins[i]`` bearings ``bin_rad`` apart and ``cells[i]`` range cells from cell
    ``first_cell[i]`` on; its cells start at ``offset[i]``, bearing by bearing. ``face_m``,
    ``height_m`` (above the water then), ``span_m``, ``steepness``, ``known_face_m`` and
    ``known_gamma`` as in ``EchoField``; the last two are empty without a raster of kinds.
    """

    eye: Eye
    cell_m: float
    bin_rad: float
    piece: IntArray
    range_m: FloatArray
    bearing_deg: FloatArray
    bins: IntArray
    cells: IntArray
    first_cell: IntArray
    offset: IntArray
    has_mirror: BoolArray
    """Whether open water mirrors the piece."""
    is_unsure: BoolArray
    """Whether more of the piece may be in sight: over, or of, ground of unknown height."""
    face_m: Float32Array
    height_m: Float32Array
    span_m: Float32Array
    steepness: Float32Array
    known_face_m: Float32Array
    known_gamma: Float32Array

    @property
    def is_lit(self) -> BoolArray:
        """Whether anything of each piece is in sight, heights before it known."""
        if self.piece.size == 0:
            return np.zeros(0, dtype=np.bool_)
        return np.asarray(np.maximum.reduceat(self.face_m, self.offset) > 0.0)

    def of(self, chosen: IntArray) -> "Light":
        """That of some of its pieces, given by their numbers in ``piece``, (m,)."""
        sizes = self.bins[chosen] * self.cells[chosen]
        offset = np.cumsum(sizes) - sizes
        flat = np.repeat(self.offset[chosen] - offset, sizes) + np.arange(int(sizes.sum()))
        has_kinds = self.known_face_m.size > 0
        return Light(
            eye=self.eye,
            cell_m=self.cell_m,
            bin_rad=self.bin_rad,
            piece=self.piece[chosen],
            range_m=self.range_m[chosen],
            bearing_deg=self.bearing_deg[chosen],
            bins=self.bins[chosen],
            cells=self.cells[chosen],
            first_cell=self.first_cell[chosen],
            offset=offset,
            has_mirror=self.has_mirror[chosen],
            is_unsure=self.is_unsure[chosen],
            face_m=self.face_m[flat],
            height_m=self.height_m[flat],
            span_m=self.span_m[flat],
            steepness=self.steepness[flat],
            known_face_m=self.known_face_m[flat] if has_kinds else self.known_face_m,
            known_gamma=self.known_gamma[flat] if has_kinds else self.known_gamma,
        )
