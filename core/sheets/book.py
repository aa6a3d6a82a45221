"""All sheets of a passage in the order of the book, each part knowing its pages."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from core.plan.landfall import landfalls_of
from core.plan.master_calls import master_calls
from core.plan.outcome import Outcome
from core.sheets.anchor_page import anchor_pages
from core.sheets.book_lists import (
    lay_out_fixes,
    lay_out_objects,
    lay_out_rest,
    lay_out_setups,
    lay_out_sights,
    lay_out_tides,
    lay_out_turns,
    lay_out_waters,
    lay_out_weather,
)
from core.sheets.check_pages import check_page_count, check_pages
from core.sheets.check_picture import CheckPicture
from core.sheets.height_page import height_page
from core.sheets.landfall_page import landfall_pages
from core.sheets.leg_sections import Elsewhere
from core.sheets.leg_sheet import left_out_of, leg_sheet
from core.sheets.list_pages import ListLayout, list_pages
from core.sheets.master_card import lay_out_master_card
from core.sheets.more_pages import more_pages
from core.sheets.page import Measure, Page
from core.sheets.passage_sheet import front_page_count, front_pages, left_out_of_front
from core.sheets.pilot_card import lay_out_pilot_card, pilot_pages
from core.sheets.receipt_list import lay_out_receipt
from core.sheets.setup_page import setup_page
from core.sheets.watch_pages import lay_out_watch, watch_pages
from core.words.anchor_words import TITLE
from core.words.bridge_words import Bridge
from core.words.contingency_words import Abort
from core.words.messages import Say
from core.words.tide_words import Tidal

Make = Callable[[int, int, dict[str, int]], tuple[Page, ...]]
"""Pages of a part, from its first number, the count of the book and where each part begins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """A part of the book that an officer may print by itself."""

    title: str
    page_count: int
    make: Make


def make_book(
    outcome: Outcome,
    measure: Measure,
    pictures: Sequence[CheckPicture] = (),
    landfalls: Sequence[CheckPicture] = (),
    anchorage: Sequence[CheckPicture] = (),
) -> tuple[Page, ...]:
    """The whole book with its pages numbered; each page names its part.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    measure : Measure
        Text widths of the font that will be used.
    pictures : sequence of CheckPicture
        Expected pictures at the tune checks; without them their sheets are left out.
    landfalls : sequence of CheckPicture
        Expected pictures of the landfall cards; without them the cards show places alone.
    anchorage : sequence of CheckPicture
        Expected picture of the anchoring card, or none.

    Returns
    -------
    tuple of Page
        First what the bridge reads at once: front sheets, the call-the-master and landfall cards,
        the next four hours, a sheet a leg; then how to set up the radar, its cards and pictures;
        then the lists and what a sheet cannot hold.
    """
    made = _parts(outcome, measure, pictures, landfalls, anchorage)
    parts = [part for part in made if part.page_count]
    ends = list(accumulate((part.page_count for part in parts), initial=0))
    first = {part.title: end + 1 for part, end in zip(parts, ends, strict=False)}
    return tuple(
        replace(page, part=part.title)
        for part in parts
        for page in part.make(first[part.title], ends[-1], first)
    )


