"""Where the range index error can be found: the track crosses the line joining two objects."""

import itertools
import math

from core.plan.leg_check_result import IndexSpot
from core.plan.place_readings import PlaceReading, Reader

_LEAST_CUT_DEG = 30.0
"""Crossed more finely than this the moment is hard to catch."""
_WRONG_BY_M = 18.52
"""A tenth of a cable."""
_ROUNDS = 6
_OPPOSITE_DEG = 2.0
_MOST_TRIED = 16


def range_index_error_m(first_m: float, second_m: float, *, apart_m: float) -> float:
    """Error of ranges read on the line that joins two objects, m; positive reads long.

    Parameters
    ----------
    first_m, second_m : float
        Ranges as read of the two objects, one on each side.
    apart_m : float
        The one from the other, m.

    Notes
    -----
    ``(r1 + r2 - D) / 2`` (job.md 6.3.3, T21).
    """
    return (first_m + second_m - apart_m) / 2.0


def early_late_m(first_m: float, second_m: float, *, cut_deg: float, wrong_by_m: float) -> float:
    """How far along the track from the joining line the error found is wrong by so much, m.

    A distance h off the line lengthens both ranges by ``h^2 / 2r`` in all (plain geometry).
    """
    bend = 1.0 / first_m + 1.0 / second_m
    return math.sqrt(4.0 * wrong_by_m / bend) / math.sin(math.radians(cut_deg))


def index_spot(
    read: Reader, places: list[float], *, from_m: float, to_m: float, known_error_m: float
) -> IndexSpot | None:
    """The best pair of a leg, or None.

    Parameters
    ----------
    read : Reader
        What can be ranged from a place.
    places : list of float
        Where to look for pairs, m along, ascending; between them pairs are followed to the line.
    from_m, to_m : float
        Where the ship is steady, m along.
    known_error_m : float
        Range index error that the ship file states, m.

    Returns
    -------
    IndexSpot or None
        The pair that tells the error best: small objects on steady shores, then the squarer cut.
    """
    guesses: dict[tuple[str, str], tuple[float, float]] = {}
    for along_m in places:
        for a, b in itertools.combinations(read(along_m), 2):
            port, starboard = (a, b) if a.cross_m < 0.0 else (b, a)
            if port.cross_m >= 0.0 or starboard.cross_m <= 0.0:
                continue
            crossing_m = _crossing_m(along_m, port, starboard)
            worth = math.hypot(port.fixed_error_m, starboard.fixed_error_m)
            key = (port.object_id, starboard.object_id)
            if from_m <= crossing_m <= to_m and worth < guesses.get(key, (math.inf, 0.0))[0]:
                guesses[key] = (worth, crossing_m)
    found = []
    for key, (_worth, crossing_m) in sorted(guesses.items(), key=lambda one: (one[1], one[0]))[
        :_MOST_TRIED
    ]:
        spot = _spot(read, key, crossing_m, known_error_m=known_error_m)
        if spot is not None and from_m <= spot.along_m <= to_m:
            found.append(spot)
    return min(
        found,
        key=lambda s: (round(s.uncertainty_m), s.early_late_m, s.along_m, s.port_id),
        default=None,
    )


def _crossing_m(along_m: float, port: PlaceReading, starboard: PlaceReading) -> float:
    """Where the track crosses the line from one part read to the other, m along."""
    share = -port.cross_m / (starboard.cross_m - port.cross_m)
    return along_m + port.ahead_m + share * (starboard.ahead_m - port.ahead_m)


def _spot(
    read: Reader, key: tuple[str, str], along_m: float, *, known_error_m: float
) -> IndexSpot | None:
    """Follow the nearest parts of both to where they bear opposite."""
    for _ in range(_ROUNDS):
        by_id = {reading.object_id: reading for reading in read(along_m)}
        port, starboard = by_id.get(key[0]), by_id.get(key[1])
        if port is None or starboard is None or port.cross_m >= 0.0 or starboard.cross_m <= 0.0:
            return None
        turned = starboard.relative_deg - port.relative_deg
        if abs(turned - 180.0) <= _OPPOSITE_DEG / 20.0:
            break
        along_m = _crossing_m(along_m, port, starboard)
    else:
        return None
    apart_m = math.hypot(
        starboard.ahead_m - port.ahead_m,
        starboard.cross_m - port.cross_m,
    )
    cut_deg = abs(starboard.relative_deg)
    cut_deg = min(cut_deg, 180.0 - cut_deg)
    if cut_deg < _LEAST_CUT_DEG:
        return None
    late_m = early_late_m(port.range_m, starboard.range_m, cut_deg=cut_deg, wrong_by_m=_WRONG_BY_M)
    return IndexSpot(
        port_id=key[0],
        starboard_id=key[1],
        along_m=along_m,
        port_range_m=port.range_m,
        starboard_range_m=starboard.range_m,
        port_bearing_deg=port.bearing_deg,
        starboard_bearing_deg=starboard.bearing_deg,
        apart_m=apart_m,
        known_error_m=known_error_m,
        uncertainty_m=math.hypot(port.fixed_error_m, starboard.fixed_error_m) / 2.0,
        early_late_m=late_m,
        scale_m=port.scale_m,
    )
