"""The frame of the leg strip: along and across the leg on one side, millimetres on the other.

The ship runs up the page, port left, starboard right. The track is not a line but a **spine**, a
band that carries the ruler; the water to port lies left of it, the water to starboard right of
it. Places inside the spine are on the track.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray
from core.base.units import m_from_nm
from core.passage.passage import Side
from core.plan.plan_result import LegPlan, Role
from core.sheets.page import Place, Rectangle

SPINE_MM = 28.0
"""Width of the ruler band."""
EDGE_MM = 7.0
"""Least width of the bars on each outer edge."""
HEAD_MM = 6.0
"""Room for the heads above the water."""
FOOT_MM = 6.0
"""Room for the scale words below it."""

_HALF_WIDTHS_NM = (
    *(0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 3.5),
    *(4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 20.0, 24.0),
)
_LARGEST_STRETCH = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StripFrame:
    """Where the water of a leg lies on the page, and how to get there and back."""

    outer: Rectangle
    """The whole strip with bars and heads."""
    water: Rectangle
    """The two halves of water with the spine between them."""
    spine_mm: float
    low_along_m: float
    """Distance along at the lower edge, below 0."""
    high_along_m: float
    """Distance along at the upper edge, past the end of the leg."""
    half_width_m: float
    """Distance across from the spine to an outer edge of the water."""

    @property
    def along_mm_per_m(self) -> float:
        """Scale along the leg."""
        return self.water.height_mm / (self.high_along_m - self.low_along_m)

    @property
    def cross_mm_per_m(self) -> float:
        """Scale across the leg."""
        return (self.water.width_mm - self.spine_mm) / 2.0 / self.half_width_m

    @property
    def stretch_ratio(self) -> float:
        """How much longer a mile across is drawn than a mile along."""
        return self.cross_mm_per_m / self.along_mm_per_m

    @property
    def middle_mm(self) -> float:
        """Where the track runs up the spine."""
        return self.water.x_mm + self.water.width_mm / 2.0

    def spine_edge_mm(self, side: Side) -> float:
        """Where the water of a side begins."""
        half = self.spine_mm / 2.0
        return self.middle_mm - half if side is Side.PORT else self.middle_mm + half

    def half(self, side: Side) -> Rectangle:
        """The water of one side."""
        width = (self.water.width_mm - self.spine_mm) / 2.0
        left = self.water.x_mm if side is Side.PORT else self.spine_edge_mm(side)
        return Rectangle(
            x_mm=left, y_mm=self.water.y_mm, width_mm=width, height_mm=self.water.height_mm
        )

    def y_mm(self, along_m: float) -> float:
        """Height on the page of a distance along."""
        return self.water.bottom_mm - (along_m - self.low_along_m) * self.along_mm_per_m

    def x_mm(self, cross_m: float, side: Side | None = None) -> float:
        """Where a distance across lies; on the track itself the spine's edge of ``side``."""
        if cross_m < 0.0 or (cross_m == 0.0 and side is Side.PORT):
            return self.spine_edge_mm(Side.PORT) + cross_m * self.cross_mm_per_m
        if cross_m > 0.0 or side is Side.STARBOARD:
            return self.spine_edge_mm(Side.STARBOARD) + cross_m * self.cross_mm_per_m
        return self.middle_mm

    def place(self, along_m: float, cross_m: float) -> Place:
        """Where a place in track coordinates lies on the page."""
        return self.x_mm(cross_m), self.y_mm(along_m)

    def half_places(self, along_m: FloatArray, cross_m: FloatArray, side: Side) -> FloatArray:
        """Places on the page (n, 2) as one half continues them past the track.

        Used before cutting to the half, so that shapes reaching over the track keep their form.
        """
        x = self.spine_edge_mm(side) + cross_m * self.cross_mm_per_m
        y = self.water.bottom_mm - (along_m - self.low_along_m) * self.along_mm_per_m
        return np.column_stack([x, y])

    def track_coordinates(self, place: Place) -> tuple[float, float]:
        """Along and cross, m, of a place on the page; inside the spine cross is 0."""
        x, y = place
        along = self.low_along_m + (self.water.bottom_mm - y) / self.along_mm_per_m
        port, starboard = self.spine_edge_mm(Side.PORT), self.spine_edge_mm(Side.STARBOARD)
        if x < port:
            return along, (x - port) / self.cross_mm_per_m
        if x > starboard:
            return along, (x - starboard) / self.cross_mm_per_m
        return along, 0.0

    def holds_along(self, along_m: float) -> bool:
        """Whether a distance along lies inside the water."""
        return self.low_along_m <= along_m <= self.high_along_m

    def clamp_along(self, along_m: float) -> float:
        """The nearest distance along inside the water."""
        return min(max(along_m, self.low_along_m), self.high_along_m)


def strip_frame(
    plan: LegPlan,
    frame: Rectangle,
    *,
    cross_half_width_m: float | None = None,
    edges_mm: tuple[float, float] = (EDGE_MM, EDGE_MM),
) -> StripFrame:
    """The frame for one leg.

    Parameters
    ----------
    plan : LegPlan
        The leg; its lines decide how wide the water must be.
    frame : Rectangle
        Room on the page, mm.
    cross_half_width_m : float or None
        Distance across to each outer edge, m; None chooses a round number of miles that holds
        every line and the corridor.
    edges_mm : (float, float)
        Room for the bars to port and to starboard, mm.
    """
    port_mm, starboard_mm = edges_mm
    water = Rectangle(
        x_mm=frame.x_mm + port_mm,
        y_mm=frame.y_mm + HEAD_MM,
        width_mm=frame.width_mm - port_mm - starboard_mm,
        height_mm=frame.height_mm - HEAD_MM - FOOT_MM,
    )
    # Room for the chip of the first range scale below the waypoint.
    below = max(0.05, 9.0 / water.height_mm) * plan.distance_m
    above = max(0.08 * plan.distance_m, _turn_reach_m(plan))
    total = plan.distance_m + below + above
    if cross_half_width_m is None:
        cross_half_width_m = _half_width_m(
            plan, total / water.height_mm, (water.width_mm - SPINE_MM) / 2.0
        )
    return StripFrame(
        outer=frame,
        water=water,
        spine_mm=SPINE_MM,
        low_along_m=-below,
        high_along_m=plan.distance_m + above,
        half_width_m=cross_half_width_m,
    )


def _turn_reach_m(plan: LegPlan) -> float:
    """Room past the end for the turn to be seen, at most a fifth of the leg."""
    turn = plan.wheel_over
    if turn is None:
        return 0.0
    before = turn.distance_before_waypoint_m
    ahead = before * max(0.0, math.cos(math.radians(turn.alteration_deg)))
    return min(ahead * 1.2, 0.2 * plan.distance_m)


def _half_width_m(plan: LegPlan, along_m_per_mm: float, half_mm: float) -> float:
    """Smallest round width that holds lines and corridor and is not stretched too far."""
    needed = 1.3 * max(_reaches(plan))
    least = along_m_per_mm * half_mm / _LARGEST_STRETCH
    wanted = max(needed, least, 1.2 * along_m_per_mm * half_mm if not plan.lines else 0.0)
    for width_nm in _HALF_WIDTHS_NM:
        if m_from_nm(width_nm) >= wanted:
            return m_from_nm(width_nm)
    return m_from_nm(_HALF_WIDTHS_NM[-1])


def _reaches(plan: LegPlan) -> Iterable[float]:
    yield 3.5 * max(plan.corridor_port_m, plan.corridor_starboard_m)
    for line in plan.lines:
        if line.role is not Role.WHEEL_OVER:
            yield line.cross_index_range_m
