"""What is to be detected: a point or a body that fills a height, and typical ones by name."""

from dataclasses import dataclass
from enum import Enum

from core.ship.ship import Band


class Spread(Enum):
    """How a target's echo is spread over its height."""

    POINT = "point"
    """All of it from one height: buoys, reflectors."""
    EXTENDED = "extended"
    """Evenly from 0 to the height: ships."""
    SHORE = "shore"
    """Likewise, with the cross-section that goes with the height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RadarTarget:
    """One target as a radar of one band sees it."""

    rcs_m2: float
    """Radar cross-section in free space, m2."""
    height_m: float
    """Of a point its height above the water, of a body its top, m."""
    spread: Spread = Spread.POINT

    def __post_init__(self) -> None:
        """Refuse what cannot echo."""
        if not (self.rcs_m2 > 0.0 and self.height_m > 0.0):
            raise ValueError(f"rcs {self.rcs_m2!r} and height {self.height_m!r} must be above 0")


SHORE_M2_PER_M = 50_000.0 / 60.0
"""Radar cross-section of a shoreline a metre of its height, m2/m (test convention, memory)."""


def shore(height_m: float) -> RadarTarget:
    """A shoreline rising to a height, as in the standard's table: 833.3 m2 a metre."""
    return RadarTarget(rcs_m2=SHORE_M2_PER_M * height_m, height_m=height_m, spread=Spread.SHORE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypicalTarget:
    """A kind of target and the span of its radar cross-section by band."""

    name: str
    x_band_m2: tuple[float, float]
    """Least and most at X band, m2."""
    s_band_m2: tuple[float, float]
    height_m: float
    """Height the echo comes from, m."""
    spread: Spread = Spread.POINT
    is_from_memory: bool = True

    def weakest(self, band: Band) -> RadarTarget:
        """The kind at its weakest, the one to plan with."""
        span = self.x_band_m2 if band is Band.X else self.s_band_m2
        return RadarTarget(rcs_m2=span[0], height_m=self.height_m, spread=self.spread)


def _kind(
    name: str,
    x_band_m2: tuple[float, float],
    s_band_m2: tuple[float, float],
    height_m: float,
    *,
    spread: Spread = Spread.POINT,
    is_from_memory: bool = True,
) -> TypicalTarget:
    return TypicalTarget(
        name=name,
        x_band_m2=x_band_m2,
        s_band_m2=s_band_m2,
        height_m=height_m,
        spread=spread,
        is_from_memory=is_from_memory,
    )


# Handbook 7.2, from memory except where a source stands.
TYPICAL_TARGETS = (
    _kind("small plastic buoy, spar", (0.3, 1.0), (0.05, 0.1), 1.0),
    _kind("channel marker", (1.0, 1.0), (0.1, 0.1), 1.0),
    _kind("typical buoy", (5.0, 5.0), (0.5, 0.5), 3.5),
    _kind("buoy with corner reflector", (10.0, 10.0), (1.0, 1.0), 3.5),
    _kind("large lighted buoy with reflector", (50.0, 300.0), (5.0, 30.0), 4.0),
    _kind("beacon, dolphin or steel pile", (10.0, 100.0), (5.0, 30.0), 4.0),
    _kind("light tower of masonry", (100.0, 1000.0), (100.0, 500.0), 20.0, spread=Spread.EXTENDED),
    _kind("yacht or boat of 10 m, no reflector", (2.5, 2.5), (1.4, 1.4), 2.0),
    # IMO MSC.164(78) 3.1, read.
    _kind("small vessel with reflector", (7.5, 7.5), (0.5, 0.5), 4.0, is_from_memory=False),
    _kind("pilot boat", (10.0, 50.0), (5.0, 20.0), 3.0),
    _kind("fishing vessel, 15 to 25 m", (20.0, 200.0), (10.0, 100.0), 4.0),
    _kind(
        "coaster, 500 to 1600 GT", (1800.0, 1800.0), (1000.0, 1000.0), 5.0, spread=Spread.EXTENDED
    ),
    _kind(
        "ship over 5000 GT",
        (50_000.0, 50_000.0),
        (30_000.0, 30_000.0),
        10.0,
        spread=Spread.EXTENDED,
    ),
)
"""Typical targets, weakest first."""
