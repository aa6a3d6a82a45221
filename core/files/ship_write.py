"""Writes a ship as the file that ``ship_file`` reads back as the same ship."""

import json
from itertools import pairwise

from core.base.units import kn_from_mps, nm_from_m
from core.ship.ship import (
    BlindSector,
    LoadCondition,
    Pulse,
    Radar,
    Ship,
    ShipPoint,
    TurnAtSpeed,
    turn_radius_at_m,
)

_Value = str | float | bool | tuple[float, ...] | None


def ship_text(ship: Ship) -> str:
    """The ship as TOML, in nautical and workshop units; what is not stated is left out."""
    length_m = ship.length_m
    lines = [
        "# A Legsheet ship file, written by the window.",
        *_rows(
            ("name", ship.name),
            ("invented", ship.invented or None),
            ("load_condition", ship.load_condition or None),
        ),
        *_table(
            "dimensions",
            ("length_overall_m", length_m),
            ("beam_m", ship.beam_m),
            ("aft_draught_marks_from_stern_m", ship.aft_marks_from_stern_m),
            ("between_draught_marks_m", ship.length_between_marks_m),
        ),
        *_table("draughts", ("forward_m", ship.draught_forward_m), ("aft_m", ship.draught_aft_m)),
        *_point("conning_position", ship.conning),
        *_point("radar_reference_point", ship.reference),
        *_table(
            "turning",
            ("response_distance_m", ship.response_distance_m),
            ("passage_speed_kn", kn_from_mps(_passage_speed_mps(ship))),
        ),
    ]
    for turn in ship.turns:
        lines += _table(
            "[turning.at_speed]",
            ("speed_kn", kn_from_mps(turn.speed_mps)),
            ("radius_m", turn.radius_m),
        )
    lines += _table(
        "errors",
        ("gyro_error_deg", ship.gyro_error_deg),
        ("heading_uncertainty_deg", ship.heading_error_deg),
        ("range_uncertainty_percent", 100.0 * ship.range_error_ratio),
        ("range_uncertainty_least_m", ship.range_error_least_m),
    )
    for radar in ship.radars:
        lines += _radar(radar)
    return "\n".join(lines) + "\n"


def _passage_speed_mps(ship: Ship) -> float:
    """A speed at which the table gives the radius of passage speed; the highest if any does."""
    turns = ship.turns or (TurnAtSpeed(speed_mps=5.0, radius_m=ship.turn_radius_m),)
    speeds = [turns[-1].speed_mps]
    for slow, fast in pairwise(turns):
        if slow.radius_m != fast.radius_m:
            share = (ship.turn_radius_m - slow.radius_m) / (fast.radius_m - slow.radius_m)
            if 0.0 <= share <= 1.0:
                speeds.append(slow.speed_mps + share * (fast.speed_mps - slow.speed_mps))
    return min(speeds, key=lambda speed: abs(turn_radius_at_m(turns, speed) - ship.turn_radius_m))


def _radar(radar: Radar) -> list[str]:
    lines = _table(
        "[radar]",
        ("name", radar.name),
        ("band", radar.band.value),
        ("antenna_from_stern_m", radar.antenna_from_stern_m),
        ("antenna_to_starboard_m", radar.antenna_to_starboard_m),
        ("antenna_above_keel_m", radar.antenna_above_keel_m),
        ("antenna_above_water_m", radar.antenna_above_water_m),
        ("horizontal_beamwidth_deg", radar.horizontal_beamwidth_deg),
        ("vertical_beamwidth_deg", radar.vertical_beamwidth_deg),
        ("peak_power_kw", _scaled(radar.peak_power_w, 1e-3)),
        ("antenna_gain_db", radar.antenna_gain_db),
        ("frequency_ghz", _scaled(radar.frequency_hz, 1e-9)),
        ("rotation_rpm", radar.rotation_rpm),
        ("noise_figure_db", radar.noise_figure_db),
        ("losses_db", radar.losses_db),
        ("polarisation", radar.polarisation or None),
        ("range_scales_nm", tuple(nm_from_m(scale) for scale in radar.range_scales_m)),
        ("installation_standard", radar.installation_standard or None),
        ("preset", radar.preset or None),
        ("range_index_error_m", radar.range_index_error_m),
        ("heading_marker_error_deg", radar.heading_marker_error_deg),
    )
    for pulse in radar.pulses:
        lines += _pulse(pulse)
    for case in radar.load_conditions:
        lines += _load_condition(case)
    return lines


def _pulse(pulse: Pulse) -> list[str]:
    return _table(
        "[radar.pulse]",
        ("name", pulse.name),
        ("length_us", pulse.length_s * 1e6),
        ("repetition_hz", pulse.repetition_hz),
        ("bandwidth_mhz", _scaled(pulse.bandwidth_hz, 1e-6)),
        ("from_scale_nm", None if pulse.from_scale_m is None else nm_from_m(pulse.from_scale_m)),
        ("to_scale_nm", None if pulse.to_scale_m is None else nm_from_m(pulse.to_scale_m)),
    )


def _load_condition(case: LoadCondition) -> list[str]:
    lines = _table("[radar.load_condition]", ("name", case.name))
    for sector in case.blind_sectors:
        lines += _sector(sector)
    return lines


def _sector(sector: BlindSector) -> list[str]:
    return _table(
        "[radar.load_condition.blind_sector]",
        ("from_relative_deg", sector.from_relative_deg),
        ("to_relative_deg", sector.to_relative_deg),
        ("cause", sector.cause or None),
        ("kind", "shadow" if sector.is_shadow else "blind"),
    )


def _point(name: str, point: ShipPoint | None) -> list[str]:
    if point is None:
        return []
    return _table(
        name, ("from_stern_m", point.from_stern_m), ("to_starboard_m", point.to_starboard_m)
    )


def _scaled(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor


def _table(name: str, *rows: tuple[str, _Value]) -> list[str]:
    return ["", f"[{name}]", *_rows(*rows)]


def _rows(*rows: tuple[str, _Value]) -> list[str]:
    return [f"{key} = {_text(value)}" for key, value in rows if value is not None]


def _text(value: str | float | bool | tuple[float, ...]) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        # JSON's quoting is TOML's for basic strings but for DEL, which no name holds.
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, tuple):
        return "[" + ", ".join(_text(number) for number in value) + "]"
    return f"{value:.10g}"
