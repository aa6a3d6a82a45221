"""Set-up cards for invented legs, and an invented tune check of four echoes for the first."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.plan.plan_result import LegPlan
from core.plan.rules import DEFAULT_RULES, Weather
from core.plan.setup_card import setup_card
from core.plan.tune_ladder import CheckStretch, choose_tune_check
from core.plan.tune_result import LadderEcho
from core.ship.ship import Ship

_AT_NM = 1.6
CALM = Weather(sea_state=0.0, rain_mm_h=0.0)


def with_sample_setup(
    leg: LegPlan,
    line: LegLine,
    ship: Ship,
    echoes: tuple[LadderEcho, ...] | None,
    racons: frozenset[str] = frozenset(),
    weather: Weather = CALM,
) -> LegPlan:
    """A leg with the card and the check that planning would give it."""
    stretch = CheckStretch(
        line=line,
        steady_from_m=0.0,
        steady_to_m=line.length_m,
        needed_m=m_from_nm(2.6),
        check_m=m_from_nm(0.6),
        speed_mps=leg.speed_mps,
    )
    check, reason = choose_tune_check(echoes, stretch, leg.scales, DEFAULT_RULES)
    leg = replace(leg, tune_check=check, tune_check_reason=reason)
    card = setup_card(leg, ship, weather=weather, racons=racons, rules=DEFAULT_RULES)
    return replace(leg, setup=card)


def sample_echoes(line: LegLine) -> tuple[LadderEcho, ...]:
    """Strong, medium, weak and masked, as from 1.6 NM along a line."""
    return (
        _echo(line, "A", "islet 38 m, 2.9 NM NE of Outer buoy", 2.1, 40.0, 34.0),
        _echo(line, "B", "breakwater end (invented)", 1.4, 318.0, 14.0),
        _echo(line, "D", "rock 14 m, 0.9 NM N of the track", 2.3, 85.0, 4.5),
        _echo(line, "E", "headland 40 m, 2.0 NM SE of Islet turn", 2.5, 282.0, None),
    )


def _echo(
    line: LegLine,
    object_id: str,
    name: str,
    range_nm: float,
    relative_deg: float,
    margin_db: float | None,
) -> LadderEcho:
    own = line.position_at(m_from_nm(_AT_NM))
    bearing = (line.course_deg + relative_deg) % 360.0
    lat, lon, _course = geodesic.direct(
        lat_deg=own.lat_deg,
        lon_deg=own.lon_deg,
        bearing_deg=bearing,
        distance_m=m_from_nm(range_nm),
    )
    return LadderEcho(
        object_id=object_id,
        name=name,
        position=Position(lat_deg=float(lat), lon_deg=float(lon)),
        along_m=m_from_nm(_AT_NM),
        range_m=m_from_nm(range_nm),
        bearing_deg=bearing,
        margin_db=margin_db,
        is_masked_by_land=margin_db is None,
        masked_by="land 84 m high, 1.3 NM off" if margin_db is None else "",
        in_blind_sector=False,
    )
