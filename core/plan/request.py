"""Everything one computation depends on."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from core.base.constants import STANDARD_REFRACTION_K
from core.base.findings import Finding
from core.base.units import m_from_nm, mps_from_kn
from core.land.sources import GroundCodes
from core.passage.contingency import Contingency
from core.passage.passage import Passage
from core.passage.stream import NO_STREAMS, PassageStreams
from core.plan.anchoring_result import Anchorage
from core.plan.plan_result import DangerLimit, KnownObject, Mark, Override
from core.plan.revision import Revision
from core.ship.ship import Ship


@dataclass(frozen=True, slots=True, kw_only=True)
class InputFile:
    """A file that went in, for the receipt."""

    role: str
    """``route``, ``ship``, ``marks``, ``limits``, ``streams``, ``contingencies``, ``classes``,
    ``elevation`` or ``coast``."""
    name: str
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Environment:
    """Water level, refraction and how far to sweep."""

    tide_m: float | None = None
    """Height of tide above chart datum, m; None together with ``mean_sea_level_m``."""
    mean_sea_level_m: float | None = None
    """Mean sea level above chart datum, m."""
    tidal_range_m: float | None = None
    """From low to high water, m, for how far the tide moves the edge of a shore; None takes the
    plan's assumption."""
    low_water_m: float | None = None
    high_water_m: float | None = None
    """Low and high water above chart datum, m, both or none."""
    refraction_k: float = STANDARD_REFRACTION_K
    radius_m: float = m_from_nm(24.0)
    craft_height_m: float = 5.0
    height_error_m: float = 5.0
    sea_state: float = 0.0
    """Of the weather the plan is made for, 0 to 6; 0 is glassy."""
    rain_mm_h: float = 0.0
    """Rate of rain of that weather, mm/h."""
    traffic_speed_mps: float | None = None
    """Least speed assumed of other craft; None takes the plan's rule."""
    decision_time_s: float | None = None
    """Time in hand before a craft met end on is reached; None takes the plan's rule."""
    fix_interval_s: float | None = None
    """From one radar fix to the next; None takes the plan's rule."""
    pass_off_m: float | None = None
    """How far beyond a tip a craft is taken to pass that comes out from behind it, m; None takes
    the plan's rule."""
    overlap_s: float | None = None
    """Time two objects are indexed together at a hand-over; None takes the plan's rule."""

    @property
    def low_m(self) -> float | None:
        """Low water above mean sea level, m; None where none is given."""
        return self._above_mean(self.low_water_m)

    @property
    def high_m(self) -> float | None:
        """High water above mean sea level, m; None where none is given."""
        return self._above_mean(self.high_water_m)

    def _above_mean(self, level_m: float | None) -> float | None:
        mean_m = self.mean_sea_level_m
        return None if level_m is None or mean_m is None else level_m - mean_m

    @property
    def water_level_m(self) -> float:
        """Height of the water now above mean sea level, m; 0 where no tide is given."""
        if self.tide_m is None or self.mean_sea_level_m is None:
            return 0.0
        return self.tide_m - self.mean_sea_level_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Defaults:
    """What is assumed, with a finding, where neither file nor officer says it."""

    speed_mps: float = mps_from_kn(12.0)
    corridor_m: float = m_from_nm(0.25)


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """Inputs of one computation, all read and checked.

    Land is named by its paths and read inside the job, cut to the corridor.
    """

    passage: Passage
    ship: Ship
    land_paths: tuple[Path, ...]
    is_reversed: bool = False
    """Whether ``passage`` is that of the route file run the other way."""
    environment: Environment = Environment()
    antenna_height_m: float | None = None
    """Height above the water given by the officer; overrides the ship's."""
    start_utc: datetime | None = None
    speed_mps: float | None = None
    """Speed that overrides the file's, m/s."""
    corridor_m: float | None = None
    """Corridor each side for legs whose file states none, m."""
    streams: PassageStreams = NO_STREAMS
    marks: tuple[Mark, ...] = ()
    places: tuple[Mark, ...] = ()
    """Places such as harbour mouths: nothing to index on, asked for in hidden water."""
    limits: tuple[DangerLimit, ...] = ()
    contingencies: tuple[Contingency, ...] = ()
    overrides: tuple[Override, ...] = ()
    anchorage: Anchorage | None = None
    """Given where the passage ends at anchor."""
    known_objects: tuple[KnownObject, ...] = ()
    """Objects of earlier plans, which keep their letters."""
    since: Revision | None = None
    """The last revision issued, to tell what changed; no number depends on it."""
    note: str = ""
    """Why this revision is made."""
    coast_height_m: float | None = None
    """Assumed height of land where only a coast is given, m."""
    ground: GroundCodes | None = None
    """Raster of kinds of ground; without one the slope tells how strongly ground echoes."""
    inputs: tuple[InputFile, ...] = ()
    findings: tuple[Finding, ...] = ()
    """What the readers found."""
