"""The column of words beside the strip: scales, hand-overs, gaps, what is in sight, findings."""

from core.base.findings import Finding, Severity
from core.coverage.coverage_result import Cause, Effect, FirstSight, Gap
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, ScaleStretch
from core.sheets.flow import Entry, Section
from core.words import quantities, times
from core.words.messages import Say
from core.words.reasons import sentence

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
_ORDER = (Severity.MUST_FIX, Severity.CHECK, Severity.NOTE)


def leg_sections(
    outcome: Outcome, plan: LegPlan, *, most_findings: int | None = MOST_FINDINGS
) -> tuple[Section, ...]:
    """Sections of one leg, in the order in which they are printed."""
    timetable = outcome.plan.timetable
    return (
        _findings(outcome, plan, most_findings),
        _scales(plan, timetable),
        _hand_overs(plan, timetable),
        _index_gaps(plan, timetable),
        _sights(plan, timetable),
        _data_gaps(plan),
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
        lead=finding.severity.value.upper(), text=text, reference=f"finding:{finding.code}"
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
            Entry(lead=_scale_lead(plan, stretch, timetable), text=_scale_text(stretch))
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


def _scale_text(stretch: ScaleStretch) -> str:
    if stretch.off_centre_direction is None or stretch.off_centre_ratio == 0.0:
        centre = str(Say.CENTRED)
    else:
        centre = Say.OFF_CENTRE.format(
            share=quantities.percent(stretch.off_centre_ratio),
            direction=stretch.off_centre_direction,
        )
    parts = [centre]
    if stretch.pulse:
        parts.append(Say.PULSE.format(pulse=stretch.pulse))
    parts.append(sentence(stretch.reason))
    return ", ".join(parts)


def _hand_overs(plan: LegPlan, timetable: Timetable) -> Section:
    entries = []
    for number, hand_over in enumerate(plan.hand_overs):
        start, stop = hand_over.from_along_m, hand_over.to_along_m
        text = (
            f"{times.span(timetable, plan.leg_index, start, stop)}, "
            f"{quantities.distance(stop - start)}, {times.duration(hand_over.minutes)}"
        )
        if hand_over.fallback:
            text += f"; {Say.FALLBACK.format(object=hand_over.fallback)}"
        lead = Say.HAND_OVER_FROM_TO.format(start=hand_over.from_object, stop=hand_over.to_object)
        entries.append(Entry(lead=lead, text=text, reference=f"hand-over:{number}"))
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


def _sights(plan: LegPlan, timetable: Timetable) -> Section:
    """Objects the leg uses first, then what comes in sight on the leg, then the rest."""
    used = {line.object.id for line in plan.lines}

    def rank(sight: FirstSight) -> tuple[int, float]:
        moment = sight.in_sight_from
        if sight.object_id in used:
            return 0, 0.0 if moment is None else moment.along_m
        if moment is None:
            return 3, 0.0
        return (1 if moment.along_m > 0.0 else 2), moment.along_m

    return Section(
        title=Say.IN_SIGHT,
        entries=tuple(
            Entry(
                lead=sight.object_id,
                text=sight_words(plan, sight, timetable, has_name=sight.object_id not in used),
                is_inline=True,
                reference=f"sight:{sight.object_id}",
            )
            for sight in sorted(plan.first_sights, key=rank)
        ),
        keep=1,
    )


def sight_words(
    plan: LegPlan, sight: FirstSight, timetable: Timetable, *, has_name: bool = True
) -> str:
    """From when an object is in sight and when it is lost, geometry only."""
    moment = sight.in_sight_from
    name = f"{sight.name}: " if has_name and sight.name != sight.object_id else ""
    if moment is None:
        return name + sight.in_sight_from_reason
    if moment.along_m <= 0.0:
        words = f"{Say.IN_SIGHT_FROM} {Say.START_OF_LEG}"
    else:
        words = f"{Say.IN_SIGHT_FROM} {times.when_early(timetable, plan.leg_index, moment.along_m)}"
    words += f", {quantities.radar_range(moment.range_m)}, {quantities.course(moment.bearing_deg)}"
    if sight.lost is not None:
        words += f"; {Say.LOST} {times.when_early(timetable, plan.leg_index, sight.lost.along_m)}"
    return name + words


def _data_gaps(plan: LegPlan) -> Section:
    """Gaps that matter first; those that hide nothing last."""
    ranked = sorted(plan.gaps, key=lambda gap: gap.effect is Effect.NONE)
    entries = tuple(Entry(text=gap_words(gap)) for gap in ranked)
    return Section(title=Say.DATA_GAPS, entries=entries, keep=0)


def gap_words(gap: Gap) -> str:
    """A gap in the data: cause, sector, range and what it can hide."""
    words = Say.DATA_GAP.format(
        cause=_CAUSES[gap.cause],
        sector=quantities.sector(gap.bearing_from_deg, gap.bearing_to_deg),
        range=quantities.range_down(gap.range_from_m),
        effect=_EFFECTS[gap.effect],
    )
    return words[0].upper() + words[1:]
