"""First sight of land and marks, out to the horizon of each, by point-to-point profiles."""

import numpy as np

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.base.language import tr
from core.base.progress import Progress
from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import FirstSight, Moment, SweepSettings
from core.coverage.profiles import PairState, horizon_distance_m
from core.coverage.sight_scene import Scene, SightTarget, scene_of
from core.coverage.terrain import Terrain
from core.coverage.viewpoints import along_of
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.land_model import LandModel
from core.land.sources import HeightSource
from core.passage.passage import Passage

_STEP_M = m_from_nm(0.25)
_FINE_M = m_from_nm(0.02)
_CHUNK = 20_000


def highest_land_reach_m(land: LandModel, *, antenna_height_m: float, refraction_k: float) -> float:
    """Range at which the highest land of a model can clear the horizon, m."""
    known = land.heights_m[np.isfinite(land.heights_m)]
    highest_m = float(known.max()) if known.size else 0.0
    return float(horizon_distance_m(antenna_height_m, highest_m, refraction_k))


def first_sights(
    passage: Passage,
    land: LandModel,
    targets: tuple[SightTarget, ...],
    settings: SweepSettings,
    heights: HeightSource | None,
    progress: Progress,
    *,
    terrain: Terrain | None = None,
) -> tuple[tuple[FirstSight, ...], ...]:
    """Find where each target first comes in sight on each leg, geometry only.

    Parameters
    ----------
    passage : Passage
        The passage.
    land : LandModel
        Land in reach of the passage.
    targets : tuple of SightTarget
        What to look for.
    settings : SweepSettings
        Antenna height and refraction; the sweep radius does not limit the search.
    heights : HeightSource or None
        Elevation for lines of sight that run outside the land model, in coarse cells each as
        high as the highest ground in it.
    progress : Progress
        Told the leg.
    terrain : Terrain, optional
        The land model's, where it is made already.

    Returns
    -------
    tuple of tuple of FirstSight
        Leg by leg, in the order of the targets. ``in_sight_from`` is the first place of the leg
        (to 0.02 NM) from which the target is in sight, and None with the reason where it is in
        sight from the start of the leg on or never; ``lost`` is the end of that first stretch
        in sight, None where it lasts to the end of the leg. The leg is searched every 0.25 NM:
        shorter glimpses are not found.

    Notes
    -----
    Unknown heights inside the declared area count as 50 m high, so that a target behind them is
    not promised; those outside it count as sea, and ``passes_unknown`` tells.
    """
    if not targets:
        return tuple(() for _ in passage.legs)
    scene = scene_of(passage, land, targets, settings, heights, terrain)
    return sights_of(passage, scene, targets, progress)


def sights_of(
    passage: Passage, scene: Scene, targets: tuple[SightTarget, ...], progress: Progress
) -> tuple[tuple[FirstSight, ...], ...]:
    """The same over a scene of these targets that is made already."""
    legs = []
    for index in range(len(passage.legs)):
        text = tr(
            "First sight: leg {leg_number} of {leg_count}",
            leg_number=index + 1,
            leg_count=len(passage.legs),
        )
        progress.report(index / len(passage.legs), text)
        line = passage.line(index)
        along_m = np.array(along_of(line.length_m, _STEP_M))
        range_m, in_sight = _matrix(scene, line, along_m, progress, index / len(passage.legs), text)
        legs.append(_leg_sights(scene, line, along_m, range_m, in_sight, targets, index))
    progress.report(1.0, tr("First sight: done"))
    return tuple(legs)


