"""Bearings and sectors, always clockwise, always in degrees."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray


def wrap_360_deg(angle_deg: float) -> float:
    """The same direction in [0, 360)."""
    wrapped = angle_deg % 360.0
    return 0.0 if wrapped >= 360.0 else wrapped


def difference_deg(to_deg: float, from_deg: float) -> float:
    """Turn from one direction to another, in (-180, 180], starboard positive."""
    turn = (to_deg - from_deg) % 360.0
    return turn - 360.0 if turn > 180.0 else turn


def wrap_360_array_deg(angle_deg: FloatArray) -> FloatArray:
    """The same directions in [0, 360), for arrays of any shape."""
    wrapped = np.mod(angle_deg, 360.0)
    return np.where(wrapped >= 360.0, 0.0, wrapped)


def difference_array_deg(to_deg: FloatArray, from_deg: FloatArray | float) -> FloatArray:
    """Turns from one direction to another in (-180, 180], for arrays of any shape."""
    turn = np.mod(to_deg - from_deg, 360.0)
    return np.where(turn > 180.0, turn - 360.0, turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sector:
    """An arc of bearings, clockwise from ``from_deg`` to ``to_deg``, both in [0, 360)."""

    from_deg: float
    to_deg: float

    @property
    def width_deg(self) -> float:
        """Width of the arc, deg, in [0, 360)."""
        return (self.to_deg - self.from_deg) % 360.0

    def contains(self, bearing_deg: float) -> bool:
        """Whether a bearing lies in the arc, its ends included."""
        return (bearing_deg - self.from_deg) % 360.0 <= self.width_deg
