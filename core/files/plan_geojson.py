"""Coverage, lines and viewpoints of a plan as GeoJSON that any geographic program opens."""

import json
from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.coverage.corridor_outlines import corridor_outlines
from core.coverage.coverage_result import (
    CoastState,
    LegCoverage,
    SweepSettings,
    ViewpointCoverage,
)
from core.coverage.painted_edge import edge_runs
from core.files.date_line import cut_at_date_line
from core.files.plan_json_leg import line_document, wheel_over_document
from core.files.plan_json_waters import emergence_summary
from core.files.plan_numbers import deg, metres, nm
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.coast import CoastPoints
from core.passage.passage import Side
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, Role, WheelOver

_STEP_M = 1852.0
_LEAST_HIDDEN_M2 = 0.01 * 1852.0**2
_WHEEL_OVER_HALF_M = 1852.0


def _feature(kind: str, geometry: dict[str, Any], properties: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "Feature",
        "properties": {"kind": kind, **properties},
        "geometry": cut_at_date_line(geometry),
    }


def _pairs(lat_deg: FloatArray, lon_deg: FloatArray, digits: int = 7) -> list[list[float]]:
    """Positions lon, lat; longitudes run on past 180 rather than jump, so that lines stay whole."""
    lons = np.degrees(np.unwrap(np.radians(lon_deg)))
    rounded = np.round(np.column_stack([lons, lat_deg]), digits)
    return [[float(x), float(y)] for x, y in rounded]


def _point(lat_deg: float, lon_deg: float) -> dict[str, Any]:
    return {"type": "Point", "coordinates": [round(lon_deg, 7), round(lat_deg, 7)]}


def _along(from_m: float, to_m: float) -> FloatArray:
    count = max(2, int(np.ceil(abs(to_m - from_m) / _STEP_M)) + 1)
    return np.linspace(from_m, to_m, count)


def _corridor(line: LegLine, port_m: float, starboard_m: float) -> dict[str, Any]:
    along = _along(0.0, line.length_m)
    ahead = line.offset(along, np.full(along.shape, starboard_m))
    back = line.offset(along[::-1], np.full(along.shape, -port_m))
    ring = _pairs(np.concatenate([ahead[0], back[0]]), np.concatenate([ahead[1], back[1]]))
    return {"type": "Polygon", "coordinates": [[*ring, ring[0]]]}


def _runs(points: CoastPoints, wanted: BoolArray) -> Iterator[tuple[FloatArray, FloatArray]]:
    """Stretches of neighbouring coast points that are wanted, two points at least."""
    start: int | None = None
    for index in range(wanted.size + 1):
        inside = index < wanted.size and bool(wanted[index])
        broken = index < wanted.size and bool(points.is_line_start[index])
        if start is not None and (not inside or broken):
            if index - start > 1:
                yield points.lat_deg[start:index], points.lon_deg[start:index]
            start = None
        if inside and start is None:
            start = index


def _coast(
    outcome: Outcome, leg: LegCoverage, kind: str, chosen: Iterable[BoolArray]
) -> Iterator[dict[str, Any]]:
    """The coast chosen from any viewpoint on the track, as one feature; none without any."""
    points = outcome.land.points
    seen = np.zeros(points.lat_deg.shape, np.bool_)
    for one in chosen:
        seen |= one
    lines = [_pairs(lat, lon) for lat, lon in _runs(points, seen)]
    if lines:
        geometry = {"type": "MultiLineString", "coordinates": lines}
        yield _feature(kind, geometry, {"leg": leg.leg_index + 1})


def _painted_edge(outcome: Outcome, leg: LegCoverage) -> Iterator[dict[str, Any]]:
    """The painted edge at its own place, as one feature; none without any."""
    points, edge = outcome.land.points, leg.painted_edge
    if edge is None:
        return
    runs = edge_runs(points, edge)
    lines = [_pairs(edge.lat_deg[run], edge.lon_deg[run]) for run in runs]
    if lines:
        yield _feature(
            "coast_painted",
            {"type": "MultiLineString", "coordinates": lines},
            {
                "leg": leg.leg_index + 1,
                "meaning": "the edge at which echoes of the coast are expected to begin, at its "
                "own place, inland of the charted coast where that does not paint; each stretch "
                "as the nearest place on the track shows it of those that show it least inland",
            },
        )


def _hidden_water(
    view: ViewpointCoverage, coverage: LegCoverage, settings: SweepSettings
) -> Iterator[dict[str, Any]]:
    """Water hidden from anywhere in the corridor at one place, a polygon a connected piece."""
    here = tuple(v for v in coverage.viewpoints if v.viewpoint.along_m == view.viewpoint.along_m)
    for rings in corridor_outlines(here, least_m2=_LEAST_HIDDEN_M2):
        yield _feature(
            "hidden_water",
            {"type": "Polygon", "coordinates": [_pairs(lat, lon, 6) for lat, lon in rings]},
            {
                "leg": coverage.leg_index + 1,
                "along_nm": nm(view.viewpoint.along_m),
                "craft_height_m": metres(settings.craft_height_m),
                "radius_nm": nm(settings.radius_m),
                "cross_nm": [nm(v.viewpoint.cross_m) for v in here],
                "meaning": "water in which a craft of this height is hidden by land from the "
                "antenna at this place along the track or at an edge of the corridor abreast of "
                "it, out to this radius; pieces of less than 0.01 square miles are left out; "
                "from other places other water is hidden",
            },
        )


