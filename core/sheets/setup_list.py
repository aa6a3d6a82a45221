"""Set-up cards leg by leg as rows of a list: settings with reasons, then the tune check."""

from collections.abc import Iterator, Sequence

from core.passage.timetable import Timetable
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.reason import Reason
from core.plan.setup_result import Control, SetupRow
from core.plan.tune_result import Rung, TuneCheck, TuneRung
from core.sheets.flow import Section
from core.sheets.list_pages import Group
from core.sheets.page import Anchor
from core.sheets.short_names import described
from core.sheets.tables import Cell, Column, Row
from core.words import quantities, times
from core.words.card_words import why_words
from core.words.contingency_words import title as contingency_title
from core.words.messages import Say
from core.words.reasons import sentence
from core.words.setup_words import COMMON_PRACTICE_SIGN, control_words, rung_words

_Said = tuple[Control, Reason, Reason]
_USUAL = (
    Control.RADAR,
    Control.GAIN,
    Control.SEA_CLUTTER,
    Control.RAIN_CLUTTER,
    Control.INTERFERENCE,
    Control.STRETCH,
    Control.TRAILS,
    Control.VECTOR,
)
"""Controls that most legs set alike."""
_BY_STRETCH = (Control.SCALE, Control.OFF_CENTRE, Control.PULSE)
"""Set together where the scale changes."""


def setup_columns() -> tuple[Column, ...]:
    """What is set, how, why, and a box for what was set or seen."""
    return (
        Column(head=Say.COLUMN_CONTROL, width_mm=29.0),
        Column(head=Say.COLUMN_SETTING, width_mm=62.0),
        Column(head=f"{Say.COLUMN_WHY} ({Say.COMMON_PRACTICE})", width_mm=79.0),
        Column(head=Say.COLUMN_SET_SEEN, width_mm=18.0, anchor=Anchor.MIDDLE),
    )


def setup_groups(outcome: Outcome) -> list[Group]:
    """What most legs have alike, which may be nothing, then a group a leg with what is its own.

    Contingency legs come last.
    """
    legs, timetable = outcome.plan.legs, outcome.plan.timetable
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    usual = usual_rows(legs)
    groups = [
        Group(
            title=str(Say.ON_EVERY_LEG),
            rows=tuple(_setting_row(legs[0], row, timetable, is_timed=False) for row in usual),
            is_kept_whole=True,
        )
    ]
    said = frozenset(_said(row) for row in usual)
    for leg in legs:
        start, stop = names[leg.leg_index : leg.leg_index + 2]
        title = f"{Say.LEG} {leg.leg_index + 1}, {Say.FROM_TO.format(start=start, stop=stop)}"
        rows = (*_own_rows(leg, said, timetable), *_check_rows(leg, timetable))
        groups.append(Group(title=title, rows=rows, is_kept_whole=True))
    for one in outcome.contingencies:
        rows = tuple(_own_rows(one.leg, said, one.outcome.plan.timetable))
        groups.append(Group(title=contingency_title(one.at), rows=rows, is_kept_whole=True))
    return groups


def setup_section(leg: LegPlan, timetable: Timetable, *, where: str) -> Section:
    """One line on the sheet of the leg that says where its card is, and when its tune check."""
    title = str(Say.SET_UP)
    if leg.tune_check is not None:
        when = times.when_early(timetable, leg.leg_index, leg.tune_check.along_m)
        title = Say.SET_UP_AND_CHECK.format(time=when)
    return Section(title=title, entries=(), left_out=len(_rows(leg)), where=where, is_pointer=True)


def usual_rows(legs: Sequence[LegPlan]) -> tuple[SetupRow, ...]:
    """For each control, the setting that holds all along more than half of the legs, if any.

    None for a passage of one leg, whose card says all itself.
    """
    if len(legs) < 2:
        return ()
    found: dict[_Said, list[SetupRow]] = {}
    for leg in legs:
        for row in _rows(leg):
            if row.control in _USUAL and _is_whole(leg, row):
                found.setdefault(_said(row), []).append(row)
    usual = [rows[0] for rows in found.values() if 2 * len(rows) > len(legs)]
    return tuple(sorted(usual, key=lambda row: _USUAL.index(row.control)))


def _rows(leg: LegPlan) -> tuple[SetupRow, ...]:
    return () if leg.setup is None else leg.setup.rows


def _said(row: SetupRow) -> _Said:
    return row.control, row.setting, row.reason


def _is_whole(leg: LegPlan, row: SetupRow) -> bool:
    return row.from_along_m <= 0.0 and row.to_along_m >= leg.distance_m - 1.0


