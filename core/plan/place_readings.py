"""What is read from a place on a leg on the scale in use there, and how well it is known."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from core.plan.candidates import LegField
from core.plan.fix_targets import FixTarget, targets_at
from core.plan.leg_context import LegContext
from core.plan.usable_window import ScaleSpan, Setting

_SAME_PLACE_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceReading:
    """One object as it is read from one place: the nearest of it that paints."""

    object_id: str
    name: str
    is_mark: bool
    is_point: bool
    """Whether it is so small that any part of it is all of it."""
    ahead_m: float
    """Along the course from own ship, astern negative."""
    cross_m: float
    """Off the track, starboard positive."""
    bearing_deg: float
    scale_m: float
    """In use there."""
    radius_m: float
    """That the screen counts with round its middle."""
    fixed_error_m: float
    """Of its place and of reading it, 95 %, without the radar's own range error: echo's edge,
    data, tide, display."""

    @property
    def range_m(self) -> float:
        """Range from own ship, m."""
        return math.hypot(self.ahead_m, self.cross_m)

    @property
    def relative_deg(self) -> float:
        """Off the course line, starboard positive, -180 to 180."""
        return math.degrees(math.atan2(self.cross_m, self.ahead_m))


Reader = Callable[[float], tuple[PlaceReading, ...]]
"""Readings from a place, m along, nearest first."""


def place_reader(field: LegField, context: LegContext, spans: tuple[ScaleSpan, ...]) -> Reader:
    """What is read from any place of one leg; each place is worked out once.

    Parameters
    ----------
    field : LegField
        Objects of the leg and how they are seen.
    context : LegContext
        Their letters and echoes.
    spans : tuple of ScaleSpan
        Scales of the main radar along the leg.
    """
    known: dict[float, tuple[PlaceReading, ...]] = {}

    def read(along_m: float) -> tuple[PlaceReading, ...]:
        if along_m not in known:
            setting = _setting_at(spans, along_m)
            screen = setting.screen
            targets = targets_at(
                field, context, along_m, within_m=screen.radius_m + screen.middle_ahead_m
            )
            known[along_m] = tuple(
                _reading(target, setting)
                for target in targets
                if screen.shows(ahead_m=target.ahead_m, cross_m=target.cross_m)
            )
        return known[along_m]

    return read


def _setting_at(spans: tuple[ScaleSpan, ...], along_m: float) -> Setting:
    """The scale in use; where one ends and the next begins, the next."""
    begun = [span for span in spans if span.from_along_m <= along_m + _SAME_PLACE_M]
    return (begun[-1] if begun else spans[0]).setting


def _reading(target: FixTarget, setting: Setting) -> PlaceReading:
    return PlaceReading(
        object_id=target.object_id,
        name=target.name,
        is_mark=target.name == target.object_id,
        is_point=target.is_point_like,
        ahead_m=target.ahead_m,
        cross_m=target.cross_m,
        bearing_deg=target.bearing_deg,
        scale_m=setting.screen.scale_m,
        radius_m=setting.screen.radius_m,
        fixed_error_m=math.hypot(setting.budget.fixed_error_m, target.shore_error_m),
    )
