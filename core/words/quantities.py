"""Numbers into printed words: the one place where rounding happens.

Where one side of a number is the one that warns early, it is rounded towards that side; the rule
stands beside each function. Units: nautical miles, cables, knots, true degrees, metres.
"""

import math

from core.base.language import tr
from core.base.units import kn_from_mps, m_from_nm, nm_from_m
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.plan_result import Limit

DASH = "–"
"""Stands where there is nothing to print."""

_SLACK = 1e-9


def course(course_deg: float) -> str:
    """A course or bearing in three figures, true: ``047° T``. Nearest degree."""
    return f"{whole_degrees(course_deg)}° T"


def whole_degrees(bearing_deg: float) -> str:
    """Three figures without a sign: ``047``; 359.6 is ``000``. Nearest degree."""
    return f"{math.floor(bearing_deg % 360.0 + 0.5) % 360:03d}"


def track(course_deg: float) -> str:
    """A track to steer by, with its decimal where it has one: ``047.5° T``, else ``047° T``."""
    tenths = math.floor((course_deg % 360.0) * 10.0 + 0.5) % 3600
    if tenths % 10 == 0:
        return f"{tenths // 10:03d}° T"
    return f"{tenths // 10:03d}.{tenths % 10}° T"


def line_directions(line_bearing_deg: float) -> str:
    """Both directions of a line: ``000/180``. Nearest degree."""
    return f"{whole_degrees(line_bearing_deg)}/{whole_degrees(line_bearing_deg + 180.0)}"


def sector(from_deg: float, to_deg: float) -> str:
    """A sector, always clockwise: ``212° to 247° T clockwise``.

    Widened to whole degrees, so that the printed sector holds the true one.
    """
    start, stop = whole_sector(from_deg, to_deg)
    return tr("{start}° to {stop}° T clockwise", start=start, stop=stop)


def whole_sector(from_deg: float, to_deg: float) -> tuple[str, str]:
    """Both ends of a sector in three figures, widened to whole degrees."""
    start = math.floor(from_deg + _SLACK) % 360
    stop = math.ceil(to_deg - _SLACK) % 360
    return f"{start:03d}", f"{stop:03d}"


def side(side_of: Side) -> str:
    """A side spelled out in capitals, as it is said aloud."""
    return side_of.shown.upper()


def distance(distance_m: float, decimals: int = 1) -> str:
    """A distance in nautical miles, nearest: ``8.0 NM``."""
    return f"{miles(distance_m, decimals)} NM"


def miles(distance_m: float, decimals: int = 1) -> str:
    """The bare number of nautical miles, nearest; never ``-0.0``."""
    text = f"{nm_from_m(distance_m):.{decimals}f}"
    return text.removeprefix("-") if float(text) == 0.0 else text


def cables(distance_m: float) -> str:
    """A distance in cables of 0.1 NM, nearest tenth: ``3.5 cables``."""
    count = f"{nm_from_m(distance_m) * 10.0:.1f}"
    return tr("{count} cable", count=count) if count == "1.0" else tr("{count} cables", count=count)


def cables_number(distance_m: float) -> str:
    """The bare number of cables, rounded down to a tenth: a corridor is never printed wider."""
    return f"{math.floor(nm_from_m(distance_m) * 100.0 + 1e-6) / 10.0:.1f}"


def cables_up(distance_m: float) -> str:
    """The bare number of cables, rounded up to a tenth: of a least width never too little."""
    return f"{math.ceil(nm_from_m(distance_m) * 100.0 - 1e-6) / 10.0:.1f}"


def short_distance(distance_m: float) -> str:
    """Cables below one mile, miles from there on."""
    if abs(nm_from_m(distance_m)) < 0.995:
        return cables(distance_m)
    return distance(distance_m, 2)


def index_step_nm(range_scale_m: float) -> float:
    """Smallest step of a cross-index range that the screen resolves, NM.

    0.01 up to the 3 NM scale, 0.02 up to 6, 0.05 beyond (house rule, after the range accuracy
    the radar standard asks for: 30 m or 1 % of the scale).
    """
    scale_nm = nm_from_m(range_scale_m)
    if scale_nm <= 3.0 + 1e-6:
        return 0.01
    return 0.02 if scale_nm <= 6.0 + 1e-6 else 0.05


def index_range_m(cross_index_range_m: float, range_scale_m: float) -> float:
    """A cross-index range as it is printed, m: nearest step of the scale, halves up."""
    step = index_step_nm(range_scale_m)
    return m_from_nm(math.floor(nm_from_m(cross_index_range_m) / step + 0.5 + _SLACK) * step)


def index_range(cross_index_range_m: float, range_scale_m: float) -> str:
    """A cross-index range: ``1.20 NM``, to the nearest step of the range scale."""
    return f"{index_number(cross_index_range_m, range_scale_m)} NM"


def index_number(cross_index_range_m: float, range_scale_m: float) -> str:
    """The bare number of a cross-index range, two decimals."""
    return f"{nm_from_m(index_range_m(cross_index_range_m, range_scale_m)):.2f}"


def margin_range_m(limit_m: float, limit: Limit, range_scale_m: float) -> float:
    """A margin as it is printed, m.

    Warns early: «not less than» is rounded up, «not more than» down.
    """
    step = index_step_nm(range_scale_m)
    count = nm_from_m(limit_m) / step
    whole = math.ceil(count - 1e-06) if limit is Limit.NOT_LESS_THAN else math.floor(count + 1e-06)
    return m_from_nm(whole * step)


def margin_number(limit_m: float, limit: Limit, range_scale_m: float) -> str:
    """The bare number of a margin, two decimals, rounded to the side that warns early."""
    return f"{nm_from_m(margin_range_m(limit_m, limit, range_scale_m)):.2f}"


