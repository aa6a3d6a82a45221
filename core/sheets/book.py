"""All sheets of a passage in order: front sheets, then one sheet a leg."""

from core.plan.outcome import Outcome
from core.sheets.leg_sheet import leg_sheet
from core.sheets.page import Measure, Page
from core.sheets.passage_sheet import front_page_count, front_pages


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
    page_count = front_count + leg_count
    return (
        *front_pages(outcome, page_count=page_count, measure=measure),
        *(
            leg_sheet(
                outcome,
                index,
                page_number=front_count + index + 1,
                page_count=page_count,
                measure=measure,
            )
            for index in range(leg_count)
        ),
    )
