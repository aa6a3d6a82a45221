"""All that is found out at one place: sweep, coast, shadows and gaps, or why none is needed."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import Float32Array, HoldsArrays
from core.coverage.coast_cells import points_near
from core.coverage.coast_paint import painted_coast
from core.coverage.coast_sight import CoastSight, coast_in_sight, no_coast
from core.coverage.coverage_result import (
    HiddenWater,
    LandShadow,
    PaintedCoast,
    SweepSettings,
    Viewpoint,
    ViewpointCoverage,
)
from core.coverage.echo_sweep import sweep_echo, sweep_lit
from core.coverage.gaps import GapPatch, gap_patches
from core.coverage.land_echo import land_echo
from core.coverage.narrow_gaps import narrow_gaps, with_narrow_gaps
from core.coverage.nearby import Blocks, Surroundings
from core.coverage.polar import HORIZON_RAYS, WATER_RAYS, PolarSweep, sweep_polar
from core.coverage.shadows import land_shadows
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.radar.echo_budget import EchoBudget

_BEYOND_COLUMN = 2
_BEARINGS = 360
"""Bearings of an echo field come in multiples of this, half a beam apart or less."""
_LEAST_CELL_M, _MOST_CELL_M = 30.0, 60.0
"""Range cells of an echo field: half a pulse, within what elevation holds."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceView(HoldsArrays):
    """What is in sight from one place, whichever legs it belongs to."""

    nearest_land_range_m: float | None
    nearest_land_bearing_deg: float | None
    coast: CoastSight
    horizon_slope: Float32Array
    hidden: HiddenWater
    shadows: tuple[LandShadow, ...]
    gaps: tuple[GapPatch, ...]
    paint: PaintedCoast | None
    is_swept: bool
    """False where open sea all round, or no data at all, made a sweep needless."""

    def at(self, viewpoint: Viewpoint) -> ViewpointCoverage:
        """The same as the coverage of one of the viewpoints at this place."""
        return ViewpointCoverage(
            viewpoint=viewpoint,
            nearest_land_range_m=self.nearest_land_range_m,
            nearest_land_bearing_deg=self.nearest_land_bearing_deg,
            coast_state=self.coast.state,
            coast_inland_m=self.coast.inland_m,
            coast_in_sight_fraction=self.coast.in_sight_fraction,
            first_land_inland_m=self.coast.first_land_inland_m,
            horizon_slope=self.horizon_slope,
            hidden=self.hidden,
            shadows=self.shadows,
            paint=self.paint,
        )


class Lookout:
    """Looks round from places over one land model; may be used from several threads."""

    def __init__(
        self,
        land: LandModel,
        terrain: Terrain,
        blocks: Blocks,
        settings: SweepSettings,
        budget: EchoBudget | None = None,
    ) -> None:
        self._land = land
        self._terrain = terrain
        self._blocks = blocks
        self._settings = settings
        self._budget = budget
        self._narrow = narrow_gaps(terrain, settings.radius_m)
        self._open_sea = _empty_view(land, is_unknown=False)
        self._no_data = _empty_view(land, is_unknown=True)

    def look(self, position: Position, *, has_echo: bool = True) -> PlaceView:
        """Sweep a place, or say at once what open sea or a place without data amounts to.

        Without ``has_echo`` lines of sight alone are worked out.
        """
        radius_m = self._settings.radius_m
        around = self._blocks.surroundings(position, radius_m)
        points = self._land.points
        if around is not Surroundings.MIXED and not points_near(points, position, radius_m).any():
            return self._open_sea if around is Surroundings.OPEN_SEA else self._no_data
        sweep, paint = self._swept(position, has_echo=has_echo)
        unknown_from_m = with_narrow_gaps(
            self._terrain, self._narrow, position, self._settings, sweep.unknown_from_m
        )
        return PlaceView(
            nearest_land_range_m=sweep.nearest_land_range_m,
            nearest_land_bearing_deg=sweep.nearest_land_bearing_deg,
            coast=coast_in_sight(self._terrain, points, position, self._settings),
            horizon_slope=sweep.horizon_slope,
            hidden=sweep.hidden,
            shadows=land_shadows(sweep.hidden),
            gaps=gap_patches(unknown_from_m),
            paint=paint,
            is_swept=True,
        )

    def _swept(
        self, position: Position, *, has_echo: bool
    ) -> tuple[PolarSweep, PaintedCoast | None]:
        """The sweep, and with an echo the coast that paints; by the same rays where they fit."""
        terrain, settings, budget = self._terrain, self._settings, self._budget
        if budget is None or not has_echo:
            return sweep_polar(terrain, position, settings), None
        cell_m = min(max(budget.pulse.depth_m / 2.0, _LEAST_CELL_M), _MOST_CELL_M)
        half_deg = budget.radar.horizontal_beamwidth_deg / 2.0
        bearings = _BEARINGS * math.ceil(360.0 / half_deg / _BEARINGS)
        if bearings % WATER_RAYS == 0 and not settings.is_exact:
            field, sweep = sweep_lit(
                terrain, position, settings, cell_m=cell_m, bearing_count=bearings
            )
        else:
            sweep = sweep_polar(terrain, position, settings)
            field = sweep_echo(
                terrain,
                position,
                antenna_height_m=settings.antenna_height_m,
                refraction_k=settings.refraction_k,
                radius_m=settings.radius_m,
                cell_m=cell_m,
                bearing_count=bearings,
            )
        echo = land_echo(field, budget)
        return sweep, painted_coast(terrain, self._land.points, position, echo)


def _empty_view(land: LandModel, *, is_unknown: bool) -> PlaceView:
    """The view where there is no land: shared by all such places, so it costs nothing."""
    unknown_from_m = np.full((WATER_RAYS, 3), np.inf, dtype=np.float32)
    if is_unknown:
        unknown_from_m[:, _BEYOND_COLUMN] = 0.0
    return PlaceView(
        nearest_land_range_m=None,
        nearest_land_bearing_deg=None,
        coast=no_coast(land.points),
        horizon_slope=np.full(HORIZON_RAYS, np.nan, dtype=np.float32),
        hidden=HiddenWater(
            offsets=np.zeros(WATER_RAYS + 1, dtype=np.int64),
            from_m=np.zeros(0, dtype=np.float32),
            to_m=np.zeros(0, dtype=np.float32),
        ),
        shadows=(),
        gaps=gap_patches(unknown_from_m),
        paint=None,
        is_swept=False,
    )
