"""How strongly each object echoes from a place, with one radar, air and water.

Land is looked at as it stands in the elevation. A mark is a point, and so is an islet whose
ground the elevation does not hold: they echo when their tops are in sight, like a target over
the open sea.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.coverage.land_echo import land_rcs_m2
from core.coverage.local_map import LocalMap, local_map
from core.coverage.object_echo import bin_rad_of, piece_margins_db
from core.coverage.object_light import light_pieces
from core.coverage.piece_light import Around, Eye, Light, Pieces
from core.coverage.profiles import Grid, PairState, horizon_distance_m
from core.coverage.sight_scene import Scene, SightTarget
from core.geodesy.position import Position
from core.radar.echo_budget import EchoBudget
from core.radar.radar_target import RadarTarget, TypicalTarget
from core.radar.square_law import DetectionRule, required_snr_db
from core.radar.target_echo import target_snr_db

_LEAST_CELL_M, _MOST_CELL_M = 30.0, 60.0
"""Range cells: half a pulse, within what elevation holds."""
_BARE_ROCK_STEEPNESS = 0.36
"""Slope of an islet known by its height alone, rise over run: 20 deg, our reading, no source."""
_LEAST_HEIGHT_M = 0.1
_FLAT_M = 0.5
"""Ground lower than this everywhere is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintTarget:
    """An object to find the first paint of."""

    sight: SightTarget
    reach_m: float
    """Ground within this of its position is part of it."""
    own_m: float = math.inf
    """Ground higher than this is other land within its reach, and beside it none is its own."""
    mark: TypicalTarget | None = None
    """What a mark is like; None for land."""
    floats: bool = False
    """Whether it rises with the water."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One radar, and how it is looked through: what margins are worked out for."""

    budget: EchoBudget
    water_rise_m: float = 0.0
    """How much higher than now the water is taken, and the antenna with it, m."""
    gamma_shift_db: float = 0.0

    @property
    def eye(self) -> Eye:
        """The antenna and what it looks through."""
        return Eye(
            antenna_height_m=self.budget.antenna_height_m,
            refraction_k=self.budget.conditions.refraction_k,
            water_rise_m=self.water_rise_m,
        )


