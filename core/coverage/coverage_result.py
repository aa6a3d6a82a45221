"""What coverage finds: per viewpoint, per leg, for the passage."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum, IntEnum
from typing import TYPE_CHECKING

from core.base.arrays import ByteArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.findings import Finding
from core.geodesy.position import Position
from core.passage.passage import Side

if TYPE_CHECKING:  # compiled kernels stand behind it: the window opens before they are loaded
    from core.radar.echo_budget import EchoBudget


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepSettings:
    """How a place is swept."""

    antenna_height_m: float
    """Above the water now, m, > 0."""
    refraction_k: float
    radius_m: float
    craft_height_m: float = 5.0
    """Height of the craft that hidden water is stated for, m."""
    is_exact: bool = False
    """The exact setting instead of the planning setting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Viewpoint:
    """A place on a leg where coverage is computed; unique by leg, along and cross."""

    leg_index: int
    along_m: float
    cross_m: float
    """To starboard of the line, port negative; 0 on the track."""
    position: Position


class CoastState(IntEnum):
    """How a point of the coast stands to one viewpoint."""

    HIDDEN = 0
    IN_SIGHT = 1
    """Land within one cell or 100 m (whichever is more) of the coast is in sight."""
    LAND_BEHIND = 2
    """The coast itself is hidden, land farther in on the same bearing is in sight."""
    OUTSIDE = 254
    """Beyond the sweep radius."""
    UNKNOWN = 255
    """Unknown heights lie in front."""


class CoastPaint(IntEnum):
    """How a point of the coast paints from one viewpoint; the same codes as ``CoastState``."""

    UNPAINTED = 0
    PAINTED = 1
    """The painted edge lies within one cell of the elevation or 100 m of the coast."""
    PAINTED_BEHIND = 2
    """The coast does not paint, land farther in on the same bearing does."""
    OUTSIDE = 254
    """Beyond the radius."""
    UNKNOWN = 255
    """Unknown heights lie in front, before any land paints."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PaintedCoast(HoldsArrays):
    """The coast from one viewpoint, point by point of the land model.

    state : (n,) uint8, ``CoastPaint``
    inland_m : (n,) float32
        How far behind the point the painted edge lies, m, to one range cell; NaN without one.
    margin_db : (n,) float32
        Greatest margin within one cell or 100 m of the painted edge, and where nothing paints the
        greatest on the whole run of land, dB: how soon it is lost, or what it wants; NaN where
        no land is in sight.
    """

    state: ByteArray
    inland_m: Float32Array
    margin_db: Float32Array
    painted_fraction: float | None
    """Share by length of the coast within the radius that is PAINTED; None without coast there."""
    behind_fraction: float | None
    """The same of PAINTED_BEHIND."""
    first_paint_inland_m: float | None
    """Mean over the coast that paints, by length, of how far inland the painted edge lies."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PaintedEdge(HoldsArrays):
    """The one painted edge of a leg, point by point of the land model's coast.

    state : (n,) uint8, ``CoastPaint``
        UNPAINTED where no viewpoint on the track paints the point and none leaves it unknown.
    inland_m : (n,) float32
        How far behind the point the edge lies, m; NaN without one.
    lat_deg, lon_deg : (n,) float64
        Where the edge lies; NaN without one.
    """

    state: ByteArray
    inland_m: Float32Array
    lat_deg: FloatArray
    lon_deg: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class LandShadow:
    """Water hidden behind land: a sector, clockwise, with the ranges between which it lies."""

    bearing_from_deg: float
    bearing_to_deg: float
    range_from_m: float
    range_to_m: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HiddenWater(HoldsArrays):
    """Stretches of water hidden from one viewpoint, ray by ray.

    Ray i has bearing i * 360 / (rows of ``offsets`` - 1) deg; its stretches are
    ``from_m[offsets[i]:offsets[i + 1]]`` to ``to_m[...]``, ranges in m.
    """

    offsets: IntArray
    from_m: Float32Array
    to_m: Float32Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ViewpointCoverage(HoldsArrays):
    """What is in sight from one viewpoint.

    coast_state : (n,) uint8, ``CoastState`` of each of the land model's coast points
    coast_inland_m : (n,) float32, how far in behind a coast point the first land in sight on
        its bearing lies, m, 0 at the coast itself, NaN where no land is in sight there
    horizon_slope : (3600,) float32, slope of the land horizon each 0.1 deg, effective Earth
    """

    viewpoint: Viewpoint
    nearest_land_range_m: float | None
    nearest_land_bearing_deg: float | None
    coast_state: ByteArray
    coast_inland_m: Float32Array
    coast_in_sight_fraction: float | None
    """Share of the coast length within the radius that is in sight; None without coast there."""
    first_land_inland_m: float | None
    """Mean over that coast, by length, of how far inland the first land in sight stands."""
    horizon_slope: Float32Array
    hidden: HiddenWater
    shadows: tuple[LandShadow, ...]
    paint: PaintedCoast | None = None
    """What of the coast paints; None where no radar was worked out or no coast is in reach."""

    @property
    def shown_state(self) -> ByteArray:
        """What paints where that is known, else what is in sight: codes of ``CoastState``."""
        return self.coast_state if self.paint is None else self.paint.state


