"""Passages for property tests: any that a route file could hold."""

from collections.abc import Callable
from datetime import UTC, datetime

from hypothesis import strategies as st

from core.base.units import m_from_nm, mps_from_kn
from core.files.route_parts import clean_text
from core.geodesy.leg_line import LegKind
from core.geodesy.position import Position
from core.passage.passage import Leg, Passage, Waypoint


def _not_tiny(angle_deg: float) -> float:
    """Files hold no angles below a tenth of a millimetre."""
    return 0.0 if abs(angle_deg) < 1e-9 else angle_deg


_names = st.text(max_size=30).map(clean_text).filter(bool) | st.sampled_from(
    ["A&B <c> \"d\" 'e'", "Säli", "東京", "WP 1"]
)
_lats = st.floats(-89.5, 89.5).map(_not_tiny)
_lons = st.floats(-180, 180, exclude_max=True).map(_not_tiny)
_times = st.none() | st.datetimes(datetime(2000, 1, 1), datetime(2099, 1, 1)).map(
    lambda time: time.replace(tzinfo=UTC)
)


def _maybe(to_si: Callable[[float], float], most: int) -> st.SearchStrategy[float | None]:
    """Nautical miles or knots with six decimals, below a limit, as SI."""
    return st.none() | st.integers(1, most * 10**6 - 1).map(lambda number: to_si(number / 10**6))


@st.composite
def passages(draw: st.DrawFn) -> Passage:
    """A passage within the limits of RTZ 1.2, no two waypoints in a row at one place."""
    count = draw(st.integers(2, 6))
    places = draw(
        st.lists(
            st.tuples(_lats, _lons),
            min_size=count,
            max_size=count,
            unique_by=lambda place: (round(place[0], 2), round(place[1], 2) % 360),
        )
    )
    waypoints = tuple(
        Waypoint(
            name=draw(_names),
            position=Position(lat_deg=lat, lon_deg=lon),
            turn_radius_m=draw(_maybe(m_from_nm, 5)),
            eta_utc=draw(_times),
            etd_utc=draw(_times),
        )
        for lat, lon in places
    )
    legs = tuple(
        Leg(
            kind=draw(st.sampled_from(LegKind)),
            corridor_port_m=draw(_maybe(m_from_nm, 10)),
            corridor_starboard_m=draw(_maybe(m_from_nm, 10)),
            speed_mps=draw(_maybe(mps_from_kn, 100)),
            note=clean_text(draw(st.text(max_size=40))),
        )
        for _ in range(count - 1)
    )
    return Passage(name=draw(_names), waypoints=waypoints, legs=legs)
