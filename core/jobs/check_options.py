"""Options that no officer can mean are refused, each with one sentence."""

from collections.abc import Mapping

from core.base.errors import InputError
from core.base.language import tr
from core.base.limit_words import not_between
from core.base.units import kn_from_mps, mps_from_kn, nm_from_m
from core.files.project import Options
from core.files.streams_file import MOST_DRIFT_KN, MOST_LEEWAY_DEG

_LIMITS: Mapping[str, tuple[str, float, float, str]] = {
    "tide_m": (tr("height of tide"), -20.0, 20.0, "m"),
    "mean_sea_level_m": (tr("mean sea level above chart datum"), -20.0, 20.0, "m"),
    "tidal_range_m": (tr("tidal range"), 0.1, 20.0, "m"),
    "low_water_m": (tr("low water above chart datum"), -20.0, 20.0, "m"),
    "high_water_m": (tr("high water above chart datum"), -20.0, 20.0, "m"),
    "refraction_k": (tr("refraction factor k"), 0.5, 10.0, ""),
    "craft_height_m": (tr("height of craft"), 0.0, 100.0, "m"),
    "height_error_m": (tr("height error"), 0.0, 200.0, "m"),
    "antenna_height_m": (tr("antenna height above water"), 1.0, 150.0, "m"),
    "draught_forward_m": (tr("draught forward"), 0.05, 40.0, "m"),
    "draught_aft_m": (tr("draught aft"), 0.05, 40.0, "m"),
    "sea_state": (tr("sea state"), 0.0, 6.0, ""),
    "rain_mm_h": (tr("rain"), 0.0, 150.0, "mm/h"),
    "coast_height_m": (tr("assumed height of land"), 0.0, 1000.0, "m"),
    "set_deg": (tr("set"), 0.0, 360.0, tr("degrees")),
    "leeway_port_deg": (tr("leeway to port"), 0.0, MOST_LEEWAY_DEG, tr("degrees")),
    "leeway_starboard_deg": (tr("leeway to starboard"), 0.0, MOST_LEEWAY_DEG, tr("degrees")),
}
_TRAFFIC: Mapping[str, tuple[str, float, float, str, float]] = {
    "traffic_speed_mps": (tr("speed of traffic"), 1.0, 100.0, "kn", mps_from_kn(1.0)),
    "decision_time_s": (tr("decision time"), 1.0, 60.0, "min", 60.0),
    "pass_off_m": (tr("passing distance"), 0.0, 5.0, "NM", 1852.0),
    "fix_interval_s": (tr("interval of fixes"), 1.0, 120.0, "min", 60.0),
    "overlap_s": (tr("overlap at a hand-over"), 1.0, 60.0, "min", 60.0),
}
"""Words, least, most, unit, and how much of the option's own unit one of these is."""


def check_options(options: Options) -> None:
    """Refuse option values no officer can mean, each with one sentence."""
    for name, (words, low, high, unit) in _LIMITS.items():
        value = getattr(options, name)
        if value is not None and not low <= value <= high:
            raise InputError(
                not_between(words, f"{value:g}", low, high, unit),
                todo=tr("Give another value"),
            )
    for name, (words, low, high, unit, one) in _TRAFFIC.items():
        value = getattr(options, name)
        if value is not None and not low <= round(value / one, 6) <= high:
            raise InputError(
                not_between(words, f"{value / one:.3g}", low, high, unit),
                todo=tr("Give another value"),
            )
    if options.radius_m is not None and not 0.5 <= nm_from_m(options.radius_m) <= 48.0:
        raise InputError(
            tr(
                "the sweep radius {distance_nm:g} NM is not between 0.5 and 48 NM",
                distance_nm=nm_from_m(options.radius_m),
            ),
            todo=tr("Give another value"),
        )
    if options.corridor_m is not None and not 0.0 < nm_from_m(options.corridor_m) <= 20.0:
        raise InputError(
            tr(
                "the corridor {distance_nm:g} NM is not between 0 and 20 NM",
                distance_nm=nm_from_m(options.corridor_m),
            ),
            todo=tr("Give another value"),
        )
    if options.speed_mps is not None and not 0.1 <= options.speed_mps <= 52.0:
        raise InputError(
            tr("the speed is not between 0.2 and 100 kn"), todo=tr("Give another value")
        )
    if options.drift_mps is not None and not (
        0.0 <= options.drift_mps <= mps_from_kn(MOST_DRIFT_KN) * (1.0 + 1e-9)
    ):
        raise InputError(
            tr(
                "the drift {drift_kn:g} kn is not between 0 and {most_drift_kn:g} kn",
                drift_kn=kn_from_mps(options.drift_mps),
                most_drift_kn=MOST_DRIFT_KN,
            ),
            todo=tr("Give another value"),
        )
    if (options.set_deg is None) != (options.drift_mps is None):
        given, missing = (
            (tr("set"), tr("drift")) if options.drift_mps is None else (tr("drift"), tr("set"))
        )
        raise InputError(
            tr(
                "the {given} of a stream is given without its {missing}",
                given=given,
                missing=missing,
            ),
            todo=tr("Give both, or neither"),
        )
    if (options.tide_m is None) != (options.mean_sea_level_m is None):
        given, missing = (
            (tr("a height of tide"), tr("mean sea level above chart datum"))
            if options.mean_sea_level_m is None
            else (tr("mean sea level"), tr("the height of tide above chart datum"))
        )
        raise InputError(
            tr("{given} is given without {missing}", given=given, missing=missing),
            todo=tr("Give both, or neither to plan at mean sea level"),
        )
    _check_low_and_high(options)
    _check_draughts(options)


def _check_low_and_high(options: Options) -> None:
    low_m, high_m = options.low_water_m, options.high_water_m
    if (low_m is None) != (high_m is None):
        raise InputError(
            tr("only one of low and high water is given"),
            todo=tr(
                "Give both above chart datum, or neither to take half the tidal range each way"
            ),
        )
    if low_m is None or high_m is None:
        return
    if options.mean_sea_level_m is None:
        raise InputError(
            tr("low and high water are given without mean sea level above chart datum"),
            todo=tr("Give it with the height of tide that the plan is for"),
        )
    if not low_m < high_m:
        raise InputError(
            tr(
                "low water {low_m:g} m is not below high water {high_m:g} m",
                low_m=low_m,
                high_m=high_m,
            ),
            todo=tr("Correct one of them"),
        )


def _check_draughts(options: Options) -> None:
    if (options.draught_forward_m is None) != (options.draught_aft_m is None):
        raise InputError(
            tr("only one of the draughts forward and aft is given"),
            todo=tr("Give both, or neither to take those of the ship file"),
        )
    if options.draught_forward_m is not None and options.antenna_height_m is not None:
        raise InputError(
            tr("both draughts and an antenna height above the water are given"),
            todo=tr("Give one of them; the draughts make the height"),
        )
