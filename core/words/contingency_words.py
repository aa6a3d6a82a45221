"""Abort points and contingency legs in words."""

from core.base.language import Texts, tr
from core.plan.outcome import AbortPoint, ContingencyPlan
from core.plan.plan_result import IndexLine, LegPlan, Role
from core.words import quantities, times


class Abort(Texts):
    """Titles and short phrases."""

    PART = "Contingency legs"
    TITLE = "CONTINGENCY {number}, from leg {leg}"
    SECTION = "Abort"
    OWN_SECTION = "Abort point"
    LAST = "last {when}"
    CHIP = "abort {when}"
    TO_GO = "{distance} to go, {turn} to {course}"
    INDEX = "index {index}"
    NOTHING = "nothing to index"
    NO_TURN = "no wheel-over: {reason}"
    LEAVES = "The line leaves the track of leg {leg} at {to_go} NM to go. {note}"
    KEPT_CLEAR = (
        "The turn is laid to end before the line across the track at {distance} NM to go: "
        "geometry alone, the water is not judged."
    )
    NOT_ANEW = "First paints and tune check are those of leg {leg}; not worked out anew."
    TURN = "wheel-over on {line}"
    NO_LINE = "no wheel-over line: {reason}"


def title(at: AbortPoint) -> str:
    """``Contingency 2, from leg 4``."""
    return Abort.TITLE.format(number=at.number, leg=at.leg_number)


def index_words(leg: LegPlan) -> str:
    """The first line of a contingency leg: ``B PORT 1.06``; empty where there is none."""
    line = next((line for line in leg.lines if line.role is Role.PRIMARY), None)
    return "" if line is None else _line(line)


def _line(line: IndexLine) -> str:
    number = quantities.index_number(line.cross_index_range_m, line.range_scale_m)
    star = " *" if line.object.confirm_on_chart else ""
    return f"{line.object.id}{star} {quantities.side(line.side)} {number}"


def last_words(one: ContingencyPlan) -> str:
    """When the wheel goes over at the latest, rounded down: ``last 0528``."""
    when = times.when_early(one.outcome.plan.timetable, 0, one.last_m)
    return Abort.LAST.format(when=when)


def abort_words(one: ContingencyPlan, parent_m: float) -> str:
    """``1.75 NM to go, PORT to 300° T: index B PORT 1.06``; the distance is rounded up, so early.

    Parameters
    ----------
    one : ContingencyPlan
        The contingency leg.
    parent_m : float
        Length of the leg it leaves, m.
    """
    turn = one.wheel_over
    side = tr("on")
    if turn is not None:
        side = tr("STARBOARD") if turn.alteration_deg > 0.0 else tr("PORT")
    words = Abort.TO_GO.format(
        distance=quantities.distance_before_waypoint(parent_m - one.last_m),
        turn=side,
        course=quantities.track(one.leg.course_deg),
    )
    index = index_words(one.leg)
    return f"{words}: {Abort.INDEX.format(index=index) if index else Abort.NOTHING}"


def turn_words(one: ContingencyPlan) -> str:
    """The line that the wheel goes over on, or why there is none."""
    turn = one.wheel_over
    if turn is None:
        return Abort.NO_TURN.format(reason=one.outcome.plan.legs[0].wheel_over_reason)
    if turn.line is None:
        return Abort.NO_LINE.format(reason=turn.line_reason)
    return Abort.TURN.format(line=_line(turn.line))


def own_words(at: AbortPoint) -> tuple[str, ...]:
    """What the sheet of a contingency leg says of its abort point, a paragraph each."""
    note = f"{at.note[0].upper()}{at.note[1:].rstrip('.')}." if at.note else ""
    words = [
        Abort.LEAVES.format(
            leg=at.leg_number, to_go=quantities.miles(at.to_go_m, 2), note=note
        ).strip()
    ]
    if at.turn_before_m is not None:
        distance = quantities.miles(at.turn_before_m, 2)
        words.append(Abort.KEPT_CLEAR.format(distance=distance))
    words.append(Abort.NOT_ANEW.format(leg=at.leg_number))
    return tuple(words)


def is_of_contingency(what: str, number: int) -> bool:
    """Whether an item of a leg's facts is about this contingency leg."""
    return what == f"contingency {number}" or what.startswith(f"contingency {number} ")


def fact_name(number: int, what: str = "") -> str:
    """Name of an item of a leg's facts about a contingency leg."""
    return f"contingency {number} {what}".rstrip()
