"""What echoes at an anchorage: fixed objects by the nearest place that paints from there."""

from dataclasses import dataclass

import numpy as np

from core.coverage.first_paint_result import LegPaints
from core.geodesy import geodesic
from core.geodesy.position import Position, wrap_lon_deg
from core.plan.candidates import LegField
from core.plan.painted_waterline import painted_places
from core.plan.plan_result import Edge, ObjectKind
from core.plan.ranking import is_awash, is_mobile
from core.plan.rules import PlanRules
from core.plan.usable_window import FeatureTrack, edge_kind

_RANKS = {Edge.POSITION: 0, Edge.TIP: 1, Edge.NEAR_SIDE: 1, Edge.TANGENT: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorEcho:
    """A fixed object as the radar has it at the anchorage."""

    object_id: str
    name: str
    kind: ObjectKind
    edge: Edge
    position: Position
    """The nearest place of it that paints from the anchorage; the middle of a small one."""
    margin_db: float
    """By which its echo stands over the threshold there."""
    is_unsteady: bool = False
    """Whether the tide moves its edge or may cover it."""


def steadiness(echo: AnchorEcho) -> int | None:
    """Points first, then edges, then rounded shores; None for what wanders."""
    if echo.is_unsteady or echo.kind is ObjectKind.PEAK:
        return None
    return _RANKS[echo.edge]


def range_bearing(place: Position, mark: Position) -> tuple[float, float]:
    """Range, m, and true bearing of one place from another."""
    distance, bearing, _ = geodesic.inverse(
        from_lat_deg=place.lat_deg,
        from_lon_deg=place.lon_deg,
        to_lat_deg=mark.lat_deg,
        to_lon_deg=mark.lon_deg,
    )
    return float(distance), float(bearing) % 360.0


def anchor_echoes(
    field: LegField,
    ids: dict[str, str],
    names: dict[str, str],
    paints: LegPaints | None,
    rules: PlanRules,
) -> tuple[AnchorEcho, ...]:
    """Fixed objects that paint at the end of a leg.

    Parameters
    ----------
    field : LegField
        The leg that ends at the anchorage.
    ids, names : dict
        Letters and names by feature key.
    paints : LegPaints or None
        Its last place gives the strength of the echoes; nothing is known without.
    rules : PlanRules
        Figures of planning.
    """
    if paints is None or not paints.echoes.along_m.size:
        return ()
    margins = dict(zip(paints.echoes.object_ids, paints.echoes.margin_db[-1], strict=True))
    along = np.where(field.sight.is_on_track, field.sight.view_along_m, -np.inf)
    view = int(np.argmax(along))
    limit_m = field.settings[0].budget.limit_m
    found = []
    for track in field.tracks:
        feature = track.feature
        object_id = ids.get(feature.key, "")
        margin_db = float(margins.get(object_id, -np.inf))
        seen = track.sight.seen[view]
        if not feature.is_fixed or not object_id or not margin_db > 0.0 or not seen.any():
            continue
        edge = edge_kind(feature, rules)
        found.append(
            AnchorEcho(
                object_id=object_id,
                name=names[feature.key],
                kind=feature.kind,
                edge=edge,
                position=_place(field, track, view, edge),
                margin_db=margin_db,
                is_unsteady=is_awash(feature) or is_mobile(feature, limit_m=limit_m, rules=rules),
            )
        )
    return tuple(found)


def _place(field: LegField, track: FeatureTrack, view: int, edge: Edge) -> Position:
    feature = track.feature
    if edge is Edge.POSITION:
        lon0 = float(feature.lon_deg[0])
        turned = np.mod(feature.lon_deg - lon0 + 180.0, 360.0) - 180.0
        return Position(
            lat_deg=float(np.mean(feature.lat_deg)),
            lon_deg=wrap_lon_deg(lon0 + float(np.mean(turned))),
        )
    own = field.sight.coverage.viewpoints[view].viewpoint.position
    lat, lon, _inside = painted_places(feature, track.sight, field.sight, view)
    range_m, _bearing, _final = geodesic.inverse(
        from_lat_deg=own.lat_deg, from_lon_deg=own.lon_deg, to_lat_deg=lat, to_lon_deg=lon
    )
    nearest = int(np.argmin(np.where(track.sight.seen[view], range_m, np.inf)))
    return Position(lat_deg=float(lat[nearest]), lon_deg=wrap_lon_deg(float(lon[nearest])))
