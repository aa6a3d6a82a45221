"""Marks and named places that lie in hidden water for part of a leg (job.md 7.9, C14)."""

import numpy as np

from core.base.arrays import FloatArray
from core.coverage.coverage_result import SweepSettings
from core.coverage.hidden_spells import hidden_spells
from core.coverage.profiles import Grid
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell, LandModel
from core.passage.passage import Side
from core.plan.intervals import Intervals, union
from core.plan.plan_result import Mark
from core.plan.rules import HiddenMarkRules
from core.plan.waters_result import HiddenMark


def hidden_marks_of(
    marks: tuple[Mark, ...],
    places: tuple[Mark, ...],
    line: LegLine,
    land: LandModel,
    grid: Grid,
    settings: SweepSettings,
    *,
    corridor_m: tuple[float, float],
    speed_mps: float,
    rules: HiddenMarkRules,
) -> tuple[HiddenMark, ...]:
    """Marks and places within reach of a leg that are hidden over some of it.

    Parameters
    ----------
    marks, places : tuples of Mark
        Things and places the officer gave.
    line : LegLine
        The leg.
    land : LandModel
        To tell marks that stand in water: about one on land no craft lies.
    grid : Grid
        The land.
    settings : SweepSettings
        Antenna height, refraction, height of the craft.
    corridor_m : tuple of float
        To port and to starboard, m.
    speed_mps : float
        Own speed over the ground.
    rules : HiddenMarkRules
        How near.

    Returns
    -------
    tuple of HiddenMark
        In order of opening along the leg; what is never hidden is left out.
    """
    cross_m = tuple(sorted({-corridor_m[0], 0.0, corridor_m[1]}))
    own_ground_m = max(rules.own_ground_m, grid.cell_m)
    found = []
    for mark in (*(m for m in marks if _stands_in_water(m, land)), *places):
        spells = hidden_spells(
            mark.position,
            line,
            grid,
            settings,
            height_m=settings.craft_height_m,
            cross_m=cross_m,
            within_m=rules.within_m,
            own_ground_m=own_ground_m,
        )
        somewhere = union(tuple(s for one in spells.hidden for s in one), join_m=1.0)
        unknown = union(tuple(s for one in spells.unknown for s in one), join_m=1.0)
        if not somewhere and not unknown:
            continue
        along, cross = line.track_coordinates(
            *(_array(v) for v in (mark.position.lat_deg, mark.position.lon_deg))
        )
        abeam_m = float(along[0])
        opens_m = _opening(union((*somewhere, *unknown), join_m=1.0), spells.within[0], abeam_m)
        on_track = spells.hidden[cross_m.index(0.0)]
        found.append(
            HiddenMark(
                name=mark.name,
                kind=mark.kind,
                is_place=mark in places,
                side=Side.STARBOARD if float(cross[0]) >= 0.0 else Side.PORT,
                abeam_m=abeam_m,
                off_track_m=abs(float(cross[0])),
                within_m=rules.within_m,
                near=spells.within[0],
                hidden=on_track,
                hidden_somewhere=somewhere,
                unknown=unknown,
                opens_m=opens_m,
                hidden_s=_length_s(somewhere, speed_mps),
                track_hidden_s=_length_s(on_track, speed_mps),
                open_before_abeam_s=None if opens_m is None else (abeam_m - opens_m) / speed_mps,
            )
        )
    return tuple(sorted(found, key=lambda one: (one.abeam_m, one.name)))


def _stands_in_water(mark: Mark, land: LandModel) -> bool:
    row, col = land.lattice.row_col(_array(mark.position.lat_deg), _array(mark.position.lon_deg))
    i, j = round(float(row[0])), round(float(col[0]))
    rows, cols = land.cell.shape
    return 0 <= i < rows and 0 <= j < cols and int(land.cell[i, j]) == Cell.SEA


def _array(value_deg: float) -> FloatArray:
    return np.array([value_deg])


def _length_s(parts: Intervals, speed_mps: float) -> float:
    return sum(stop - start for start, stop in parts) / speed_mps


def _opening(shut: Intervals, near: tuple[float, float], abeam_m: float) -> float | None:
    """End of the last stretch that begins before the place is abeam, if it opens before that."""
    before = [part for part in shut if part[0] < abeam_m]
    if not before or before[-1][1] >= min(abeam_m, near[1]) - 1.0:
        return None
    return before[-1][1]
