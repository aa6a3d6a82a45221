"""The index table of a leg as rows of words: lines, gaps and hand-overs with their reasons."""

from app.views.plan_rows import range_words, to_go, use_words
from app.views.table_model import Row
from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import HandOver, IndexGap, IndexLine, LegPlan, Override, Role
from core.words import quantities, times
from core.words.line_words import agreement_words, fallback_words
from core.words.reasons import beside_choice, sentence

INDEX_HEADS = (
    tr("Use"),
    tr("Object"),
    tr("Side"),
    tr("Range"),
    tr("Line °T"),
    tr("Cut NM"),
    tr("NM to go"),
)


def _choice_words(leg: LegPlan, line: IndexLine, chosen: tuple[Override, ...]) -> str:
    """What became of the officer's choice for a line; empty where there is none to tell."""
    planned = {x.override for x in leg.lines if x.role is line.role and x.override is not None}
    here = [o for o in chosen if o.is_for(line.from_along_m, line.to_along_m)]
    new = [o.object_id for o in here if o not in planned]
    if new:
        return tr("CHANGED to {object_id}, compute again", object_id=new[0])
    if not here and line.override is not None:
        return tr("choice taken back, compute again")
    return ""


def _line_rows(
    outcome: Outcome, leg: LegPlan, line: IndexLine, chosen: tuple[Override, ...]
) -> tuple[Row, Row]:
    """A line to key in, and under it why it was chosen."""
    why = sentence(line.reason)
    if line.override is not None:
        remark = f": {line.override.remark}" if line.override.remark else ""
        why = beside_choice(line.reason)
        why = tr("officer's choice{remark}; {why}", remark=remark, why=why)
    if line.role in (Role.PRIMARY, Role.CHECK):
        why += tr("; if not seen: {fallback}", fallback=fallback_words(leg, line))
    pending = _choice_words(leg, line, chosen)
    if pending:
        why = f"{pending}; {why}"
    confirm = tr("; confirm on the chart") if line.object.confirm_on_chart else ""
    span = times.span(outcome.plan.timetable, leg.leg_index, line.from_along_m, line.to_along_m)
    figures = Row(
        cells=(
            use_words(line.role),
            line.object.id,
            quantities.side(line.side),
            range_words(line),
            quantities.line_directions(line.line_bearing_deg),
            _cut(leg, line),
            to_go(leg, line.from_along_m, line.to_along_m),
        ),
        tip=tr(
            "{object_id}: {name}{confirm}. Line {line_directions}, range to its "
            "{edge} in NM, read on the {scale} scale {uncertainty} as read, "
            "in use {span} {zone}; cut ahead and astern in NM. {why}",
            object_id=line.object.id,
            name=line.object.name,
            confirm=confirm,
            line_directions=quantities.line_directions(line.line_bearing_deg),
            edge=line.object.edge.shown,
            scale=quantities.scale(line.range_scale_m),
            uncertainty=quantities.uncertainty(line.uncertainty_m),
            span=span,
            zone=times.zone_words(outcome.plan.timetable),
            why=why,
        ),
        is_alert=bool(pending),
        subject=line,
    )
    note = Row(cells=(why,), tip=figures.tip, is_alert=bool(pending), is_note=True, subject=line)
    return figures, note


def _cut(leg: LegPlan, line: IndexLine) -> str:
    """Where to cut the line short, ahead and astern of own ship, NM."""
    for key in leg.key_in:
        if key.line == line:
            ahead, astern = key.truncate_ahead_m, key.truncate_astern_m
            return f"{quantities.miles(ahead, 1)}/{quantities.miles(astern, 1)}"
    return quantities.DASH


def _gap_rows(leg: LegPlan, gap: IndexGap) -> tuple[Row, Row]:
    words = tr(
        "No index for {duration}. Instead: {substitute}",
        duration=times.duration(gap.minutes),
        substitute=gap.substitute,
    )
    return _bare_rows(
        tr("GAP"), quantities.DASH, to_go(leg, gap.from_along_m, gap.to_along_m), words
    )


def _hand_over_rows(leg: LegPlan, pass_on: HandOver) -> tuple[Row, Row]:
    fallback = (
        tr("; if one fails use {fallback}", fallback=pass_on.fallback) if pass_on.fallback else ""
    )
    agree = agreement_words(pass_on)
    return _bare_rows(
        tr("hand-over"),
        f"{pass_on.from_object} → {pass_on.to_object}",
        to_go(leg, pass_on.from_along_m, pass_on.to_along_m),
        tr(
            "both usable for {duration}, {agree}{fallback}",
            duration=times.duration(pass_on.minutes),
            agree=agree,
            fallback=fallback,
        ),
    )


def _bare_rows(use: str, objects: str, where: str, words: str) -> tuple[Row, Row]:
    alert = use.isupper()
    dash = quantities.DASH
    cells = (use, objects, dash, dash, dash, dash, where)
    return (
        Row(cells=cells, tip=words, is_alert=alert),
        Row(cells=(words,), tip=words, is_alert=alert, is_note=True),
    )


def index_rows(outcome: Outcome, leg: LegPlan, overrides: tuple[Override, ...]) -> tuple[Row, ...]:
    """Index lines with their reasons, then gaps and hand-overs; figures, then a note, by turns.

    Parameters
    ----------
    overrides : tuple of Override
        The officer's choices as they are now; what the plan does not hold yet is said.
    """
    own = tuple(o for o in overrides if o.leg_number == leg.leg_index + 1)
    pairs = [
        _line_rows(outcome, leg, line, tuple(o for o in own if o.role == line.role.value))
        for line in leg.lines
    ]
    pairs += [_gap_rows(leg, gap) for gap in leg.index_gaps]
    pairs += [_hand_over_rows(leg, pass_on) for pass_on in leg.hand_overs]
    if leg.no_index_reason:
        pairs.insert(
            0, _bare_rows(tr("NONE"), quantities.DASH, quantities.DASH, leg.no_index_reason)
        )
    return tuple(row for pair in pairs for row in pair)
