"""From where along a leg objects are in sight, geometry alone."""

import numpy as np

from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.first_paint_result import PaintLimit
from core.coverage.paint_search import LegView, halved, land_words
from core.coverage.profiles import PairState
from core.coverage.sight_scene import Scene


def sight_limits(
    view: LegView, *, antenna_height_m: float, refraction_k: float, is_earliest: bool = False
) -> tuple[PaintLimit, ...]:
    """From where the top of each object is in sight on the track, geometry only.

    The earliest is the last place before which it is in sight from nowhere in the corridor,
    unknown heights on the way taken as low: nothing that comes later may be called too early.
    """
    scene = view.scene.through(antenna_height_m=antenna_height_m, refraction_k=refraction_k)
    crosses_m = view.crosses_m if is_earliest else view.crosses_m[:1]
    in_sight = np.zeros(view.range_m.shape, dtype=np.bool_)
    nearer_m = max(abs(cross_m) for cross_m in crosses_m)
    steps, targets = np.nonzero(view.range_m <= scene.reach_m[None, :] + nearer_m)
    open_to = [PairState.IN_SIGHT]
    if is_earliest:
        open_to.append(PairState.HIDDEN_IF_UNKNOWN_IS_HIGH)
    for lat, lon in view.places_deg[: len(crosses_m)]:
        state = scene.look(lat[steps], lon[steps], targets).state
        in_sight[steps, targets] |= np.isin(state, open_to)

    def limit(target: int) -> PaintLimit:
        seen = in_sight[:, target]
        if not seen.any():
            nearest = int(np.argmin(view.range_m[:, target]))
            return PaintLimit(moment=None, reason=_never_in_sight(view, scene, nearest, target))
        p = int(np.argmax(seen))
        if p == 0:
            return PaintLimit(
                moment=None,
                reason=tr("possible {from_start}", from_start=view.from_start),
                is_from_start=True,
            )

        def shows(along_m: float) -> bool:
            places = (view.look_at(scene, along_m, target, cross_m=c) for c in crosses_m)
            return any(sight.state[0] in open_to for sight in places)

        before_m, from_m = halved(
            shows, hidden_m=float(view.along_m[p - 1]), shown_m=float(view.along_m[p])
        )
        return PaintLimit(moment=view.moment(before_m if is_earliest else from_m, target))

    return tuple(limit(target) for target in range(view.gauge.count))


def _never_in_sight(view: LegView, scene: Scene, place: int, target: int) -> str:
    """Why an object is not in sight on a leg, asked where the ship is nearest to it."""
    sight = view.look_at(scene, float(view.along_m[place]), target, find_worst=True)
    state = sight.state[0]
    if state == PairState.BELOW_HORIZON:
        return tr(
            "never above the horizon on this leg: {nearest_nm:.1f} NM off "
            "at the nearest, horizon at {horizon_nm:.1f} NM",
            nearest_nm=nm_from_m(float(sight.range_m[0])),
            horizon_nm=nm_from_m(float(scene.reach_m[target])),
        )
    if state == PairState.HIDDEN_BY_LAND:
        words = land_words(float(sight.blocker_height_m[0]), float(sight.blocker_range_m[0]))
        return tr("never in sight on this leg: hidden by {land}", land=words)
    off_nm = nm_from_m(float(sight.blocker_range_m[0]))
    return tr(
        "not known to come in sight on this leg: heights {off_nm:.1f} NM off are unknown",
        off_nm=off_nm,
    )
