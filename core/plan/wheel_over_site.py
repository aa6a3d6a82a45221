"""The place where the wheel goes over, and what is in sight from it."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.geodesy import rhumb
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.motion import LegMotion
from core.passage.turn import Turn
from core.plan.blind_sectors import CourseSector
from core.plan.leg_sight import LegSight
from core.plan.painted_waterline import painted_places
from core.plan.rules import PlanRules
from core.plan.turn_plan import TurnPlan
from core.plan.usable_window import FeatureTrack, Setting

_LINE_LENGTH_M = 18_520.0


def line_through(position: Position, course_deg: float) -> LegLine:
    """The rhumb line through a place in a direction."""
    lat, lon = rhumb.direct(
        lat_deg=position.lat_deg,
        lon_deg=position.lon_deg,
        course_deg=course_deg,
        distance_m=_LINE_LENGTH_M,
    )
    return LegLine(
        kind=LegKind.RHUMB,
        start=position,
        end=Position(lat_deg=lat, lon_deg=(lon + 180.0) % 360.0 - 180.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class WheelOverSite:
    """Everything about the place where the wheel goes over."""

    line: LegLine
    """The leg."""
    new_line: LegLine | None
    """The next leg; only needed for the reason of the line."""
    turn_plan: TurnPlan
    speed_mps: float
    """Over the ground."""
    motion: LegMotion
    corridor_m: float
    """Narrower side of the corridor."""
    setting: Setting
    """In use at the wheel-over."""
    sight: LegSight
    sectors: tuple[CourseSector, ...]
    """Blind sectors of the main radar, about the old course."""
    rules: PlanRules

    @property
    def position(self) -> Position:
        """The wheel-over position."""
        return self.line.position_at(self.turn_plan.end_m)

    @property
    def turn(self) -> Turn:
        """The turn planned here."""
        if self.turn_plan.turn is None:
            raise ValueError("no turn is planned here")
        return self.turn_plan.turn

    def seen_here(self, seen: BoolArray) -> BoolArray:
        """Places of a waterline in sight from all viewpoints either side of the wheel-over."""
        return np.asarray(seen[self._beside()].all(axis=0))

    def painted_here(self, track: FeatureTrack) -> tuple[FloatArray, FloatArray, FloatArray]:
        """``painted_places`` of a waterline from the nearest viewpoint on the track."""
        off = np.abs(self.sight.view_along_m - self.turn_plan.end_m)
        off[~(self._beside() & self.sight.is_on_track)] = np.inf
        return painted_places(track.feature, track.sight, self.sight, int(np.argmin(off)))

    def _beside(self) -> BoolArray:
        """Viewpoints either side of the wheel-over."""
        nodes = self.sight.node_along_m
        after = int(np.searchsorted(nodes, self.turn_plan.end_m - 1.0))
        beside = {min(after, nodes.size - 1), max(after - 1, 0)}
        return np.asarray(np.isin(self.sight.node_of, list(beside)))
