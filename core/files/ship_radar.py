"""The radars of a ship file: antenna, beam, pulses, scales and blind sectors."""

from core.base.findings import Finding
from core.base.language import tr
from core.base.units import m_from_nm
from core.files.toml_table import TomlTable
from core.radar.installation import InstallationStandard, standard_in
from core.radar.presets import PRESET_WORDS, preset_named
from core.ship.ship import (
    STANDARD_RANGE_SCALES_M,
    Band,
    BlindSector,
    LoadCondition,
    Pulse,
    Radar,
)

LONGEST_M = 500.0
"""Longest ship read, m; the longest ever built had 458 m (from memory)."""

_HIGHEST_M = 149.9
_FREQUENCY_GHZ = {"X": (9.2, 9.5), "S": (2.9, 3.1)}
"""Bands of marine radar, GHz (IMO MSC.192(79))."""
_INDEX_SCALE_M = m_from_nm(3.0)
"""The scale whose pulse is taken as the one for index lines, m."""


def read_radar(
    table: TomlTable, *, length_m: float, beam_m: float, aft_marks_m: float, load_condition: str
) -> Radar:
    """One ``[[radar]]`` table.

    Parameters
    ----------
    table : TomlTable
        The table.
    length_m, beam_m : float
        Size of the ship, m.
    aft_marks_m : float
        Distance of the aft draught marks from the stern, m.
    load_condition : str
        The load condition whose blind sectors hold now.

    Raises
    ------
    InputError
        A value cannot be used.
    """
    table.needed_text("band")
    band = table.choice("band", ("X", "S"), "")
    above_keel_m = _height(table, "antenna_above_keel_m")
    above_water_m = _height(table, "antenna_above_water_m")
    if above_keel_m is None and above_water_m is None:
        raise table.fail(
            tr("there is no height of the antenna"),
            tr("Add antenna_above_keel_m, or antenna_above_water_m"),
        )
    from_stern_m = table.number("antenna_from_stern_m", 0.0, length_m)
    scales_nm = table.numbers("range_scales_nm", 0.05, 120.0)
    pulses = tuple(_pulse(row) for row in table.tables("pulse"))
    cases = tuple(_load_condition(row) for row in table.tables("load_condition"))
    if len({case.name for case in cases}) < len(cases):
        raise table.fail(tr("two load conditions have the same name"), tr("Rename one of them"))
    power_kw = table.number("peak_power_kw", 0.0001, 1000.0)
    frequency_ghz = table.number("frequency_ghz", *_FREQUENCY_GHZ[band])
    return Radar(
        name=table.text("name") or f"{band} band radar",
        band=Band(band),
        antenna_above_keel_m=above_keel_m,
        antenna_above_water_m=above_water_m,
        antenna_from_aft_perpendicular_m=None
        if from_stern_m is None
        else from_stern_m - aft_marks_m,
        antenna_from_stern_m=from_stern_m,
        antenna_to_starboard_m=table.number_or("antenna_to_starboard_m", 0.0, -beam_m, beam_m),
        horizontal_beamwidth_deg=table.number_or("horizontal_beamwidth_deg", 1.9, 0.05, 20.0),
        vertical_beamwidth_deg=table.number("vertical_beamwidth_deg", 1.0, 90.0),
        peak_power_w=None if power_kw is None else power_kw * 1000.0,
        antenna_gain_db=table.number("antenna_gain_db", 5.0, 60.0),
        frequency_hz=None if frequency_ghz is None else frequency_ghz * 1e9,
        rotation_rpm=table.number("rotation_rpm", 5.0, 120.0),
        noise_figure_db=table.number("noise_figure_db", 0.5, 20.0),
        losses_db=table.number("losses_db", 0.0, 50.0),
        polarisation=table.choice("polarisation", ("H", "V"), "H")
        if table.has("polarisation")
        else "",
        pulse_s=_index_pulse_s(pulses),
        pulses=pulses,
        range_scales_m=STANDARD_RANGE_SCALES_M
        if scales_nm is None
        else tuple(sorted({m_from_nm(nm) for nm in scales_nm})),
        installation_standard=table.text("installation_standard"),
        preset=_preset(table),
        range_index_error_m=table.number_or("range_index_error_m", 0.0, -1000.0, 1000.0),
        heading_marker_error_deg=table.number_or("heading_marker_error_deg", 0.0, -30.0, 30.0),
        load_conditions=cases,
        blind_sectors=next(
            (case.blind_sectors for case in cases if case.name == load_condition), ()
        ),
    )


