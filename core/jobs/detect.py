"""The detect job: at what ranges a radar detects one target over open sea."""

import math

from core.base.constants import STANDARD_REFRACTION_K
from core.base.errors import InputError
from core.base.language import tr
from core.base.limit_words import not_between
from core.base.units import m_from_nm
from core.jobs.detect_request import DetectWords
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.first_detection import Detection, detection_of
from core.radar.presets import PRESET_WORDS, preset_named, preset_set
from core.radar.radar_set import Preset
from core.radar.radar_target import RadarTarget, Spread, shore
from core.radar.square_law import DetectionRule, Fluctuation
from core.radar.standard_table import STANDARD_ANTENNA_M, TableLine, table_of
from core.ship.ship import Band

_LIMITS: tuple[tuple[str, str, float, float, str], ...] = (
    ("antenna_height_m", tr("antenna height above water"), 1.0, 150.0, "m"),
    ("rcs_m2", tr("radar cross-section"), 1e-4, 1e8, "m2"),
    ("target_height_m", tr("target height"), 0.05, 5000.0, "m"),
    ("shore_height_m", tr("shore height"), 0.05, 5000.0, "m"),
    ("sea_state", tr("sea state"), 0.0, 6.0, ""),
    ("rain_mm_h", tr("rain"), 0.0, 200.0, "mm/h"),
    ("refraction_k", tr("refraction factor k"), 0.5, 10.0, ""),
    ("range_scale_m", tr("range scale"), m_from_nm(0.05), m_from_nm(120.0), "m"),
)


def preset_in(words: DetectWords) -> Preset:
    """The preset asked for; the minimum standard where none was.

    Raises
    ------
    InputError
        There is none of that name.
    """
    if words.preset is None:
        return Preset.MINIMUM
    preset = preset_named(words.preset)
    if preset is None:
        raise InputError(
            tr("there is no preset «{preset}»", preset=words.preset[:60]),
            where="--preset",
            todo=tr("Use {preset}", preset=tr(" or ").join(PRESET_WORDS)),
        )
    return preset


def check_values(words: DetectWords) -> None:
    """Refuse numbers no officer can mean or no model holds for, each with one sentence."""
    for name, what, low, high, unit in _LIMITS:
        value = getattr(words, name)
        if value is not None and not (math.isfinite(value) and low <= value <= high):
            raise InputError(
                not_between(what, f"{value:g}", low, high, unit),
                todo=tr("Give another value"),
            )


def detect(words: DetectWords) -> Detection:
    """Work out where one target is detected.

    Raises
    ------
    InputError
        Something is missing, too much, or out of its limits.
    """
    check_values(words)
    preset = preset_in(words)
    if words.band not in ("X", "S"):
        raise InputError(tr("no radar band is given"), todo=tr("Give --band X or --band S"))
    if words.antenna_height_m is None:
        raise InputError(tr("no antenna height is given"), todo=tr("Give --antenna in metres"))
    target = _target(words)
    radar = preset_set(Band(words.band), preset)
    budget = EchoBudget(
        radar=radar,
        pulse=radar.long_pulse
        if words.range_scale_m is None
        else radar.pulse_for_scale(words.range_scale_m),
        antenna_height_m=words.antenna_height_m,
        conditions=Conditions(
            refraction_k=words.refraction_k or STANDARD_REFRACTION_K,
            sea_state=words.sea_state or 0.0,
            rain_mm_h=words.rain_mm_h or 0.0,
        ),
    )
    return detection_of(budget, target, DetectionRule(fluctuation=Fluctuation(words.swerling)))


TABLE_WEATHER = (
    (0.0, 0.0),
    (0.0, 4.0),
    (0.0, 16.0),
    (2.0, 0.0),
    (5.0, 0.0),
)
"""Sea state and rain of the table: clear, and what a supplier has to state ranges for."""


def detect_table(words: DetectWords) -> tuple[tuple[EchoBudget, tuple[TableLine, ...]], ...]:
    """Work out the standard's table, for the band asked for or both.

    Returns
    -------
    tuple
        For each band the set in clear weather, and the rows.

    Raises
    ------
    InputError
        A value is out of its limits, or belongs to one target alone.
    """
    check_values(words)
    preset = preset_in(words)
    for flag, value in (
        ("--rcs", words.rcs_m2),
        ("--target-height", words.target_height_m),
        ("--shore-height", words.shore_height_m),
        ("--sea-state", words.sea_state),
        ("--rain", words.rain_mm_h),
    ):
        if value is not None:
            raise InputError(
                tr(
                    "{flag} does not go with --table, which has its own targets and weather",
                    flag=flag,
                ),
                todo=tr("Leave one of them out"),
            )
    k = words.refraction_k or STANDARD_REFRACTION_K
    weather = tuple(
        Conditions(refraction_k=k, sea_state=sea, rain_mm_h=rain) for sea, rain in TABLE_WEATHER
    )
    antenna_m = words.antenna_height_m or STANDARD_ANTENNA_M
    rule = DetectionRule(fluctuation=Fluctuation(words.swerling))
    answer = []
    for band in Band if words.band is None else (Band(words.band),):
        radar = preset_set(band, preset)
        budget = EchoBudget(
            radar=radar,
            pulse=radar.long_pulse,
            antenna_height_m=antenna_m,
            conditions=weather[0],
        )
        answer.append((budget, table_of(radar, weather, antenna_height_m=antenna_m, rule=rule)))
    return tuple(answer)


def _target(words: DetectWords) -> RadarTarget:
    has_point = words.rcs_m2 is not None or words.target_height_m is not None
    if words.shore_height_m is not None:
        if has_point:
            raise InputError(
                tr("two targets are given"),
                todo=tr("Give --shore-height alone, or --rcs and --target-height"),
            )
        return shore(words.shore_height_m)
    if words.rcs_m2 is None or words.target_height_m is None:
        raise InputError(
            tr("no whole target is given") if has_point else tr("no target is given"),
            todo=tr("Give --rcs and --target-height, or --shore-height"),
        )
    return RadarTarget(
        rcs_m2=words.rcs_m2,
        height_m=words.target_height_m,
        spread=Spread.EXTENDED if words.is_extended else Spread.POINT,
    )
