"""A reader of invented points round a straight track, as ``place_reader`` gives it."""

import math
from dataclasses import dataclass

from core.plan.place_readings import PlaceReading, Reader
from tests.helpers.islands import NM


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A point in track coordinates, NM."""

    name: str
    along_nm: float
    cross_nm: float
    is_mark: bool = False
    is_point: bool = True
    fixed_error_m: float = 28.0
    hidden_nm: tuple[float, float] = (0.0, 0.0)
    """From where to where along the track it does not paint."""


def reader_of(*things: Thing, scale_nm: float = 6.0) -> Reader:
    """Reads every point on a centred screen."""

    def read(along_m: float) -> tuple[PlaceReading, ...]:
        found = []
        for thing in things:
            ahead_m, cross_m = thing.along_nm * NM - along_m, thing.cross_nm * NM
            range_m = math.hypot(ahead_m, cross_m)
            start, stop = thing.hidden_nm
            if range_m > 0.9 * scale_nm * NM or start * NM < along_m < stop * NM:
                continue
            found.append(
                PlaceReading(
                    object_id=thing.name,
                    name=thing.name,
                    is_mark=thing.is_mark,
                    is_point=thing.is_point,
                    ahead_m=ahead_m,
                    cross_m=cross_m,
                    bearing_deg=math.degrees(math.atan2(cross_m, ahead_m)) % 360.0,
                    scale_m=scale_nm * NM,
                    radius_m=0.9 * scale_nm * NM,
                    fixed_error_m=thing.fixed_error_m,
                )
            )
        return tuple(found)

    return read
