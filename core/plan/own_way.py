"""Where own ship is before and on a leg, by her time-table, whichever leg she is then on."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray
from core.geodesy.leg_line import LegLine
from core.passage.passage import Passage


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnWay:
    """The lines and speeds of all legs; turns are taken as corners."""

    lines: tuple[LegLine, ...]
    speeds_mps: tuple[float, ...]

    def positions(self, leg_index: int, along_m: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Latitudes and longitudes for distances along a leg.

        Negative distances are run at the leg's speed: time before the leg, which the ship spent
        on the legs before it; before the passage she lies at its first waypoint.
        """
        lat, lon = np.empty(along_m.shape), np.empty(along_m.shape)
        here = along_m.copy()
        left = np.ones(along_m.shape, dtype=np.bool_)
        for index in range(leg_index, -1, -1):
            on_leg = left & ((here >= 0.0) | (index == 0))
            if on_leg.any():
                own = self.lines[index].many_at(np.maximum(here[on_leg], 0.0))
                lat[on_leg], lon[on_leg] = own[0], own[1]
            left &= ~on_leg
            if index == 0 or not left.any():
                break
            before = self.lines[index - 1]
            ratio = self.speeds_mps[index - 1] / self.speeds_mps[index]
            here = np.where(left, before.length_m + here * ratio, here)
        return lat, lon


def own_way(passage: Passage, speeds_mps: tuple[float, ...]) -> OwnWay:
    """The way of a passage."""
    count = len(passage.legs)
    return OwnWay(lines=tuple(passage.line(i) for i in range(count)), speeds_mps=speeds_mps)
