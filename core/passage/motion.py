"""How the ship moves on one leg: heading to steer and speed over the ground, by the triangle."""

import math
from dataclasses import dataclass

from core.base.angles import wrap_360_deg
from core.base.errors import InputError
from core.base.language import tr
from core.base.units import kn_from_mps
from core.passage.stream import NOTHING_GIVEN, LegStream, Stream

SLOWEST_MPS = 0.1
"""Less than this over the ground is no way to make a passage (0.2 kn, as for any speed)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegMotion:
    """Motion on one leg, the course made good being that of the leg.

    Angles count from the course, starboard positive, deg. Between ``least_heading_off_deg`` and
    ``most_heading_off_deg`` lie all headings the leeway leaves possible.
    """

    given: LegStream = NOTHING_GIVEN
    water_speed_mps: float
    """Through the water; the planned speed."""
    ground_speed_mps: float
    crab_deg: float = 0.0
    """From the course to the direction of the ship's way through the water."""

    @property
    def steer_off_deg(self) -> float:
        """From the course to the heading to steer.

        Leeway to one side alone is allowed for in full; where it may come from either side,
        nothing is.
        """
        leeway = self.given.leeway
        if leeway is None or (leeway.to_port_deg > 0.0 and leeway.to_starboard_deg > 0.0):
            return self.crab_deg
        return self.crab_deg + leeway.to_port_deg - leeway.to_starboard_deg

    @property
    def least_heading_off_deg(self) -> float:
        """The heading farthest to port: pushed to starboard, she heads to port of her way."""
        leeway = self.given.leeway
        return self.crab_deg - (0.0 if leeway is None else leeway.to_starboard_deg)

    @property
    def most_heading_off_deg(self) -> float:
        """The heading farthest to starboard."""
        leeway = self.given.leeway
        return self.crab_deg + (0.0 if leeway is None else leeway.to_port_deg)

    @property
    def drift_angle_deg(self) -> float:
        """Greatest angle between heading and course, >= 0."""
        return max(abs(self.least_heading_off_deg), abs(self.most_heading_off_deg))

    @property
    def set_across_mps(self) -> float:
        """How fast the stream would set her off her course, were it not allowed for, m/s.

        To starboard positive.
        """
        return -self.water_speed_mps * math.sin(math.radians(self.crab_deg))

    def heading_deg(self, course_deg: float) -> float:
        """Heading to steer where the course is this, true."""
        return wrap_360_deg(course_deg + self.steer_off_deg)


def still_water(speed_mps: float) -> LegMotion:
    """Motion where neither stream nor leeway is given."""
    return LegMotion(water_speed_mps=speed_mps, ground_speed_mps=speed_mps)


def leg_motion(
    given: LegStream, *, course_deg: float, speed_mps: float, leg_number: int
) -> LegMotion:
    """Solve the triangle of speed through the water, stream, and course made good.

    Parameters
    ----------
    given : LegStream
        Stream and leeway on the leg.
    course_deg : float
        Course to make good; of a geodesic leg the one half-way.
    speed_mps : float
        Speed through the water, m/s.
    leg_number : int
        For the sentence of an error.

    Raises
    ------
    InputError
        The stream sets her off faster than she can head against it, or leaves no way ahead.

    Notes
    -----
    The part of the stream across the course is taken up by the crab angle, sin crab = -across /
    speed; what is left of the speed and the part of the stream along the course add up (plane
    vector triangle). The way through the water is taken at the planned speed whatever the leeway.
    """
    if given.stream is None:
        return LegMotion(given=given, water_speed_mps=speed_mps, ground_speed_mps=speed_mps)
    stream = given.stream
    angle = math.radians(stream.set_deg - course_deg)
    across_mps = stream.drift_mps * math.sin(angle)
    ahead_mps = stream.drift_mps * math.cos(angle)
    if abs(across_mps) >= speed_mps:
        raise _cannot(
            leg_number,
            tr(
                "at {speed_kn:.1f} kn the ship cannot be held on her course against {stream}",
                speed_kn=kn_from_mps(speed_mps),
                stream=_stream_words(stream),
            ),
        )
    crab = -math.asin(across_mps / speed_mps)
    ground_mps = speed_mps * math.cos(crab) + ahead_mps
    if ground_mps < SLOWEST_MPS:
        raise _cannot(
            leg_number,
            tr(
                "at {speed_kn:.1f} kn the ship cannot be made to gain ground against {stream}",
                speed_kn=kn_from_mps(speed_mps),
                stream=_stream_words(stream),
            ),
        )
    return LegMotion(
        given=given,
        water_speed_mps=speed_mps,
        ground_speed_mps=ground_mps,
        crab_deg=math.degrees(crab),
    )


def _stream_words(stream: Stream) -> str:
    return tr(
        "a stream of {drift_kn:.1f} kn setting {set_deg:03.0f}°",
        drift_kn=kn_from_mps(stream.drift_mps),
        set_deg=stream.set_deg,
    )


def _cannot(leg_number: int, what: str) -> InputError:
    return InputError(
        what,
        where=tr("leg {leg_number}", leg_number=leg_number),
        todo=tr("Give more speed, or correct set and drift"),
    )
