"""Whether craft behind tips are really hidden, and when they come in sight: by rays over land."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, ByteArray, FloatArray, HoldsArrays, IntArray
from core.coverage.coverage_result import SweepSettings
from core.coverage.profiles import Grid, Pairs, PairState, sight_of_pairs
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell, LandModel
from core.passage.motion import LegMotion
from core.plan.own_way import OwnWay

_STEP_S = 4.0
_HALVINGS = 4
_HIDING = (PairState.HIDDEN_BY_LAND, PairState.HIDDEN_IF_UNKNOWN_IS_HIGH)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Approaches(HoldsArrays):
    """Craft that cross a leg at right angles, arrays (n,).

    meet_m : where along the leg they meet own ship, m
    sign : +1 from starboard, -1 from port
    speed_mps : over the ground
    look_back_s : how long before the meeting they are followed
    """

    meet_m: FloatArray
    sign: FloatArray
    speed_mps: FloatArray
    look_back_s: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Comings(HoldsArrays):
    """What became of approaches, arrays (n,).

    warning_s : from coming in sight to meeting; NaN where the craft is not hidden before, as far
        as she is followed and comes over water
    hidden_run_m : how far she ran unseen just before
    is_behind_unknown : whether only heights that are not known hid her then
    """

    warning_s: FloatArray
    hidden_run_m: FloatArray
    is_behind_unknown: BoolArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """What the craft of one leg run in."""

    leg_index: int
    line: LegLine
    own_speed_mps: float
    motion: LegMotion
    way: OwnWay
    land: LandModel
    grid: Grid
    settings: SweepSettings

    def craft_at(self, meet_m: FloatArray, cross_m: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Positions of craft at track coordinates."""
        feet_lat, feet_lon, courses = self.line.many_at(meet_m)
        lat, lon, _final = geodesic.direct(
            lat_deg=feet_lat, lon_deg=feet_lon, bearing_deg=courses + 90.0, distance_m=cross_m
        )
        return lat, lon

    def states(self, craft: Approaches, which: IntArray, before_s: FloatArray) -> ByteArray:
        """``PairState`` of craft ``which`` (n,) at times before their meetings (n,)."""
        meet = craft.meet_m[which]
        own_lat, own_lon = self.way.positions(self.leg_index, meet - self.own_speed_mps * before_s)
        lat, lon = self.craft_at(meet, craft.sign[which] * craft.speed_mps[which] * before_s)
        return sight_of_pairs(
            Pairs(
                from_lat_deg=own_lat,
                from_lon_deg=own_lon,
                to_lat_deg=lat,
                to_lon_deg=lon,
                to_height_m=np.full(which.size, self.settings.craft_height_m),
                margin_m=np.zeros(which.size),
            ),
            self.grid,
            None,
            antenna_height_m=self.settings.antenna_height_m,
            refraction_k=self.settings.refraction_k,
        ).state

    def is_land(self, craft: Approaches, which: IntArray, before_s: FloatArray) -> BoolArray:
        """Whether craft would stand on land at those times."""
        cross = craft.sign[which] * craft.speed_mps[which] * before_s
        lat, lon = self.craft_at(craft.meet_m[which], cross)
        row, col = self.land.lattice.row_col(lat, lon)
        rows, cols = self.land.cell.shape
        i = np.clip(np.rint(row).astype(np.int64), 0, rows - 1)
        j = np.clip(np.rint(col).astype(np.int64), 0, cols - 1)
        return np.asarray(self.land.cell[i, j] == Cell.LAND)


def comings_of(scene: Scene, craft: Approaches) -> Comings:
    """Follow craft back from their meetings with own ship until land hides them or they end.

    Returns
    -------
    Comings
        Warning times to a quarter of a second, hidden runs to four seconds' run.
    """
    count = craft.meet_m.size
    steps = np.floor(craft.look_back_s / _STEP_S).astype(np.int64)
    which = np.repeat(np.arange(count), steps)
    first = np.cumsum(steps) - steps
    number = np.arange(which.size) - first[which] + 1
    before_s = number * _STEP_S
    warning = np.full(count, np.nan)
    run = np.zeros(count)
    unknown = np.zeros(count, dtype=np.bool_)
    if which.size == 0:
        return Comings(warning_s=warning, hidden_run_m=run, is_behind_unknown=unknown)
    land = scene.is_land(craft, which, before_s)
    water = np.ones(which.size, dtype=np.bool_)
    for i in range(count):
        part = slice(first[i], first[i] + steps[i])
        # Nothing comes over land: what lies behind it is another craft's way.
        water[part] = ~np.logical_or.accumulate(land[part])
    state = np.full(which.size, PairState.IN_SIGHT, dtype=np.uint8)
    asked = np.flatnonzero(water)
    state[asked] = scene.states(craft, which[asked], before_s[asked])
    hiding = water & np.isin(state, _HIDING)
    found = []
    for i in range(count):
        mine = hiding[first[i] : first[i] + steps[i]]
        if not mine.any():
            continue
        start = int(np.argmax(mine))
        stop = mine.size if mine[start:].all() else start + int(np.argmin(mine[start:]))
        run[i] = (stop - start) * _STEP_S * craft.speed_mps[i]
        unknown[i] = state[first[i] + start] != PairState.HIDDEN_BY_LAND
        warning[i] = before_s[first[i] + start]
        found.append(i)
    _refine(scene, craft, np.array(found, dtype=np.int64), warning)
    return Comings(warning_s=warning, hidden_run_m=run, is_behind_unknown=unknown)


def _refine(scene: Scene, craft: Approaches, found: IntArray, warning_s: FloatArray) -> None:
    """Halve the step in which each craft comes in sight."""
    if found.size == 0:
        return
    hidden_s = warning_s[found]
    seen_s = hidden_s - _STEP_S
    for _ in range(_HALVINGS):
        middle = (hidden_s + seen_s) / 2.0
        is_hidden = np.isin(scene.states(craft, found, middle), _HIDING)
        hidden_s = np.where(is_hidden, middle, hidden_s)
        seen_s = np.where(is_hidden, seen_s, middle)
    warning_s[found] = (hidden_s + seen_s) / 2.0
