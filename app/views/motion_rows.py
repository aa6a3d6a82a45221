"""Heading, speeds, stream and leeway of a leg as rows; none where neither is given."""

from app.views.table_model import Row
from core.plan.plan_result import LegPlan
from core.words.motion_words import (
    given_words,
    headings_words,
    speeds_words,
    steer_words,
    unallowed_words,
)


def motion_rows(leg: LegPlan) -> tuple[Row, ...]:
    """What is steered and made good, a fact a row."""
    motion = leg.motion
    if motion is None:
        return ()
    steer = steer_words(motion, leg.course_deg).removeprefix("steer ")
    between = headings_words(motion, leg.course_deg)
    facts = (
        ("Heading to steer", f"{steer}, with leeway {between}" if between else steer),
        ("Speed", speeds_words(motion)),
        ("On this leg", given_words(motion)),
        ("Left alone", unallowed_words(leg, motion)),
    )
    return tuple(Row(cells=fact) for fact in facts if fact[1])
