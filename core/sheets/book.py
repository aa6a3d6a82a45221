"""All sheets of a passage in order: front sheets, one sheet a leg, then what did not fit."""

from core.plan.outcome import Outcome
from core.sheets.leg_sheet import left_out_of, leg_sheet
from core.sheets.more_pages import Chapter, lay_out, more_pages
from core.sheets.page import Measure, Page
from core.sheets.passage_sheet import front_page_count, front_pages, left_out_of_front
from core.words.messages import Say


def make_book(outcome: Outcome, measure: Measure) -> tuple[Page, ...]:
    """The whole book with its pages numbered.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    measure : Measure
        Text widths of the font that will be used.

    Returns
    -------
    tuple of Page
    """
    leg_count = len(outcome.plan.legs)
    front_count = front_page_count(leg_count)
    chapters = [
        Chapter(title=str(Say.PASSAGE_SHEET), sections=left_out_of_front(outcome, measure)),
        *(
            Chapter(title=f"{Say.LEG} {index + 1}", sections=left_out_of(outcome, index, measure))
            for index in range(leg_count)
        ),
    ]
    layout = lay_out(outcome, chapters, measure)
    first_more = front_count + leg_count + 1
    page_count = front_count + leg_count + layout.page_count
    where = [
        Say.ON_PAGE.format(page=first_more + page) if page is not None else ""
        for page in layout.page_of
    ]
    return (
        *front_pages(outcome, page_count=page_count, measure=measure, where=where[0]),
        *(
            leg_sheet(
                outcome,
                index,
                page_number=front_count + index + 1,
                page_count=page_count,
                measure=measure,
                where=where[index + 1],
            )
            for index in range(leg_count)
        ),
        *more_pages(
            outcome, layout, first_number=first_more, page_count=page_count, measure=measure
        ),
    )
