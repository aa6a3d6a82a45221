"""Targets and grids for lines of sight that may run outside the land model."""

import math
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.base.memory import NOTHING_KEPT, Memory
from core.coverage.coverage_result import SweepSettings
from core.coverage.profiles import (
    Grid,
    Pairs,
    PairSight,
    grid_of,
    horizon_distance_m,
    sight_of_pairs,
)
from core.coverage.terrain import Terrain
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Bounds, Position, bounds_of
from core.land.coast import Coast, CoastPoints
from core.land.land_model import Cell, LandModel
from core.land.sources import HeightSource
from core.passage.passage import Passage

_COARSE_CELL_M = 250.0
_MOST_COARSE_CELLS = 3000
_LEAST_M_PER_DEG = 110_000.0
_M_PER_DEG = 111_320.0
_PAD_DEG = 0.1
_STEP_DEG = 0.1
"""Coarse heights are cut to whole steps: a passage changed a little wants the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SightTarget:
    """A piece of land or a mark to look for."""

    object_id: str
    name: str
    position: Position
    height_above_water_m: float
    is_on_land: bool
    own_radius_m: float = 100.0
    """For a target on land: land this close to it, or within one cell if that is more, belongs to
    it and does not hide it. An islet in sight by any of its parts needs its own radius."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What all lines of sight have in common."""

    fine: Grid
    coarse: Grid | None
    lat_deg: FloatArray
    lon_deg: FloatArray
    height_m: FloatArray
    margin_m: FloatArray
    reach_m: FloatArray
    is_outside: BoolArray
    """Which targets lie outside the fine grid."""
    settings: SweepSettings

    def through(
        self, *, antenna_height_m: float, refraction_k: float, raised_m: FloatArray | float = 0.0
    ) -> "Scene":
        """The same targets from another antenna and through other air, higher by a height."""
        height_m = np.maximum(self.height_m + raised_m, 0.0)
        return replace(
            self,
            height_m=height_m,
            reach_m=horizon_distance_m(antenna_height_m, height_m, refraction_k),
            settings=replace(
                self.settings, antenna_height_m=antenna_height_m, refraction_k=refraction_k
            ),
        )

    def look_along(
        self, line: LegLine, along_m: FloatArray, targets: IntArray, *, find_worst: bool = False
    ) -> PairSight:
        """Sight from places along a leg to targets, pair by pair."""
        lat_deg, lon_deg, _courses = line.at(along_m)
        return self.look(lat_deg, lon_deg, targets, find_worst=find_worst)

    def look(
        self,
        lat_deg: FloatArray,
        lon_deg: FloatArray,
        targets: IntArray,
        *,
        find_worst: bool = False,
    ) -> PairSight:
        """Sight from places to targets, pair by pair."""
        return sight_of_pairs(
            Pairs(
                from_lat_deg=lat_deg,
                from_lon_deg=lon_deg,
                to_lat_deg=self.lat_deg[targets],
                to_lon_deg=self.lon_deg[targets],
                to_height_m=self.height_m[targets],
                margin_m=self.margin_m[targets],
            ),
            self.fine,
            self.coarse,
            antenna_height_m=self.settings.antenna_height_m,
            refraction_k=self.settings.refraction_k,
            find_worst=find_worst,
        )


