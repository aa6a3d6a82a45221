"""Text set into a column: lines broken to a width, sections shortened until they fit."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from core.sheets.page import POINT_MM, Item, Measure, Rectangle, Stroke, Text, Tone
from core.words.messages import Say

BODY_PT = 9.0
HEAD_PT = 9.5
LEADING = 1.22
"""Height of a line as a multiple of the size of its letters."""


def line_mm(size_pt: float) -> float:
    """Height of one line, mm."""
    return size_pt * POINT_MM * LEADING


def wrap(
    text: str, width_mm: float, measure: Measure, *, size_pt: float = BODY_PT, is_bold: bool = False
) -> tuple[str, ...]:
    """Lines no wider than a width; a word that is wider by itself is broken.

    Parameters
    ----------
    text : str
        One paragraph.
    width_mm : float
        Greatest width of a line, mm, > 0.
    """
    lines: list[str] = []
    line = ""
    for word in _words(text, width_mm, measure, size_pt, is_bold):
        longer = f"{line} {word}" if line else word
        if line and measure.width_mm(longer, size_pt=size_pt, is_bold=is_bold) > width_mm:
            lines.append(line)
            line = word
        else:
            line = longer
    if line:
        lines.append(line)
    return tuple(lines)


def _words(
    text: str, width_mm: float, measure: Measure, size_pt: float, is_bold: bool
) -> Iterator[str]:
    """Words of a text, those wider than the column in pieces."""
    for word in text.split():
        rest = word
        while len(rest) > 1 and measure.width_mm(rest, size_pt=size_pt, is_bold=is_bold) > width_mm:
            count = len(rest) - 1
            while count > 1 and (
                measure.width_mm(rest[:count], size_pt=size_pt, is_bold=is_bold) > width_mm
            ):
                count -= 1
            yield rest[:count]
            rest = rest[count:]
        yield rest


def fitted(
    text: str, width_mm: float, measure: Measure, *, size_pt: float = BODY_PT, is_bold: bool = False
) -> str:
    """A text cut to a width, with «…» where something is missing."""
    if measure.width_mm(text, size_pt=size_pt, is_bold=is_bold) <= width_mm:
        return text
    count = len(text)
    while count > 0:
        count -= 1
        short = text[:count].rstrip() + "…"
        if measure.width_mm(short, size_pt=size_pt, is_bold=is_bold) <= width_mm:
            return short
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of a section: a bold start, then plain text."""

    text: str
    lead: str = ""
    is_inline: bool = False
    """The lead stands in the first line of the text instead of on lines of its own."""
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading with entries."""

    title: str
    entries: tuple[Entry, ...]
    left_out: int = 0
    """Entries not printed, said in a last line."""
    keep: int = 1
    """Entries that are not taken away to save room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Set:
    """An entry broken into lines."""

    lead_lines: tuple[str, ...]
    lines: tuple[str, ...]
    hang_mm: float
    """How far the text stands in, beside an inline lead."""
    reference: str

    @property
    def height_mm(self) -> float:
        count = len(self.lines) + (0 if self.hang_mm else len(self.lead_lines))
        return count * line_mm(BODY_PT) + 0.6


def _set(entry: Entry, width_mm: float, measure: Measure) -> _Set:
    """The lead on lines of its own where it does not leave room for the text beside it."""
    hang_mm = 0.0
    if entry.is_inline and entry.lead:
        hang_mm = max(5.0, measure.width_mm(entry.lead, size_pt=BODY_PT, is_bold=True) + 1.6)
        if hang_mm > 0.45 * width_mm:
            hang_mm = 0.0
    return _Set(
        lead_lines=wrap(entry.lead, width_mm, measure, is_bold=True),
        lines=wrap(entry.text, width_mm - hang_mm, measure),
        hang_mm=hang_mm,
        reference=entry.reference,
    )


def section_mm(section: Section, width_mm: float, measure: Measure) -> float:
    """Height of a section set to a width, mm."""
    if not section.entries:
        return line_mm(BODY_PT) + 1.0
    height = line_mm(HEAD_PT) + 2.2
    height += sum(_set(entry, width_mm, measure).height_mm for entry in section.entries)
    if section.left_out:
        height += line_mm(BODY_PT)
    return height


