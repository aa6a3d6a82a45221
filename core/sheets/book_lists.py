"""The lists at the end of the book, laid out: set-up, first paint, weather, objects, the rest."""

from collections.abc import Sequence

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.fix_list import fix_columns, fix_groups
from core.sheets.flow import Section
from core.sheets.leg_sheet import LeftOut
from core.sheets.list_pages import Group, ListLayout, lay_out_list
from core.sheets.more_pages import Chapter, MoreLayout, lay_out
from core.sheets.object_list import object_columns, object_rows
from core.sheets.page import Measure
from core.sheets.setup_list import setup_columns, setup_groups
from core.sheets.sight_list import list_title, sight_columns, sight_rows
from core.sheets.tide_list import tide_columns, tide_groups
from core.sheets.turn_list import turn_columns, turn_groups
from core.sheets.waters_list import waters_columns, waters_groups
from core.sheets.what_if_list import what_if_columns, what_if_rows
from core.words import times
from core.words.bridge_words import Bridge
from core.words.contingency_words import title
from core.words.emergence_words import Hidden
from core.words.messages import Say
from core.words.tide_words import Tidal


def lay_out_setups(outcome: Outcome, measure: Measure) -> ListLayout:
    """Set-up cards and tune checks, leg by leg."""
    return lay_out_list(
        outcome,
        title=str(Say.SETUP_LIST),
        columns=setup_columns(),
        groups=setup_groups(outcome),
        measure=measure,
    )


def lay_out_fixes(outcome: Outcome, measure: Measure) -> ListLayout:
    """Range scales and radar fixes, leg by leg."""
    return lay_out_list(
        outcome,
        title=str(Say.FIX_LIST),
        columns=fix_columns(outcome.plan.timetable),
        groups=fix_groups(outcome),
        measure=measure,
    )


def lay_out_waters(outcome: Outcome, measure: Measure) -> ListLayout:
    """Emerging craft, places in hidden water and blind sectors, leg by leg."""
    return lay_out_list(
        outcome,
        title=str(Hidden.LIST),
        columns=waters_columns(outcome.plan.timetable),
        groups=waters_groups(outcome),
        measure=measure,
    )


def lay_out_turns(outcome: Outcome, measure: Measure) -> ListLayout:
    """Arc, ring and sight along the turns, leg by leg."""
    return lay_out_list(
        outcome,
        title=str(Say.TURN_LIST),
        columns=turn_columns(),
        groups=turn_groups(outcome),
        measure=measure,
    )


def lay_out_sights(outcome: Outcome, left_out: Sequence[LeftOut], measure: Measure) -> ListLayout:
    """Every leg, or none where each sheet says all of its own."""
    is_needed = any(one.needs_sight_list for one in left_out[: len(outcome.plan.legs)])
    groups = [
        Group(title=_leg_title(outcome, leg), rows=sight_rows(outcome, leg) if is_needed else ())
        for leg in outcome.plan.legs
    ]
    return lay_out_list(
        outcome,
        title=Bridge.TIMES_IN.format(
            title=list_title(outcome), zone=times.zone_words(outcome.plan.timetable)
        ),
        columns=sight_columns(outcome),
        groups=groups,
        measure=measure,
    )


def _leg_title(outcome: Outcome, leg: LegPlan) -> str:
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    ends = Say.FROM_TO.format(start=names[leg.leg_index], stop=names[leg.leg_index + 1])
    return f"{Say.LEG} {leg.leg_index + 1}, {ends}"


def lay_out_weather(outcome: Outcome, measure: Measure) -> ListLayout:
    """What varies with weather and radar, leg by leg."""
    rows = [(leg, what_if_rows(leg)) for leg in outcome.plan.legs]
    groups = [Group(title=_leg_title(outcome, leg), rows=own) for leg, own in rows if own]
    return lay_out_list(
        outcome,
        title=str(Say.WHAT_IF_LIST),
        columns=what_if_columns(),
        groups=groups,
        measure=measure,
    )


def lay_out_objects(outcome: Outcome, measure: Measure) -> ListLayout:
    """Every object of the passage."""
    return lay_out_list(
        outcome,
        title=str(Say.OBJECT_LIST),
        columns=object_columns(),
        groups=[Group(title="", rows=object_rows(outcome))],
        measure=measure,
    )


def lay_out_tides(outcome: Outcome, measure: Measure) -> ListLayout:
    """Index objects at low and high water, leg by leg."""
    return lay_out_list(
        outcome,
        title=str(Tidal.TITLE),
        columns=tide_columns(),
        groups=tide_groups(outcome),
        measure=measure,
    )


def lay_out_rest(
    outcome: Outcome, left_out: Sequence[LeftOut], front: Sequence[Section], measure: Measure
) -> MoreLayout:
    """What did not fit on the first sheet, then on those of the legs and contingency legs."""
    names = [f"{Say.LEG} {leg.leg_index + 1}" for leg in outcome.plan.legs]
    names += [title(one.at) for one in outcome.contingencies]
    chapters = [
        Chapter(title=str(Say.PASSAGE_SHEET), sections=tuple(front)),
        *(
            Chapter(title=name, sections=one.sections)
            for name, one in zip(names, left_out, strict=True)
        ),
    ]
    return lay_out(outcome, chapters, measure)
