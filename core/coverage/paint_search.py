"""Where along a leg objects begin and cease to paint, or to be in sight.

Places are tried every half mile; where something changes between two of them, the place is found
to within some 0.05 NM: by halving where land or the horizon cuts it off, in proportion of the
margins where its echo grows or fades. Stretches shorter than half a mile can be missed.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray, HoldsArrays, IntArray
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import PaintedStretch, PaintLimit
from core.coverage.own_blind import BlindArc
from core.coverage.paint_gauge import Gauge, Look
from core.coverage.profiles import PairSight, PairState
from core.coverage.sight_scene import Scene
from core.coverage.viewpoints import along_of
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.passage.passage import Passage

_STEP_M = m_from_nm(0.5)
_HALVINGS = 3
_GRADUAL_DB = 12.0
"""Margins that differ by no more over half a mile change by the strength of the echo alone."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegView(HoldsArrays):
    """One leg as all objects are looked at from it.

    along_m : (p,) places along the track; range_m, bearing_deg : (p, t) to the objects
    """

    index: int
    line: LegLine
    along_m: FloatArray
    range_m: FloatArray
    bearing_deg: FloatArray
    crosses_m: tuple[float, ...]
    """The track, 0, then the corridor edges, to starboard positive."""
    places_deg: FloatArray
    """Latitudes and longitudes of the places abreast, (crosses, 2, p); longitudes run on."""
    scene: Scene
    gauge: Gauge
    alive: Callable[[], None]
    """Raises when a stop was asked for."""
    arcs: tuple[BlindArc, ...] = ()
    """In which own structure blinds the radar that is looked with."""

    @property
    def from_start(self) -> str:
        """What is said of something that is so from the start on."""
        return (
            tr("from the start of the passage on")
            if self.index == 0
            else tr("from the start of the leg on")
        )

    def place(self, along_m: float, cross_m: float = 0.0) -> Position:
        """A place on the track or a corridor edge; a straight step between those of the grid."""
        lats, lons = self.places_deg[self.crosses_m.index(cross_m)]
        lon = float(np.interp(along_m, self.along_m, lons))
        return Position(
            lat_deg=float(np.interp(along_m, self.along_m, lats)),
            lon_deg=(lon + 180.0) % 360.0 - 180.0,
        )

    def moment(self, along_m: float, target: int) -> Moment:
        """An object as it bears from a place on the track."""
        place = self.place(along_m)
        range_m, bearing_deg, _final = geodesic.inverse(
            from_lat_deg=np.array([place.lat_deg]),
            from_lon_deg=np.array([place.lon_deg]),
            to_lat_deg=self.scene.lat_deg[[target]],
            to_lon_deg=self.scene.lon_deg[[target]],
        )
        return Moment(
            along_m=along_m,
            range_m=float(range_m[0]),
            bearing_deg=float(bearing_deg[0]) % 360.0,
        )

    def look_at(
        self,
        scene: Scene,
        along_m: float,
        target: int,
        *,
        cross_m: float = 0.0,
        find_worst: bool = False,
    ) -> PairSight:
        """Sight of one object's top from a place on the track or a corridor edge."""
        place = self.place(along_m, cross_m)
        return scene.look(
            np.array([place.lat_deg]),
            np.array([place.lon_deg]),
            np.array([target]),
            find_worst=find_worst,
        )

    def blind_from(
        self, along_m: float, objects: IntArray, crosses_m: tuple[float, ...]
    ) -> BoolArray:
        """Which objects own structure may hide from any of some places abreast, (n,)."""
        hidden = np.zeros(objects.size, dtype=np.bool_)
        for off_deg in self._off_course_deg(along_m, objects, crosses_m):
            for arc in self.arcs:
                hidden |= arc.holds(off_deg)
        return hidden

    def blind_words(self, along_m: float, target: int, crosses_m: tuple[float, ...]) -> str:
        """The sector that may hide one object there; empty where none does."""
        for off_deg in self._off_course_deg(along_m, np.array([target]), crosses_m):
            for arc in self.arcs:
                if arc.holds(off_deg)[0]:
                    return arc.words
        return ""

    def _off_course_deg(
        self, along_m: float, objects: IntArray, crosses_m: tuple[float, ...]
    ) -> Iterator[FloatArray]:
        """Angles off the course of objects, (n,), from each of some places abreast."""
        if not self.arcs:
            return
        course_deg = self.line.course_at(along_m)
        for cross_m in crosses_m:
            place = self.place(along_m, cross_m)
            yield self.gauge.bearings_deg(place)[objects] - course_deg

    def least_margin_db(
        self,
        look: Look,
        along_m: float,
        objects: IntArray,
        crosses_m: tuple[float, ...],
        *,
        is_exact: bool = False,
    ) -> FloatArray:
        """Least margin over places abreast, dB, (n,); of negative ones any, unless exact."""
        self.alive()
        worst = np.full(objects.size, np.inf)
        for cross_m in crosses_m:
            going = np.flatnonzero((worst >= 0.0) | is_exact)
            if going.size:
                seen = self.gauge.seen_from(look, self.place(along_m, cross_m), objects[going])
                worst[going] = np.minimum(worst[going], seen)
        return worst


