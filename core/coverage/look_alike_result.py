"""A place that could be taken for another, apart from how it is found: plans hold it."""

from dataclasses import dataclass

from core.geodesy.position import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAlike:
    """A place from which the coast paints much as from the place on the track."""

    along_m: float
    """Where on the leg the place on the track lies."""
    position: Position
    distance_m: float
    bearing_deg: float
    """Of the other place from the place on the track."""
    likeness_ratio: float
    """Share of the echoes of both pictures that have their like in the other."""
