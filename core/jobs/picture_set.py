"""Which radar a picture is asked for, on which scale and pulse; every wrong word in a sentence."""

from dataclasses import dataclass

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.files.ship_file import read_ship
from core.jobs.picture_request import PictureWords
from core.radar.presets import PRESET_WORDS, preset_named, preset_set, radar_set
from core.radar.radar_set import Preset, RadarPulse, RadarSet
from core.ship.ship import STANDARD_RANGE_SCALES_M, Band, BlindSector, Radar, Ship

_LONGEST_SCALE_M = m_from_nm(48.0)
_PREFERRED_SCALE_M = m_from_nm(6.0)
_SLACK_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureSet:
    """The radar of a picture as it is fitted and switched."""

    radar: RadarSet
    antenna_height_m: float
    sectors: tuple[BlindSector, ...]
    scale_m: float
    pulse: RadarPulse
    findings: tuple[Finding, ...]


def picture_set(words: PictureWords) -> PictureSet:
    """The radar asked for: one of the ship's, or a band's preset where no ship is given.

    Raises
    ------
    InputError
        There is no such radar, preset, scale or pulse, or no antenna height.
    """
    preset = _preset(words)
    if words.ship is None:
        if words.radar_name is not None:
            raise InputError(
                tr("a radar is named and no ship is given"),
                where="--radar",
                todo=tr("Give --ship, or --band instead"),
            )
        if words.antenna_height_m is None:
            raise InputError(
                tr("no antenna height is given"), todo=tr("Give --antenna in metres, or --ship")
            )
        fitted = preset_set(_band(words) or Band.X, preset or Preset.MINIMUM)
        return _switched(words, fitted, words.antenna_height_m, (), STANDARD_RANGE_SCALES_M, ())
    ship, findings, _sha256 = read_ship(words.ship)
    radar = _radar(words, ship)
    height_m = words.antenna_height_m
    return _switched(
        words,
        radar_set(radar, preset),
        ship.antenna_height_above_water_m(radar) if height_m is None else height_m,
        radar.blind_sectors,
        radar.range_scales_m,
        findings,
    )


def _preset(words: PictureWords) -> Preset | None:
    if words.preset is None:
        return None
    preset = preset_named(words.preset)
    if preset is None:
        raise InputError(
            tr("there is no preset «{preset}»", preset=words.preset[:60]),
            where="--preset",
            todo=tr("Use {preset}", preset=tr(" or ").join(PRESET_WORDS)),
        )
    return preset


def _band(words: PictureWords) -> Band | None:
    return None if words.band is None else Band(words.band)


def _radar(words: PictureWords, ship: Ship) -> Radar:
    fitting = ship.radars
    if words.radar_name is not None:
        wanted = words.radar_name.casefold().strip()
        fitting = tuple(radar for radar in ship.radars if radar.name.casefold() == wanted)
        if not fitting:
            names = ", ".join(f"«{radar.name}»" for radar in ship.radars)
            raise InputError(
                tr(
                    "«{name}» has no radar «{radar_name}»",
                    name=ship.name,
                    radar_name=words.radar_name[:60],
                ),
                where="--radar",
                todo=tr("Use one of {names}", names=names),
            )
    band = _band(words)
    if band is not None:
        fitting = tuple(radar for radar in fitting if radar.band is band)
        if not fitting:
            raise InputError(
                tr("«{name}» has no such radar of {band} band", name=ship.name, band=band.value),
                where="--band",
                todo=tr("Use another band, or leave --ship out"),
            )
    return fitting[0]


def _switched(
    words: PictureWords,
    radar: RadarSet,
    antenna_height_m: float,
    sectors: tuple[BlindSector, ...],
    scales_m: tuple[float, ...],
    findings: tuple[Finding, ...],
) -> PictureSet:
    scale_m = _scale_m(words, scales_m)
    return PictureSet(
        radar=radar,
        antenna_height_m=antenna_height_m,
        sectors=sectors,
        scale_m=scale_m,
        pulse=pulse_named(radar, words.pulse) if words.pulse else radar.pulse_for_scale(scale_m),
        findings=findings,
    )


def _scale_m(words: PictureWords, scales_m: tuple[float, ...]) -> float:
    usable = tuple(s for s in scales_m if s <= _LONGEST_SCALE_M + _SLACK_M)
    wanted = words.scale_m
    if wanted is None:
        return min(usable or scales_m, key=lambda s: abs(s - _PREFERRED_SCALE_M))
    for scale_m in usable:
        if abs(scale_m - wanted) <= _SLACK_M:
            return scale_m
    listed = ", ".join(f"{nm_from_m(s):g}" for s in usable)
    raise InputError(
        tr("there is no range scale of {distance_nm:g} NM", distance_nm=nm_from_m(wanted)),
        where="--scale",
        todo=tr("Use one of {scales} NM", scales=listed),
    )


def pulse_named(radar: RadarSet, name: str) -> RadarPulse:
    """A pulse of a set by its name, in any case.

    Raises
    ------
    InputError
        There is none of that name.
    """
    for pulse in radar.pulses:
        if pulse.name.casefold() == name.casefold().strip():
            return pulse
    listed = ", ".join(f"«{pulse.name}»" for pulse in radar.pulses)
    raise InputError(
        tr("the radar has no pulse «{name}»", name=name[:60]),
        where="--pulse",
        todo=tr("Use one of {pulses}", pulses=listed),
    )