def leg_view(
    passage: Passage, index: int, scene: Scene, gauge: Gauge, alive: Callable[[], None]
) -> LegView:
    """Lay out the places of a leg."""
    leg, line = passage.legs[index], passage.line(index)
    along_m = np.array(along_of(line.length_m, _STEP_M))
    lat, lon, _courses = line.at(along_m)
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=lat[:, None],
        from_lon_deg=lon[:, None],
        to_lat_deg=scene.lat_deg[None, :],
        to_lon_deg=scene.lon_deg[None, :],
    )
    edges = (-(leg.corridor_port_m or 0.0), leg.corridor_starboard_m or 0.0)
    crosses_m = (0.0, *(cross_m for cross_m in edges if cross_m != 0.0))
    abreast = [line.offset(along_m, np.full(along_m.shape, cross_m)) for cross_m in crosses_m]
    return LegView(
        index=index,
        line=line,
        along_m=along_m,
        range_m=range_m,
        bearing_deg=np.mod(bearing_deg, 360.0),
        crosses_m=crosses_m,
        places_deg=np.array([[lats, np.unwrap(lons, period=360.0)] for lats, lons in abreast]),
        scene=scene,
        gauge=gauge.anew(),
        alive=alive,
    )


def margins_along(view: LegView, look: Look) -> FloatArray:
    """Margins of all objects from all places on the track, dB, (p, t)."""
    everything = np.arange(view.gauge.count)
    margin_db = np.empty(view.range_m.shape)
    for p, along_m in enumerate(view.along_m):
        margin_db[p] = view.least_margin_db(look, float(along_m), everything, (0.0,))
    return margin_db


def stretches_of(
    view: LegView, look: Look, margin_db: FloatArray, target: int
) -> tuple[PaintedStretch, ...]:
    """Where one object paints on the track, from its margins at the places (p,)."""
    paints = margin_db >= 0.0
    steps = np.diff(paints.astype(np.int8))
    begins = (
        [0, *(np.flatnonzero(steps == 1) + 1)]
        if paints[0]
        else list(np.flatnonzero(steps == 1) + 1)
    )
    found = []
    one = np.array([target])

    def shows(along_m: float) -> bool:
        return bool(view.least_margin_db(look, along_m, one, (0.0,))[0] >= 0.0)

    for first in begins:
        after = np.flatnonzero(~paints[first:])
        last = int(first + after[0] - 1) if after.size else paints.size - 1
        from_m, to_m = float(view.along_m[first]), float(view.along_m[last])
        if first > 0:
            from_m = _edge_m(
                shows, view.along_m, margin_db, hidden=int(first) - 1, shown=int(first)
            )
        lost_to = ""
        if after.size:
            hidden_m = float(view.along_m[last + 1])
            to_m = _edge_m(shows, view.along_m, margin_db, hidden=last + 1, shown=last)
            lost_to = _why_lost(view, look, hidden_m, target)
        found.append(
            PaintedStretch(
                begins=view.moment(from_m, target),
                ends=view.moment(to_m, target),
                lasts=not after.size,
                lost_to=lost_to,
            )
        )
    return tuple(found)


def _edge_m(
    shows: Callable[[float], bool],
    along_m: FloatArray,
    margin_db: FloatArray,
    *,
    hidden: int,
    shown: int,
) -> float:
    """The place between two neighbouring ones at which something begins or ceases to paint."""
    below_db, above_db = float(margin_db[hidden]), float(margin_db[shown])
    hidden_m, shown_m = float(along_m[hidden]), float(along_m[shown])
    if above_db - below_db <= _GRADUAL_DB:
        return shown_m + (hidden_m - shown_m) * above_db / (above_db - below_db)
    return halved(shows, hidden_m=hidden_m, shown_m=shown_m)[1]


def halved(
    shows: Callable[[float], bool], *, hidden_m: float, shown_m: float
) -> tuple[float, float]:
    """A place where it does not show and one where it does, close to one another."""
    for _ in range(_HALVINGS):
        middle_m = (hidden_m + shown_m) / 2.0
        if shows(middle_m):
            shown_m = middle_m
        else:
            hidden_m = middle_m
    return hidden_m, shown_m


def _through(view: LegView, look: Look) -> Scene:
    """The objects' tops as this look has them."""
    budget = look.budget
    return view.scene.through(
        antenna_height_m=budget.antenna_height_m,
        refraction_k=budget.conditions.refraction_k,
        raised_m=-look.water_rise_m,
    )


