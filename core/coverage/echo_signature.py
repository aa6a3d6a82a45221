"""The painted coast as an officer compares it with the chart: how far off, bearing by bearing."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, HoldsArrays
from core.base.units import m_from_nm
from core.coverage.coverage_result import CoastPaint, PaintedCoast
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.coast import CoastPoints

BEARINGS = 180
"""Two degrees apart: about a beam."""
_LEAST_TOLERANCE_M = m_from_nm(0.25)
_TOLERANCE_RATIO = 0.03
"""Ranges nearer together than this look alike (common practice, no source)."""
_SHIFTS_M = m_from_nm(0.125) * np.arange(-8, 9)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EchoSignature(HoldsArrays):
    """The nearest painted edge on each bearing from one place.

    range_m : (BEARINGS,) float64
        Infinite where no coast paints, NaN where unknown heights leave it open. Bearing i is
        i * 360 / BEARINGS deg.
    """

    position: Position
    range_m: FloatArray

    @property
    def echo_count(self) -> int:
        """On how many bearings something paints."""
        return int(np.isfinite(self.range_m).sum())


def signature_of(points: CoastPoints, paint: PaintedCoast, position: Position) -> EchoSignature:
    """The signature of what of the coast paints from a place.

    Parameters
    ----------
    points : CoastPoints
        The coast, (n,).
    paint : PaintedCoast
        How each of its points paints from the place.
    position : Position
        The place.
    """
    range_m = np.full(BEARINGS, np.inf)
    painted = np.isin(paint.state, (CoastPaint.PAINTED, CoastPaint.PAINTED_BEHIND))
    unknown = paint.state == CoastPaint.UNKNOWN
    for chosen, is_known in ((unknown, False), (painted, True)):
        if not chosen.any():
            continue
        distance, bearing, _ = geodesic.inverse(
            from_lat_deg=np.full(int(chosen.sum()), position.lat_deg),
            from_lon_deg=np.full(int(chosen.sum()), position.lon_deg),
            to_lat_deg=points.lat_deg[chosen],
            to_lon_deg=points.lon_deg[chosen],
        )
        index = np.round(bearing * BEARINGS / 360.0).astype(np.int64) % BEARINGS
        if not is_known:
            range_m[index] = np.nan
            continue
        edge_m = np.full(BEARINGS, np.inf)
        np.minimum.at(edge_m, index, distance + np.nan_to_num(paint.inland_m[chosen]))
        range_m = np.where(np.isfinite(edge_m), edge_m, range_m)
    return EchoSignature(position=position, range_m=range_m)


def shifted_to_fit(one: EchoSignature, other: EchoSignature) -> Position:
    """Where near the second place the picture of the second is likest to that of the first.

    Its echoes are taken to stay where they are on the ground; to a mile either way in steps of
    an eighth.
    """
    turn = np.arange(BEARINGS) * 2.0 * np.pi / BEARINGS
    echoes = np.isfinite(other.range_m)
    north = other.range_m[echoes] * np.cos(turn[echoes])
    east = other.range_m[echoes] * np.sin(turn[echoes])
    best, at = -1.0, (0.0, 0.0)
    for up in _SHIFTS_M:
        for right in _SHIFTS_M:
            range_m = np.where(np.isnan(other.range_m), np.nan, np.inf)
            bearing = np.degrees(np.arctan2(east - right, north - up)) % 360.0
            index = np.round(bearing * BEARINGS / 360.0).astype(np.int64) % BEARINGS
            moved = np.full(BEARINGS, np.inf)
            np.minimum.at(moved, index, np.hypot(north - up, east - right))
            range_m = np.where(np.isfinite(moved), moved, range_m)
            found = likeness(one, EchoSignature(position=other.position, range_m=range_m))
            # Of equals the nearest, so that a plain coast is not wandered along.
            if (found, -np.hypot(up, right)) > (best, -np.hypot(*at)):
                best, at = found, (float(up), float(right))
    distance = float(np.hypot(*at))
    if distance == 0.0:
        return other.position
    lat, lon, _ = geodesic.direct(
        lat_deg=other.position.lat_deg,
        lon_deg=other.position.lon_deg,
        bearing_deg=float(np.degrees(np.arctan2(at[1], at[0]))) % 360.0,
        distance_m=distance,
    )
    return Position(lat_deg=float(lat), lon_deg=float(lon))


def likeness(one: EchoSignature, other: EchoSignature) -> float:
    """Share of the echoes of two signatures that have their like in the other, 0 to 1.

    An echo has its like on its bearing or the next on either side, within 0.25 NM or 3 % of its
    range. Bearings unknown in either do not count; 0 where too few are known to tell.
    """
    known = ~(np.isnan(one.range_m) | np.isnan(other.range_m))
    found = total = 0
    for this, that in ((one.range_m, other.range_m), (other.range_m, one.range_m)):
        echoes = np.isfinite(this)
        if 2 * int((echoes & known).sum()) < int(echoes.sum()):
            return 0.0
        echoes &= known
        near = np.maximum(_LEAST_TOLERANCE_M, _TOLERANCE_RATIO * this)
        matched = np.zeros(BEARINGS, dtype=np.bool_)
        for shift in (-1, 0, 1):
            beside = np.roll(that, shift)
            matched[echoes] |= np.abs(beside[echoes] - this[echoes]) <= near[echoes]
        found += int((matched & echoes).sum())
        total += int(echoes.sum())
    return found / total if total else 0.0
