"""Invented index lines, wheel-overs and sights on the invented waters."""

import math

import numpy as np

from core.base.units import m_from_nm, mps_from_kn
from core.coverage.coverage_result import (
    FirstSight,
    Moment,
)
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.passage.passage import Passage, Side
from core.plan.plan_result import (
    Edge,
    IndexLine,
    IndexObject,
    KeyIn,
    Limit,
    ObjectKind,
    Reason,
    Role,
    ScaleStretch,
    SecondMark,
    WheelOver,
)
from tests.helpers.sample_waters import (
    ISLANDS,
    sample_coast,
)


def index_object(
    passage: Passage, leg_index: int, island: int, letter: str, name: str
) -> IndexObject:
    """An object whose edge is the point of an island nearest the line of a leg."""
    shore = sample_coast().lines[island]
    _along, cross = passage.line(leg_index).track_coordinates(shore.lat_deg, shore.lon_deg)
    nearest = int(np.argmin(np.abs(cross)))
    return IndexObject(
        id=letter,
        name=name,
        position=Position(
            lat_deg=float(shore.lat_deg[nearest]), lon_deg=float(shore.lon_deg[nearest])
        ),
        edge=Edge.NEAR_SIDE,
        kind=ObjectKind.ISLET if island in (0, 3) else ObjectKind.HEADLAND,
        height_above_water_m=ISLANDS[island][4],
        is_fixed=True,
        confirm_on_chart=True,
    )


def index_line(
    passage: Passage,
    leg_index: int,
    role: Role,
    thing: IndexObject,
    *,
    from_nm: float,
    to_nm: float,
    limit: Limit | None = None,
    limit_nm: float | None = None,
    scale_nm: float = 3.0,
) -> IndexLine:
    line = passage.line(leg_index)
    _along, cross = line.track_coordinates(
        np.array([thing.position.lat_deg]), np.array([thing.position.lon_deg])
    )
    offset_m = float(cross[0])
    course = line.course_deg
    return IndexLine(
        role=role,
        object=thing,
        side=Side.STARBOARD if offset_m > 0.0 else Side.PORT,
        cross_index_range_m=abs(offset_m) if limit_nm is None else m_from_nm(limit_nm),
        limit=limit,
        line_bearing_deg=course,
        echo_travel_deg=(course + 180.0) % 360.0,
        from_along_m=m_from_nm(from_nm),
        to_along_m=m_from_nm(to_nm),
        range_scale_m=m_from_nm(scale_nm),
        uncertainty_m=m_from_nm(0.06),
        reason=Reason(code="steep-and-narrow", values=(("height_m", thing.height_above_water_m),)),
    )


def wheel_over_of(
    passage: Passage, leg_index: int, new_object: IndexObject | None, second: IndexObject | None
) -> WheelOver:
    """Wheel-over by tangent length plus response: radius 0.8 NM, response 0.10 NM."""
    line, after = passage.line(leg_index), passage.line(leg_index + 1)
    turn_deg = (after.course_deg - line.course_deg + 180.0) % 360.0 - 180.0
    half = math.radians(abs(turn_deg)) / 2.0
    before_m = m_from_nm(0.8 * math.tan(half) + 0.10)
    along_m = line.length_m - before_m
    place = line.position_at(along_m)
    index_line = None
    if new_object is not None:
        _a, cross = after.track_coordinates(
            np.array([new_object.position.lat_deg, place.lat_deg]),
            np.array([new_object.position.lon_deg, place.lon_deg]),
        )
        offset_m = float(cross[0] - cross[1])
        index_line = IndexLine(
            role=Role.WHEEL_OVER,
            object=new_object,
            side=Side.STARBOARD if offset_m > 0.0 else Side.PORT,
            cross_index_range_m=abs(offset_m),
            limit=None,
            line_bearing_deg=after.course_deg,
            echo_travel_deg=(line.course_deg + 180.0) % 360.0,
            from_along_m=along_m - m_from_nm(1.2),
            to_along_m=along_m,
            range_scale_m=m_from_nm(3.0),
            uncertainty_m=m_from_nm(0.06),
            reason=Reason(code="near-the-new-track", values=()),
        )
    mark = None
    if second is not None:
        distance, bearing, _f = geodesic.inverse(
            from_lat_deg=place.lat_deg,
            from_lon_deg=place.lon_deg,
            to_lat_deg=second.position.lat_deg,
            to_lon_deg=second.position.lon_deg,
        )
        mark = SecondMark(
            object=second, range_m=float(distance), bearing_deg=float(np.mod(bearing, 360.0))
        )
    return WheelOver(
        along_m=along_m,
        distance_before_waypoint_m=before_m,
        position=place,
        new_course_deg=after.course_deg,
        alteration_deg=turn_deg,
        turn_radius_m=m_from_nm(0.8),
        is_radius_of_route=True,
        own_radius_m=m_from_nm(0.8),
        water_speed_mps=mps_from_kn(12.0),
        rate_of_turn_deg_per_min=12.0 / 60.0 / 0.8 * 180.0 / math.pi,
        corner_cut_m=m_from_nm(0.8 * (1.0 / math.cos(half) - 1.0)),
        pre_alert_along_m=(along_m - m_from_nm(0.6), along_m - m_from_nm(0.2)),
        pre_alert_minutes=(3.0, 1.0),
        method=Reason(code="tangent-and-response", values=()),
        line=index_line,
        line_reason="" if index_line else "nothing in sight near the new track",
        second_mark=mark,
        second_mark_reason="" if mark else "no second object in sight",
    )


def key_in_of(lines: tuple[IndexLine, ...]) -> tuple[KeyIn, ...]:
    return tuple(
        KeyIn(
            line=line,
            bearing_deg=line.line_bearing_deg,
            beam_range_m=line.cross_index_range_m,
            side=line.side,
            truncate_ahead_m=m_from_nm(2.6),
            truncate_astern_m=m_from_nm(2.4),
        )
        for line in lines
    )


def first_sight(
    passage: Passage, leg_index: int, thing: IndexObject, from_nm: float, lost_nm: float | None
) -> FirstSight:
    def moment(along_nm: float) -> Moment:
        place = passage.line(leg_index).position_at(m_from_nm(along_nm))
        distance, bearing, _f = geodesic.inverse(
            from_lat_deg=place.lat_deg,
            from_lon_deg=place.lon_deg,
            to_lat_deg=thing.position.lat_deg,
            to_lon_deg=thing.position.lon_deg,
        )
        return Moment(
            along_m=m_from_nm(along_nm),
            range_m=float(distance),
            bearing_deg=float(np.mod(bearing, 360.0)),
        )

    return FirstSight(
        object_id=thing.id,
        name=thing.name,
        position=thing.position,
        height_above_water_m=thing.height_above_water_m,
        in_sight_from=moment(from_nm),
        in_sight_from_reason="",
        lost=None if lost_nm is None else moment(lost_nm),
    )


def scale_stretch(length_m: float, scale_nm: float, code: str) -> ScaleStretch:
    return ScaleStretch(
        from_along_m=0.0,
        to_along_m=length_m,
        radar="Main radar",
        scale_m=m_from_nm(scale_nm),
        off_centre_ratio=0.0,
        off_centre_direction=None,
        pulse="short",
        reason=Reason(code=code, values=(("object", "A"), ("range_m", m_from_nm(2.77)))),
    )