def _own_rows(leg: LegPlan, said: frozenset[_Said], timetable: Timetable) -> Iterator[Row]:
    """Rows of a leg but for the usual ones; scale, centre and pulse of a stretch in one row."""
    rows = _rows(leg)
    for row in rows:
        if row.control is Control.SCALE:
            yield _stretch_row(leg, row, rows, timetable)
        elif row.control not in _BY_STRETCH and _said(row) not in said:
            yield _setting_row(leg, row, timetable)


def _stretch_row(
    leg: LegPlan, scale: SetupRow, rows: tuple[SetupRow, ...], timetable: Timetable
) -> Row:
    middle = (scale.from_along_m + scale.to_along_m) / 2.0
    centre, pulse = (
        next(
            row
            for row in rows
            if row.control is control and row.from_along_m <= middle <= row.to_along_m
        )
        for control in (Control.OFF_CENTRE, Control.PULSE)
    )
    setting = f"{sentence(scale.setting)}, {sentence(centre.setting)}, {sentence(pulse.setting)}"
    why = f"{sentence(scale.reason)}; {sentence(pulse.reason)}{COMMON_PRACTICE_SIGN}"
    return Row(
        cells=(
            Cell(text=str(Say.SCALE_CENTRE_PULSE)),
            Cell(text=setting, second=_span(leg, scale, timetable), is_bold=True),
            Cell(text=why),
            Cell(is_blank_box=True),
        ),
        reference="setup:scale",
    )


def _span(leg: LegPlan, row: SetupRow, timetable: Timetable) -> str:
    """When it holds; empty for all along."""
    if _is_whole(leg, row):
        return ""
    span = times.span(timetable, leg.leg_index, row.from_along_m, row.to_along_m)
    return f"{span} {times.zone_words(timetable)}"


def _setting_row(
    leg: LegPlan, row: SetupRow, timetable: Timetable, *, is_timed: bool = True
) -> Row:
    span = _span(leg, row, timetable) if is_timed else ""
    why = ", ".join(part for part in (span, why_words(row, is_short=True)) if part)
    sign = COMMON_PRACTICE_SIGN if row.is_common_practice else ""
    return Row(
        cells=(
            Cell(text=control_words(row)),
            Cell(text=sentence(row.setting), is_bold=True),
            Cell(text=f"{why}{sign}"),
            Cell(is_blank_box=True),
        ),
        reference=f"setup:{row.control.name.lower()}",
    )


def _check_rows(leg: LegPlan, timetable: Timetable) -> tuple[Row, ...]:
    check = leg.tune_check
    if check is None:
        reason = leg.tune_check_reason
        why = "" if reason is None else sentence(reason)
        return (
            Row(
                cells=(
                    Cell(text=str(Say.TUNE_CHECK)),
                    Cell(text=str(Say.NONE), is_bold=True),
                    Cell(text=why),
                    Cell(),
                ),
                reference="tune",
            ),
        )
    return (
        _place_row(leg, check, timetable),
        *(_rung_row(step) for step in check.rungs),
        _observed_row(),
    )


def _place_row(leg: LegPlan, check: TuneCheck, timetable: Timetable) -> Row:
    when = times.when_early(timetable, leg.leg_index, check.along_m)
    to_go = quantities.distance(leg.distance_m - check.along_m)
    where = f"{when} {times.zone_words(timetable)}, {to_go} {Say.NM_TO_GO}"
    return Row(
        cells=(
            Cell(text=str(Say.TUNE_CHECK), is_bold=True),
            Cell(
                text=where,
                second=Say.ON_SCALE.format(
                    scale=quantities.scale(check.scale_m), pulse=check.pulse
                ),
                is_bold=True,
            ),
            Cell(text=sentence(check.reason)),
            Cell(text=""),
        ),
        reference="tune",
    )


def _rung_row(step: TuneRung) -> Row:
    echo = step.echo
    if echo is None:
        cells = (
            Cell(text=rung_words(step.rung)),
            Cell(text=str(Say.NONE)),
            Cell(text=sentence(step.reason)),
            Cell(),
        )
        return Row(cells=cells, reference="tune")
    figures = f"{quantities.radar_range(echo.range_m)} {quantities.course(echo.bearing_deg)}"
    name = "" if echo.name == echo.object_id else described(echo.name, None)
    why = sentence(step.reason)
    # What it has to spare stands beside its place, what hides it beside its name.
    beside, below = ("", why) if step.rung is Rung.ABSENT else (f", {why}", "")
    return Row(
        cells=(
            Cell(text=rung_words(step.rung)),
            Cell(text=f"{echo.object_id}  {figures}{beside}", is_bold=True),
            Cell(text="; ".join(part for part in (name, below) if part)),
            Cell(text=str(Say.YES_NO)),
        ),
        reference=f"tune:{echo.object_id}",
    )


def _observed_row() -> Row:
    """Boxes for what was found: gain, time, who."""
    box = Cell(is_blank_box=True)
    return Row(cells=(Cell(text=str(Say.FOUND)), box, box, box), reference="tune")
