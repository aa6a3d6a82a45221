"""Marks of a revision: its number on every page, a bar and the changes on the sheet of a leg."""

from collections.abc import Sequence

from core.plan.outcome import Outcome
from core.plan.revision import Change, LegRevision
from core.sheets.flow import Entry, Section
from core.sheets.page import Anchor, Item, Measure, Page, Stroke, Text, Tone
from core.sheets.sheet_frame import RIGHT_MM
from core.sheets.wrapping import BODY_PT
from core.words.contingency_words import title
from core.words.messages import Say
from core.words.revision_words import change_words

_BAR_MM = 1.6
_BAR_HEIGHT_MM = 7.0


def changed_pages(outcome: Outcome, pages: Sequence[Page]) -> tuple[Page, ...]:
    """Of a whole book the pages before the legs, the sheets of legs that changed, the last cards.

    The receipt and the pilot card speak of the whole passage, as the pages before the legs do.

    Page numbers stay those of the whole book, so that they can take the place of the old ones.
    """
    count = len(outcome.plan.legs)
    names = [Say.LEG_OF.format(number=index + 1, count=count) for index in range(count)]
    first = next((i for i, page in enumerate(pages) if page.name in names), len(pages))
    marked = outcome.revision.marked()
    wanted = {names[index] for index in marked}
    wanted |= {title(one.at) for one in outcome.contingencies if one.parent_index in marked}
    return (*pages[:first], *(page for page in pages[first:] if page.name in wanted))


def leg_revision(outcome: Outcome, leg_index: int) -> LegRevision | None:
    """The revision of a leg; None where legs were not compared."""
    legs = outcome.revision.legs
    return legs[leg_index] if leg_index < len(legs) else None


def revision_items(outcome: Outcome, leg_index: int, y_mm: float, measure: Measure) -> list[Item]:
    """The revision the sheet of a leg belongs to, with a bar in the margin where it changed."""
    own = leg_revision(outcome, leg_index)
    number = outcome.revision.number if own is None else own.revision
    words = f"{Say.REVISION} {number}"
    is_marked = own is not None and outcome.revision.is_marked(leg_index)
    items: list[Item] = [
        Text(
            x_mm=RIGHT_MM,
            y_mm=y_mm,
            text=words,
            size_pt=12.0 if is_marked else BODY_PT,
            is_bold=is_marked,
            anchor=Anchor.END,
        )
    ]
    if is_marked:
        width_mm = measure.width_mm(words, size_pt=12.0, is_bold=True)
        bar_x = RIGHT_MM - width_mm - 2.0
        items.append(
            Stroke(
                points=((bar_x, y_mm + 1.0), (bar_x, y_mm + 1.0 - _BAR_HEIGHT_MM)),
                width_mm=_BAR_MM,
                tone=Tone.INK,
            )
        )
    return items


def passage_change_section(outcome: Outcome) -> Section:
    """What this revision is of, for the front sheet; empty for a first plan without a note."""
    revision = outcome.revision
    since = revision.since
    entries = [Entry(text=revision.note)] if revision.note else []
    if since is not None and revision.number > 1:
        marked = [str(index + 1) for index in revision.marked()]
        legs = ", ".join(marked) or str(Say.NO_LEGS)
        entries.append(Entry(text=Say.LEGS_CHANGED.format(legs=legs)))
        entries += [Entry(text=Say.LEG_DROPPED.format(leg=leg)) for leg in revision.dropped]
    if since is not None and since.issued_utc:
        words = Say.LAST_ISSUED_BY if since.by else Say.LAST_ISSUED
        text = words.format(number=since.number, when=since.issued_utc, by=since.by)
        entries.append(Entry(text=text))
    return Section(
        title=f"{Say.REVISION} {revision.number}",
        entries=tuple(entries),
        keep=len(entries),
    )


def change_section(outcome: Outcome, leg_index: int) -> Section:
    """What the sheet of a leg says differently since the revision before; empty without marks."""
    own = leg_revision(outcome, leg_index)
    if own is None or not outcome.revision.is_marked(leg_index):
        return Section(title=Say.CHANGES, entries=())
    entries = [Entry(text=str(Say.NEW_LEG))] if own.is_new else []
    entries += [change_entry(change) for change in own.changes]
    return Section(title=Say.CHANGES, entries=tuple(entries))


def change_entry(change: Change) -> Entry:
    """One item: what it says now and what it said."""
    return Entry(lead=change.what, text=change_words(change), is_inline=True)
