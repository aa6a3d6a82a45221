"""A ray given up on its way to a piece of land: nothing of the piece is lost by it.

Against the same walk to its end, over rough islands and heights unknown in parts; and light taken
from memory against light asked for anew.
"""

import math

import numpy as np
import pytest

from core.base.arrays import IntArray
from core.coverage.echo_sweep import ground_metric
from core.coverage.echo_walk import Kinds, Sums, Trail, walk
from core.coverage.local_map import local_map
from core.coverage.object_light import light_pieces
from core.coverage.piece_bound import hiding_slope
from core.coverage.piece_light import Around, Eye, Light, Pieces
from core.coverage.ray_course import aim, polynomial, samples_before
from core.coverage.rays import UNKNOWN_CODES
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from core.land.lattice import Lattice
from core.radar.land_reflectivity import class_gamma_ratios
from tests.helpers.bare_land import terrain_of

_RADIUS_M = 20_000.0
_BEND = 1.0 / (2.0 * 4.0 / 3.0 * 6_371_000.0)
_HERE = Position(lat_deg=56.0, lon_deg=-6.0)
_CELL_M = 60.0
_REACH_M = 400.0


def _terrain() -> Terrain:
    """Islands of rough land in the sea, some of unknown height, 0.4 x 0.8 deg round the place."""
    random = np.random.default_rng(11)
    rows, cols = 480, 960
    heights = np.zeros((rows, cols), dtype=np.float32)
    for _ in range(40):
        i, j = random.integers(0, rows - 60), random.integers(0, cols - 60)
        size = random.integers(2, 60)
        heights[i : i + size, j : j + size] += random.random((size, size)) * random.choice([5, 80])
    for _ in range(8):
        i, j = random.integers(0, rows - 9), random.integers(0, cols - 9)
        heights[i : i + 6, j : j + 9] = np.nan
    lattice = Lattice(
        crs="EPSG:4326",
        left_x=-6.4,
        top_y=56.2,
        cell_x=1 / 1200,
        cell_y=1 / 1200,
        rows=rows,
        cols=cols,
    )
    return terrain_of(lattice, heights)


def _sums() -> Sums:
    cells = int(_RADIUS_M / _CELL_M) + 2
    return Sums(
        cell_m=_CELL_M,
        face=np.zeros(cells),
        height=np.zeros(cells),
        square=np.zeros(cells),
        steep=np.zeros(cells),
        water=np.zeros(cells, dtype=np.uint8),
        unknown=np.zeros(cells, dtype=np.uint8),
        known=np.zeros(0),
        gamma=np.zeros(0),
    )


@pytest.mark.parametrize("antenna_m", [6.0, 25.0, 60.0])
def test_nothing_of_a_piece_is_lost_with_a_ray_given_up_before_it(antenna_m: float) -> None:
    terrain = _terrain()
    here = local_map(terrain.lattice, _HERE, _RADIUS_M)
    kinds = Kinds(np.zeros((0, 0), dtype=np.uint8), class_gamma_ratios())
    row, col = np.empty(here.grid.row_of.shape[0]), np.empty(here.grid.row_of.shape[0])
    random = np.random.default_rng(5)
    given_up = lit = dark = 0
    for _ in range(3000):
        range_m, bearing = random.uniform(1000.0, 18_000.0), random.uniform(0.0, 2.0 * math.pi)
        ray = aim(here.grid, math.sin(bearing), math.cos(bearing), _RADIUS_M, 0.5, row, col)
        at = range_m / here.grid.scale_m
        first = int((range_m - _REACH_M) / _CELL_M)
        upto = math.ceil((range_m + _REACH_M) / _CELL_M)
        near_m = first * _CELL_M
        enough = hiding_slope(
            terrain.ground,
            polynomial(row, at),
            polynomial(col, at),
            (_REACH_M + _CELL_M) / here.least_cell_m + 2.0,
            near_m,
            (upto + 1) * _CELL_M,
            antenna_m,
            _BEND,
        )
        found = []
        for from_m, slope in ((0.0, math.inf), (near_m, enough)):
            sums = _sums()
            rises = walk(
                terrain.ground,
                ray,
                samples_before(range_m + _REACH_M, ray),
                antenna_m,
                0.0,
                _BEND,
                ground_metric(here),
                kinds,
                sums,
                Trail(np.empty(0), np.empty(0), np.full(UNKNOWN_CODES, np.inf)),
                from_m,
                sums.face.size,
                slope,
                math.inf,
            ).rises
            parts = (sums.face, sums.height, sums.square, sums.steep, sums.unknown)
            found.append(([part[first:upto] for part in parts], sums.water[:first], rises))
        if near_m < math.sqrt(antenna_m / _BEND):
            # Whether water before the piece can mirror it is told as before.
            np.testing.assert_array_equal(found[1][1], found[0][1])
        for whole, part in zip(found[0][0], found[1][0], strict=True):
            np.testing.assert_array_equal(part, whole)
        given_up += found[1][2] < found[0][2]
        lit += bool(found[0][0][0].any())
        dark += bool(found[0][0][4].any())
    assert given_up > 20
    assert lit > 20
    assert dark > 5


def test_light_of_some_pieces_is_that_asked_for_them_alone() -> None:
    terrain = _terrain()
    random = np.random.default_rng(3)
    count = 30
    pieces = Pieces(
        lat_deg=random.uniform(55.85, 56.15, count),
        lon_deg=random.uniform(-6.3, -5.7, count),
        reach_m=np.full(count, _REACH_M),
        height_m=np.full(count, 40.0),
    )
    range_m, bearing_deg = pieces.around(_HERE)
    here = local_map(terrain.lattice, _HERE, float(range_m.max()) + _REACH_M)
    around = Around(range_m=range_m, bearing_deg=bearing_deg, here=here)
    eye = Eye(antenna_height_m=25.0, refraction_k=4.0 / 3.0)

    def asked(chosen: IntArray) -> Light:
        return light_pieces(
            terrain, _HERE, pieces, chosen, eye, cell_m=60.0, bin_rad=0.005, around=around
        )

    everything = asked(np.arange(count))
    assert 0 < np.count_nonzero(everything.is_lit) < count
    some = np.array([2, 3, 11, 29])
    alone, taken = asked(some), everything.of(some)
    for name in type(alone).__dataclass_fields__:
        np.testing.assert_array_equal(getattr(taken, name), getattr(alone, name), err_msg=name)
