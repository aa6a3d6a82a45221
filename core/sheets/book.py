"""All sheets of a passage: front sheets, a sheet a leg, set-up, then lists and the rest."""

from collections.abc import Sequence

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.check_pages import check_page_count, check_pages
from core.sheets.check_picture import CheckPicture
from core.sheets.leg_sections import Elsewhere
from core.sheets.leg_sheet import LeftOut, left_out_of, leg_sheet
from core.sheets.list_pages import Group, ListLayout, lay_out_list, list_pages
from core.sheets.more_pages import Chapter, MoreLayout, lay_out, more_pages
from core.sheets.object_list import object_columns, object_rows
from core.sheets.page import Measure, Page
from core.sheets.passage_sheet import (
    FrontLeftOut,
    front_page_count,
    front_pages,
    left_out_of_front,
)
from core.sheets.setup_list import setup_columns, setup_groups
from core.sheets.setup_page import setup_page
from core.sheets.sight_list import list_title, sight_columns, sight_rows
from core.sheets.what_if_list import what_if_columns, what_if_rows
from core.words.messages import Say


def make_book(
    outcome: Outcome, measure: Measure, pictures: Sequence[CheckPicture] = ()
) -> tuple[Page, ...]:
    """The whole book with its pages numbered.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    measure : Measure
        Text widths of the font that will be used.
    pictures : sequence of CheckPicture
        Expected pictures at the tune checks; without them their sheets are left out.

    Returns
    -------
    tuple of Page
        After the legs stand how to set up the radar, its cards and the pictures; at the end what a
        sheet cannot hold: a list of everything in sight leg by leg, a list of the objects, and
        whatever else, in words.
    """
    leg_count = len(outcome.plan.legs)
    front_count = front_page_count(outcome, measure)
    front_left_out = left_out_of_front(outcome, measure)
    left_out = [left_out_of(outcome, index, measure) for index in range(leg_count)]
    sights = _sights(outcome, left_out, measure)
    weather = _weather(outcome, measure)
    objects = _objects(outcome, measure, is_needed=front_left_out.needs_object_list)
    rest = _rest(outcome, left_out, front_left_out, measure)
    setups = lay_out_list(
        outcome,
        title=str(Say.SETUP_LIST),
        columns=setup_columns(),
        groups=setup_groups(outcome),
        measure=measure,
    )
    setting_up = front_count + leg_count + 1
    first_setups = setting_up + 1
    first_pictures = first_setups + setups.page_count
    first_sights = first_pictures + check_page_count(pictures)
    first_weather = first_sights + sights.page_count
    first_objects = first_weather + weather.page_count
    first_rest = first_objects + objects.page_count
    page_count = first_rest + rest.page_count - 1
    return (
        *front_pages(
            outcome,
            page_count=page_count,
            measure=measure,
            elsewhere=Elsewhere(
                sights=_page(first_objects, objects.page_of[0]),
                rest=_page(first_rest, rest.page_of[0]),
            ),
        ),
        *(
            leg_sheet(
                outcome,
                index,
                page_number=front_count + index + 1,
                page_count=page_count,
                measure=measure,
                elsewhere=Elsewhere(
                    sights=_page(first_sights, sights.page_of[index]),
                    rest=_page(first_rest, rest.page_of[index + 1]),
                    setups=_page(first_setups, setups.page_of[index + 1]),
                ),
            )
            for index in range(leg_count)
        ),
        setup_page(outcome, number=setting_up, page_count=page_count, measure=measure),
        *list_pages(
            outcome, setups, first_number=first_setups, page_count=page_count, measure=measure
        ),
        *check_pages(
            outcome, pictures, first_number=first_pictures, page_count=page_count, measure=measure
        ),
        *list_pages(
            outcome, sights, first_number=first_sights, page_count=page_count, measure=measure
        ),
        *list_pages(
            outcome, weather, first_number=first_weather, page_count=page_count, measure=measure
        ),
        *list_pages(
            outcome, objects, first_number=first_objects, page_count=page_count, measure=measure
        ),
        *more_pages(outcome, rest, first_number=first_rest, page_count=page_count, measure=measure),
    )


def _page(first: int, page: int | None) -> str:
    return str(Say.IN_PLAN_FILE) if page is None else Say.ON_PAGE.format(page=first + page)


def _sights(outcome: Outcome, left_out: list[LeftOut], measure: Measure) -> ListLayout:
    """Every leg, or none where each sheet says all of its own."""
    is_needed = any(one.needs_sight_list for one in left_out)
    groups = [
        Group(title=_leg_title(outcome, leg), rows=sight_rows(outcome, leg) if is_needed else ())
        for leg in outcome.plan.legs
    ]
    return lay_out_list(
        outcome,
        title=str(list_title(outcome)),
        columns=sight_columns(outcome),
        groups=groups,
        measure=measure,
    )


def _leg_title(outcome: Outcome, leg: LegPlan) -> str:
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    ends = Say.FROM_TO.format(start=names[leg.leg_index], stop=names[leg.leg_index + 1])
    return f"{Say.LEG} {leg.leg_index + 1}, {ends}"


def _weather(outcome: Outcome, measure: Measure) -> ListLayout:
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


def _objects(outcome: Outcome, measure: Measure, *, is_needed: bool) -> ListLayout:
    group = Group(title="", rows=object_rows(outcome) if is_needed else ())
    return lay_out_list(
        outcome,
        title=str(Say.OBJECT_LIST),
        columns=object_columns(),
        groups=[group],
        measure=measure,
    )


def _rest(
    outcome: Outcome, left_out: list[LeftOut], front: FrontLeftOut, measure: Measure
) -> MoreLayout:
    chapters = [
        Chapter(title=str(Say.PASSAGE_SHEET), sections=front.sections),
        *(
            Chapter(title=f"{Say.LEG} {index + 1}", sections=one.sections)
            for index, one in enumerate(left_out)
        ),
    ]
    return lay_out(outcome, chapters, measure)
