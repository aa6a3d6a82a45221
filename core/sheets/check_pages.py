"""Sheets of expected pictures at the tune checks, four a sheet, with their key."""

import math
from collections.abc import Sequence

from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.tune_result import Rung, TuneCheck
from core.sheets.check_key import check_key
from core.sheets.check_picture import (
    CheckPicture,
    check_picture_items,
    is_none_beside_others,
)
from core.sheets.page import (
    Item,
    Measure,
    Page,
    Rectangle,
    Text,
)
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import quantities, times
from core.words.calculated_words import calculated_words
from core.words.kept_words import shown
from core.words.messages import Say

PICTURES_A_SHEET = 4
_COLUMNS = 2
_GUTTER_MM = 6.0
_COLUMN_MM = (CONTENT_MM - _GUTTER_MM) / _COLUMNS
_GAP_MM = 2.0


def check_page_count(pictures: Sequence[CheckPicture]) -> int:
    """How many sheets they fill."""
    return math.ceil(len(pictures) / PICTURES_A_SHEET)


def check_pages(
    outcome: Outcome,
    pictures: Sequence[CheckPicture],
    *,
    first_number: int,
    page_count: int,
    measure: Measure,
) -> tuple[Page, ...]:
    """The sheets, numbered from ``first_number``; none without pictures."""
    if not pictures:
        return ()
    bottom, foot_top = foot(outcome, measure)
    intro = wrap(_intro(outcome, pictures), CONTENT_MM, measure)
    intro_mm = TOP_MM + 13.0 + line_mm(BODY_PT) + 1.0
    key, key_top = check_key(pictures, foot_top - 1.0, measure)
    captions = [_caption(outcome, picture, measure) for picture in pictures]
    top_mm = intro_mm + (len(intro) - 1) * line_mm(BODY_PT) + _GAP_MM
    row_mm = (key_top - _GAP_MM - top_mm) / (PICTURES_A_SHEET / _COLUMNS)
    caption_mm = max(len(lines) for lines in captions) * line_mm(BODY_PT)
    side_mm = min(row_mm - caption_mm - _GAP_MM, _COLUMN_MM)
    pages = []
    for number in range(check_page_count(pictures)):
        items: list[Item] = [
            *head_line(
                outcome, page_number=first_number + number, page_count=page_count, measure=measure
            ),
            Text(
                x_mm=LEFT_MM,
                y_mm=TOP_MM + 13.0,
                text=Say.CHECK_PICTURES,
                size_pt=14.0,
                is_bold=True,
            ),
            *_lines(LEFT_MM, intro_mm, intro, has_title=False),
            *key,
            *bottom,
        ]
        start = number * PICTURES_A_SHEET
        for place, picture in enumerate(pictures[start : start + PICTURES_A_SHEET]):
            square = Rectangle(
                x_mm=LEFT_MM + (place % _COLUMNS) * (_COLUMN_MM + _GUTTER_MM),
                y_mm=top_mm + (place // _COLUMNS) * row_mm,
                width_mm=side_mm,
                height_mm=side_mm,
            )
            items += check_picture_items(picture, _check(outcome, picture), square, measure)
            first_line = square.bottom_mm + line_mm(BODY_PT)
            items += _lines(square.x_mm, first_line, captions[start + place], has_title=True)
        pages.append(
            Page(
                width_mm=WIDTH_MM,
                height_mm=HEIGHT_MM,
                items=tuple(items),
                name=str(Say.CHECK_PICTURES),
            )
        )
    return tuple(pages)


def _check(outcome: Outcome, picture: CheckPicture) -> TuneCheck:
    check = outcome.plan.legs[picture.leg_index].tune_check
    if check is None:
        raise ValueError(f"leg {picture.leg_index + 1} has no tune check")
    return check


def _intro(outcome: Outcome, pictures: Sequence[CheckPicture]) -> str:
    """How to read them, and which legs have none."""
    shown = {picture.leg_index for picture in pictures}
    without = [str(leg.leg_index + 1) for leg in outcome.plan.legs if leg.leg_index not in shown]
    if not without:
        return str(Say.CHECK_PICTURES_MEAN)
    legs = Say.NO_CHECK_PICTURE.format(legs=", ".join(without))
    return f"{Say.CHECK_PICTURES_MEAN} {legs}"


def _caption(outcome: Outcome, picture: CheckPicture, measure: Measure) -> tuple[str, ...]:
    """Where and when; scale and pulse; what it was calculated for; steps that have no echo."""
    check, timetable = _check(outcome, picture), outcome.plan.timetable
    leg = outcome.plan.legs[picture.leg_index]
    pulse = picture.budget.pulse
    when = times.when_early(timetable, picture.leg_index, check.along_m)
    to_go = quantities.distance(leg.distance_m - check.along_m)
    centre = ""
    if picture.frame.off_centre_ratio > 0.0:
        share = quantities.percent(picture.frame.off_centre_ratio)
        centre = f", {Say.OFF_CENTRE.format(share=share, direction=Say.ASTERN)}"
    scale = Say.SCALE_COURSE_PULSE.format(
        scale=quantities.scale(check.scale_m),
        course=quantities.course(picture.frame.up_deg),
        pulse=shown(pulse.name),
        length=f"{pulse.length_s * 1e6:g}",
    )
    calculated = calculated_words(picture.budget)
    lines = [
        f"{Say.LEG} {picture.leg_index + 1}, {when} {times.zone_words(timetable)}, "
        f"{to_go} {Say.NM_TO_GO}",
        f"{scale}{centre}",
        calculated,
    ]
    missing = [
        str(Say.HIDDEN_ECHO) if rung is Rung.ABSENT else rung.shown
        for rung in Rung
        if check.echo(rung) is None
    ]
    notes = [Say.WITHOUT_ECHO.format(steps=tr(" or ").join(missing))] if missing else []
    if is_none_beside_others(picture, check):
        notes.append(str(Say.NONE_BESIDE_OTHERS))
    if notes:
        lines.append(_capital("; ".join(notes)))
    return tuple(part for line in lines for part in wrap(line, _COLUMN_MM, measure))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _lines(x: float, y: float, lines: Sequence[str], *, has_title: bool) -> list[Item]:
    return [
        Text(
            x_mm=x,
            y_mm=y + n * line_mm(BODY_PT),
            text=line,
            size_pt=BODY_PT,
            is_bold=has_title and n == 0,
        )
        for n, line in enumerate(lines)
    ]