def _a_mile_apart(views: tuple[ViewpointCoverage, ...]) -> Iterator[ViewpointCoverage]:
    """The first and last viewpoint, and those between that lie a mile or more apart."""
    last_m: float | None = None
    for number, view in enumerate(views):
        along_m = view.viewpoint.along_m
        is_end = number == len(views) - 1
        if last_m is None or is_end or along_m - last_m >= _STEP_M - 1.0:
            last_m = along_m
            yield view


def _index_line(line: LegLine, index: IndexLine, turn: WheelOver | None) -> dict[str, Any]:
    sign = 1.0 if index.side is Side.STARBOARD else -1.0
    if index.role is Role.WHEEL_OVER and turn is not None:
        lat, lon, _course = geodesic.direct(
            lat_deg=turn.position.lat_deg,
            lon_deg=turn.position.lon_deg,
            bearing_deg=index.line_bearing_deg + 90.0 * sign,
            distance_m=index.cross_index_range_m,
        )
        lats, lons, _courses = geodesic.direct(
            lat_deg=float(lat),
            lon_deg=float(lon),
            bearing_deg=index.line_bearing_deg,
            distance_m=np.array([-_WHEEL_OVER_HALF_M, 0.0, _WHEEL_OVER_HALF_M]),
        )
    else:
        along = _along(index.from_along_m, index.to_along_m)
        lats, lons = line.offset(along, np.full(along.shape, sign * index.cross_index_range_m))
    return {"type": "LineString", "coordinates": _pairs(lats, lons)}


def _leg_features(outcome: Outcome, leg_index: int) -> Iterator[dict[str, Any]]:
    plan = outcome.plan
    leg, coverage = plan.legs[leg_index], outcome.coverage.legs[leg_index]
    line = plan.passage.line(leg_index)
    number = leg_index + 1
    yield _feature(
        "corridor",
        _corridor(line, leg.corridor_port_m, leg.corridor_starboard_m),
        {"leg": number, "course_deg": deg(leg.course_deg)},
    )
    on_track = coverage.on_track()
    in_sight = (view.coast_state == CoastState.IN_SIGHT for view in on_track)
    yield from _coast(outcome, coverage, "coast_in_sight", in_sight)
    yield from _painted_edge(outcome, coverage)
    for view in _a_mile_apart(on_track):
        yield from _hidden_water(view, coverage, outcome.coverage.settings)
    for head in () if leg.waters is None else leg.waters.emergences:
        yield _feature(
            "emergence",
            _point(head.tip.lat_deg, head.tip.lon_deg),
            {"leg": number, **emergence_summary(head)},
        )
    for view in coverage.viewpoints:
        point = view.viewpoint
        yield _feature(
            "viewpoint",
            _point(point.position.lat_deg, point.position.lon_deg),
            {
                "leg": number,
                "along_nm": nm(point.along_m),
                "cross_nm": nm(point.cross_m),
                "in_sight_coast_fraction": view.coast_in_sight_fraction,
            },
        )
    for index in leg.lines:
        yield _feature(
            "index_line",
            _index_line(line, index, leg.wheel_over),
            {"leg": number, **line_document(index, leg_index, plan.timetable)},
        )
    if leg.wheel_over is not None:
        turn = leg.wheel_over
        yield _feature(
            "wheel_over",
            _point(turn.position.lat_deg, turn.position.lon_deg),
            {"leg": number, **wheel_over_document(turn, leg_index, plan.timetable)},
        )


def geojson_document(outcome: Outcome) -> dict[str, Any]:
    """All features of a plan; ``properties.kind`` says what each one is."""
    features = [
        feature
        for leg_index in range(len(outcome.plan.legs))
        for feature in _leg_features(outcome, leg_index)
    ]
    for one in outcome.contingencies:
        mark = {"leg": one.at.leg_number, "contingency": one.at.number}
        turn = [f for f in _leg_features(one.outcome, 0) if f["properties"]["kind"] == "wheel_over"]
        for feature in (*turn, *_leg_features(one.outcome, 1)):
            features.append({**feature, "properties": {**feature["properties"], **mark}})
    features += [
        _feature(
            "object",
            _point(item.position.lat_deg, item.position.lon_deg),
            {
                "id": item.id,
                "name": item.name,
                "object_kind": item.kind.value,
                "edge": item.edge.value,
                "height_above_water_m": metres(item.height_above_water_m),
                "fixed": item.is_fixed,
                "confirm_on_chart": item.confirm_on_chart,
            },
        )
        for item in outcome.plan.objects
    ]
    return {"type": "FeatureCollection", "features": features}


def geojson_bytes(outcome: Outcome) -> bytes:
    """The GeoJSON file as it is written."""
    text = json.dumps(geojson_document(outcome), ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")