def _parts(
    outcome: Outcome,
    measure: Measure,
    pictures: Sequence[CheckPicture],
    landfall_pictures: Sequence[CheckPicture],
    anchorage: Sequence[CheckPicture],
) -> tuple[_Part, ...]:
    leg_count = len(outcome.plan.legs)
    left_out = [left_out_of(outcome, index, measure) for index in range(leg_count)]
    left_out += [left_out_of(one.outcome, 1, measure) for one in outcome.contingencies]
    setups = lay_out_setups(outcome, measure)
    fixes = lay_out_fixes(outcome, measure)
    waters = lay_out_waters(outcome, measure)
    sights = lay_out_sights(outcome, left_out, measure)
    rest = lay_out_rest(outcome, left_out, left_out_of_front(outcome, measure), measure)
    pilot = lay_out_pilot_card(outcome, measure)
    landfalls = landfalls_of(outcome.plan, outcome.coverage)
    marks = {mark.name for mark in outcome.request.marks if mark.is_fixed}
    calls = master_calls(outcome.plan, landfalls, marks)
    watch = lay_out_watch(outcome, calls, measure)

    def a_list(title: str, layout: ListLayout) -> _Part:
        def make(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
            return list_pages(
                outcome, layout, first_number=number, page_count=count, measure=measure
            )

        return _Part(title=title, page_count=layout.page_count, make=make)

    def front(_number: int, count: int, first: dict[str, int]) -> tuple[Page, ...]:
        return front_pages(
            outcome,
            page_count=count,
            measure=measure,
            contents=tuple(first.items()),
            rest=_page(first, Bridge.REST, rest.page_of[0]),
        )

    def legs(number: int, count: int, first: dict[str, int]) -> tuple[Page, ...]:
        return tuple(
            leg_sheet(
                outcome,
                index,
                page_number=number + index,
                page_count=count,
                measure=measure,
                elsewhere=Elsewhere(
                    waters=_page(first, Bridge.HIDDEN, waters.page_of[index + 1]),
                    sights=_page(first, Bridge.PAINTS, sights.page_of[index]),
                    rest=_page(first, Bridge.REST, rest.page_of[index + 1]),
                    setups=_page(first, Bridge.SETUPS, setups.page_of[index + 1]),
                    fixes=_page(first, Bridge.FIXES, fixes.page_of[index]),
                    contingencies=first.get(Abort.PART),
                ),
            )
            for index in range(leg_count)
        )

    def landfall_cards(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return landfall_pages(
            outcome,
            landfalls,
            landfall_pictures,
            first_number=number,
            page_count=count,
            measure=measure,
        )

    def contingencies(number: int, count: int, first: dict[str, int]) -> tuple[Page, ...]:
        return tuple(
            leg_sheet(
                one.outcome,
                1,
                page_number=number + place,
                page_count=count,
                measure=measure,
                elsewhere=Elsewhere(
                    rest=_page(first, Bridge.REST, rest.page_of[leg_count + 1 + place]),
                    setups=_page(first, Bridge.SETUPS, setups.page_of[leg_count + 1 + place]),
                ),
            )
            for place, one in enumerate(outcome.contingencies)
        )

    def watches(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return watch_pages(outcome, watch, first_number=number, page_count=count, measure=measure)

    def anchoring(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return anchor_pages(
            outcome, anchorage, first_number=number, page_count=count, measure=measure
        )

    def setting_up(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return (setup_page(outcome, number=number, page_count=count, measure=measure),)

    def checks(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return check_pages(
            outcome, pictures, first_number=number, page_count=count, measure=measure
        )

    def heights(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return (height_page(outcome, number=number, page_count=count, measure=measure),)

    def pilot_card(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return pilot_pages(outcome, pilot, first_number=number, page_count=count, measure=measure)

    def in_full(number: int, count: int, _first: dict[str, int]) -> tuple[Page, ...]:
        return more_pages(outcome, rest, first_number=number, page_count=count, measure=measure)

    return (
        _Part(title=Bridge.FRONT, page_count=front_page_count(outcome, measure), make=front),
        a_list(Bridge.MASTER_CARD, lay_out_master_card(outcome, calls, measure)),
        _Part(title=Bridge.LANDFALL, page_count=len(landfalls), make=landfall_cards),
        _Part(title=Bridge.NEXT_HOURS, page_count=watch.page_count, make=watches),
        _Part(title=Bridge.LEG_SHEETS, page_count=leg_count, make=legs),
        _Part(title=Abort.PART, page_count=len(outcome.contingencies), make=contingencies),
        _Part(title=TITLE, page_count=int(outcome.plan.anchoring is not None), make=anchoring),
        _Part(title=Say.SETTING_UP, page_count=1, make=setting_up),
        a_list(Bridge.SETUPS, setups),
        _Part(title=Bridge.PICTURES, page_count=check_page_count(pictures), make=checks),
        a_list(Bridge.FIXES, fixes),
        a_list(Bridge.HIDDEN, waters),
        a_list(Bridge.TURNS, lay_out_turns(outcome, measure)),
        a_list(Bridge.PAINTS, sights),
        a_list(Bridge.WEATHER, lay_out_weather(outcome, measure)),
        a_list(Bridge.OBJECTS, lay_out_objects(outcome, measure)),
        a_list(Tidal.PART, lay_out_tides(outcome, measure)),
        _Part(title=Bridge.REST, page_count=rest.page_count, make=in_full),
        _Part(title=Bridge.HEIGHTS, page_count=1, make=heights),
        a_list(Bridge.RECEIPT, lay_out_receipt(outcome, measure)),
        _Part(title=Bridge.PILOT_CARD, page_count=pilot.page_count, make=pilot_card),
    )


def _page(first: dict[str, int], title: str, page: int | None) -> str:
    return str(Say.IN_PLAN_FILE) if page is None else Say.ON_PAGE.format(page=first[title] + page)
