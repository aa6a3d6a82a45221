"""Options of ``legsheet picture``."""

import argparse
from pathlib import Path

from app.base.option_types import METRES, MILES, number, place
from core.base.language import tr
from core.jobs.picture_request import ORIENTATIONS, PictureWords


def add_picture(picture: argparse.ArgumentParser) -> None:
    """Add every option but those all commands share."""
    add = picture.add_argument
    add("--at", type=place, required=True, metavar="LAT,LON", help=tr("own ship's place"))
    add("--ship", type=Path, metavar="FILE", help=tr("ship file (TOML); its first radar is used"))
    add("--marks", type=Path, metavar="FILE", help=tr("your marks (CSV or GeoJSON)"))
    add("--classes", type=Path, metavar="FILE", help=tr("kinds of ground (GeoTIFF) with its table"))
    add("--antenna", type=METRES, metavar="M", help=tr("antenna height above the water now, m"))
    add("--band", choices=("X", "S"), help=tr("band of the radar (X without a ship)"))
    add("--radar", metavar="NAME", help=tr("a radar of the ship by its name"))
    add(
        "--preset", metavar="NAME", help=tr("«minimum standard» or «typical»; else the ship file's")
    )
    add("--scale", type=MILES, metavar="NM", help=tr("range scale (6)"))
    add("--heading", type=number, metavar="DEG", help=tr("true heading"))
    add("--course", type=number, metavar="DEG", help=tr("true course, where it is not the heading"))
    add(
        "--leeway", type=number, metavar="DEG", help=tr("how far she may head off that, either way")
    )
    add("--orientation", choices=ORIENTATIONS, help=tr("what points up (north-up)"))
    add(
        "--off-centre",
        type=number,
        metavar="PERCENT",
        help=tr("how far own ship stands off, 0 to 75"),
    )
    add("--off-centre-to", type=number, metavar="DEG", help=tr("bearing to see farther on (ahead)"))
    add("--gain", type=number, metavar="DB", help=tr("more or less than light speckle, dB (0)"))
    add("--tuning", type=number, metavar="DB", help=tr("what mistuning loses, dB (0)"))
    add("--sea-clutter", type=number, metavar="PERCENT", help=tr("sea clutter control (well set)"))
    add("--rain-clutter", type=number, metavar="PERCENT", help=tr("rain clutter control (0)"))
    add("--interference-rejection", action="store_true", help=tr("on (off)"))
    add("--echo-stretch", action="store_true", help=tr("on (off)"))
    add("--pulse", metavar="NAME", help=tr("a pulse of the radar by its name (the scale's)"))
    add("--sea-state", type=number, metavar="N", help=tr("sea state, 0 to 6 (0)"))
    add("--rain", type=number, metavar="MM_H", help=tr("rain everywhere, mm/h (0)"))
    add("--refraction", type=number, metavar="K", help=tr("refraction factor k (4/3)"))
    add("--tide", type=METRES, metavar="M", help=tr("height of tide above chart datum, m"))
    add("--msl", type=METRES, metavar="M", help=tr("mean sea level above chart datum, m"))
    add("--night", action="store_true", help=tr("dim, on dark"))
    add("--size", type=int, metavar="PX", help=tr("side of the picture, pixels (1200)"))
    add("-o", "--output", type=Path, required=True, metavar="OUT.png")


def picture_words(given: argparse.Namespace) -> PictureWords:
    """What was typed."""
    return PictureWords(
        land=tuple(given.land),
        position=given.at,
        ship=given.ship,
        marks=given.marks,
        classes=given.classes,
        antenna_height_m=given.antenna,
        band=given.band,
        radar_name=given.radar,
        preset=given.preset,
        scale_m=given.scale,
        heading_deg=given.heading,
        course_deg=given.course,
        leeway_deg=given.leeway,
        orientation=given.orientation,
        off_centre_percent=given.off_centre,
        off_centre_deg=given.off_centre_to,
        gain_db=given.gain,
        mistuning_db=given.tuning,
        sea_clutter_percent=given.sea_clutter,
        rain_clutter_percent=given.rain_clutter,
        interference_rejection=given.interference_rejection,
        echo_stretch=given.echo_stretch,
        pulse=given.pulse,
        sea_state=given.sea_state,
        rain_mm_h=given.rain,
        refraction_k=given.refraction,
        tide_m=given.tide,
        mean_sea_level_m=given.msl,
        is_night=given.night,
        size_px=given.size,
    )
