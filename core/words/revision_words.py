"""What changed from one revision to the next, in words."""

from core.base.language import tr
from core.plan.revision import Change, LegRevision, PlanRevision, Revision, revise
from core.words.messages import Say
from core.words.old_plan_words import moment_words


def change_words(change: Change) -> str:
    """What an item says now, and what it said."""
    if not change.now:
        return Say.NO_LONGER.format(before=change.before)
    if change.before:
        return Say.NOW_WAS.format(now=change.now, before=change.before)
    return change.now


def revision_lines(revision: PlanRevision) -> list[str]:
    """A plan beside the last revision, leg by leg."""
    if revision.number == 1:
        return [str(Say.FIRST_REVISION)]
    lines = []
    if revision.is_issued:
        lines.append(Say.NOTHING_CHANGED.format(number=revision.number))
    for index in revision.marked():
        lines += _leg_lines(index + 1, revision.legs[index])
    lines += [Say.LEG_DROPPED.format(leg=leg) for leg in revision.dropped]
    unchanged = len(revision.legs) - len(revision.marked())
    if unchanged and not revision.is_issued:
        lines.append(Say.LEGS_UNCHANGED.format(count=unchanged))
    return lines


def _leg_lines(number: int, leg: LegRevision) -> list[str]:
    lines = [
        tr(
            "{word_for_leg} {number}, {start_name} to {end_name}",
            word_for_leg=Say.LEG,
            number=number,
            start_name=leg.facts.start_name,
            end_name=leg.facts.end_name,
        )
    ]
    if leg.is_new:
        lines.append(f"   {Say.NEW_LEG}")
    return lines + [f"   {change.what}: {change_words(change)}" for change in leg.changes]


def issued_words(revision: Revision) -> str:
    """Which revision, when and by whom it was issued, and why."""
    by = f", {revision.by}" if revision.by else tr(", by whom was not kept")
    note = f"\n{revision.note}" if revision.note else ""
    return f"{Say.REVISION} {revision.number}, {moment_words(revision.issued_utc)}{by}{note}"


def history_lines(revision: Revision, before: Revision | None) -> list[str]:
    """What changed in a revision that was issued, leg by leg."""
    plan = revise([leg.facts for leg in revision.legs], before, note=revision.note)
    lines = revision_lines(plan)
    if before is not None and before.number + 1 != revision.number:
        lines.insert(0, tr("Compared with revision {number}:", number=before.number))
    return [*lines, "", f"{Say.DIGEST} {revision.digest[:12]}"]
