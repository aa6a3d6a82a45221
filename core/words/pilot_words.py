"""The pilot card in words: ship and radar facts, what a leg has on each side, its turn."""

from collections.abc import Mapping

from core.passage.passage import Side
from core.passage.turn import Turn
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, Limit, Role, WheelOver
from core.ship.ship import BlindSector, Radar, Ship
from core.words import quantities
from core.words.bridge_words import Bridge
from core.words.voyage_words import antennas

Shorts = Mapping[str, str]
"""Short names of objects by their id."""


def side_words(leg: LegPlan, side: Side, shorts: Shorts) -> tuple[str, ...]:
    """Index lines of one side, check lines where there is none, then margins."""
    own = [line for line in leg.lines if line.side is side]
    primary = [line for line in own if line.role is Role.PRIMARY]
    check = [line for line in own if line.role is Role.CHECK] if not primary else []
    margins = [line for line in own if line.role is Role.MARGIN]
    return (
        *dict.fromkeys(_index(line, shorts) for line in primary),
        *dict.fromkeys(Bridge.CHECK_LINE.format(range=_index(line, shorts)) for line in check),
        *dict.fromkeys(_margin(line, shorts) for line in margins),
    )


def _index(line: IndexLine, shorts: Shorts) -> str:
    number = quantities.index_number(line.cross_index_range_m, line.range_scale_m)
    return f"{number} {shorts[line.object.id]}"


def _margin(line: IndexLine, shorts: Shorts) -> str:
    limit = line.limit or Limit.NOT_LESS_THAN
    number = quantities.margin_number(line.cross_index_range_m, limit, line.range_scale_m)
    words = Bridge.LEAST if limit is Limit.NOT_LESS_THAN else Bridge.MOST
    return words.format(range=f"{number} {shorts[line.object.id]}")


def turn_words(turn: WheelOver | None, shorts: Shorts) -> tuple[str, ...]:
    """The mark of the wheel-over, then the way of the turn, its radius and rate."""
    if turn is None:
        return (str(Bridge.NO_TURN),)
    mark = Bridge.BEFORE_WP.format(
        distance=quantities.distance_before_waypoint(turn.distance_before_waypoint_m).removesuffix(
            " NM"
        )
    )
    if turn.line is not None:
        line = turn.line
        side = Bridge.STARBOARD_SHORT if line.side is Side.STARBOARD else Bridge.PORT_SHORT
        number = quantities.index_number(line.cross_index_range_m, line.range_scale_m)
        mark = f"{number} {side} {shorts[line.object.id]}"
    elif turn.second_mark is not None:
        second = turn.second_mark
        mark = (
            f"{quantities.radar_range(second.range_m).removesuffix(' NM')} "
            f"{quantities.course(second.bearing_deg)} {shorts[second.object.id]}"
        )
    turn_side = Bridge.STARBOARD_SHORT if turn.alteration_deg > 0.0 else Bridge.PORT_SHORT
    return (
        mark,
        Bridge.TURN.format(
            side=turn_side,
            radius=quantities.miles(turn.turn_radius_m, 2),
            rate=quantities.rate_of_turn(turn.rate_of_turn_deg_per_min),
        ),
    )


def ship_facts(outcome: Outcome) -> tuple[str, ...]:
    """What a pilot asks of the ship and her radars; a line to write on where it is not stated."""
    ship = outcome.request.ship
    facts = [
        Bridge.FACT_SIZE.format(
            length=quantities.height(ship.length_m),
            beam=quantities.fine_height(ship.beam_m),
            forward=f"{ship.draught_forward_m:.1f}",
            aft=quantities.fine_height(ship.draught_aft_m),
        ),
        _turns(ship),
        f"{_reference(ship)}; {Bridge.FACT_GYRO.format(gyro=f'{ship.gyro_error_deg:g}°')}",
        _errors(ship),
    ]
    names = _radar_names(ship)
    for radar, (_band, height_m) in zip(ship.radars, antennas(outcome), strict=True):
        facts.append(_antenna(ship, radar, names[radar.name], height_m))
    return tuple(facts)


def _radar_names(ship: Ship) -> dict[str, str]:
    """The band where it tells radars apart, else the whole name."""
    bands = [radar.band.value for radar in ship.radars]
    return {
        radar.name: radar.band.value if bands.count(radar.band.value) == 1 else radar.name
        for radar in ship.radars
    }


def _turns(ship: Ship) -> str:
    """Radius and rate of the speeds that are known."""
    known = [(turn.speed_mps, turn.radius_m) for turn in ship.turns]
    said = [
        Bridge.FACT_TURN_AT.format(
            speed=quantities.speed(speed_mps),
            radius=quantities.distance(radius_m, 2),
            rate=quantities.rate_of_turn(_rate(radius_m, speed_mps)),
        )
        for speed_mps, radius_m in known
    ] or [f"R {quantities.distance(ship.turn_radius_m, 2)}"]
    return Bridge.FACT_TURN.format(
        turns=", ".join(said), response=quantities.height(ship.response_distance_m)
    )


def _rate(radius_m: float, speed_mps: float) -> float:
    turn = Turn(old_course_deg=0.0, new_course_deg=90.0, radius_m=radius_m, response_distance_m=0.0)
    return turn.rate_of_turn_deg_per_min(speed_mps)


def _reference(ship: Ship) -> str:
    if ship.bow_offset_m is None:
        return str(Bridge.FACT_NO_REFERENCE)
    return Bridge.FACT_REFERENCE.format(bow=quantities.height(ship.bow_offset_m))


def _antenna(ship: Ship, radar: Radar, name: str, height_m: float) -> str:
    from_stern_m = ship.antenna_from_stern_m(radar)
    bow, bridge = str(Bridge.BLANK_M), str(Bridge.FACT_BRIDGE_BLANK)
    if from_stern_m is not None:
        bow = quantities.height(ship.length_m - from_stern_m)
        if ship.conning is not None:
            ahead_m = from_stern_m - ship.conning.from_stern_m
            words = Bridge.FACT_AHEAD if ahead_m >= 0.0 else Bridge.FACT_ABAFT
            bridge = words.format(distance=quantities.height(abs(ahead_m)))
    return Bridge.FACT_ANTENNA.format(
        radar=name,
        height=quantities.fine_height(height_m),
        bow=bow,
        bridge=bridge,
        blind=_blind(radar),
    )


def _errors(ship: Ship) -> str:
    """Of every radar, a line to write on beside them: what was measured today counts."""
    names = _radar_names(ship)
    return Bridge.FACT_ERRORS.format(
        index=", ".join(f"{names[r.name]} {r.range_index_error_m:g} m" for r in ship.radars),
        marker=", ".join(f"{names[r.name]} {r.heading_marker_error_deg:g}°" for r in ship.radars),
    )


def _blind(radar: Radar) -> str:
    if not radar.blind_sectors:
        return str(Bridge.FACT_NO_BLIND)
    return Bridge.FACT_BLIND.format(
        sectors=", ".join(_sector(sector) for sector in radar.blind_sectors)
    )


def _sector(sector: BlindSector) -> str:
    """Relative, clockwise, widened to whole degrees."""
    start, stop = quantities.whole_sector(sector.from_relative_deg, sector.to_relative_deg)
    words = Bridge.REL.format(start=start, stop=stop)
    return Bridge.FACT_SHADOW.format(sector=words) if sector.is_shadow else words
