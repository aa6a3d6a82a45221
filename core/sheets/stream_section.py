"""What stream and leeway do to a leg, in a few lines beside its strip."""

from core.base.language import tr
from core.passage.motion import LegMotion
from core.plan.plan_result import LegPlan
from core.sheets.flow import Entry, Section
from core.words.messages import Say
from core.words.motion_words import brief_unallowed_words, given_words, headings_words


def stream_section(plan: LegPlan) -> tuple[Section, ...]:
    """One section where stream or leeway is given, else none."""
    motion = plan.motion
    if motion is None:
        return ()
    return (Section(title=Say.STREAM, entries=(_entry(plan, motion),), keep=1),)


def _entry(plan: LegPlan, motion: LegMotion) -> Entry:
    between = headings_words(motion, plan.course_deg)
    text = "; ".join(
        part
        for part in (given_words(motion), between and tr("heads {headings}", headings=between))
        if part
    )
    said = (text, brief_unallowed_words(plan, motion))
    return Entry(text=" ".join(f"{one[0].upper()}{one[1:]}." for one in said if one))
