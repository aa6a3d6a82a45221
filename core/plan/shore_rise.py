"""How steeply the shore rises from the water, as far as the elevation cells can tell."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray
from core.land.land_model import Cell, LandModel
from core.plan.rules import PlanRules
from core.plan.shore import cell_size_m, cells_around, metres_from

_MOST_PLACES = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoreRise:
    """The climb from the water to the nearest ground that the tide leaves dry.

    Where no ground within reach is as high as the tide rises, the shore is low: ``run_m`` is
    then the reach, and ``rise_m`` the highest ground within it, 0 where the elevation shows none.
    """

    rise_m: float
    """Height of that ground above the water, m."""
    run_m: float
    """From the nearest water's edge to it, m; half a cell at least."""
    cell_m: float
    """Longer side of an elevation cell, m."""
    height_error_m: float
    """Error of the heights, 95 %, m."""
    is_low: bool

    @property
    def slope_ratio(self) -> float:
        """Best guess of the slope, rise over run."""
        return self.rise_m / self.run_m

    @property
    def sure_slope_ratio(self) -> float:
        """The slope that is left if the heights err to the bad side and the run by a cell.

        A cell says what it is like on average; what it cannot bear out is not called steep.
        """
        return max(self.rise_m - self.height_error_m, 0.0) / (self.run_m + self.cell_m)

    def movement_m(self, tidal_range_m: float) -> float:
        """How far the water's edge moves over a tide, m; at least that far if the shore is low."""
        if self.is_low:
            return self.run_m
        return edge_movement_m(rise_m=tidal_range_m, slope_ratio=self.slope_ratio)


def edge_movement_m(*, rise_m: float, slope_ratio: float) -> float:
    """How far the water's edge moves over a rise of the water, m (rise over slope, job.md T13)."""
    return rise_m / slope_ratio


def shore_rise(
    land: LandModel, *, lat_deg: float, lon_deg: float, rules: PlanRules
) -> ShoreRise | None:
    """The rise of the shore at one place of the coast.

    Parameters
    ----------
    land : LandModel
        Cells and heights.
    lat_deg, lon_deg : float
        A place on the coast.
    rules : PlanRules
        Tidal range and reach.

    Returns
    -------
    ShoreRise or None
        None where heights are only assumed, or cells are too coarse to tell.

    Notes
    -----
    Ground as high as the tidal range is looked for within the greater of ``rules.shore_reach_m``
    and three cells; of what is found the nearest counts. Its run is taken from the nearest
    water, be it the place itself or the edge of a cell without height: open coast and elevation
    lie up to hundreds of metres apart, and cells of no height behind the coast are sea to the
    elevation, not a beach.
    """
    if land.heights_assumed:
        return None
    cell_m = cell_size_m(land, lat_deg=lat_deg, lon_deg=lon_deg)
    if cell_m > rules.shore_cell_most_m:
        return None
    reach_m = max(rules.shore_reach_m, 3.0 * cell_m)
    # Water may lie one reach farther on, beyond the ground that is looked for.
    around = cells_around(
        land,
        lat_deg=lat_deg,
        lon_deg=lon_deg,
        reach_m=2.0 * reach_m,
        kinds=(Cell.LAND, Cell.SEA),
    )
    in_reach = around.distance_m <= reach_m
    dry = in_reach & (around.height_m >= rules.tidal_range_m)
    if not dry.any():
        return ShoreRise(
            rise_m=float(np.max(around.height_m[in_reach], initial=0.0)),
            run_m=reach_m,
            cell_m=cell_m,
            height_error_m=land.height_error_m,
            is_low=True,
        )
    chosen = int(np.argmin(np.where(dry, around.distance_m, np.inf)))
    wet = around.height_m <= 0.0
    east, north = metres_from(
        around.lat_deg[wet],
        around.lon_deg[wet],
        from_lat_deg=float(around.lat_deg[chosen]),
        from_lon_deg=float(around.lon_deg[chosen]),
    )
    # A cell without height is water all over, so its edge is half a cell nearer than its centre.
    off_m = np.hypot(east, north) - cell_m / 2.0
    run_m = float(np.min(off_m, initial=float(around.distance_m[chosen])))
    return ShoreRise(
        rise_m=float(around.height_m[chosen]),
        run_m=max(run_m, cell_m / 2.0),
        cell_m=cell_m,
        height_error_m=land.height_error_m,
        is_low=False,
    )


def middling_rise(
    land: LandModel, lat_deg: FloatArray, lon_deg: FloatArray, rules: PlanRules
) -> ShoreRise | None:
    """The rise of a stretch of shore: the middle one of several places, by how its edge moves.

    ``lat_deg`` and ``lon_deg`` (n,) are places of the waterline; some of them are looked at.
    """
    step = max(1, -(-lat_deg.size // _MOST_PLACES))
    found = [
        shore_rise(land, lat_deg=float(lat_deg[i]), lon_deg=float(lon_deg[i]), rules=rules)
        for i in range(0, lat_deg.size, step)
    ]
    known = sorted(
        (rise for rise in found if rise is not None),
        key=lambda rise: (rise.is_low, rise.movement_m(rules.tidal_range_m)),
    )
    return known[len(known) // 2] if known else None