def _height(table: TomlTable, key: str) -> float | None:
    value = table.number(key, -_HIGHEST_M, _HIGHEST_M)
    if value is not None and value <= 0.0:
        raise table.fail(
            tr("{key} {value:g} is not above zero", key=key, value=value), tr("Correct the height")
        )
    return value


def _preset(table: TomlTable) -> str:
    """The preset in its full name; empty where none is stated."""
    text = table.text("preset")
    preset = preset_named(text) if text else None
    if text and preset is None:
        raise table.fail(
            tr(
                "preset «{preset}» is not one of {presets}",
                preset=text[:60],
                presets=", ".join(PRESET_WORDS),
            ),
            tr("Correct the word"),
        )
    return "" if preset is None else preset.value


def standard_findings(radar: Radar, table: TomlTable) -> tuple[Finding, ...]:
    """What to check where a certificate's words name no standard known here."""
    text = radar.installation_standard
    if not text or standard_in(text) is not None:
        return ()
    known = ", ".join(standard.value for standard in InstallationStandard)
    return (
        table.finding(
            "standard-unknown",
            tr("installation_standard names none of {known}; MSC.192(79) is taken", known=known),
            tr("Write the resolution of the certificate"),
        ),
    )


def _pulse(table: TomlTable) -> Pulse:
    length_us = table.needed_number("length_us", 0.001, 100.0)
    bandwidth_mhz = table.number("bandwidth_mhz", 0.1, 200.0)
    from_nm = table.number("from_scale_nm", 0.05, 120.0)
    to_nm = table.number("to_scale_nm", 0.05, 120.0)
    if from_nm is not None and to_nm is not None and from_nm > to_nm:
        raise table.fail(
            tr(
                "from_scale_nm {from_nm:g} is more than to_scale_nm {to_nm:g}",
                from_nm=from_nm,
                to_nm=to_nm,
            ),
            tr("Exchange them"),
        )
    return Pulse(
        name=table.text("name") or f"{length_us:g} µs",
        length_s=length_us * 1e-6,
        repetition_hz=table.number("repetition_hz", 10.0, 100000.0),
        from_scale_m=None if from_nm is None else m_from_nm(from_nm),
        to_scale_m=None if to_nm is None else m_from_nm(to_nm),
        bandwidth_hz=None if bandwidth_mhz is None else bandwidth_mhz * 1e6,
    )


def _index_pulse_s(pulses: tuple[Pulse, ...]) -> float:
    """The shortest pulse of the 3 NM scale, s: index lines want a short one (common practice)."""
    if not pulses:
        return 0.25e-6
    serving = [
        pulse
        for pulse in pulses
        if (pulse.from_scale_m or 0.0) <= _INDEX_SCALE_M <= (pulse.to_scale_m or _INDEX_SCALE_M)
    ]
    return min(pulse.length_s for pulse in serving or pulses)


def _load_condition(table: TomlTable) -> LoadCondition:
    return LoadCondition(
        name=table.needed_text("name"),
        blind_sectors=tuple(_sector(row) for row in table.tables("blind_sector")),
    )


def _sector(table: TomlTable) -> BlindSector:
    from_deg = table.needed_number("from_relative_deg", 0.0, 360.0) % 360.0
    to_deg = table.needed_number("to_relative_deg", 0.0, 360.0) % 360.0
    if from_deg == to_deg:
        raise table.fail(tr("the sector has no width"), tr("Give from and to clockwise, relative"))
    return BlindSector(
        from_relative_deg=from_deg,
        to_relative_deg=to_deg,
        cause=table.text("cause"),
        is_shadow=table.choice("kind", ("blind", "shadow"), "blind") == "shadow",
    )
