"""The card of a turn: ring, half turn, and what shows along the arc."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from core.base.language import tr
from core.coverage.arc_sight import ArcSight
from core.geodesy import geodesic
from core.passage.passage import Side
from core.passage.turn import Turn
from core.plan.blind_sectors import CourseSector, is_blind
from core.plan.candidates import LegField
from core.plan.index_object import Edge, IndexObject, ObjectKind
from core.plan.leg_scales import first_object
from core.plan.plan_result import LegPlan
from core.plan.rules import PlanRules
from core.plan.turn_arc import arc_places
from core.plan.turn_card_result import (
    ARC_SHARES,
    ArcPlace,
    ArcSeen,
    HalfTurn,
    Ring,
    TurnCard,
)
from core.plan.turn_ring import ring_radius_m, ring_readings
from core.plan.wheel_over_site import line_through

SLOW_RATIO = 0.8
"""Share of the planned speed a ship may keep in a turn, as in job.md T11 (15 to 12 kn)."""
_EDGE_COST_M = {Edge.POSITION: 0.0, Edge.TIP: 0.0, Edge.NEAR_SIDE: 1852.0, Edge.TANGENT: 3704.0}
"""What an edge that changes as the ship turns is worse by, as range."""
_ABEAM_COST_M = 1852.0 / 30.0
"""A degree off abeam at the end of the turn against range: 30 deg are worth a mile (ours)."""
_CLOSE_AHEAD_DEG = 45.0
"""Nearer to right ahead or astern than this at the end an object is no ring object."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnScene:
    """What one turn is looked at with."""

    field: LegField
    turn: Turn
    leg: LegPlan
    next_leg: LegPlan
    next_sectors: tuple[CourseSector, ...]
    sight: ArcSight
    objects: tuple[IndexObject, ...]
    """All lettered objects."""
    scale_m: float
    """Of the main radar at the wheel-over."""
    is_across_land: bool
    nearest_land_m: float | None
    rules: PlanRules

    @property
    def reach_m(self) -> float:
        """How far out the screen, centred, shows an object well inside its edge."""
        return self.scale_m * (1.0 - self.rules.screen_margin_ratio)


def turn_card(scene: TurnScene) -> TurnCard:
    """Put the card of one turn together."""
    turn, motion = scene.turn, scene.field.motion
    places = arc_places(scene.field.line, turn)
    ring, ring_reason = _ring(scene, places)
    is_large = abs(turn.alteration_deg) > scene.rules.large_alteration_deg
    half = _half_turn(scene, places[2]) if is_large else None
    stream, slow = motion.given.stream, motion.water_speed_mps * SLOW_RATIO
    return TurnCard(
        places=places,
        side=Side.STARBOARD if turn.alteration_deg > 0.0 else Side.PORT,
        radius_m=turn.radius_m,
        advance_m=turn.advance_m,
        transfer_m=turn.transfer_m,
        arc_m=turn.arc_m,
        arc_minutes=turn.arc_minutes(motion.water_speed_mps),
        water_speed_mps=motion.water_speed_mps,
        rate_deg_per_min=turn.rate_of_turn_deg_per_min(motion.water_speed_mps),
        slow_speed_mps=slow,
        slow_rate_deg_per_min=turn.rate_of_turn_deg_per_min(slow),
        drift_m=None
        if stream is None
        else turn.drift_m(drift_mps=stream.drift_mps, water_speed_mps=motion.water_speed_mps),
        drift_deg=None if stream is None else stream.set_deg,
        ring=ring,
        ring_reason=ring_reason,
        half=half,
        seen=tuple(_seen(scene, places, ring, half)),
        nearest_land_m=scene.nearest_land_m,
        is_across_land=scene.is_across_land,
    )


def _about_start(place: ArcPlace, thing: IndexObject) -> tuple[float, float]:
    """An object ahead and to starboard of a place, about the course there, m."""
    range_m, bearing_deg = _bears(place, thing)
    angle = math.radians(bearing_deg - place.course_deg)
    return range_m * math.cos(angle), range_m * math.sin(angle)


def _bears(place: ArcPlace, thing: IndexObject) -> tuple[float, float]:
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=place.position.lat_deg,
        from_lon_deg=place.position.lon_deg,
        to_lat_deg=thing.position.lat_deg,
        to_lon_deg=thing.position.lon_deg,
    )
    return float(range_m), float(bearing_deg) % 360.0


