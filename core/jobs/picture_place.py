"""The picture job: land files and a place in, the expected picture with its caption out."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.constants import STANDARD_REFRACTION_K
from core.base.errors import InputError
from core.base.findings import Finding, Severity
from core.base.language import tr
from core.base.limit_words import not_between
from core.base.progress import Progress, Span
from core.coverage.terrain import prepare_terrain
from core.files.ground_table import read_ground_table
from core.files.load_land import load_land
from core.files.marks_file import is_place, read_marks
from core.geodesy.position import Position
from core.jobs.picture_marks import mark_targets
from core.jobs.picture_request import ORIENTATIONS, PictureWords
from core.jobs.picture_set import picture_set
from core.jobs.sweep_area import box_round
from core.land.land_model import Cell, LandModel
from core.land.sources import GroundCodes
from core.picture.controls import LEAST_GAIN_DB, MOST_GAIN_DB, MOST_MISTUNING_DB, Controls
from core.picture.display_chain import well_set
from core.picture.expected_picture import Picture, frame_of, make_picture
from core.picture.picture_view import view_place
from core.picture.screen_frame import Orientation
from core.plan.plan_result import Mark
from core.plan.request import Environment
from core.radar.echo_budget import Conditions, EchoBudget
from core.words.picture_words import caption_lines, water_words

DEFAULT_SIZE_PX = 1200
_LIMITS: tuple[tuple[str, str, str, float, float, str], ...] = (
    ("antenna_height_m", "--antenna", tr("antenna height above water"), 1.0, 150.0, "m"),
    ("heading_deg", "--heading", tr("heading"), -360.0, 360.0, tr("degrees")),
    ("course_deg", "--course", tr("course"), -360.0, 360.0, tr("degrees")),
    ("leeway_deg", "--leeway", tr("leeway"), 0.0, 45.0, tr("degrees")),
    ("off_centre_percent", "--off-centre", tr("off-centring"), 0.0, 75.0, "%"),
    (
        "off_centre_deg",
        "--off-centre-to",
        tr("bearing to see farther on"),
        -360.0,
        360.0,
        tr("degrees"),
    ),
    ("gain_db", "--gain", tr("gain"), LEAST_GAIN_DB, MOST_GAIN_DB, "dB"),
    ("mistuning_db", "--tuning", tr("loss by mistuning"), 0.0, MOST_MISTUNING_DB, "dB"),
    ("sea_clutter_percent", "--sea-clutter", tr("sea clutter control"), 0.0, 100.0, "%"),
    ("rain_clutter_percent", "--rain-clutter", tr("rain clutter control"), 0.0, 100.0, "%"),
    ("sea_state", "--sea-state", tr("sea state"), 0.0, 6.0, ""),
    ("rain_mm_h", "--rain", tr("rain"), 0.0, 150.0, "mm/h"),
    ("refraction_k", "--refraction", tr("refraction factor k"), 0.5, 10.0, ""),
    ("tide_m", "--tide", tr("height of tide"), -20.0, 20.0, "m"),
    ("mean_sea_level_m", "--msl", tr("mean sea level above chart datum"), -20.0, 20.0, "m"),
    ("size_px", "--size", tr("size of the picture"), 200.0, 4000.0, tr("pixels")),
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacePicture:
    """An expected picture, the words under it, and what was found on the way."""

    picture: Picture
    caption: tuple[str, ...]
    findings: tuple[Finding, ...]


def check_picture_words(words: PictureWords) -> None:
    """Refuse numbers no officer can mean, each with one sentence, before anything is read."""
    for name, option, what, low, high, unit in _LIMITS:
        value = getattr(words, name)
        if value is not None and not (math.isfinite(value) and low <= value <= high):
            raise InputError(
                not_between(what, f"{value:g}", low, high, unit),
                where=option,
                todo=tr("Give another value"),
            )
    if (words.tide_m is None) != (words.mean_sea_level_m is None):
        raise InputError(
            tr("height of tide and mean sea level above chart datum go together"),
            where="--tide, --msl",
            todo=tr("Give both, or neither to look at mean sea level"),
        )
    if words.orientation is not None and words.orientation not in ORIENTATIONS:
        raise InputError(
            tr("there is no orientation «{orientation}»", orientation=words.orientation[:40]),
            where="--orientation",
            todo=tr("Use {orientations}", orientations=tr(" or ").join(ORIENTATIONS)),
        )
    if words.orientation == "course-up" and words.course_deg is None and words.heading_deg is None:
        raise InputError(
            tr("course-up needs a course"),
            where="--orientation",
            todo=tr("Give --course or --heading"),
        )
    if words.orientation == "head-up" and words.heading_deg is None:
        raise InputError(
            tr("head-up needs a heading"), where="--orientation", todo=tr("Give --heading")
        )


def picture_place(words: PictureWords, progress: Progress) -> PlacePicture:
    """Work out the expected picture at a place.

    Without a heading the course is taken for it; without either, sectors of own structure are
    left out, and the caption says so.

    Raises
    ------
    InputError, DataGapError
        A value or file cannot be used, or no land data reaches the place.
    Cancelled
        A stop was asked for.
    """
    check_picture_words(words)
    if words.position is None or not words.land:
        raise InputError(tr("a place and land data are needed"), todo=tr("Give --at and --land"))
    fitted = picture_set(words)
    marks, mark_findings = _marks(words)
    ground, ground_findings = _ground(words)
    environment = Environment(tide_m=words.tide_m, mean_sea_level_m=words.mean_sea_level_m)
    off_centre = (words.off_centre_percent or 0.0) / 100.0
    radius_m = fitted.scale_m * (1.0 + off_centre)
    land = load_land(
        words.land,
        bounds=box_round(words.position, radius_m),
        water_level_m=environment.water_level_m,
        height_error_m=environment.height_error_m,
        coast_height_m=None,
        ground=ground,
        progress=Span(progress, 0.0, 0.7),
    )
    ashore = _ashore(land, words.position, fitted.antenna_height_m)
    progress.report(0.7, tr("working out the echoes"))
    heading_deg = words.heading_deg if words.heading_deg is not None else words.course_deg
    course_deg = words.course_deg if words.course_deg is not None else heading_deg or 0.0
    view = view_place(
        prepare_terrain(land),
        words.position,
        EchoBudget(
            radar=fitted.radar,
            pulse=fitted.pulse,
            antenna_height_m=fitted.antenna_height_m,
            conditions=Conditions(
                refraction_k=STANDARD_REFRACTION_K
                if words.refraction_k is None
                else words.refraction_k,
                sea_state=words.sea_state or 0.0,
                rain_mm_h=words.rain_mm_h or 0.0,
            ),
        ),
        scale_m=fitted.scale_m,
        heading_deg=None if heading_deg is None else heading_deg % 360.0,
        leeway_deg=words.leeway_deg or 0.0,
        off_centre_ratio=off_centre,
        sectors=fitted.sectors,
        targets=mark_targets(marks, fitted.radar.band),
    )
    orientation = Orientation(words.orientation or "north-up")
    frame = frame_of(
        view,
        orientation,
        size_px=words.size_px or DEFAULT_SIZE_PX,
        course_deg=course_deg % 360.0,
        off_centre_deg=words.off_centre_deg,
    )
    progress.report(0.9, tr("laying out the picture"))
    picture = make_picture(
        view, frame, orientation=orientation, controls=_controls(words, well_set(view))
    )
    progress.report(1.0)
    return PlacePicture(
        picture=picture,
        caption=caption_lines(
            picture,
            place="",
            sources=land.sources,
            water=water_words(words.tide_m, words.mean_sea_level_m),
        ),
        findings=(*fitted.findings, *mark_findings, *ground_findings, *land.findings, *ashore),
    )


def _controls(words: PictureWords, well: Controls) -> Controls:
    """Well set but for what was typed."""
    sea, rain = words.sea_clutter_percent, words.rain_clutter_percent
    return Controls(
        gain_db=well.gain_db if words.gain_db is None else words.gain_db,
        mistuning_db=well.mistuning_db if words.mistuning_db is None else words.mistuning_db,
        sea_clutter=well.sea_clutter if sea is None else sea / 100.0,
        rain_clutter=well.rain_clutter if rain is None else rain / 100.0,
        interference_rejection=words.interference_rejection,
        echo_stretch=words.echo_stretch,
    )


def _marks(words: PictureWords) -> tuple[tuple[Mark, ...], tuple[Finding, ...]]:
    if words.marks is None:
        return (), ()
    marks, findings, _sha256 = read_marks(words.marks)
    return tuple(mark for mark in marks if not is_place(mark.kind)), findings


def _ground(words: PictureWords) -> tuple[GroundCodes | None, tuple[Finding, ...]]:
    if words.classes is None:
        return None, ()
    ground, findings, _table, _sha256 = read_ground_table(words.classes)
    return ground, tuple(findings)


def _ashore(land: LandModel, position: Position, antenna_height_m: float) -> tuple[Finding, ...]:
    """What to say where the data has land at own ship's place.

    Raises
    ------
    InputError
        The land there is higher than the antenna.
    """
    rows, cols = land.lattice.row_col(np.array([position.lat_deg]), np.array([position.lon_deg]))
    row, col = round(float(rows[0])), round(float(cols[0]))
    if not (0 <= row < land.lattice.rows and 0 <= col < land.lattice.cols):
        return ()
    if land.cell[row, col] != Cell.LAND:
        return ()
    height_m = float(land.heights_m[row, col])
    if height_m >= antenna_height_m:
        raise InputError(
            tr(
                "the land data has land {height_m:.0f} m high at this place, above the antenna",
                height_m=height_m,
            ),
            where="--at",
            todo=tr("Give a place on the water"),
        )
    return (
        Finding(
            severity=Severity.CHECK,
            code="place-ashore",
            what=tr(
                "the land data has land {height_m:.0f} m high at this place", height_m=height_m
            ),
            todo=tr("Check the place; cells of the data are coarse"),
        ),
    )
