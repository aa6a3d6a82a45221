"""The words of the command line: one table of commands and options."""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from app.base.anchor_arguments import AnchorWords, add_anchorage, anchor_words
from app.base.option_types import METRES, MILES, number, place, shifts
from app.base.picture_arguments import add_picture, picture_words
from app.base.plan_arguments import add_environment, add_land, add_plan_inputs, options_given
from core import __version__
from core.base.language import tr
from core.files.project import Options
from core.geodesy.position import Position
from core.jobs.detect_request import DetectWords
from core.jobs.picture_request import PictureWords

COMMANDS = (
    "plan",
    "offings",
    "observed",
    "sweep",
    "picture",
    "detect",
    "inspect",
    "convert",
    "demo",
)
_ANSWERS = ("inspect", "offings", "observed")
"""Commands whose ``--json`` is a form of the answer, not a file."""
_ABOUT = tr(
    "Works out, leg by leg, what land is in radar line of sight "
    "along a planned passage, and from it index lines, wheel-over "
    "marks and range scales, printed as leg sheets. A planning aid "
    "only: official charts and publications, local rules, company "
    "procedures and the judgement of master and pilot take "
    "precedence."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arguments:
    """What was typed, checked as far as words go."""

    command: str
    """One of ``COMMANDS``, or ``window``."""
    is_quiet: bool = False
    file: Path | None = None
    """Route, project, or file for the window; folder of ``demo``; target of ``convert``."""
    paths: tuple[Path, ...] = ()
    """Land, or what to inspect."""
    ship: Path | None = None
    marks: Path | None = None
    limits: Path | None = None
    streams: Path | None = None
    contingencies: Path | None = None
    classes: Path | None = None
    letters: Path | None = None
    since: Path | None = None
    note: str = ""
    is_changed_only: bool = False
    is_reversed: bool = False
    """``plan --reverse``."""
    anchor: AnchorWords = field(default_factory=AnchorWords)
    options: Options = field(default_factory=Options)
    position: Position | None = None
    target_height_m: float = 0.0
    is_exact: bool = True
    output: Path | None = None
    pdf: Path | None = None
    json: Path | None = None
    geojson: Path | None = None
    csv: Path | None = None
    is_json: bool = False
    """``--json`` of commands that answer on standard output."""
    seen: Path | None = None
    """``observed --seen``."""
    leg_number: int = 0
    """``offings --leg``."""
    shifts_m: tuple[float, ...] = ()
    """``offings --shift``, starboard positive."""
    detect: DetectWords = field(default_factory=DetectWords)
    picture: PictureWords = field(default_factory=PictureWords)


def _add_quiet(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--quiet", action="store_true", help=tr("no progress on standard error"))


def _add_detect(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    detect = commands.add_parser(
        "detect", help=tr("at what ranges a radar detects one target over open sea")
    )
    add = detect.add_argument
    add("--band", choices=("X", "S"), help=tr("band of the radar"))
    add("--antenna", type=METRES, metavar="M", help=tr("antenna height above the water, m"))
    add("--rcs", type=number, metavar="M2", help=tr("radar cross-section of the target, m2"))
    add("--target-height", type=METRES, metavar="M", help=tr("height of the target, m"))
    add(
        "--extended",
        action="store_true",
        help=tr("the echo comes evenly from 0 to that height, as a ship's"),
    )
    add("--shore-height", type=METRES, metavar="M", help=tr("instead: a shoreline of a height, m"))
    add("--preset", metavar="NAME", help=tr("«minimum standard» (default) or «typical»"))
    add("--sea-state", type=number, metavar="N", help=tr("sea state, 0 to 6 (0)"))
    add("--rain", type=number, metavar="MM_H", help=tr("rain everywhere, mm/h (0)"))
    add("--refraction", type=number, metavar="K", help=tr("refraction factor k (4/3)"))
    add("--scale", type=MILES, metavar="NM", help=tr("range scale, for its pulse (the long pulse)"))
    add(
        "--swerling",
        type=int,
        choices=(0, 1),
        default=0,
        help=tr("0: a steady echo (default); 1: one that changes from scan to scan"),
    )
    add(
        "--table",
        action="store_true",
        help=tr("instead: the targets of the performance standard, one band or both"),
    )
    add("--json", action="store_true", help=tr("the answer as JSON"))
    _add_quiet(detect)


def _detect_words(given: argparse.Namespace) -> DetectWords:
    return DetectWords(
        band=given.band,
        preset=given.preset,
        antenna_height_m=given.antenna,
        rcs_m2=given.rcs,
        target_height_m=given.target_height,
        shore_height_m=given.shore_height,
        is_extended=given.extended,
        sea_state=given.sea_state,
        rain_mm_h=given.rain,
        refraction_k=given.refraction,
        range_scale_m=given.scale,
        swerling=given.swerling,
        is_table=given.table,
    )


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="legsheet",
        description=_ABOUT,
        epilog=tr(
            "legsheet [FILE] without a command opens the window, with the "
            "demo passage if no file is named."
        ),
    )
    parser.add_argument(
        "--version",
        action="version",
        version=f"legsheet {__version__}",
        help=tr("show program's version number and exit"),
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    plan = commands.add_parser("plan", help=tr("plan a passage and write its sheets and files"))
    add_plan_inputs(plan)
    plan.add_argument(
        "--contingency",
        type=Path,
        metavar="FILE",
        help=tr("your abort points and contingency legs (CSV)"),
    )
    plan.add_argument(
        "--since",
        type=Path,
        metavar="FILE",
        help=tr("earlier plan (JSON) or project: mark the legs that changed, keep its letters"),
    )
    add_anchorage(plan)
    plan.add_argument("--note", default="", metavar="TEXT", help=tr("why this revision is made"))
    plan.add_argument(
        "--changed-only",
        action="store_true",
        help=tr("sheets: only the front pages and the legs that changed"),
    )
    for name, what in (
        ("pdf", tr("write the leg sheets")),
        ("json", tr("write the plan file")),
        ("geojson", tr("write the coverage and lines")),
        ("csv", tr("write the index table (and wheel-over table beside it)")),
    ):
        plan.add_argument(f"--{name}", type=Path, metavar="F", help=what)
    _add_quiet(plan)

    offings = commands.add_parser(
        "offings", help=tr("one leg planned at other distances to port or starboard, side by side")
    )
    add_plan_inputs(offings)
    offings.add_argument("--leg", type=int, required=True, metavar="N", help=tr("the leg, from 1"))
    offings.add_argument(
        "--shift",
        type=shifts,
        required=True,
        metavar="NM[,NM...]",
        help=tr("distances from the planned leg, starboard positive, port negative"),
    )
    offings.add_argument("--json", action="store_true", help=tr("the answer as JSON"))
    _add_quiet(offings)

    observed = commands.add_parser(
        "observed", help=tr("first paints that were seen beside those an earlier plan expected")
    )
    observed.add_argument("file", type=Path, metavar="PLAN.json")
    observed.add_argument(
        "--seen",
        type=Path,
        required=True,
        metavar="FILE",
        help=tr("what was seen (CSV): object,leg,range_nm or time_utc, radar"),
    )
    observed.add_argument("--json", action="store_true", help=tr("the answer as JSON"))
    _add_quiet(observed)

    sweep = commands.add_parser(
        "sweep", help=tr("what one place has in line of sight, as a raster")
    )
    add_land(sweep, is_required=True)
    sweep.add_argument("--at", type=place, required=True, metavar="LAT,LON")
    sweep.add_argument("--target-height", type=METRES, default=0.0, metavar="M")
    sweep.add_argument("--setting", choices=("exact", "planning"), default="exact")
    add_environment(sweep)
    sweep.add_argument("-o", "--output", type=Path, required=True, metavar="OUT.tif")
    _add_quiet(sweep)

    picture = commands.add_parser(
        "picture", help=tr("the picture a radar is expected to show at a place, well set or not")
    )
    add_land(picture, is_required=True)
    add_picture(picture)
    _add_quiet(picture)

    _add_detect(commands)

    inspect = commands.add_parser("inspect", help=tr("what files are, cover and are worth"))
    inspect.add_argument("paths", type=Path, nargs="+", metavar="PATH")
    inspect.add_argument("--json", action="store_true", help=tr("the answer as JSON"))
    _add_quiet(inspect)

    convert = commands.add_parser("convert", help=tr("write a route as RTZ or GPX"))
    convert.add_argument("file", type=Path, metavar="ROUTE")
    convert.add_argument("-o", "--output", type=Path, required=True, metavar="F.rtz|F.gpx")
    _add_quiet(convert)

    demo = commands.add_parser(
        "demo", help=tr("the embedded, invented passage through the whole job")
    )
    demo.add_argument("file", type=Path, metavar="OUTDIR")
    _add_quiet(demo)
    return parser


def _window(argv: Sequence[str]) -> Arguments | None:
    """``legsheet [FILE]``: no command, at most one file."""
    words = [word for word in argv if word != "--quiet"]
    if not words:
        return Arguments(command="window")
    if len(words) == 1 and words[0] not in COMMANDS and not words[0].startswith("-"):
        return Arguments(command="window", file=Path(words[0]))
    return None


def _joined(argv: Sequence[str]) -> list[str]:
    """``--at -36.5,174.8`` as one word: southern latitude or what is to port is no option."""
    words: list[str] = []
    for word in argv:
        if words and words[-1] in ("--at", "--leeway", "--shift"):
            words[-1] += f"={word}"
        else:
            words.append(word)
    return words


def parse(argv: Sequence[str]) -> Arguments:
    """Understand the command line; argparse ends the program with 2 where it cannot.

    Raises
    ------
    SystemExit
        Help or version was asked for (0), or the words make no sense (2).
    """
    window = _window(argv)
    if window is not None:
        return window
    given = _parser().parse_args(_joined(argv))
    if given.command == "detect":
        return Arguments(
            command="detect",
            is_quiet=given.quiet,
            is_json=given.json,
            detect=_detect_words(given),
        )
    if given.command == "picture":
        return Arguments(
            command="picture",
            is_quiet=given.quiet,
            output=given.output,
            picture=picture_words(given),
        )
    is_plan = given.command == "plan"
    return Arguments(
        command=given.command,
        is_quiet=given.quiet,
        file=getattr(given, "file", None),
        paths=tuple(getattr(given, "paths", None) or getattr(given, "land", None) or ()),
        ship=getattr(given, "ship", None),
        marks=getattr(given, "marks", None),
        limits=getattr(given, "limits", None),
        streams=getattr(given, "streams", None),
        contingencies=getattr(given, "contingency", None),
        classes=getattr(given, "classes", None),
        letters=getattr(given, "letters", None),
        since=getattr(given, "since", None),
        note=getattr(given, "note", ""),
        is_changed_only=getattr(given, "changed_only", False),
        is_reversed=getattr(given, "reverse", False),
        anchor=anchor_words(given) if is_plan else AnchorWords(),
        options=options_given(given),
        position=getattr(given, "at", None),
        target_height_m=getattr(given, "target_height", 0.0),
        is_exact=getattr(given, "setting", "exact") == "exact",
        output=getattr(given, "output", None),
        pdf=getattr(given, "pdf", None),
        json=given.json if is_plan else None,
        geojson=getattr(given, "geojson", None),
        csv=getattr(given, "csv", None),
        is_json=bool(given.json) if given.command in _ANSWERS else False,
        seen=getattr(given, "seen", None),
        leg_number=getattr(given, "leg", 0),
        shifts_m=getattr(given, "shift", ()),
    )
