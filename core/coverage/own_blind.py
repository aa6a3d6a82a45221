"""Arcs in which own structure blinds a radar, as they lie about the course of one leg."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindArc:
    """An arc off the course, clockwise, over all headings that leeway leaves possible."""

    from_off_deg: float
    width_deg: float
    words: str
    """The sector it comes from, such as ``176° to 184° rel, funnel``."""

    def holds(self, off_course_deg: FloatArray) -> BoolArray:
        """Whether angles off the course lie in the arc."""
        into_deg = np.mod(off_course_deg - self.from_off_deg, 360.0)
        return np.asarray(into_deg <= self.width_deg)
