"""Where along a leg own structure blinds the radar to an object (job.md 5.6 to 5.9).

Sectors turn with the heading, tracks and bearings count from the course. Stream turns the
heading off the course by an angle that is known, leeway by one of which only limits are.
"""

import math
from dataclasses import dataclass

from core.passage.motion import LegMotion
from core.plan.intervals import Interval, Intervals, intersection, union
from core.ship.ship import BlindSector


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseSector:
    """A sector as it lies about the course, clockwise, over all headings the leeway allows.

    ``from_off_deg`` and ``to_off_deg`` count clockwise from the course, [0, 360); a sector that
    covers all round has them 360 deg apart.
    """

    sector: BlindSector
    """As it lies about the bow."""
    from_off_deg: float
    to_off_deg: float

    @property
    def width_deg(self) -> float:
        """From one end to the other, 0 to 360 deg."""
        width = self.to_off_deg - self.from_off_deg
        return width if width >= 360.0 else width % 360.0

    def holds(self, off_course_deg: float) -> bool:
        """Whether an angle off the course may lie in the sector."""
        return (off_course_deg - self.from_off_deg) % 360.0 <= self.width_deg


def sectors_about_course(
    sectors: tuple[BlindSector, ...], motion: LegMotion
) -> tuple[CourseSector, ...]:
    """Sectors about the course, each widened by the leeway: where it may blind at all.

    Without stream and leeway they lie about the course as about the bow.
    """
    least, most = motion.least_heading_off_deg, motion.most_heading_off_deg
    found = []
    for sector in sectors:
        width = (sector.to_relative_deg - sector.from_relative_deg) % 360.0 + most - least
        start = (sector.from_relative_deg + least) % 360.0
        stop = start + 360.0 if width >= 360.0 else (start + width) % 360.0
        found.append(CourseSector(sector=sector, from_off_deg=start, to_off_deg=stop))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindSpan:
    """A stretch of a leg over which an object stands, or may stand, in a sector."""

    sector: BlindSector
    from_along_m: float
    to_along_m: float

    @property
    def interval(self) -> Interval:
        """The stretch as a pair."""
        return self.from_along_m, self.to_along_m


def blind_spans(
    *, along_m: float, cross_m: float, sectors: tuple[CourseSector, ...], within: Intervals
) -> tuple[BlindSpan, ...]:
    """Stretches over which an object stands in a blind or shadow sector.

    Parameters
    ----------
    along_m, cross_m : float
        Track coordinates of the object, m, starboard positive; not on the line itself.
    sectors : tuple of CourseSector
        Of the radar in use.
    within : Intervals
        Where along the leg it matters.

    Notes
    -----
    At an angle b off the course the object lies |cross| / tan b ahead (plain geometry).
    """
    found = []
    for sector in sectors:
        parts = tuple(
            (_place_m(along_m, cross_m, a), _place_m(along_m, cross_m, b))
            for a, b in _off_the_course(sector, is_starboard=cross_m > 0.0)
        )
        found += [
            BlindSpan(sector=sector.sector, from_along_m=start, to_along_m=stop)
            for start, stop in intersection(union(parts), within)
        ]
    return tuple(sorted(found, key=lambda span: span.interval))


def blinded(spans: tuple[BlindSpan, ...]) -> Intervals:
    """Where nothing at all is seen; shadow sectors still show large echoes."""
    return union(tuple(span.interval for span in spans if not span.sector.is_shadow))


def is_blind(*, ahead_m: float, cross_m: float, sectors: tuple[CourseSector, ...]) -> bool:
    """Whether a place ahead along the course and to starboard of it may be blinded."""
    off_deg = math.degrees(math.atan2(cross_m, ahead_m)) % 360.0
    return any(one.holds(off_deg) for one in sectors if not one.sector.is_shadow)


def _off_the_course(sector: CourseSector, *, is_starboard: bool) -> list[tuple[float, float]]:
    """The parts of a sector on one side, as angles off the course from 0 to 180 deg."""
    if sector.width_deg >= 360.0:
        return [(0.0, 180.0)]
    start, stop = sector.from_off_deg, sector.to_off_deg
    if not is_starboard:
        # Mirrored, so that port counts from ahead as well.
        start, stop = (360.0 - stop) % 360.0, (360.0 - start) % 360.0
    parts = [(start, stop)] if start < stop else [(start, 360.0), (0.0, stop)]
    return [(a, min(b, 180.0)) for a, b in parts if a < 180.0 and b > a]


def _place_m(along_m: float, cross_m: float, off_course_deg: float) -> float:
    """Where along the leg the object stands at an angle off the course."""
    if off_course_deg <= 0.0:
        return -math.inf
    if off_course_deg >= 180.0:
        return math.inf
    return along_m - abs(cross_m) / math.tan(math.radians(off_course_deg))
