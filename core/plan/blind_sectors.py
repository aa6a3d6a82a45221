"""Where along a leg own structure blinds the radar to an object (job.md 5.6 to 5.9).

Without set or leeway the heading is the course, so relative bearings count from the line.
"""

import math
from dataclasses import dataclass

from core.plan.intervals import Interval, Intervals, intersection, union
from core.ship.ship import BlindSector


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindSpan:
    """A stretch of a leg over which an object stands in a sector."""

    sector: BlindSector
    from_along_m: float
    to_along_m: float

    @property
    def interval(self) -> Interval:
        """The stretch as a pair."""
        return self.from_along_m, self.to_along_m


def blind_spans(
    *, along_m: float, cross_m: float, sectors: tuple[BlindSector, ...], within: Intervals
) -> tuple[BlindSpan, ...]:
    """Stretches over which an object stands in a blind or shadow sector.

    Parameters
    ----------
    along_m, cross_m : float
        Track coordinates of the object, m, starboard positive; not on the line itself.
    sectors : tuple of BlindSector
        Of the radar in use.
    within : Intervals
        Where along the leg it matters.

    Notes
    -----
    At an angle b off the bow the object lies |cross| / tan b ahead (plain geometry).
    """
    found = []
    for sector in sectors:
        parts = tuple(
            (_place_m(along_m, cross_m, a), _place_m(along_m, cross_m, b))
            for a, b in _off_the_bow(sector, is_starboard=cross_m > 0.0)
        )
        found += [
            BlindSpan(sector=sector, from_along_m=start, to_along_m=stop)
            for start, stop in intersection(union(parts), within)
        ]
    return tuple(sorted(found, key=lambda span: span.interval))


def blinded(spans: tuple[BlindSpan, ...]) -> Intervals:
    """Where nothing at all is seen; shadow sectors still show large echoes."""
    return union(tuple(span.interval for span in spans if not span.sector.is_shadow))


def is_blind(*, ahead_m: float, cross_m: float, sectors: tuple[BlindSector, ...]) -> bool:
    """Whether a place, ahead and to starboard of own ship, stands in a blind sector."""
    relative_deg = math.degrees(math.atan2(cross_m, ahead_m)) % 360.0
    return any(
        (relative_deg - sector.from_relative_deg) % 360.0
        <= (sector.to_relative_deg - sector.from_relative_deg) % 360.0
        for sector in sectors
        if not sector.is_shadow
    )


def _off_the_bow(sector: BlindSector, *, is_starboard: bool) -> list[tuple[float, float]]:
    """The parts of a sector on one side, as angles off the bow from 0 to 180 deg."""
    start, stop = sector.from_relative_deg, sector.to_relative_deg
    if not is_starboard:
        # Mirrored, so that port counts from the bow as well.
        start, stop = (360.0 - stop) % 360.0, (360.0 - start) % 360.0
    parts = [(start, stop)] if start < stop else [(start, 360.0), (0.0, stop)]
    return [(a, min(b, 180.0)) for a, b in parts if a < 180.0 and b > a]


def _place_m(along_m: float, cross_m: float, off_bow_deg: float) -> float:
    """Where along the leg the object stands at an angle off the bow."""
    if off_bow_deg <= 0.0:
        return -math.inf
    if off_bow_deg >= 180.0:
        return math.inf
    return along_m - abs(cross_m) / math.tan(math.radians(off_bow_deg))
