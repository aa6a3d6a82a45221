"""What a passage is planned from, on the command line: the same for every command that plans."""

import argparse
from pathlib import Path

from app.base.option_types import KNOTS, METRES, MILES, MINUTES, draughts, number, time
from app.base.stream_arguments import add_streams, stream_options
from core.base.language import tr
from core.files.project import Options


def add_land(parser: argparse.ArgumentParser, *, is_required: bool) -> None:
    """Elevation and coast."""
    parser.add_argument(
        "--land",
        type=Path,
        action="append",
        required=is_required,
        default=[],
        metavar="PATH",
        help=tr("elevation or coast file, or a folder of them; may be given several times"),
    )


def add_environment(parser: argparse.ArgumentParser) -> None:
    """Antenna, water, air and how far to sweep."""
    add = parser.add_argument
    add("--antenna", type=METRES, metavar="M", help=tr("antenna height above the water now, m"))
    add("--tide", type=METRES, metavar="M", help=tr("height of tide above chart datum, m"))
    add("--msl", type=METRES, metavar="M", help=tr("mean sea level above chart datum, m"))
    add("--refraction", type=number, metavar="K", help=tr("refraction factor k (4/3 unless given)"))
    add("--height-error", type=METRES, metavar="M", help=tr("error of heights, 95 %%, m (5)"))
    add("--radius", type=MILES, metavar="NM", help=tr("sweep radius, NM"))


def add_plan_inputs(parser: argparse.ArgumentParser) -> None:
    """Route or project, files and conditions."""
    add = parser.add_argument
    add("file", type=Path, metavar="ROUTE|PROJECT")
    add_land(parser, is_required=False)
    add("--ship", type=Path, metavar="FILE", help=tr("ship file (TOML)"))
    add("--marks", type=Path, metavar="FILE", help=tr("your marks (CSV or GeoJSON)"))
    add("--limits", type=Path, metavar="FILE", help=tr("your danger limits (CSV)"))
    add(
        "--classes",
        type=Path,
        metavar="FILE",
        help=tr("kinds of ground (GeoTIFF), with a table FILE.csv or FILE.toml beside it"),
    )
    add(
        "--reverse",
        action="store_true",
        help=tr(
            "plan it the other way round, without a project's choices of objects and start time"
        ),
    )
    add(
        "--letters", type=Path, metavar="FILE", help=tr("earlier plan (JSON) whose letters to keep")
    )
    add(
        "--draught",
        type=draughts,
        metavar="F,A",
        help=tr("draughts forward and aft now, m, instead of the ship file's"),
    )
    add("--etd", type=time, metavar="ISO", help=tr("start time, UTC unless it says so"))
    add(
        "--speed",
        type=KNOTS,
        metavar="KN",
        help=tr("speed, kn: over the ground, or through the water with a stream"),
    )
    add_streams(parser)
    add("--corridor", type=MILES, metavar="NM", help=tr("corridor where none is given"))
    add("--sea-state", type=number, metavar="N", help=tr("sea state, 0 to 6 (0)"))
    add("--rain", type=number, metavar="MM_H", help=tr("rain everywhere, mm/h (0)"))
    add(
        "--tidal-range", type=METRES, metavar="M", help=tr("low to high water, moves shores, m (4)")
    )
    add(
        "--low-water",
        type=METRES,
        metavar="M",
        help=tr(
            "low water above chart datum, m, for edges at two tides (half the range below MSL)"
        ),
    )
    add("--high-water", type=METRES, metavar="M", help=tr("high water above chart datum, m"))
    add(
        "--traffic",
        type=KNOTS,
        metavar="KN",
        help=tr("least speed assumed of other craft, kn (15)"),
    )
    add(
        "--decision",
        type=MINUTES,
        metavar="MIN",
        help=tr("time in hand to decide, min (6 coastal, 15 open sea)"),
    )
    add(
        "--fix-every",
        type=MINUTES,
        metavar="MIN",
        help=tr("from one radar fix to the next, min (6)"),
    )
    add("--overlap", type=MINUTES, metavar="MIN", help=tr("both lines at a hand-over, min (3)"))
    add(
        "--pass-off",
        type=MILES,
        metavar="NM",
        help=tr("how far beyond a head an emerging craft passes, NM (0.05)"),
    )
    add("--craft", type=METRES, metavar="M", help=tr("craft height for hidden water, m"))
    add("--land-height", type=METRES, metavar="M", help=tr("height to assume for land without any"))
    add_environment(parser)


def options_given(given: argparse.Namespace) -> Options:
    """The conditions that were typed; those that a command has not stay open."""
    return Options(
        tide_m=getattr(given, "tide", None),
        mean_sea_level_m=getattr(given, "msl", None),
        tidal_range_m=getattr(given, "tidal_range", None),
        low_water_m=getattr(given, "low_water", None),
        high_water_m=getattr(given, "high_water", None),
        refraction_k=getattr(given, "refraction", None),
        radius_m=getattr(given, "radius", None),
        craft_height_m=getattr(given, "craft", None),
        height_error_m=getattr(given, "height_error", None),
        start_utc=getattr(given, "etd", None),
        speed_mps=getattr(given, "speed", None),
        antenna_height_m=getattr(given, "antenna", None),
        corridor_m=getattr(given, "corridor", None),
        draught_forward_m=(getattr(given, "draught", None) or (None, None))[0],
        draught_aft_m=(getattr(given, "draught", None) or (None, None))[1],
        coast_height_m=getattr(given, "land_height", None),
        sea_state=getattr(given, "sea_state", None),
        rain_mm_h=getattr(given, "rain", None),
        traffic_speed_mps=getattr(given, "traffic", None),
        decision_time_s=getattr(given, "decision", None),
        fix_interval_s=getattr(given, "fix_every", None),
        overlap_s=getattr(given, "overlap", None),
        **stream_options(given),
        pass_off_m=getattr(given, "pass_off", None),
    )
