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
    is_shadow: bool = False
    """True where small targets are lost but large ones still show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCondition:
    """The blind sectors of one radar under a named way of loading, such as cranes topped."""

    name: str
    blind_sectors: tuple[BlindSector, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulse:
    """One pulse of a radar and the range scales it serves."""

    name: str
    length_s: float
    repetition_hz: float | None = None
    from_scale_m: float | None = None
    """Shortest range scale it is used on, m."""
    to_scale_m: float | None = None
    """Longest range scale it is used on, m."""
    bandwidth_hz: float | None = None
    """Bandwidth of the receiver with this pulse, Hz."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnAtSpeed:
    """Radius of a normal turn begun at one speed."""

    speed_mps: float
    radius_m: float


def turn_radius_at_m(turns: tuple[TurnAtSpeed, ...], speed_mps: float) -> float:
    """Radius at a speed, m, from a table with the slowest first.

    Between two speeds in proportion; outside the table the radius of its nearest speed holds.
    """
    slower = [turn for turn in turns if turn.speed_mps <= speed_mps]
    faster = [turn for turn in turns if turn.speed_mps > speed_mps]
    if not slower or not faster:
        return (slower[-1] if slower else faster[0]).radius_m
    below, above = slower[-1], faster[0]
    share = (speed_mps - below.speed_mps) / (above.speed_mps - below.speed_mps)
    return below.radius_m + share * (above.radius_m - below.radius_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShipPoint:
    """A place on board: distance forward of the stern and to starboard of the centre line."""

    from_stern_m: float
    to_starboard_m: float = 0.0


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
    antenna_from_stern_m: float | None = None
    """The same from the stern; None where it is not stated."""
    horizontal_beamwidth_deg: float = 1.9
    pulse_s: float = 0.25e-6
    range_scales_m: tuple[float, ...] = STANDARD_RANGE_SCALES_M
    blind_sectors: tuple[BlindSector, ...] = ()
    """Those of the load condition the ship is in now."""
    load_conditions: tuple[LoadCondition, ...] = ()
    antenna_to_starboard_m: float = 0.0
    vertical_beamwidth_deg: float | None = None
    peak_power_w: float | None = None
    antenna_gain_db: float | None = None
    frequency_hz: float | None = None
    rotation_rpm: float | None = None
    """Turns of the antenna a minute."""
    noise_figure_db: float | None = None
    losses_db: float | None = None
    """All losses both ways that no other value names, dB."""
    polarisation: str = ""
    """``H`` or ``V``; empty where not stated."""
    pulses: tuple[Pulse, ...] = ()
    installation_standard: str = ""
    """What the set was approved to, in the words of its certificate."""
    preset: str = ""
    """Name of the set of detection values to use, empty for none."""
    range_index_error_m: float = 0.0
    """Known error of measured ranges, m; positive reads long."""
    heading_marker_error_deg: float = 0.0
    """Known error of the heading marker, deg; positive makes bearings read high."""

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
    length_between_marks_m: float | None = None
    """Distance between the aft and the forward draught marks, m; None is the length."""
    aft_marks_from_stern_m: float | None = None
    """Where the aft draught marks are read; None where the ship file was not read."""
    conning: ShipPoint | None = None
    """Where the ship is conned from."""
    reference: ShipPoint | None = None
    """The point ranges and bearings of the radar display are referred to; None is the antenna."""
    turns: tuple[TurnAtSpeed, ...] = ()
    """Turn radius by speed, slowest first; empty where only one radius is known."""
    load_condition: str = ""
    gyro_error_deg: float = 0.0
    """Known error of the gyro, deg; positive reads high."""

    def __post_init__(self) -> None:
        """Refuse a ship without a radar."""
        if not self.radars:
            raise ValueError("a ship needs at least one radar")

    @property
    def bow_offset_m(self) -> float | None:
        """How far the bow lies ahead of the radar's reference point, m; None if not stated."""
        return None if self.reference is None else self.length_m - self.reference.from_stern_m

    def antenna_from_stern_m(self, radar: Radar) -> float | None:
        """How far an antenna stands forward of the stern, m; None if not stated."""
        place, marks = radar.antenna_from_aft_perpendicular_m, self.aft_marks_from_stern_m
        return None if place is None or marks is None else place + marks

    @property
    def draught_mean_m(self) -> float:
        """Mean of the draughts at the marks, m."""
        return (self.draught_forward_m + self.draught_aft_m) / 2.0

    def turn_radius_at_m(self, speed_mps: float) -> float:
        """Radius of a normal turn at a speed, m; the one known radius where there is no table."""
        return turn_radius_at_m(self.turns, speed_mps) if self.turns else self.turn_radius_m

    def antenna_height_above_water_m(self, radar: Radar) -> float:
        """Height of an antenna above the water at the present draughts.

        The waterline is a straight line through the draughts at the marks, followed beyond them
        where the antenna stands outside; amidships where no position is stated (plain geometry,
        computed by hand). Trim is small, so the mast is taken as upright.
        """
        if radar.antenna_above_water_m is not None:
            return radar.antenna_above_water_m
        if radar.antenna_above_keel_m is None:
            raise ValueError(f"radar {radar.name} has no antenna height")
        place = radar.antenna_from_aft_perpendicular_m
        between_marks_m = self.length_between_marks_m or self.length_m
        forward_share = 0.5 if place is None else place / between_marks_m
        draught = self.draught_aft_m + (self.draught_forward_m - self.draught_aft_m) * forward_share
        return radar.antenna_above_keel_m - draught

    def range_error_m(self, range_scale_m: float) -> float:
        """Permitted range error on a scale, 95 %, m: a share of the scale, or a least value."""
        return max(self.range_error_least_m, self.range_error_ratio * range_scale_m)
