"""Tips of land behind which water opens, found from the coast beside a leg.

A craft that crosses own track at right angles and is met there bears the same all the time. Own
ship looks along that bearing while she runs up the leg: the first land on it, place by place, makes
a profile of offings, and where this leaps outward a tip draws aft and the water behind it opens.
"""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.land.land_model import LandModel
from core.plan.leg_frame import LegFrame

_BIN_M = 50.0
_NO_LAND_M = 1e9
_PARTS = 8
"""Places looked at on the way from one coast point to the next, 100 m on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip:
    """A tip in track coordinates; ``offing_m`` is positive on either side."""

    along_m: float
    offing_m: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CoastWalk:
    """Places along the coast on one side of a leg, close enough to make lines: (n,) arrays, m."""

    along_m: FloatArray
    offing_m: FloatArray


def coast_walk(frame: LegFrame, land: LandModel, *, is_starboard: bool, most_m: float) -> CoastWalk:
    """The coast beside a leg out to an offing, walked in steps of some 12 m."""
    after, is_joined = _next_of(frame, land)
    sign = 1.0 if is_starboard else -1.0
    near = is_joined & (sign * frame.cross_m >= 0.0) & (sign * frame.cross_m <= most_m)
    share = (np.arange(_PARTS) / _PARTS)[None, :]
    along0, along1 = frame.along_m[near][:, None], frame.along_m[after[near]][:, None]
    cross0, cross1 = frame.cross_m[near][:, None], frame.cross_m[after[near]][:, None]
    along = (along0 + share * (along1 - along0)).ravel()
    offing = sign * (cross0 + share * (cross1 - cross0)).ravel()
    keep = offing >= 0.0
    return CoastWalk(along_m=along[keep], offing_m=offing[keep])


def _next_of(frame: LegFrame, land: LandModel) -> tuple[np.ndarray, BoolArray]:
    """The frame's number of the point after each on its coast line, and whether there is one."""
    points = land.points
    count = points.line.size
    after = frame.near + 1
    is_last = (after >= count) | points.is_line_start[np.minimum(after, count - 1)]
    starts = np.flatnonzero(points.is_line_start)
    lines = points.line[frame.near]
    closed = np.array([line.is_closed for line in land.coast.lines], dtype=np.bool_)
    wraps = is_last & (closed[lines] if closed.size else np.zeros(lines.shape, np.bool_))
    if starts.size:
        after = np.where(wraps, starts[np.minimum(lines, starts.size - 1)], after)
    at = np.searchsorted(frame.near, after)
    at = np.minimum(at, max(frame.near.size - 1, 0))
    is_near = frame.near[at] == after if frame.near.size else np.zeros(0, np.bool_)
    return at, is_near & (~is_last | wraps)


def tips_of(walk: CoastWalk, *, speed_ratio: float, depth_m: float) -> tuple[Tip, ...]:
    """Tips behind which water of a depth opens on the bearing of one speed of craft.

    Parameters
    ----------
    walk : CoastWalk
        The coast on one side.
    speed_ratio : float
        Own speed over the craft's: how far own ship is short of a place abeam, as a share of its
        offing, when it comes on the bearing.
    depth_m : float
        Least leap of the profile, m square off the track.

    Returns
    -------
    tuple of Tip
        In order along the leg.
    """
    if walk.along_m.size == 0:
        return ()
    own_m = walk.along_m - walk.offing_m * speed_ratio
    number = np.floor((own_m - own_m.min()) / _BIN_M).astype(np.int64)
    profile = np.full(int(number.max()) + 3, _NO_LAND_M)
    np.minimum.at(profile, number, walk.offing_m)
    leaps = np.minimum(profile[1:-1], profile[2:]) - profile[:-2]
    found = []
    for bin_number in np.flatnonzero((profile[:-2] < _NO_LAND_M) & (leaps >= depth_m)):
        here = np.flatnonzero(
            (number == bin_number) & (walk.offing_m < profile[bin_number] + depth_m)
        )
        last = int(here[np.argmax(own_m[here])])
        found.append(Tip(along_m=float(walk.along_m[last]), offing_m=float(walk.offing_m[last])))
    return tuple(sorted(found, key=lambda tip: (tip.along_m, tip.offing_m)))