class Gauge:
    """Measures objects from places, and keeps what it found out of them."""

    def __init__(
        self, scene: Scene, targets: tuple[PaintTarget, ...], kept: Eye | None = None
    ) -> None:
        self._scene = scene
        self._targets = targets
        is_flat = np.array([_is_flat(scene.fine, t) for t in targets], dtype=np.bool_)
        is_mark = np.array([t.mark is not None for t in targets], dtype=np.bool_)
        floats = np.array([t.floats for t in targets], dtype=np.bool_)
        self._is_point = is_mark | is_flat
        # A fixed mark on ground of its own is as good as that ground, if this echoes more.
        self._is_land = ~(is_flat | floats)
        self._floats = floats
        self._is_far = scene.is_outside
        self._kept = kept
        self._ranges: dict[Position, tuple[FloatArray, FloatArray]] = {}
        self._maps: dict[tuple[Position, bool], LocalMap] = {}
        self._lights: dict[tuple[Position, bool, float, float], Light] = {}
        reach_m = np.array([t.reach_m for t in targets])
        self._pieces = Pieces(
            lat_deg=scene.lat_deg,
            lon_deg=scene.lon_deg,
            reach_m=np.maximum(reach_m, scene.margin_m / 2.0),
            height_m=scene.height_m,
            own_m=np.array([t.own_m for t in targets]),
        )
        # Whether anything is hidden asks for all ground there: data may have its own elsewhere.
        self._whole = replace(self._pieces, own_m=None)

    def anew(self, kept: Eye | None = None) -> "Gauge":
        """The same without a memory, for a thread of its own.

        Light as one eye sees it may be kept: other weather changes nothing about it.
        """
        return Gauge(self._scene, self._targets, kept)

    @property
    def count(self) -> int:
        """How many objects there are."""
        return len(self._targets)

    @property
    def targets(self) -> tuple[PaintTarget, ...]:
        """The objects."""
        return self._targets

    @property
    def is_land(self) -> BoolArray:
        """Which objects are ground that the elevation holds."""
        return ~self._is_point

    def target(self, number: int) -> SightTarget:
        """One object."""
        return self._targets[number].sight

    def seen_from(self, look: Look, place: Position, objects: IntArray) -> FloatArray:
        """Margins of chosen objects from one place, dB, (n,).

        Minus infinity where nothing of an object is in sight over known ground.
        """
        return self._margins(look, place, objects)[0]

    def hidden_from(self, look: Look, place: Position, objects: IntArray) -> BoolArray:
        """Which of chosen objects are known to have nothing in sight from one place, (n,).

        What may be in sight over ground of unknown height, or stands on such, is not known.
        """
        margins, is_unsure = self._margins(look, place, objects, of=self._whole)
        return np.asarray(np.isneginf(margins) & ~is_unsure)

    def _margins(
        self, look: Look, place: Position, objects: IntArray, of: Pieces | None = None
    ) -> tuple[FloatArray, BoolArray]:
        """Margins of chosen objects, and whether unknown heights may make them more.

        ``of`` are the pieces that are looked at in place of the objects' own.
        """
        margins = np.full(objects.size, -np.inf)
        is_unsure = np.zeros(objects.size, dtype=np.bool_)
        range_m = self._around(place)[0][objects]
        budget = look.budget
        reach_m = horizon_distance_m(
            budget.antenna_height_m,
            self._pieces.height_m[objects] - look.water_rise_m,
            budget.conditions.refraction_k,
        )
        near = range_m <= reach_m + self._pieces.reach_m[objects]
        land = near & self._is_land[objects]
        for is_far, grid in ((False, self._scene.fine), (True, self._scene.coarse)):
            here = np.flatnonzero(land & (self._is_far[objects] == is_far))
            farthest_m = range_m[here] + self._pieces.reach_m[objects[here]]
            if here.size == 0 or grid is None:
                continue
            farthest = float(farthest_m.max())
            light = self._light(look, grid, place, objects[here], farthest, of or self._pieces)
            margins[here] = piece_margins_db(light, budget, gamma_shift_db=look.gamma_shift_db)
            is_unsure[here] = light.is_unsure
        points = np.flatnonzero(near & self._is_point[objects])
        if points.size:
            as_points = self._points(look, place, objects[points], range_m[points])
            margins[points] = np.maximum(margins[points], as_points)
        return margins, is_unsure

    def bearings_deg(self, place: Position) -> FloatArray:
        """Of all objects from a place, (t,)."""
        return self._around(place)[1]

    def _around(self, place: Position) -> tuple[FloatArray, FloatArray]:
        """Ranges and bearings of all objects, kept."""
        known = self._ranges.get(place)
        if known is None:
            known = self._ranges[place] = self._pieces.around(place)
        return known

    def _light(
        self,
        look: Look,
        grid: Grid,
        place: Position,
        objects: IntArray,
        farthest_m: float,
        pieces: Pieces,
    ) -> Light:
        """What is lit of objects, from memory where all of them are known there."""
        pulse_m = look.budget.pulse.depth_m
        cell_m = min(max(pulse_m / 2.0, _LEAST_CELL_M), _MOST_CELL_M)
        bin_rad = bin_rad_of(look.budget)
        key = (place, grid is self._scene.fine, cell_m, bin_rad)
        is_kept = look.eye == self._kept and pieces is self._pieces
        known = self._lights.get(key) if is_kept else None
        if known is not None:
            at = np.searchsorted(known.piece, objects)
            if at[-1] < known.piece.size and np.array_equal(known.piece[at], objects):
                return known.of(at)
        range_m, bearing_deg = self._around(place)
        here = self._map(grid, place, farthest_m)
        light = light_pieces(
            grid.terrain,
            place,
            pieces,
            objects,
            look.eye,
            cell_m=cell_m,
            bin_rad=bin_rad,
            around=Around(range_m=range_m, bearing_deg=bearing_deg, here=here),
        )
        if is_kept:
            self._lights[key] = light
        return light

    def _map(self, grid: Grid, place: Position, reach_m: float) -> LocalMap:
        """The map round a place, kept: the same places are looked from many times."""
        key = (place, grid is self._scene.fine)
        known = self._maps.get(key)
        if known is None or known.radius_m < reach_m:
            known = local_map(grid.terrain.lattice, place, reach_m)
            self._maps[key] = known
        return known

    def _points(
        self, look: Look, place: Position, objects: IntArray, range_m: FloatArray
    ) -> FloatArray:
        budget = look.budget
        in_sight = self._tops_in_sight(look, place, objects)
        rule = DetectionRule()
        needed_db = required_snr_db(rule.pd, rule.pfa, budget.pulses, rule.fluctuation)
        margins = np.full(objects.size, -np.inf)
        for i in np.flatnonzero(in_sight):
            target = self._radar_target(look, int(objects[i]))
            at_m = np.maximum(range_m[i : i + 1], budget.pulse.depth_m)
            margins[i] = float(target_snr_db(budget, target, at_m)[0]) - needed_db
        return margins

    def _tops_in_sight(self, look: Look, place: Position, objects: IntArray) -> BoolArray:
        scene = self._scene.through(
            antenna_height_m=look.budget.antenna_height_m,
            refraction_k=look.budget.conditions.refraction_k,
            raised_m=np.where(self._floats, 0.0, -look.water_rise_m),
        )
        state = scene.look(
            np.full(objects.size, place.lat_deg), np.full(objects.size, place.lon_deg), objects
        ).state
        return np.asarray(state == PairState.IN_SIGHT)

    def _radar_target(self, look: Look, number: int) -> RadarTarget:
        target = self._targets[number]
        rise_m = 0.0 if target.floats else look.water_rise_m
        height_m = max(target.sight.height_above_water_m - rise_m, _LEAST_HEIGHT_M)
        radar = look.budget.radar
        if target.mark is not None:
            return replace(target.mark.weakest(radar.band), height_m=height_m)
        rcs_m2 = land_rcs_m2(
            height_m,
            1.0,
            _BARE_ROCK_STEEPNESS,
            frequency_hz=radar.frequency_hz,
            width_rad=2.0 * target.reach_m,
            gamma_shift_db=look.gamma_shift_db,
        )
        return RadarTarget(rcs_m2=float(rcs_m2), height_m=height_m)


def _is_flat(grid: Grid, target: PaintTarget) -> bool:
    """Whether the elevation holds no ground worth the name where an object stands."""
    place = target.sight.position
    row, col = grid.terrain.lattice.row_col(np.array([place.lat_deg]), np.array([place.lon_deg]))
    heights = grid.terrain.heights_m
    reach = max(int(target.reach_m / grid.cell_m + 1.0), 1)
    y, x = round(float(row[0])), round(float(col[0]))
    if not (0 <= y < heights.shape[0] and 0 <= x < heights.shape[1]):
        return False
    near = heights[max(y - reach, 0) : y + reach + 1, max(x - reach, 0) : x + reach + 1]
    known = near[np.isfinite(near)]
    return bool(known.size == near.size and known.max(initial=0.0) < _FLAT_M)