def fit_sections(
    sections: Iterable[Section], room: Rectangle, measure: Measure
) -> tuple[Section, ...]:
    """Sections shortened until they fit the room; what is left out is counted.

    Entries are taken from the end of the section with most of them, never below its ``keep``;
    where that is not enough, from any section, so that nothing ever runs over.
    """
    chosen = [section for section in sections if section.entries or section.left_out]

    def total() -> float:
        return sum(section_mm(section, room.width_mm, measure) for section in chosen)

    while total() > room.height_mm:
        longest = max(
            range(len(chosen)),
            key=lambda i: (len(chosen[i].entries) - chosen[i].keep, len(chosen[i].entries), i),
            default=-1,
        )
        if longest < 0 or not chosen[longest].entries:
            return tuple(chosen[:0])
        section = chosen[longest]
        chosen[longest] = replace(
            section, entries=section.entries[:-1], left_out=section.left_out + 1
        )
    return tuple(chosen)


def cut_sections(
    sections: Sequence[Section], room: Rectangle, measure: Measure
) -> tuple[bool, ...]:
    """For each section, whether some of it is left out in this room."""
    shown = {s.title: s.entries for s in fit_sections(sections, room, measure)}
    return tuple(
        bool(s.left_out) or (bool(s.entries) and shown.get(s.title) != s.entries) for s in sections
    )


def section_items(
    sections: Sequence[Section],
    room: Rectangle,
    measure: Measure,
    *,
    where: str = Say.IN_PLAN_FILE,
) -> tuple[Item, ...]:
    """Sections set one under another from the top of a room, shortened to fit.

    ``where`` says where the rest is found.
    """
    items: list[Item] = []
    y = room.y_mm
    for section in fit_sections(sections, room, measure):
        if not section.entries:
            y += line_mm(BODY_PT)
            words = Say.ALL_ELSEWHERE.format(
                title=section.title, count=section.left_out, where=where
            )
            items.append(
                Text(x_mm=room.x_mm, y_mm=y - 0.6, text=words, size_pt=BODY_PT, is_bold=True)
            )
            y += 1.0
            continue
        y += line_mm(HEAD_PT)
        items.append(
            Text(x_mm=room.x_mm, y_mm=y - 0.6, text=section.title, size_pt=HEAD_PT, is_bold=True)
        )
        items.append(
            Stroke(
                points=((room.x_mm, y + 0.5), (room.right_mm, y + 0.5)),
                width_mm=0.2,
                tone=Tone.RULE,
            )
        )
        y += 0.8
        for entry in section.entries:
            laid = _set(entry, room.width_mm, measure)
            start = y
            for is_bold, lines in ((True, laid.lead_lines), (False, laid.lines)):
                for line in lines:
                    y += line_mm(BODY_PT)
                    items.append(
                        Text(
                            x_mm=room.x_mm + (0.0 if is_bold else laid.hang_mm),
                            y_mm=y - 0.8,
                            text=line,
                            size_pt=BODY_PT,
                            is_bold=is_bold,
                            reference=laid.reference,
                        )
                    )
                if is_bold and laid.hang_mm:
                    y = start
            y += 0.6
        if section.left_out:
            y += line_mm(BODY_PT)
            items.append(
                Text(
                    x_mm=room.x_mm,
                    y_mm=y - 0.8,
                    text=Say.MORE_ELSEWHERE.format(count=section.left_out, where=where),
                    size_pt=BODY_PT,
                )
            )
        y += 1.4
    return tuple(items)


def paragraph(
    text: str, room: Rectangle, measure: Measure, *, size_pt: float = BODY_PT, is_bold: bool = False
) -> tuple[tuple[Item, ...], float]:
    """A paragraph set from the top of a room, and the y below it, mm."""
    items = []
    y = room.y_mm
    for line in wrap(text, room.width_mm, measure, size_pt=size_pt, is_bold=is_bold):
        y += line_mm(size_pt)
        items.append(
            Text(
                x_mm=room.x_mm,
                y_mm=y - 0.25 * size_pt * POINT_MM,
                text=line,
                size_pt=size_pt,
                is_bold=is_bold,
            )
        )
    return tuple(items), y
