"""The column of words beside the strip: scales, hand-overs, gaps, what is in sight, findings."""

from dataclasses import dataclass, replace

from core.base.findings import Finding, Severity
from core.coverage.coverage_result import Cause, Effect, Gap
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, ScaleStretch
from core.sheets.abort_list import abort_section
from core.sheets.fix_list import fix_section
from core.sheets.flow import Entry, Section
from core.sheets.leg_check_list import countdown_section
from core.sheets.must_not_list import MOST_MUST_NOT, must_not_section
from core.sheets.revision_marks import change_section
from core.sheets.setup_list import setup_section
from core.sheets.sight_list import says_less, sight_section
from core.sheets.stream_section import stream_section
from core.sheets.waters_list import waters_section
from core.words import quantities, times
from core.words.contingency_words import Abort
from core.words.emergence_words import Hidden
from core.words.kept_words import shown
from core.words.line_words import (
    agreement_words,
    corridor_words,
    long_fallbacks,
    override_list,
)
from core.words.messages import Say
from core.words.scale_words import sheet_words

MOST_FINDINGS = 5
"""More nag than they help (trade note 9.15); the rest is counted."""

_EFFECTS = {
    Effect.OBJECT: Say.EFFECT_OBJECT,
    Effect.FIRST_SIGHT: Say.EFFECT_FIRST_SIGHT,
    Effect.NONE: Say.EFFECT_NONE,
}
_CAUSES = {
    Cause.VOID: Say.CAUSE_VOID,
    Cause.MISSING: Say.CAUSE_MISSING,
    Cause.BEYOND_DATA: Say.CAUSE_BEYOND_DATA,
}
_IMPORTANCE: tuple[str, ...] = (
    Say.DATA_GAPS,
    Say.MUST_NOT_PAINT,
    Say.IN_SIGHT,
    Say.FIRST_PAINT,
    Say.SCALES,
    Hidden.TITLE,
    Say.CHANGES,
    Say.STREAM,
    Say.FINDINGS,
    Say.INDEX_GAPS,
    Say.HAND_OVERS,
    Abort.OWN_SECTION,
    Abort.SECTION,
)
"""From what gives way first. Gaps that matter stand on the bars and among the findings too."""
_ORDER = (Severity.MUST_FIX, Severity.CHECK, Severity.NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Elsewhere:
    """Where in the book a leg's sheet is continued, in words such as ``page 16``."""

    sights: str = Say.IN_PLAN_FILE
    rest: str = Say.IN_PLAN_FILE
    setups: str = Say.IN_PLAN_FILE
    fixes: str = Say.IN_PLAN_FILE
    contingencies: int | None = None
    """Page of the first contingency leg."""
    waters: str = Say.IN_PLAN_FILE


def leg_sections(
    outcome: Outcome,
    plan: LegPlan,
    *,
    elsewhere: Elsewhere | None = None,
    most_findings: int | None = MOST_FINDINGS,
    most_must_not: int = MOST_MUST_NOT,
) -> tuple[Section, ...]:
    """Sections of one leg, in the order in which they are printed.

    Parameters
    ----------
    elsewhere : Elsewhere or None
        Where what does not fit is found; None says the plan file.
    most_findings : int or None
        None for all.
    most_must_not : int
        How many of the objects that must not paint; the rest is counted.
    """
    elsewhere = elsewhere or Elsewhere()
    timetable = outcome.plan.timetable
    rest = (
        _findings(outcome, plan, most_findings),
        change_section(outcome, plan.leg_index),
        *abort_section(outcome, plan, elsewhere.contingencies),
        *stream_section(plan),
        _scales(plan, timetable),
        _hand_overs(plan, timetable),
        _index_gaps(plan, timetable),
        _data_gaps(plan),
    )
    sights = sight_section(outcome, plan, where=elsewhere.sights, is_shortened=says_less(plan))
    *before, last = (replace(section, where=elsewhere.rest) for section in rest)
    hidden = replace(must_not_section(outcome, plan, most_must_not), where=elsewhere.rest)
    waters = waters_section(outcome, plan, where=elsewhere.waters)
    ranked = (
        replace(one, importance=_IMPORTANCE.index(one.title))
        for one in (*before, waters, sights, hidden, last)
    )
    return (
        *ranked,
        countdown_section(outcome, plan, where=elsewhere.fixes),
        fix_section(plan, where=elsewhere.fixes),
        setup_section(plan, timetable, where=elsewhere.setups),
    )


def leg_findings(outcome: Outcome, leg_number: int) -> tuple[Finding, ...]:
    """Findings of one leg, worst first."""
    own = [finding for finding in outcome.findings if finding.where.leg_number == leg_number]
    return tuple(sorted(own, key=lambda finding: _ORDER.index(finding.severity)))


def finding_entry(finding: Finding) -> Entry:
    """A finding in words: how bad in capitals, what, what to do."""
    text = finding.what.rstrip(".") + "."
    if finding.todo:
        text += f" {finding.todo.rstrip('.')}."
    text = text[0].upper() + text[1:]
    return Entry(
        lead=finding.severity.shown.upper(), text=text, reference=f"finding:{finding.code}"
    )


def _findings(outcome: Outcome, plan: LegPlan, most: int | None) -> Section:
    """The worst; the rest is counted."""
    own = leg_findings(outcome, plan.leg_index + 1)
    shown = own[:most]
    entries = tuple(finding_entry(finding) for finding in shown)
    if not entries:
        entries = (Entry(text=str(Say.NO_FINDINGS)),)
    return Section(
        title=Say.FINDINGS,
        entries=entries,
        left_out=len(own) - len(shown),
        keep=max(1, sum(1 for f in shown if f.severity is Severity.MUST_FIX)),
    )


def _scales(plan: LegPlan, timetable: Timetable) -> Section:
    return Section(
        title=Say.SCALES,
        entries=tuple(
            Entry(lead=_scale_lead(plan, stretch, timetable), text=_scale_text(plan, stretch))
            for stretch in plan.scales
        ),
    )


def _scale_lead(plan: LegPlan, stretch: ScaleStretch, timetable: Timetable) -> str:
    lead = f"{quantities.scale(stretch.scale_m)}, {stretch.radar}"
    is_whole = stretch.from_along_m <= 0.0 and stretch.to_along_m >= plan.distance_m - 1.0
    if not is_whole:
        span = times.span(timetable, plan.leg_index, stretch.from_along_m, stretch.to_along_m)
        lead += f", {span}"
    return lead


def _scale_text(plan: LegPlan, stretch: ScaleStretch) -> str:
    if stretch.off_centre_direction is None or stretch.off_centre_ratio == 0.0:
        centre = str(Say.CENTRED)
    else:
        centre = Say.OFF_CENTRE.format(
            share=quantities.percent(stretch.off_centre_ratio),
            direction=shown(stretch.off_centre_direction),
        )
    parts = [centre]
    if stretch.pulse:
        parts.append(Say.PULSE.format(pulse=stretch.pulse))
    corridor = corridor_words(plan, stretch)
    return "; ".join((", ".join(parts), *sheet_words(stretch), *((corridor,) if corridor else ())))


def _hand_overs(plan: LegPlan, timetable: Timetable) -> Section:
    entries = []
    for number, hand_over in enumerate(plan.hand_overs):
        start, stop = hand_over.from_along_m, hand_over.to_along_m
        text = (
            f"{times.span(timetable, plan.leg_index, start, stop)}, "
            f"{quantities.distance(stop - start)}, {times.duration(hand_over.minutes)}; "
            f"{agreement_words(hand_over)}"
        )
        if hand_over.fallback:
            text += f"; {Say.FALLBACK.format(object=hand_over.fallback)}"
        lead = Say.HAND_OVER_FROM_TO.format(start=hand_over.from_object, stop=hand_over.to_object)
        entries.append(Entry(lead=lead, text=text, reference=f"hand-over:{number}"))
    fallbacks = long_fallbacks(plan)
    if fallbacks:
        entries.append(Entry(lead=f"{Say.IF_NOT_SEEN}:", text=fallbacks, is_inline=True))
    chosen = override_list(plan)
    if chosen:
        entries.append(Entry(lead=f"{Say.BY_OFFICER}:", text=chosen, is_inline=True))
    return Section(title=Say.HAND_OVERS, entries=tuple(entries))


def _index_gaps(plan: LegPlan, timetable: Timetable) -> Section:
    entries = []
    for number, gap in enumerate(plan.index_gaps):
        span = times.span(timetable, plan.leg_index, gap.from_along_m, gap.to_along_m)
        length = quantities.distance(gap.to_along_m - gap.from_along_m)
        lead = f"{span}, {length}, {times.duration(gap.minutes)}"
        text = Say.GAP_SUBSTITUTE.format(substitute=gap.substitute)
        entries.append(Entry(lead=lead, text=text, reference=f"index-gap:{number}"))
    return Section(title=Say.INDEX_GAPS, entries=tuple(entries))


def _data_gaps(plan: LegPlan) -> Section:
    """Gaps that matter first; those that hide nothing last."""
    ranked = sorted(plan.gaps, key=lambda gap: gap.effect is Effect.NONE)
    entries = tuple(Entry(text=gap_words(gap)) for gap in ranked)
    return Section(title=Say.DATA_GAPS, entries=entries)


def gap_words(gap: Gap) -> str:
    """A gap in the data: cause, sector, range and what it can hide."""
    words = Say.DATA_GAP.format(
        cause=_CAUSES[gap.cause],
        sector=quantities.sector(gap.bearing_from_deg, gap.bearing_to_deg),
        range=quantities.range_down(gap.range_from_m),
        effect=_EFFECTS[gap.effect],
    )
    return words[0].upper() + words[1:]
