"""First paints that were seen beside those that were expected."""

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.base.language import Worded
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Sighting:
    """What an officer wrote down: from where or when an object first painted."""

    object_id: str
    leg_number: int
    """From 1."""
    range_m: float | None
    """As read, m; else the time is known."""
    seen_utc: datetime | None
    radar: str
    """Name of the radar; empty where none was written down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """A first paint of a plan."""

    object_id: str
    name: str
    position: Position
    range_by_radar_m: tuple[tuple[str, float], ...]
    """Range of «normally by» for each radar that has one, m; the main radar first."""
    reason: str
    """Why the main radar has none; empty where it has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedLeg:
    """A leg of a plan with its first paints."""

    number: int
    line: LegLine
    start_utc: datetime | None
    end_utc: datetime | None
    paints: tuple[Expected, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedPlan:
    """What of a plan file is compared with what was seen."""

    name: str
    digest: str
    radars: tuple[str, ...]
    """Names, the main radar first."""
    horizon_m: float
    """Own radar horizon of the main antenna, as planned, m."""
    legs: tuple[ExpectedLeg, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """One sighting beside its expectation."""

    sighting: Sighting
    name: str
    radar: str
    """The radar it counts for."""
    expected_m: float | None
    seen_m: float | None
    is_by_time: bool
    """Whether the range seen follows from the time, on the planned track at the planned speed."""
    why: str
    """Why there is no ratio; empty where there is one."""

    @property
    def ratio(self) -> float | None:
        """Range seen over range expected; below 1 it came late."""
        if self.expected_m is None or self.seen_m is None or self.why:
            return None
        return self.seen_m / self.expected_m


class Hint(Enum):
    """What ratios speak for; none is a finding."""

    TOO_FEW = "too few sightings to say anything"
    AS_EXPECTED = "near and far objects came about as expected"
    AIR = "far objects later than near ones"
    RADAR = "near objects as late as far ones, or later"
    EARLY = "objects came earlier than expected"
    ONE_SIDED = "late, but not both near and far objects were seen"


class Trend(Worded):
    """How ratios go over the voyage."""

    UNKNOWN = "too few sightings for a trend"
    NONE = "no trend that could not be chance"
    FALLING = "falling"
    RISING = "rising"


@dataclass(frozen=True, slots=True, kw_only=True)
class RadarRecord:
    """All sightings of one radar."""

    radar: str
    count: int
    middle_ratio: float | None
    near_count: int
    near_ratio: float | None
    """Middle of the ratios of objects expected within own radar horizon."""
    far_count: int
    far_ratio: float | None
    trend: Trend
    first_ratio: float | None
    last_ratio: float | None
    """Middles of the first and the last half, where there is a trend."""
    hint: Hint


@dataclass(frozen=True, slots=True, kw_only=True)
class ObservedReport:
    """Everything that was seen, in the order of the voyage, and what each radar makes of it."""

    plan: ExpectedPlan
    comparisons: tuple[Comparison, ...]
    records: tuple[RadarRecord, ...]
