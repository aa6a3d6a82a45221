"""Range scales and radar fixes leg by leg as rows of a list."""

from collections.abc import Iterator

from core.passage.timetable import Timetable
from core.plan.fix_result import Fix, LegFixes
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, ScaleStretch
from core.sheets.flow import Section
from core.sheets.leg_check_list import check_list_rows
from core.sheets.list_pages import Group
from core.sheets.tables import Cell, Column, Row
from core.words import quantities, times
from core.words.fix_words import (
    cross_words,
    interval_words,
    leg_words,
    measure_words,
    quality_words,
)
from core.words.kept_words import shown
from core.words.messages import Say
from core.words.scale_words import shows_words, why_words

_MOST_ROWS = 24
"""Of a leg; beyond it only where the objects change, and in the middle."""


def fix_columns(timetable: Timetable) -> tuple[Column, ...]:
    """What, when, what to measure, how good it is, and a box for what was read."""
    return (
        Column(head=Say.COLUMN_SCALE_FIX, width_mm=27.0),
        Column(head=f"{times.zone_short(timetable)}, {Say.NM_TO_GO_HEAD}", width_mm=29.0),
        Column(head=Say.COLUMN_MEASURE, width_mm=62.0),
        Column(head=Say.COLUMN_GOOD_TO, width_mm=54.0),
        Column(head=Say.COLUMN_READ, width_mm=16.0),
    )


def fix_groups(outcome: Outcome) -> list[Group]:
    """A group a leg: its scales, its fixes, how well the track is kept, its checks."""
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    groups = []
    for leg in outcome.plan.legs:
        start, stop = names[leg.leg_index : leg.leg_index + 2]
        title = f"{Say.LEG} {leg.leg_index + 1}, {Say.FROM_TO.format(start=start, stop=stop)}"
        rows = (
            *_scale_rows(leg, outcome.plan.timetable),
            *_fix_rows(leg, outcome.plan.timetable),
            *check_list_rows(outcome, leg),
        )
        groups.append(Group(title=title, rows=rows, is_kept_whole=False))
    return groups


def fix_section(leg: LegPlan, *, where: str) -> Section:
    """One line on the sheet of the leg: how good radar fixes are, and where they stand."""
    fixing = leg.fixing
    return Section(
        title="" if fixing is None else leg_words(fixing),
        entries=(),
        left_out=0 if fixing is None else len(fixing.fixes),
        where=where,
        is_pointer=True,
    )


def _scale_rows(leg: LegPlan, timetable: Timetable) -> Iterator[Row]:
    for stretch in leg.scales:
        yield Row(
            cells=(
                Cell(text=quantities.scale(stretch.scale_m), beside=stretch.radar, is_bold=True),
                Cell(
                    text=times.span(
                        timetable, leg.leg_index, stretch.from_along_m, stretch.to_along_m
                    ),
                    second=_to_go(leg, stretch.from_along_m, stretch.to_along_m),
                ),
                Cell(text=_centred(stretch, why_words(stretch))),
                Cell(text="; ".join(shows_words(stretch))),
                Cell(),
            ),
            reference="scale",
        )


def _centred(stretch: ScaleStretch, reason: str) -> str:
    if stretch.off_centre_direction is None:
        return f"{Say.CENTRED}; {reason}"
    centre = Say.OFF_CENTRE.format(
        share=quantities.percent(stretch.off_centre_ratio),
        direction=shown(stretch.off_centre_direction),
    )
    return f"{centre}; {reason}"


def _fix_rows(leg: LegPlan, timetable: Timetable) -> Iterator[Row]:
    fixing = leg.fixing
    if fixing is None:
        return
    shown = shown_fixes(fixing)
    for number, run in enumerate(_runs(shown)):
        fix, last = run[0], run[-1]
        when = times.when(timetable, leg.leg_index, fix.along_m)
        to_go = quantities.miles(leg.distance_m - fix.along_m)
        if len(run) > 1:
            when = times.span(timetable, leg.leg_index, fix.along_m, last.along_m)
            to_go = ""
        yield Row(
            cells=(
                Cell(text=f"{Say.FIX} {interval_words(fixing)}" if number == 0 else str(Say.FIX)),
                Cell(text=when, beside=to_go, is_bold=True),
                Cell(text=measure_words(fix), is_bold=bool(fix.objects)),
                Cell(text=quality_words(_best_cut(run), fixing.corridor_m)),
                Cell(is_blank_box=bool(fix.objects)),
            ),
            reference="fix",
        )
    left = len(fixing.fixes) - len(shown)
    if left:
        words = Say.MORE_ELSEWHERE.format(count=left, where=Say.IN_PLAN_FILE)
        yield Row(cells=(), note=words, reference="fix")
    worst = fixing.worst_cross
    if worst is not None:
        yield Row(
            cells=(
                Cell(text=str(Say.TRACK_KEPT)),
                Cell(
                    text=times.span(timetable, leg.leg_index, worst.from_along_m, worst.to_along_m),
                    second=_to_go(leg, worst.from_along_m, worst.to_along_m),
                ),
                Cell(text=cross_words(worst)),
                Cell(text=str(Say.ALL_INDEXED)),
                Cell(),
            ),
            reference="fix",
        )


def _runs(fixes: tuple[Fix, ...]) -> list[list[Fix]]:
    """Fixes one by one, but those that are none for the same reason together."""
    runs: list[list[Fix]] = []
    for fix in fixes:
        before = runs[-1][0] if runs else None
        if before and not fix.objects and not before.objects and _alike(fix, before):
            runs[-1].append(fix)
        else:
            runs.append([fix])
    return runs


def _alike(fix: Fix, other: Fix) -> bool:
    """Whether two places have no fix for the same kind of reason."""
    if fix.reason is None or other.reason is None:
        return fix.reason is other.reason
    return fix.reason.code == other.reason.code


def _best_cut(run: list[Fix]) -> Fix:
    """Of places whose ranges cut too finely the one where they cut best."""

    def off_square_deg(fix: Fix) -> float:
        cut = dict(fix.reason.values).get("cut_deg") if fix.reason is not None else None
        return 90.0 if cut is None else abs(float(cut) - 90.0)

    return min(run, key=off_square_deg)


def shown_fixes(fixing: LegFixes) -> tuple[Fix, ...]:
    """All fixes of a leg, or on long legs the first, middle and last and where objects change."""
    fixes = fixing.fixes
    if len(fixes) <= _MOST_ROWS:
        return fixes
    kept = {0, len(fixes) // 2, len(fixes) - 1}
    sets = [frozenset(o.object_id for o in fix.objects) for fix in fixes]
    kept |= {n for n in range(1, len(fixes)) if sets[n] != sets[n - 1]}
    return tuple(fixes[n] for n in sorted(kept))


def _to_go(leg: LegPlan, from_along_m: float, to_along_m: float) -> str:
    return (
        f"{quantities.miles(leg.distance_m - from_along_m)}{quantities.DASH}"
        f"{quantities.miles(leg.distance_m - to_along_m)} {Say.NM_TO_GO}"
    )
