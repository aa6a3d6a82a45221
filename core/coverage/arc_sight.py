"""Which objects show from the places of a turn, by the looks that first paints are made with."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, HoldsArrays
from core.coverage.paint_gauge import Gauge, Look
from core.coverage.profiles import PairState
from core.coverage.sight_scene import Scene
from core.geodesy import geodesic
from core.geodesy.position import Position


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArcSight(HoldsArrays):
    """shows : (p, t), whether each object is expected to show from each place of the arc."""

    object_ids: tuple[str, ...]
    shows: BoolArray


NOTHING_SEEN = ArcSight(object_ids=(), shows=np.zeros((0, 0), dtype=np.bool_))


def arc_sight(
    scene: Scene,
    gauge: Gauge,
    look: Look | None,
    places: tuple[Position, ...],
    *,
    reach_m: float,
    alive: Callable[[], None],
) -> ArcSight:
    """Look for the objects near a turn from each of its places.

    Parameters
    ----------
    scene : Scene
        The objects, through the air that sight alone is judged by.
    gauge : Gauge
        Measures their echoes.
    look : Look or None
        Main radar and weather; None asks for sight alone.
    places : tuple of Position
        On the arc, in order; none gives nothing.
    reach_m : float
        How far from the middle place objects are looked for.
    alive : callable
        Raises when a stop was asked for.
    """
    if not places or not gauge.count:
        return NOTHING_SEEN
    middle = places[len(places) // 2]
    off_m, _bearing, _final = geodesic.inverse(
        from_lat_deg=np.full(gauge.count, middle.lat_deg),
        from_lon_deg=np.full(gauge.count, middle.lon_deg),
        to_lat_deg=scene.lat_deg,
        to_lon_deg=scene.lon_deg,
    )
    near = np.flatnonzero(off_m <= reach_m)
    shows = np.zeros((len(places), near.size), dtype=np.bool_)
    for number, place in enumerate(places if near.size else ()):
        alive()
        if look is not None:
            shows[number] = gauge.seen_from(look, place, near) >= 0.0
            continue
        state = scene.look(
            np.full(near.size, place.lat_deg), np.full(near.size, place.lon_deg), near
        ).state
        shows[number] = state == PairState.IN_SIGHT
    return ArcSight(
        object_ids=tuple(gauge.target(int(t)).object_id for t in near),
        shows=shows,
    )
