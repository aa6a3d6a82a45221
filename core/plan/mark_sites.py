"""What the officer's marks stand on: a mark on a rock or a tip is the same echo as the rock."""

from dataclasses import replace

import numpy as np
import shapely

from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.rules import PlanRules
from core.plan.shore import cell_size_m, metres_from


def same_place_m(land: LandModel, feature: Feature, rules: PlanRules) -> float:
    """Within this of a fixed mark a thing on land is the mark's own echo, m.

    Positions from chart, coast and elevation agree no better than ``rules.same_place_m`` or
    ``rules.same_place_cells_ratio`` cells.
    """
    cell_m = cell_size_m(land, lat_deg=float(feature.lat_deg[0]), lon_deg=float(feature.lon_deg[0]))
    return max(rules.same_place_m, rules.same_place_cells_ratio * cell_m)


def on_their_sites(
    marks: tuple[Feature, ...], islets: tuple[Feature, ...], land: LandModel, rules: PlanRules
) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
    """Marks and islets with each echo counted once.

    An islet all of whose shore lies beside a fixed mark goes: the mark is the better known of
    the two. A larger islet keeps its edge as an object of its own, and a mark that stands on it
    or beside it carries its key as ``site``, for the two are never checked against each other.

    Returns
    -------
    marks, islets : tuples of Feature
        In their old order.
    """
    hidden: set[str] = set()
    sited = []
    for mark in marks:
        site = mark.site
        for islet in islets if mark.is_fixed else ():
            off_m, farthest_m, is_inside = _apart(mark, islet)
            near_m = same_place_m(land, mark, rules)
            if farthest_m <= near_m:
                hidden.add(islet.key)
            elif is_inside or off_m <= near_m:
                site = islet.key
        sited.append(replace(mark, site=site))
    return tuple(sited), tuple(islet for islet in islets if islet.key not in hidden)


def _apart(mark: Feature, islet: Feature) -> tuple[float, float, bool]:
    """Distance of a mark to an islet's nearest and farthest shore, m, and if it stands within."""
    east, north = metres_from(
        islet.lat_deg,
        islet.lon_deg,
        from_lat_deg=float(mark.lat_deg[0]),
        from_lon_deg=float(mark.lon_deg[0]),
    )
    off = np.hypot(east, north)
    nearest, farthest = float(off.min()), float(off.max())
    if east.size < 3 or nearest > islet.extent_m:
        return nearest, farthest, False
    ring = shapely.Polygon(np.column_stack([east, north]))
    return nearest, farthest, bool(shapely.contains_xy(ring, 0.0, 0.0))


def is_under_a_mark(
    lat_deg: float, lon_deg: float, marks: tuple[Feature, ...], land: LandModel, rules: PlanRules
) -> bool:
    """Whether a fixed mark stands where the tip of a headland is, so that it is known better."""
    for mark in marks:
        if not mark.is_fixed:
            continue
        east, north = metres_from(
            mark.lat_deg, mark.lon_deg, from_lat_deg=lat_deg, from_lon_deg=lon_deg
        )
        if float(np.hypot(east, north)[0]) <= same_place_m(land, mark, rules):
            return True
    return False