class Cause(Enum):
    """Why heights are unknown."""

    VOID = "void"
    MISSING = "missing"
    BEYOND_DATA = "beyond_data"


class Effect(Enum):
    """What a gap can hide."""

    OBJECT = "object"
    FIRST_SIGHT = "first_paint"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Unknown heights that nearer land does not hide, over a stretch of a leg."""

    cause: Cause
    bearing_from_deg: float
    bearing_to_deg: float
    range_from_m: float
    from_along_m: float
    to_along_m: float
    effect: Effect


@dataclass(frozen=True, slots=True, kw_only=True)
class LegShadow:
    """A land shadow followed over a stretch of a leg, from anywhere in its corridor."""

    from_along_m: float
    to_along_m: float
    bearing_from_deg: float
    bearing_to_deg: float
    range_from_m: float
    range_to_m: float
    side: Side
    track_along_m: tuple[float, float] | None
    """The stretch over which the track itself has it; None where only an edge of the corridor
    does."""
    cause: str
    """What hides the water, in words, such as ``land 84 m high, 2.1 NM off``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A place along a leg from which something bears."""

    along_m: float
    range_m: float
    bearing_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstSight:
    """Where a piece of land or a mark first comes in sight, geometry only."""

    object_id: str
    name: str
    position: Position
    height_above_water_m: float
    in_sight_from: Moment | None
    in_sight_from_reason: str
    """Why there is no moment, empty when there is one."""
    lost: Moment | None
    passes_unknown: bool = False
    """Whether the line of sight at ``in_sight_from`` runs over heights outside all data, which
    were taken as sea: then it is the earliest place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegCoverage:
    """Coverage of one leg; viewpoints in order of along, then cross."""

    leg_index: int
    viewpoints: tuple[ViewpointCoverage, ...]
    is_complete: bool
    gaps: tuple[Gap, ...]
    shadows: tuple[LegShadow, ...]
    crosses_land: bool
    painted_edge: PaintedEdge | None = None
    """None where no radar was worked out or no coast is in reach of the track."""

    def on_track(self) -> tuple[ViewpointCoverage, ...]:
        """The viewpoints on the planned line itself."""
        return tuple(v for v in self.viewpoints if v.viewpoint.cross_m == 0.0)


def numbered(leg: LegCoverage, leg_index: int) -> LegCoverage:
    """The same coverage as that of a leg of another number."""
    if leg.leg_index == leg_index:
        return leg
    viewpoints = tuple(
        replace(v, viewpoint=replace(v.viewpoint, leg_index=leg_index)) for v in leg.viewpoints
    )
    return replace(leg, leg_index=leg_index, viewpoints=viewpoints)


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """Coverage of a passage."""

    settings: SweepSettings
    legs: tuple[LegCoverage, ...]
    sweep_count: int
    findings: tuple[Finding, ...]
    budget: EchoBudget | None = None
    """Radar, pulse and weather that paint was worked out for; None where only sight was."""
