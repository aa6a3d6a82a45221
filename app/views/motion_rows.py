"""Heading, speeds, stream and leeway of a leg as rows; none where neither is given."""

from app.views.table_model import Row
from core.base.language import tr
from core.plan.plan_result import LegPlan
from core.words import quantities
from core.words.motion_words import (
    given_words,
    headings_words,
    speeds_words,
    unallowed_words,
)


def motion_rows(leg: LegPlan) -> tuple[Row, ...]:
    """What is steered and made good, a fact a row."""
    motion = leg.motion
    if motion is None:
        return ()
    steer = quantities.course(motion.heading_deg(leg.course_deg))
    between = headings_words(motion, leg.course_deg)
    facts = (
        (
            tr("Heading to steer"),
            tr("{steer}, with leeway {headings}", steer=steer, headings=between)
            if between
            else steer,
        ),
        (tr("Speed"), speeds_words(motion)),
        (tr("On this leg"), given_words(motion)),
        (tr("Left alone"), unallowed_words(leg, motion)),
    )
    return tuple(Row(cells=fact) for fact in facts if fact[1])
