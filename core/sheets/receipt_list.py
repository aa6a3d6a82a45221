"""The receipt: who prepared and read the plan, what it stands on, cautions, references."""

from itertools import groupby

from core import __version__
from core.base.language import tr
from core.plan.object_result import Grade
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.leg_sheet import coverage_of
from core.sheets.list_pages import Group, ListLayout, lay_out_list
from core.sheets.page import Measure
from core.sheets.sheet_frame import source_words
from core.sheets.tables import Cell, Column, Row
from core.words.bridge_words import Bridge
from core.words.messages import CAUTIONS, Say
from core.words.receipt_words import REFERENCES, parameter_words

_OFFICERS = 6
"""Blanks for watch officers who have read the plan."""


def lay_out_receipt(outcome: Outcome, measure: Measure) -> ListLayout:
    """The receipt, over as many sheets as it needs."""
    return lay_out_list(
        outcome,
        title=str(Bridge.RECEIPT),
        columns=_columns(),
        groups=[
            Group(title=str(Bridge.SIGNATURES), rows=_signatures(), is_kept_whole=True),
            Group(title=str(Say.CAUTIONS), rows=_notes((*CAUTIONS, str(Say.CONFIRM_SIGN)))),
            Group(title=str(Bridge.QUALITY), rows=_quality(outcome)),
            Group(title=str(Bridge.WENT_IN), rows=_inputs(outcome)),
            Group(
                title=str(Bridge.PARAMETERS), rows=_notes(("; ".join(parameter_words(outcome)),))
            ),
            Group(title=str(Bridge.REFERENCES), rows=_notes((f"{'; '.join(REFERENCES)}.",))),
        ],
        measure=measure,
    )


def _columns() -> tuple[Column, ...]:
    return (
        Column(head=Bridge.COLUMN_ROLE, width_mm=46.0),
        Column(head=Bridge.COLUMN_NAME_RANK, width_mm=62.0),
        Column(head=Bridge.COLUMN_DATE_TIME, width_mm=36.0),
        Column(head=Bridge.COLUMN_SIGNATURE, width_mm=44.0),
    )


def _signatures() -> tuple[Row, ...]:
    """Prepared, checked, approved, and acknowledged by all watch officers."""
    box = Cell(is_blank_box=True)
    roles = (
        (Bridge.PREPARED_BY, str(Bridge.NAVIGATOR)),
        (Bridge.CHECKED_BY, str(Bridge.OTHER_OFFICER)),
        (Bridge.APPROVED_BY, str(Bridge.MASTER)),
        *(
            (Bridge.ACKNOWLEDGED, Bridge.WATCH_OFFICER.format(number=number))
            for number in range(1, _OFFICERS + 1)
        ),
    )
    return tuple(
        Row(cells=(Cell(text=str(role), second=who, is_bold=True), box, box, box))
        for role, who in roles
    )


def _notes(texts: tuple[str, ...]) -> tuple[Row, ...]:
    return tuple(Row(cells=(), note=text) for text in texts)


def _quality(outcome: Outcome) -> tuple[Row, ...]:
    """Grade and reasons leg by leg; legs of the same quality together."""

    def said(leg: LegPlan) -> str:
        is_complete = coverage_of(outcome, leg.leg_index).is_complete
        grade = Grade(leg.quality.grade).shown
        state = grade if is_complete else f"{Say.INCOMPLETE}, {grade}"
        return "; ".join((state, *leg.quality.reasons))

    rows = []
    for words, group in groupby(outcome.plan.legs, key=said):
        numbers = [leg.leg_index + 1 for leg in group]
        legs = (
            str(numbers[0])
            if len(numbers) == 1
            else tr("{first_page} to {last_page}", first_page=numbers[0], last_page=numbers[-1])
        )
        rows.append(f"{Say.LEG} {legs}: {words}")
    return _notes(tuple(rows))


def _inputs(outcome: Outcome) -> tuple[Row, ...]:
    """Every file with its whole SHA-256, land with date and licence; digest and version."""
    files = [
        tr("{role} {name}, SHA-256 {sha256}", role=item.role, name=item.name, sha256=item.sha256)
        for item in outcome.request.inputs
    ]
    land = [
        tr(
            "{role} {source}, SHA-256 {sha256}",
            role=source.role,
            source=source_words(source),
            sha256=source.sha256,
        )
        for source in outcome.land.sources
    ]
    made = Bridge.MADE.format(digest=outcome.digest, version=__version__, when=outcome.created_utc)
    return _notes((*files, *land, made))