def _shows(scene: TurnScene, places: tuple[ArcPlace, ...], thing: IndexObject) -> tuple[bool, ...]:
    """Whether an object shows from each place, clear of own sectors as she heads there."""
    if thing.id not in scene.sight.object_ids:
        return (False,) * len(places)
    seen = scene.sight.shows[:, scene.sight.object_ids.index(thing.id)]
    told = []
    for place, is_seen in zip(places, seen, strict=True):
        ahead_m, cross_m = _about_start(place, thing)
        sectors = scene.next_sectors if place.share_ratio >= 1.0 else scene.field.sectors
        told.append(
            bool(is_seen) and not is_blind(ahead_m=ahead_m, cross_m=cross_m, sectors=sectors)
        )
    return tuple(told)


def _ring(scene: TurnScene, places: tuple[ArcPlace, ...]) -> tuple[Ring | None, str]:
    """The object best abeam at the end of the turn that shows all along it (job.md 2.8.3)."""
    turn, rules = scene.turn, scene.rules
    if abs(turn.alteration_deg) < rules.small_alteration_deg:
        return None, tr("too small a turn to ride a ring")
    best: tuple[float, str, Ring] | None = None
    for thing in scene.objects:
        if not thing.is_fixed or thing.kind is ObjectKind.PEAK:
            continue
        ahead_m, starboard_m = _about_start(places[0], thing)
        readings = ring_readings(turn, ahead_m=ahead_m, starboard_m=starboard_m)
        ranges = [reading.range_m for reading in readings]
        off_deg = abs(readings[-1].relative_deg % 180.0 - 90.0)
        if (
            max(ranges) > scene.reach_m
            or min(ranges) < rules.least_turn_cross_m
            or off_deg > 90.0 - _CLOSE_AHEAD_DEG
            or not all(_shows(scene, places, thing))
        ):
            continue
        cost = _EDGE_COST_M[thing.edge] + off_deg * _ABEAM_COST_M + max(ranges)
        ring = Ring(
            object=thing,
            radius_m=ring_radius_m(turn, ahead_m=ahead_m, starboard_m=starboard_m),
            readings=readings,
        )
        if best is None or (cost, thing.id) < best[:2]:
            best = (cost, thing.id, ring)
    if best is None:
        return None, tr("no object near abeam at its end shows all along the turn on this scale")
    return best[2], ""


def _half_turn(scene: TurnScene, place: ArcPlace) -> HalfTurn:
    """The nearest object at half turn that a line parallel to the course there suits."""
    through = line_through(place.position, place.course_deg)
    best: tuple[float, str, HalfTurn] | None = None
    for thing in scene.objects:
        if not thing.is_fixed or thing.kind is ObjectKind.PEAK:
            continue
        range_m, bearing_deg = _bears(place, thing)
        if range_m > scene.reach_m or not _shows(scene, (place,) * len(ARC_SHARES), thing)[2]:
            continue
        _along, cross = through.track_coordinates(
            np.array([thing.position.lat_deg]), np.array([thing.position.lon_deg])
        )
        cross_m = float(cross[0])
        if abs(cross_m) < scene.rules.least_turn_cross_m:
            continue
        cost = _EDGE_COST_M[thing.edge] + range_m
        if best is None or (cost, thing.id) < best[:2]:
            half = HalfTurn(
                course_deg=place.course_deg,
                object=thing,
                side=Side.STARBOARD if cross_m > 0.0 else Side.PORT,
                cross_index_range_m=abs(cross_m),
                range_m=range_m,
                bearing_deg=bearing_deg,
            )
            best = (cost, thing.id, half)
    if best is not None:
        return best[2]
    return HalfTurn(
        course_deg=place.course_deg,
        object=None,
        side=None,
        cross_index_range_m=None,
        range_m=None,
        bearing_deg=None,
    )


def _seen(
    scene: TurnScene, places: tuple[ArcPlace, ...], ring: Ring | None, half: HalfTurn | None
) -> Iterator[ArcSeen]:
    """What the turn is watched by, each object once, under the first use it has."""
    wheel_over = scene.leg.wheel_over
    first = first_object(scene.next_leg, scene.field)
    uses: list[tuple[str, IndexObject | None]] = []
    if wheel_over is not None:
        line, second = wheel_over.line, wheel_over.second_mark
        uses.append((tr("wheel-over line"), None if line is None else line.object))
        uses.append((tr("check"), None if second is None else second.object))
    uses.append((tr("ring"), None if ring is None else ring.object))
    uses.append((tr("half turn"), None if half is None else half.object))
    uses.append((tr("new leg"), first))
    told: set[str] = set()
    for use, thing in uses:
        if thing is not None and thing.id not in told:
            told.add(thing.id)
            yield ArcSeen(object_id=thing.id, use=use, shows=_shows(scene, places, thing))