def margin(limit_m: float, limit: Limit, range_scale_m: float) -> str:
    """A margin with its sense: ``not less than 0.90 NM``."""
    return f"{limit.shown} {margin_number(limit_m, limit, range_scale_m)} NM"


def distance_to_wheel_over(distance_m: float) -> str:
    """A distance still to run before the wheel goes over: rounded down to 0.01 NM, so early."""
    return f"{math.floor(nm_from_m(distance_m) * 100.0 + 1e-6) / 100.0:.2f} NM"


def distance_before_waypoint(distance_m: float) -> str:
    """Where the wheel goes over, counted back from the waypoint: rounded up, so early."""
    return f"{math.ceil(nm_from_m(distance_m) * 100.0 - 1e-6) / 100.0:.2f} NM"


def uncertainty(uncertainty_m: float) -> str:
    """An uncertainty, 95 %, rounded up to 0.01 NM: ``± 0.06 NM``."""
    return f"± {math.ceil(nm_from_m(uncertainty_m) * 100.0 - 1e-6) / 100.0:.2f} NM"


def radar_range(range_m: float) -> str:
    """A range from the antenna: two decimals below 10 NM, one from there; nearest."""
    return distance(range_m, 2 if nm_from_m(range_m) < 9.995 else 1)


def range_down(range_m: float) -> str:
    """A range from which something may begin, rounded down to 0.1 NM, so early."""
    return f"{math.floor(nm_from_m(range_m) * 10.0 + 1e-6) / 10.0:.1f} NM"


def range_up(range_m: float) -> str:
    """A range beyond which nothing is to be looked for, rounded up to 0.1 NM."""
    return f"{math.ceil(nm_from_m(range_m) * 10.0 - 1e-6) / 10.0:.1f} NM"


def scale(scale_m: float) -> str:
    """A range scale as the set names it: ``3 NM``, ``0.75 NM``."""
    return f"{nm_from_m(scale_m):g} NM"


def speed(speed_mps: float) -> str:
    """A speed, nearest tenth: ``12.0 kn``."""
    return f"{kn_from_mps(speed_mps):.1f} kn"


def rate_of_turn(rate_deg_per_min: float) -> str:
    """A rate of turn, nearest degree, with a decimal below ten: ``14°/min``, ``7.5°/min``."""
    return (
        f"{rate_deg_per_min:.0f}°/min"
        if rate_deg_per_min >= 9.95
        else f"{rate_deg_per_min:.1f}°/min"
    )


def height(height_m: float) -> str:
    """A height of land or mark above water, nearest metre: ``38 m``."""
    return f"{height_m:.0f} m"


def edge_movement(moves_m: float) -> str:
    """How far the tide moves an edge, as finely as cells can tell: ``about 70 m``."""
    return tr("about {distance}", distance=rough_movement(moves_m))


def rough_movement(moves_m: float) -> str:
    """The same as a bare distance: up, by ten metres to 100 m and by fifty beyond."""
    step_m = 10.0 if moves_m <= 100.0 else 50.0
    return f"{math.ceil(moves_m / step_m - _SLACK) * step_m:.0f} m"


def least_edge_movement(moves_m: float) -> str:
    """The same where only its least is known: ``more than 250 m``. Down, by fifty metres."""
    return tr("more than {distance}", distance=rough_reach(moves_m))


def rough_reach(reach_m: float) -> str:
    """How far in from a coast was looked, no finer than cells are: ``250 m``. Down, by fifty."""
    return f"{max(math.floor(reach_m / 50.0 + _SLACK), 1) * 50:d} m"


def fine_height(height_m: float) -> str:
    """A height given by a person (antenna, tide, craft), nearest decimetre: ``25.0 m``."""
    return f"{height_m:.1f} m"


def position(place: Position) -> str:
    """A position in degrees and minutes, nearest 0.01′: ``30° 00.00′ S 020° 00.00′ W``."""
    return f"{latitude(place.lat_deg)} {longitude(place.lon_deg)}"


def latitude(lat_deg: float) -> str:
    """A latitude: ``30° 00.00′ S``."""
    return _degrees_minutes(abs(lat_deg), 2, "S" if lat_deg < 0.0 else "N")


def longitude(lon_deg: float) -> str:
    """A longitude: ``020° 00.00′ W``."""
    return _degrees_minutes(abs(lon_deg), 3, "W" if lon_deg < 0.0 else "E")


def _degrees_minutes(value_deg: float, width: int, hemisphere: str) -> str:
    """Whole hundredths of a minute first, so that 59.999 carries into the degree."""
    hundredths = math.floor(value_deg * 6000.0 + 0.5)
    degrees, rest = divmod(hundredths, 6000)
    return f"{degrees:0{width}d}° {rest // 100:02d}.{rest % 100:02d}′ {hemisphere}"


def percent(share_ratio: float) -> str:
    """A share in whole percent, nearest."""
    return f"{share_ratio * 100.0:.0f} %"


def factor(stretch_ratio: float) -> str:
    """A factor of stretch: ``3.0 x``."""
    return f"{stretch_ratio:.1f} x"


def refraction(refraction_k: float) -> str:
    """The factor k of the effective Earth radius, two decimals."""
    return f"k {refraction_k:.2f}"


def horizon_coefficient(refraction_k: float) -> str:
    """The coefficient of the radar horizon in NM per root metre that goes with k.

    sqrt(2 k R) / 1852 with R = 6 371 000 m: 2.23 at k = 4/3 (computed by hand).
    """
    return f"{nm_from_m(math.sqrt(2.0 * refraction_k * 6_371_000.0)):.2f}"
