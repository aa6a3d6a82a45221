"""What can be measured by radar at one place of a leg: objects in sight and painting there."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.arrays import BoolArray
from core.coverage.first_paint_result import LegEchoes
from core.plan.blind_sectors import is_blind
from core.plan.candidates import LegField
from core.plan.fix_result import FixObject
from core.plan.leg_context import LegContext
from core.plan.painted_waterline import painted_waterline
from core.plan.plan_result import Edge, ObjectKind
from core.plan.ranking import is_straight, tide_error_m
from core.plan.usable_window import EdgePoint, FeatureTrack, edge_kind

_BESIDE_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FixTarget:
    """A fixed object as it is seen from one place of the track.

    ``ahead_m`` and ``cross_m`` are where its nearest painted part lies from own ship, along the
    track and to starboard of it.
    """

    object_id: str
    name: str
    ahead_m: float
    cross_m: float
    bearing_deg: float
    is_point_like: bool
    shore_error_m: float
    """What the tide adds to its place, 95 %."""

    @property
    def range_m(self) -> float:
        """Range from own ship, m."""
        return math.hypot(self.ahead_m, self.cross_m)

    def measured(self) -> FixObject:
        """As it stands in a fix."""
        return FixObject(
            object_id=self.object_id,
            name=self.name,
            range_m=self.range_m,
            bearing_deg=self.bearing_deg,
            is_point_like=self.is_point_like,
        )


def targets_at(
    field: LegField, context: LegContext, along_m: float, *, within_m: float = math.inf
) -> tuple[FixTarget, ...]:
    """Every lettered object that a range can be taken of at a place of the track.

    Never one that floats, never a summit, whose echo moves with the aspect (job.md 2.4.3), never
    a long straight shore. Of a head it is not the tangent that is ranged, which slides as the ship
    passes (2.4.5), but its nearest part as from this very place, and only where the coast goes
    back on both sides of it. It must be in sight
    and paint as from the viewpoints on the track either side of the place and, where the radar
    was worked out for it, with some margin at the places either side of it too; and stand outside
    blind sectors. ``within_m`` leaves out what is charted farther off: it never paints nearer.
    """
    views = _beside(field, along_m)
    course_deg = float(field.line.at(np.array([along_m]))[2][0])
    found = []
    for track in field.tracks:
        feature = track.feature
        if not feature.is_fixed or feature.key not in context.ids:
            continue
        kind = edge_kind(feature, context.rules)
        if feature.kind is ObjectKind.PEAK or is_straight(feature):
            continue
        if float(np.hypot(track.along_m - along_m, track.cross_m).min()) > within_m:
            continue
        place = _nearest_part(track, field, views, along_m, kind)
        if place is None:
            continue
        ahead, cross = place[0] - along_m, place[1]
        if is_blind(ahead_m=ahead, cross_m=cross, sectors=field.sectors):
            continue
        object_id = context.ids[feature.key]
        if context.paints is not None:
            margin_db = least_margin_db(context.paints.echoes, object_id, along_m)
            if margin_db < context.rules.tune.clear_db:
                continue
        found.append(
            FixTarget(
                object_id=object_id,
                name=_name(track, context),
                ahead_m=ahead,
                cross_m=cross,
                bearing_deg=wrap_360_deg(course_deg + math.degrees(math.atan2(cross, ahead))),
                is_point_like=kind is Edge.POSITION,
                shore_error_m=tide_error_m(feature, context.rules),
            )
        )
    return tuple(sorted(found, key=lambda target: target.range_m))


def least_margin_db(echoes: LegEchoes, object_id: str, along_m: float) -> float:
    """The lesser margin of an object's echo at the places either side of one on the track.

    Minus infinity where it is not in sight, masked, or was not worked out.
    """
    if object_id not in echoes.object_ids:
        return -math.inf
    t = echoes.object_ids.index(object_id)
    after = int(np.searchsorted(echoes.along_m, along_m - _BESIDE_M))
    last = echoes.along_m.size - 1
    beside = {min(after, last), max(after - 1, 0)}
    return min(
        -math.inf if echoes.is_masked[p, t] else float(echoes.margin_db[p, t]) for p in beside
    )


def _beside(field: LegField, along_m: float) -> BoolArray:
    """The viewpoints on the track either side of a place."""
    sight = field.sight
    on_track = np.unique(sight.node_along_m[sight.node_of[sight.is_on_track]])
    after = int(np.searchsorted(on_track, along_m - _BESIDE_M))
    chosen = {min(after, on_track.size - 1), max(after - 1, 0)}
    near = np.isin(sight.node_along_m[sight.node_of], [on_track[i] for i in chosen])
    return np.asarray(near & sight.is_on_track)


def _nearest_part(
    track: FeatureTrack, field: LegField, views: BoolArray, along_m: float, kind: Edge
) -> tuple[float, float] | None:
    """Where its nearest part lies that paints from both viewpoints, in track coordinates."""
    seen = track.sight.seen[views]
    if kind is Edge.POSITION:
        if not seen.any(axis=1).all():
            return None
        return float(np.mean(track.along_m)), float(np.mean(track.cross_m))
    both = seen.all(axis=0)
    if not both.any():
        return None
    painted = painted_waterline(
        track.sight, field.sight, along_m=track.along_m, cross_m=track.cross_m, views=views
    )
    own = np.abs(field.sight.view_along_m[painted.views] - along_m)
    row = int(np.argmin(own))
    # Nearer than half a cell to the charted coast, painted and charted edge are the same.
    along = np.where(painted.is_inside[row], painted.along_m[row], track.along_m)
    cross = np.where(painted.is_inside[row], painted.cross_m[row], track.cross_m)
    distance = np.where(both, np.hypot(along - along_m, cross), np.inf)
    number = int(np.argmin(distance))
    if track.feature.key.startswith("point ") and number in (0, distance.size - 1):
        # The coast beyond the head is nearer still.
        return None
    return float(along[number]), float(cross[number])


def _name(track: FeatureTrack, context: LegContext) -> str:
    along, cross = float(track.along_m[0]), float(track.cross_m[0])
    feature = track.feature
    position = context.coverage.viewpoints[0].viewpoint.position
    edge = EdgePoint(position=position, edge=Edge.POSITION, along_m=along, cross_m=cross)
    return context.make_object(track, edge).name if feature.mark is None else feature.mark.name
