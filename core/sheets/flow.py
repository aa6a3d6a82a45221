"""Sections set into a column: entries with their facts, shortened by rank until they fit."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from core.sheets.page import Anchor, Item, Measure, Rectangle, Stroke, Text, Tone, outline
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words.messages import Say

HEAD_PT = 9.5
_GAP_MM = 1.4
"""Between sections."""
_ENTRY_MM = 0.6
"""Between entries."""
_BOX_MM = 4.6
_BOX_MORE_MM = 1.5
"""A line with a box is so much higher than one without."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of a section: a bold start, facts in columns, then plain text."""

    text: str = ""
    lead: str = ""
    is_inline: bool = False
    """The lead stands in the first line of the text instead of on lines of its own."""
    facts: tuple[str, ...] = ()
    """Figures beside the lead, each ending at a tab of the section."""
    has_box: bool = False
    """A blank box at the right end, to be filled with a pencil."""
    rank: int = 0
    """Entries of a higher rank give way first where there is no room."""
    count: int = 1
    """How many things it names."""
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading with entries."""

    title: str
    entries: tuple[Entry, ...]
    left_out: int = 0
    """Entries not printed, said in a last line."""
    keep: int = 1
    """Entries that are not taken away to save room while another section has more than its own."""
    importance: int = 0
    """Below what they keep, sections of less importance give way first."""
    where: str = Say.IN_PLAN_FILE
    """Where what is left out is found."""
    is_shortened: bool = False
    """All of it stands elsewhere in more words, which a last line says."""
    is_pointer: bool = False
    """Nothing but a line that says where its matter stands, uncounted."""
    heads: tuple[str, ...] = ()
    """Heads over the facts, one a tab, and one more over the boxes."""
    tabs_mm: tuple[float, ...] = ()
    """Where facts end, from the left edge."""
    box_mm: float = 0.0
    """Width of the blank boxes."""

    @property
    def has_heads(self) -> bool:
        """Whether there is anything for its heads to stand over."""
        return bool(self.heads) and any(entry.facts for entry in self.entries)

    @property
    def last_line(self) -> str:
        """What is said of entries that are not there; empty where nothing is missing."""
        if self.left_out:
            return Say.MORE_ELSEWHERE.format(count=self.left_out, where=self.where)
        return Say.IN_FULL_ON.format(where=self.where) if self.is_shortened else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Set:
    """An entry broken into lines."""

    lead_lines: tuple[str, ...]
    """Above the text, or one beside its first line."""
    lines: tuple[str, ...]
    hang_mm: float
    """How far the text stands in."""
    is_level: bool
    """Whether lead and text share their first line."""

    has_box: bool = False

    @property
    def first_mm(self) -> float:
        """Height of the lines above the text: with a box a pencil needs more."""
        count = 1 if self.is_level else len(self.lead_lines)
        return count * line_mm(BODY_PT) + (_BOX_MORE_MM if self.has_box else 0.0)

    @property
    def height_mm(self) -> float:
        lines = len(self.lines) - (1 if self.is_level else 0)
        return self.first_mm + max(0, lines) * line_mm(BODY_PT) + _ENTRY_MM


def _set(section: Section, entry: Entry, width_mm: float, measure: Measure) -> _Set:
    """The lead on lines of its own where it does not leave room for what stands beside it."""
    lead_mm = measure.width_mm(entry.lead, size_pt=BODY_PT, is_bold=True) + 1.6
    if entry.facts:
        lead_lines = wrap(entry.lead, width_mm, measure, is_bold=True)
        first_mm = section.tabs_mm[0] - measure.width_mm(entry.facts[0], size_pt=BODY_PT)
        if len(lead_lines) > 1 or lead_mm > first_mm:
            lead_lines = (*lead_lines, "")
        return _Set(
            lead_lines=lead_lines,
            lines=wrap(entry.text, width_mm - _INDENT_MM, measure),
            hang_mm=_INDENT_MM,
            is_level=False,
            has_box=entry.has_box,
        )
    hang_mm = max(5.0, lead_mm)
    is_level = entry.is_inline and bool(entry.lead) and hang_mm <= 0.45 * width_mm
    if not is_level:
        hang_mm = 0.0
    return _Set(
        lead_lines=wrap(entry.lead, width_mm, measure, is_bold=True),
        lines=wrap(entry.text, width_mm - hang_mm, measure),
        hang_mm=hang_mm,
        is_level=is_level,
    )


_INDENT_MM = 3.0
"""How far words below a line of facts stand in."""


def section_mm(section: Section, width_mm: float, measure: Measure) -> float:
    """Height of a section set to a width, mm."""
    if not section.entries:
        return len(_all_elsewhere(section, width_mm, measure)) * line_mm(BODY_PT) + 1.0
    height = line_mm(HEAD_PT) + 0.8 + _GAP_MM
    height += sum(_set(section, entry, width_mm, measure).height_mm for entry in section.entries)
    if section.has_heads:
        height += line_mm(BODY_PT)
    if section.last_line:
        height += line_mm(BODY_PT)
    return height


def _all_elsewhere(section: Section, width_mm: float, measure: Measure) -> tuple[str, ...]:
    """What stands in place of a section that finds no room."""
    words = f"{section.title}: {section.where}"
    if not section.is_pointer:
        words = Say.ALL_ELSEWHERE.format(
            title=section.title, count=section.left_out, where=section.where
        )
    return wrap(words, width_mm, measure, is_bold=True)


def fit_sections(
    sections: Iterable[Section], room: Rectangle, measure: Measure
) -> tuple[Section, ...]:
    """Sections shortened until they fit the room; what is left out is counted.

    Entries are taken from the section with most of them, never below its ``keep``, the last of
    the highest rank first; where that is not enough, down to one and then to none, the least
    important section first, so that nothing ever runs over. What then still finds room comes
    back, the lowest rank first.
    """
    whole = [section for section in sections if section.entries or section.left_out]
    order = [_by_rank(section) for section in whole]
    counts = [len(section.entries) for section in whole]

    def fits(tried: Sequence[int]) -> bool:
        chosen = (_with(*one) for one in zip(whole, order, tried, strict=True))
        height = sum(section_mm(section, room.width_mm, measure) for section in chosen)
        return height <= room.height_mm

    while not fits(counts):
        if not any(counts):
            return ()
        counts[_gives_way(whole, counts)] -= 1
    for number, section in enumerate(whole):
        while counts[number] < len(section.entries):
            more = [count + (i == number) for i, count in enumerate(counts)]
            if not fits(more):
                break
            counts = more
    return tuple(_with(*one) for one in zip(whole, order, counts, strict=True))


def _gives_way(sections: Sequence[Section], counts: Sequence[int]) -> int:
    """The section that loses its next entry."""
    spare = [count - section.keep for section, count in zip(sections, counts, strict=True)]
    if max(spare) > 0:
        return max(range(len(counts)), key=lambda i: (spare[i], counts[i], i))
    left = [i for i, count in enumerate(counts) if count > 0]
    return min(left, key=lambda i: (counts[i] == 1, sections[i].importance, -i))


def _by_rank(section: Section) -> list[int]:
    return sorted(range(len(section.entries)), key=lambda i: (section.entries[i].rank, i))


def _with(section: Section, order: Sequence[int], count: int) -> Section:
    """A section with its first entries by rank, in their own order."""
    entries = tuple(section.entries[i] for i in sorted(order[:count]))
    left_out = section.left_out + sum(section.entries[i].count for i in order[count:])
    return replace(section, entries=entries, left_out=left_out)


def cut_sections(
    sections: Sequence[Section], room: Rectangle, measure: Measure
) -> tuple[bool, ...]:
    """For each section, whether some of it is left out in this room."""
    shown = {s.title: s.entries for s in fit_sections(sections, room, measure)}
    return tuple(
        bool(s.left_out) or (bool(s.entries) and shown.get(s.title) != s.entries) for s in sections
    )


def section_items(
    sections: Sequence[Section], room: Rectangle, measure: Measure
) -> tuple[Item, ...]:
    """Sections set one under another from the top of a room, shortened to fit."""
    items: list[Item] = []
    y = room.y_mm
    for section in fit_sections(sections, room, measure):
        if not section.entries:
            for line in _all_elsewhere(section, room.width_mm, measure):
                y += line_mm(BODY_PT)
                items.append(_words(room.x_mm, y - 0.6, line, is_bold=True))
            y += 1.0
            continue
        block, y = _section(section, room, y, measure)
        items.extend(block)
    return tuple(items)


def _section(
    section: Section, room: Rectangle, y: float, measure: Measure
) -> tuple[list[Item], float]:
    y += line_mm(HEAD_PT)
    items: list[Item] = [
        Text(x_mm=room.x_mm, y_mm=y - 0.6, text=section.title, size_pt=HEAD_PT, is_bold=True),
        Stroke(
            points=((room.x_mm, y + 0.5), (room.right_mm, y + 0.5)), width_mm=0.2, tone=Tone.RULE
        ),
    ]
    y += 0.8
    if section.has_heads:
        y += line_mm(BODY_PT)
        ends = [room.x_mm + tab for tab in section.tabs_mm]
        items.extend(
            _words(x, y - 0.8, head, anchor=Anchor.END)
            for x, head in zip(ends, section.heads, strict=False)
        )
        if len(section.heads) > len(ends):
            items.append(_words(room.right_mm - section.box_mm, y - 0.8, section.heads[-1]))
    for entry in section.entries:
        items.extend(_entry(section, entry, room, y, measure))
        y += _set(section, entry, room.width_mm, measure).height_mm
    if section.last_line:
        y += line_mm(BODY_PT)
        items.append(_words(room.x_mm, y - 0.8, section.last_line))
    return items, y + _GAP_MM


def _entry(
    section: Section, entry: Entry, room: Rectangle, top: float, measure: Measure
) -> list[Item]:
    laid = _set(section, entry, room.width_mm, measure)
    step = line_mm(BODY_PT)
    facts_at = top + laid.first_mm - 0.8
    above = 0 if laid.is_level else len(laid.lead_lines) - 1
    items: list[Item] = [
        _words(
            room.x_mm, facts_at + (n - above) * step, line, is_bold=True, reference=entry.reference
        )
        for n, line in enumerate(laid.lead_lines)
        if line
    ]
    items.extend(
        _words(room.x_mm + tab, facts_at, fact, anchor=Anchor.END, reference=entry.reference)
        for tab, fact in zip(section.tabs_mm, entry.facts, strict=False)
    )
    below = facts_at if laid.is_level else facts_at + step
    items.extend(
        _words(room.x_mm + laid.hang_mm, below + n * step, line, reference=entry.reference)
        for n, line in enumerate(laid.lines)
    )
    if entry.has_box:
        blank = Rectangle(
            x_mm=room.right_mm - section.box_mm,
            y_mm=top + laid.first_mm - _BOX_MM - 0.3,
            width_mm=section.box_mm,
            height_mm=_BOX_MM,
        )
        items.append(outline(blank, width_mm=0.2, tone=Tone.RULE))
    return items


def _words(
    x: float,
    y: float,
    text: str,
    *,
    is_bold: bool = False,
    anchor: Anchor = Anchor.START,
    reference: str = "",
) -> Text:
    return Text(
        x_mm=x,
        y_mm=y,
        text=text,
        size_pt=BODY_PT,
        is_bold=is_bold,
        anchor=anchor,
        reference=reference,
    )