def _matrix(
    scene: Scene,
    line: LegLine,
    along_m: FloatArray,
    progress: Progress,
    fraction: float,
    text: str,
) -> tuple[FloatArray, BoolArray]:
    """Ranges, and who is in sight, from every place along a leg: (places, targets) arrays."""
    lat, lon, _courses = line.at(along_m)
    range_m = np.empty((along_m.size, scene.lat_deg.size))
    in_sight = np.zeros(range_m.shape, dtype=np.bool_)
    rows = max(1, _CHUNK // scene.lat_deg.size)
    for start in range(0, along_m.size, rows):
        progress.report(fraction, text)
        part = slice(start, start + rows)
        distance_m, _bearing, _final = geodesic.inverse(
            from_lat_deg=lat[part, None],
            from_lon_deg=lon[part, None],
            to_lat_deg=scene.lat_deg[None, :],
            to_lon_deg=scene.lon_deg[None, :],
        )
        range_m[part] = distance_m
        steps, targets = np.nonzero(distance_m <= scene.reach_m[None, :])
        state = scene.look(lat[part][steps], lon[part][steps], targets).state
        in_sight[start + steps, targets] = state == PairState.IN_SIGHT
    return range_m, in_sight


def _leg_sights(
    scene: Scene,
    line: LegLine,
    along_m: FloatArray,
    range_m: FloatArray,
    in_sight: BoolArray,
    targets: tuple[SightTarget, ...],
    leg_index: int,
) -> tuple[FirstSight, ...]:
    """First sights on one leg from the matrix of who is in sight where."""
    count = len(targets)
    ever: BoolArray = np.asarray(in_sight.any(axis=0), dtype=np.bool_)
    first = np.argmax(in_sight, axis=0)
    # The end of the first stretch in sight: the first place after it that is not.
    after = np.arange(along_m.size)[:, None] > first[None, :]
    gone: BoolArray = ever[None, :] & after & ~in_sight
    is_lost: BoolArray = np.asarray(gone.any(axis=0), dtype=np.bool_)
    last = np.argmax(gone, axis=0) - 1

    comes = np.flatnonzero(ever & (first > 0))
    goes = np.flatnonzero(is_lost)
    from_m = np.full(count, np.nan)
    from_m[comes] = _refined(
        scene, line, comes, hidden_m=along_m[first[comes] - 1], seen_m=along_m[first[comes]]
    )
    lost_m = np.full(count, np.nan)
    lost_m[goes] = _refined(
        scene, line, goes, hidden_m=along_m[last[goes] + 1], seen_m=along_m[last[goes]]
    )
    appears = _moments(scene, line, from_m)
    vanishes = _moments(scene, line, lost_m)
    passes = np.zeros(count, dtype=np.bool_)
    if comes.size:
        passes[comes] = scene.look_along(line, from_m[comes], comes).passes_unknown
    reasons = _reasons(scene, line, along_m, range_m, ever, leg_index)
    return tuple(
        FirstSight(
            object_id=target.object_id,
            name=target.name,
            position=target.position,
            height_above_water_m=target.height_above_water_m,
            in_sight_from=appears[number],
            in_sight_from_reason="" if appears[number] is not None else reasons[number],
            lost=vanishes[number],
            passes_unknown=bool(passes[number]),
        )
        for number, target in enumerate(targets)
    )


def _refined(
    scene: Scene, line: LegLine, targets: IntArray, *, hidden_m: FloatArray, seen_m: FloatArray
) -> FloatArray:
    """Places in sight, moved by halving to within 0.02 NM of where sight begins or ends."""
    hidden, seen = hidden_m.copy(), seen_m.copy()
    if targets.size == 0:
        return seen
    while float(np.max(np.abs(hidden - seen))) > _FINE_M:
        middle = (hidden + seen) / 2.0
        is_seen = scene.look_along(line, middle, targets).state == PairState.IN_SIGHT
        seen, hidden = np.where(is_seen, middle, seen), np.where(is_seen, hidden, middle)
    return seen


def _moments(scene: Scene, line: LegLine, along_m: FloatArray) -> list[Moment | None]:
    """Moments at places along a leg, one a target; None where the place is NaN."""
    moments: list[Moment | None] = [None] * along_m.size
    known = np.flatnonzero(np.isfinite(along_m))
    if known.size == 0:
        return moments
    lat, lon, _courses = line.at(along_m[known])
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=lat,
        from_lon_deg=lon,
        to_lat_deg=scene.lat_deg[known],
        to_lon_deg=scene.lon_deg[known],
    )
    for target, at_m, distance_m, bearing in zip(
        known, along_m[known], range_m, bearing_deg, strict=True
    ):
        moments[target] = Moment(
            along_m=float(at_m), range_m=float(distance_m), bearing_deg=float(bearing)
        )
    return moments


def _reasons(
    scene: Scene,
    line: LegLine,
    along_m: FloatArray,
    range_m: FloatArray,
    ever: BoolArray,
    leg_index: int,
) -> list[str]:
    """Why a target has no moment: asked where the ship is nearest to it."""
    nearest = np.argmin(range_m, axis=0)
    from_start = (
        tr("in sight from the start of the passage")
        if leg_index == 0
        else tr("in sight from the start of this leg")
    )
    reasons = [from_start] * ever.size
    never = np.flatnonzero(~ever)
    if never.size == 0:
        return reasons
    worst = scene.look_along(line, along_m[nearest[never]], never, find_worst=True)
    for row, target in enumerate(never):
        off_nm = nm_from_m(float(worst.blocker_range_m[row]))
        state = worst.state[row]
        if state == PairState.BELOW_HORIZON:
            reasons[target] = tr(
                "never above the horizon on this leg: {nearest_nm:.1f} NM off "
                "at the nearest, horizon at {horizon_nm:.1f} NM",
                nearest_nm=nm_from_m(float(worst.range_m[row])),
                horizon_nm=nm_from_m(float(scene.reach_m[target])),
            )
        elif state == PairState.HIDDEN_BY_LAND:
            reasons[target] = tr(
                "never in sight on this leg: hidden by land {height_m:.0f} m "
                "high, {off_nm:.1f} NM off",
                height_m=float(worst.blocker_height_m[row]),
                off_nm=off_nm,
            )
        else:
            reasons[target] = tr(
                "not known to come in sight on this leg: heights {off_nm:.1f} NM off are unknown",
                off_nm=off_nm,
            )
    return reasons
