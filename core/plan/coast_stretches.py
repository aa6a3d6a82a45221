"""Which stretches of coast begin to paint on a leg: the land that first shows.

From the coverage of the leg's viewpoints; where on the leg each really begins, beyond the sweep
radius too, is found by the search for first paints.
"""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, IntArray
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import CoastPaint, LegCoverage
from core.coverage.paint_gauge import PaintTarget
from core.coverage.sight_scene import SightTarget
from core.geodesy.position import Position
from core.land.coast import CoastPoints
from core.passage.passage import Passage
from core.plan.lettering import place_name

MOST_A_LEG = 6
_LEAST_M = m_from_nm(0.5)
"""Shorter stretches say nothing that the objects do not."""
_TOGETHER_M = m_from_nm(1.0)
"""Neighbouring points that begin to paint within this of one another are one stretch."""
_LEAST_REACH_M, _MOST_REACH_M = 250.0, m_from_nm(0.5)
"""How far ground counts with a stretch. Where a beam is wider than that the coast beside it echoes
too, so it can paint earlier than told: 0.3 to 0.4 NM for a shore of 60 m at 20 NM (measured)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    points: IntArray
    along_m: float
    length_m: float


def coast_targets(
    coverage: LegCoverage, points: CoastPoints, passage: Passage
) -> tuple[PaintTarget, ...]:
    """The stretches of coast that begin to paint on a leg, those that come first before others.

    Each stands by the highest of its ground that paints first; ``coast 1`` comes first.
    """
    first_m = _first_painted_m(coverage, points.lat_deg.size)
    stretches = sorted(_stretches(first_m, points), key=lambda s: (s.along_m, -s.length_m))
    targets = []
    for number, stretch in enumerate(stretches[:MOST_A_LEG], 1):
        early = stretch.points[first_m[stretch.points] <= stretch.along_m + _TOGETHER_M / 2.0]
        heights_m = np.nan_to_num(points.height_m[early])
        top = int(early[np.argmax(heights_m)])
        position = Position(lat_deg=float(points.lat_deg[top]), lon_deg=float(points.lon_deg[top]))
        reach_m = min(max(stretch.length_m / 2.0, _LEAST_REACH_M), _MOST_REACH_M)
        height_m = max(float(heights_m.max()), 1.0)
        length_nm = nm_from_m(stretch.length_m)
        targets.append(
            PaintTarget(
                sight=SightTarget(
                    object_id=tr("coast {number}", number=number),
                    name=tr(
                        "coast, {length_nm:.1f} NM of it, {place}",
                        length_nm=length_nm,
                        place=place_name(position, passage),
                    ),
                    position=position,
                    height_above_water_m=height_m,
                    is_on_land=True,
                    own_radius_m=reach_m,
                ),
                reach_m=reach_m,
            )
        )
    return tuple(targets)


def _first_painted_m(coverage: LegCoverage, count: int) -> FloatArray:
    """Along the leg, m, from where each point of the coast paints; NaN from the start or never."""
    first_m = np.full(count, np.nan)
    seen = np.zeros(count, dtype=np.bool_)
    for number, view in enumerate(coverage.on_track()):
        if view.paint is None:
            continue
        paints = np.isin(view.paint.state, (CoastPaint.PAINTED, CoastPaint.PAINTED_BEHIND))
        if number > 0:
            first_m[paints & ~seen] = view.viewpoint.along_m
        seen |= paints
    return first_m


def _stretches(first_m: FloatArray, points: CoastPoints) -> list[_Stretch]:
    """Runs of neighbouring points that begin to paint together."""
    coming = np.flatnonzero(np.isfinite(first_m))
    if coming.size == 0:
        return []
    apart = (
        (np.diff(coming) > 1)
        | (np.diff(points.line[coming]) != 0)
        | (np.abs(np.diff(first_m[coming])) > _TOGETHER_M)
    )
    runs = np.split(coming, np.flatnonzero(apart) + 1)
    found = [
        _Stretch(
            points=run.astype(np.int64),
            along_m=float(first_m[run].min()),
            length_m=float(points.length_m[run].sum()),
        )
        for run in runs
    ]
    return [stretch for stretch in found if stretch.length_m >= _LEAST_M]