def scene_of(
    passage: Passage,
    land: LandModel,
    targets: tuple[SightTarget, ...],
    settings: SweepSettings,
    heights: HeightSource | None,
    terrain: Terrain | None,
    memory: Memory = NOTHING_KEPT,
) -> Scene:
    """Make grids and targets ready; coarse heights only where something lies outside the model."""
    fine = memory.of(("grid", land, terrain), partial(grid_of, land, terrain))
    waypoints = tuple(w.position for w in passage.waypoints)
    ends = tuple(t.position for t in targets)
    height_m = np.array([t.height_above_water_m for t in targets])
    reach_m = horizon_distance_m(settings.antenna_height_m, height_m, settings.refraction_k)
    coarse = None
    is_outside = _outside(land, ends)
    if heights is not None and (is_outside.any() or _outside(land, waypoints).any()):
        box = _box(bounds_of((*waypoints, *ends)), bounds_of(ends), float(reach_m.max()))
        box = box.outward(_STEP_DEG)
        # Heights are those of the land, whose files are known by it.
        coarse = memory.of(
            ("coarse", land, box), partial(_coarse_grid, heights=heights, box=box, land=land)
        )
    far_cell_m = fine.cell_m if coarse is None else coarse.cell_m
    cell_m = np.where(is_outside, far_cell_m, fine.cell_m)
    radius_m = np.maximum(cell_m, np.array([t.own_radius_m for t in targets]))
    own_m = np.where([t.is_on_land for t in targets], radius_m, 0.0)
    return Scene(
        fine=fine,
        coarse=coarse,
        lat_deg=np.array([p.lat_deg for p in ends]),
        lon_deg=np.array([p.lon_deg for p in ends]),
        height_m=height_m,
        margin_m=own_m + cell_m,
        reach_m=reach_m,
        is_outside=is_outside,
        settings=settings,
    )


def _outside(land: LandModel, places: tuple[Position, ...]) -> BoolArray:
    """Which places lie outside the cells of a land model."""
    rows, cols = land.lattice.row_col(
        np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])
    )
    last_row, last_col = land.lattice.rows - 1, land.lattice.cols - 1
    return (rows < 0) | (rows > last_row) | (cols < 0) | (cols > last_col)


def _box(everything: Bounds, targets: Bounds, reach_m: float) -> Bounds:
    """Where lines of sight can run: the narrower of two boxes, axis by axis."""
    reach_lat = reach_m / _LEAST_M_PER_DEG
    widest = min(max(abs(targets.south_deg), abs(targets.north_deg)) + reach_lat, 89.0)
    near = targets.padded(lat_deg=reach_lat, lon_deg=reach_lat / math.cos(math.radians(widest)))
    whole = everything.padded(lat_deg=_PAD_DEG, lon_deg=_PAD_DEG)
    across = min(whole, near, key=lambda b: b.east_deg - b.west_deg)
    return Bounds(
        south_deg=max(whole.south_deg, near.south_deg),
        west_deg=across.west_deg,
        north_deg=min(whole.north_deg, near.north_deg),
        east_deg=across.east_deg,
    )


def _coarse_grid(*, heights: HeightSource, box: Bounds, land: LandModel) -> Grid:
    return grid_of(_coarse_land(heights, box, land))


def _coarse_land(heights: HeightSource, box: Bounds, land: LandModel) -> LandModel:
    """Heights of a box in coarse cells, as far as any file reaches."""
    middle_deg = (box.south_deg + box.north_deg) / 2.0
    span_m = _M_PER_DEG * max(
        box.north_deg - box.south_deg,
        (box.east_deg - box.west_deg) * math.cos(math.radians(middle_deg)),
    )
    window = heights.window(box, max(_COARSE_CELL_M, span_m / _MOST_COARSE_CELLS))
    above_m = np.maximum(window.heights_m - np.float32(land.water_level_m), np.float32(0.0))
    cell = np.where(above_m > 0.0, Cell.LAND, Cell.SEA).astype(np.uint8)
    cell[np.isnan(above_m)] = Cell.VOID
    cell[window.is_missing] = Cell.BEYOND
    none = np.zeros(0, dtype=np.float64)
    return LandModel(
        lattice=window.lattice,
        heights_m=above_m,
        cell=cell,
        coast=Coast(lines=(), declared=(), from_elevation=True),
        points=CoastPoints(
            lat_deg=none,
            lon_deg=none,
            length_m=none,
            height_m=none.astype(np.float32),
            line=none.astype(np.int64),
            is_line_start=none.astype(np.bool_),
        ),
        water_level_m=land.water_level_m,
        height_error_m=land.height_error_m,
        heights_assumed=False,
        sources=(),
        findings=(),
    )
