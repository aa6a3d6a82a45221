"""The JSON of ``detect``: one answer, or the standard's whole table; nautical units."""

from collections.abc import Sequence
from typing import Any

from core.files.plan_numbers import nm, nullable
from core.radar.echo_budget import (
    RAIN_CLUTTER_ALLOWANCE_DB,
    SEA_CLUTTER_ALLOWANCE_DB,
    EchoBudget,
)
from core.radar.first_detection import BRIDGED_GAP_M, Detection, DetectionRanges
from core.radar.gas_loss import GAS_DB_PER_KM
from core.radar.radar_target import RadarTarget
from core.radar.rain import RAIN_TOP_M, rain_loss_db
from core.radar.sea_surface import wave_height_m
from core.radar.standard_table import TableLine
from core.words.detect_words import (
    PRESET_TITLES,
    SMALL_ROWS,
    residual_m,
    rms_m,
    why_not_lost,
    why_nowhere,
)


def detection_json(detection: Detection) -> dict[str, Any]:
    """One answer and every number it rests on."""
    budget, rule = detection.budget, detection.rule
    conditions = budget.conditions
    return {
        "band": budget.radar.band.value,
        "preset": budget.radar.preset.value,
        "antenna_m": budget.antenna_height_m,
        "target": _target(detection.target),
        "sea_state": conditions.sea_state,
        "rain_mm_h": conditions.rain_mm_h,
        "refraction_k": round(conditions.refraction_k, 6),
        "pd": rule.pd,
        "pfa": rule.pfa,
        **_ranges(detection.ranges, budget),
        "snr_required_db": round(detection.ranges.snr_required_db, 4),
        "parameters": _parameters(budget) | {"swerling": int(rule.fluctuation)},
    }


def table_json(
    budgets: Sequence[EchoBudget], tables: Sequence[Sequence[TableLine]]
) -> dict[str, Any]:
    """The table of each band; ``budgets`` are those of the first condition, one a band."""
    return {
        "format": "legsheet-detection-table",
        "version": 1,
        "standard": "IMO MSC.192(79) table 2",
        "bands": [_band(budget, lines) for budget, lines in zip(budgets, tables, strict=True)],
    }


_CONDITION_NAMES = ("clear", "rain_4_mm_h", "rain_16_mm_h", "sea_state_2", "sea_state_5")


def _band(budget: EchoBudget, lines: Sequence[TableLine]) -> dict[str, Any]:
    band = budget.radar.band
    standard = [line for line in lines if not line.row.is_footnote]
    return {
        "band": band.value,
        "preset": budget.radar.preset.value,
        "antenna_m": budget.antenna_height_m,
        "refraction_k": round(budget.conditions.refraction_k, 6),
        "rows": [
            {
                "name": line.row.name,
                "target": _target(line.row.target(band)),
                "is_footnote_from_memory": line.row.is_footnote,
                "standard_nm": nm(line.row.range_m(band)),
                **nullable(
                    "residual_nm",
                    None if (residual := residual_m(line, band)) is None else nm(residual),
                    "the model detects it nowhere",
                ),
                "conditions": {
                    name: _first_and_lost(ranges)
                    for name, ranges in zip(_CONDITION_NAMES, line.ranges, strict=True)
                },
            }
            for line in lines
        ],
        "rms_of_standard_rows_nm": nm(rms_m(standard, band)),
        "rms_of_small_targets_nm": nm(rms_m(lines[SMALL_ROWS], band)),
        "parameters": _parameters(budget),
    }


def _first_and_lost(ranges: DetectionRanges) -> dict[str, Any]:
    return {
        "first_detection_nm": _nm_or_none(ranges.first_m),
        "lost_in_sea_clutter_inside_nm": _nm_or_none(ranges.lost_in_sea_inside_m),
    }


def _nm_or_none(range_m: float | None) -> float | None:
    return None if range_m is None else nm(range_m)


def _target(target: RadarTarget) -> dict[str, Any]:
    return {
        "kind": target.spread.value,
        "height_m": target.height_m,
        "rcs_m2": round(target.rcs_m2, 6),
    }


def _ranges(ranges: DetectionRanges, budget: EchoBudget) -> dict[str, Any]:
    return {
        **nullable(
            "first_detection_nm",
            _nm_or_none(ranges.first_m),
            why_nowhere(ranges, budget.conditions),
        ),
        "detection_bands_nm": [[nm(band.from_m), nm(band.to_m)] for band in ranges.bands],
        **nullable(
            "lost_in_sea_clutter_inside_nm",
            _nm_or_none(ranges.lost_in_sea_inside_m),
            why_not_lost(budget.conditions),
        ),
    }


def _parameters(budget: EchoBudget) -> dict[str, Any]:
    radar, pulse, conditions = budget.radar, budget.pulse, budget.conditions
    rain_db_per_km = rain_loss_db(
        radar.frequency_hz, radar.polarisation, conditions.rain_mm_h, 500.0
    )
    return {
        "preset_title": PRESET_TITLES[radar.preset],
        "frequency_ghz": radar.frequency_hz / 1e9,
        "peak_power_kw": radar.peak_power_w / 1000.0,
        "antenna_gain_db": radar.antenna_gain_db,
        "horizontal_beamwidth_deg": radar.horizontal_beamwidth_deg,
        "vertical_beamwidth_deg": radar.vertical_beamwidth_deg,
        "rotation_rpm": radar.rotation_rpm,
        "noise_figure_db": radar.noise_figure_db,
        "losses_db": round(radar.losses_db, 3),
        "polarisation": radar.polarisation.value,
        "pulse": {
            "name": pulse.name,
            "length_us": round(pulse.length_s * 1e6, 4),
            "repetition_hz": pulse.repetition_hz,
            "bandwidth_mhz": pulse.bandwidth_hz / 1e6,
        },
        "pulses_a_scan": budget.pulses,
        "gas_one_way_db_per_km": GAS_DB_PER_KM[radar.band],
        "rain_one_way_db_per_km": round(float(rain_db_per_km), 6),
        "rain_top_m": RAIN_TOP_M,
        "wave_height_m": round(wave_height_m(conditions.sea_state), 3),
        "sea_clutter_allowance_db": SEA_CLUTTER_ALLOWANCE_DB,
        "rain_clutter_allowance_db": RAIN_CLUTTER_ALLOWANCE_DB,
        "gaps_passed_over_nm": nm(BRIDGED_GAP_M),
        "ducting": "not predicted",
    }