def _why_lost(view: LegView, look: Look, along_m: float, target: int) -> str:
    """What takes an object away at a place from which it does not paint."""
    sight = view.look_at(_through(view, look), along_m, target, find_worst=True)
    state = sight.state[0]
    if state == PairState.HIDDEN_BY_LAND:
        return land_words(float(sight.blocker_height_m[0]), float(sight.blocker_range_m[0]))
    if state == PairState.BELOW_HORIZON:
        return tr("the horizon")
    if state == PairState.HIDDEN_IF_UNKNOWN_IS_HIGH:
        return tr(
            "unknown heights {distance_nm:.1f} NM off",
            distance_nm=nm_from_m(float(sight.blocker_range_m[0])),
        )
    return tr("too weak an echo")


def land_words(height_m: float, range_m: float) -> str:
    """Land that hides something, in words."""
    return tr(
        "land {height_m:.0f} m high, {distance_nm:.1f} NM off",
        height_m=height_m,
        distance_nm=nm_from_m(range_m),
    )


def first_limits(
    view: LegView,
    look: Look,
    crosses_m: tuple[float, ...],
    why_never: Callable[[int], str],
    *,
    in_a_row: int = 1,
    candidates: BoolArray | None = None,
) -> tuple[PaintLimit, ...]:
    """From where each object paints from all of some places abreast; followed until found.

    Parameters
    ----------
    view : LegView
        The leg.
    look : Look
        Radar and conditions.
    crosses_m : tuple of float
        The places abreast.
    why_never : callable
        Words for an object that paints nowhere.
    in_a_row : int
        Neighbouring places that must agree, so that a glimpse does not count.
    candidates : (p, t) bool array, optional
        Where an object need be looked at at all; elsewhere it does not paint.
    """
    count = view.gauge.count
    blind = np.zeros(view.range_m.shape, dtype=np.bool_)
    worst_db = np.full(view.range_m.shape, -np.inf)
    run = np.zeros(count, dtype=np.int64)
    first = np.full(count, -1)
    for p, along_m in enumerate(view.along_m):
        wanted = np.flatnonzero(first < 0)
        if wanted.size == 0:
            break
        asked = wanted if candidates is None else wanted[candidates[p, wanted]]
        blind[p, asked] = view.blind_from(float(along_m), asked, crosses_m)
        asked = asked[~blind[p, asked]]
        if asked.size:
            worst_db[p, asked] = view.least_margin_db(look, float(along_m), asked, crosses_m)
        shows = worst_db[p, wanted] >= 0.0
        run[wanted] = np.where(shows, run[wanted] + 1, 0)
        enough = (run[wanted] >= in_a_row) | ((p == view.along_m.size - 1) & shows)
        first[wanted[enough]] = p - run[wanted[enough]] + 1

    def limit(target: int) -> PaintLimit:
        p = int(first[target])
        if p < 0:
            held = np.flatnonzero(blind[:, target])
            if held.size:
                words = view.blind_words(float(view.along_m[held[-1]]), target, crosses_m)
                return PaintLimit(moment=None, reason=blind_reason(words))
            return PaintLimit(moment=None, reason=why_never(target))
        if p == 0:
            return PaintLimit(
                moment=None,
                reason=tr("paints {from_start}", from_start=view.from_start),
                is_from_start=True,
            )
        one = np.array([target])
        margin_db = worst_db[:, target]
        before_m = float(view.along_m[p - 1])
        if np.isfinite(margin_db[p - 1]):
            margin_db[p - 1] = view.least_margin_db(look, before_m, one, crosses_m, is_exact=True)[
                0
            ]

        def shows(along_m: float) -> bool:
            return bool(view.least_margin_db(look, along_m, one, crosses_m)[0] >= 0.0)

        if blind[p - 1, target] and shows(before_m):
            return out_of_blind(view, target, crosses_m, blind_m=before_m, clear_m=view.along_m[p])
        at_m = _edge_m(shows, view.along_m, margin_db, hidden=p - 1, shown=p)
        if view.blind_from(at_m, one, crosses_m)[0]:
            return out_of_blind(view, target, crosses_m, blind_m=at_m, clear_m=view.along_m[p])
        return PaintLimit(moment=view.moment(at_m, target))

    return tuple(limit(target) for target in range(count))


def blind_reason(words: str) -> str:
    """Why something that might paint on a leg is not expected to."""
    return tr("stands in own blind sector {sector} where it might paint", sector=words)


def out_of_blind(
    view: LegView, target: int, crosses_m: tuple[float, ...], *, blind_m: float, clear_m: float
) -> PaintLimit:
    """From where one object stands clear of own sectors, between a place in them and one not."""
    one = np.array([target])

    def is_clear(along_m: float) -> bool:
        return not view.blind_from(along_m, one, crosses_m)[0]

    _hidden_m, at_m = halved(is_clear, hidden_m=blind_m, shown_m=float(clear_m))
    words = view.blind_words(blind_m, target, crosses_m)
    return PaintLimit(moment=view.moment(at_m, target), held_by=words)
