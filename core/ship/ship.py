"""The ship as far as planning the radar needs her, and her antenna's height above water."""

from dataclasses import dataclass
from enum import Enum

from core.base.units import m_from_nm


class Band(Enum):
    """Radar band of the two kinds fitted in ships."""

    X = "X"
    S = "S"


STANDARD_RANGE_SCALES_M = tuple(
    m_from_nm(nm) for nm in (0.25, 0.5, 0.75, 1.5, 3.0, 6.0, 12.0, 24.0)
)
"""Range scales of IMO MSC.64(67) 3.3.2 and the display standard, m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindSector:
    """An arc of relative bearings, clockwise, in which own structure blinds the radar."""

    from_relative_deg: float
    to_relative_deg: float
    cause: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Radar:
    """One radar set and where its antenna stands."""

    name: str
    band: Band
    antenna_above_keel_m: float | None = None
    """Height of the antenna above the keel, m; the draughts give its height above water."""
    antenna_above_water_m: float | None = None
    """Height above the water given directly, m; wins over the keel height."""
    antenna_from_aft_perpendicular_m: float | None = None
    """Distance of the antenna forward of the aft draught marks, m; None is amidships."""
    horizontal_beamwidth_deg: float = 1.9
    pulse_s: float = 0.25e-6
    range_scales_m: tuple[float, ...] = STANDARD_RANGE_SCALES_M
    blind_sectors: tuple[BlindSector, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a radar nobody could fit."""
        for label, value in (
            ("antenna_above_keel_m", self.antenna_above_keel_m),
            ("antenna_above_water_m", self.antenna_above_water_m),
        ):
            if value is not None and not 0.0 < value < 150.0:
                raise ValueError(f"{label} {value!r} is not between 0 and 150")
        if self.antenna_above_keel_m is None and self.antenna_above_water_m is None:
            raise ValueError("antenna height is missing")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ship:
    """Own ship: size, draughts now, turning data, radars (the first one is the main radar)."""

    name: str
    length_m: float
    beam_m: float
    draught_forward_m: float
    draught_aft_m: float
    turn_radius_m: float
    """Radius of a normal turn at passage speed, m, for waypoints that state none."""
    response_distance_m: float
    """Distance run from helm order until the turn is under way, m."""
    heading_error_deg: float = 0.7
    """Error of gyro and heading marker together, 95 %, deg."""
    range_error_ratio: float = 0.01
    """Permitted range error as a share of the range scale, 95 %, bare (IMO MSC.192(79) 5.12.2)."""
    range_error_least_m: float = 30.0
    """Permitted range error at least, 95 %, m (the same clause)."""
    radars: tuple[Radar, ...]
    invented: bool = False

    def __post_init__(self) -> None:
        """Refuse a ship without a radar."""
        if not self.radars:
            raise ValueError("a ship needs at least one radar")

    def antenna_height_above_water_m(self, radar: Radar) -> float:
        """Height of an antenna above the water at the present draughts.

        With trim the draught under the antenna is taken between the marks in proportion to its
        position; amidships where none is stated (plain geometry, computed by hand).
        """
        if radar.antenna_above_water_m is not None:
            return radar.antenna_above_water_m
        if radar.antenna_above_keel_m is None:
            raise ValueError(f"radar {radar.name} has no antenna height")
        place = radar.antenna_from_aft_perpendicular_m
        forward_share = 0.5 if place is None else place / self.length_m
        draught = self.draught_aft_m + (self.draught_forward_m - self.draught_aft_m) * forward_share
        return radar.antenna_above_keel_m - draught

    def range_error_m(self, range_scale_m: float) -> float:
        """Permitted range error on a scale, 95 %, m: a share of the scale, or a least value."""
        return max(self.range_error_least_m, self.range_error_ratio * range_scale_m)
