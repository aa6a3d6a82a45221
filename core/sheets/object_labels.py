"""Objects on the strip with their names: those the leg uses strong and with their range."""

from collections.abc import Iterator, Sequence

from core.geodesy.leg_line import LegLine
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Mark, Role
from core.sheets.labels import Block, Labels, Over
from core.sheets.line_labels import range_words
from core.sheets.name_spots import broken, led_spots, near_spots, with_number
from core.sheets.page import Item, Place, Rectangle, Shape, Symbol, Tone
from core.sheets.short_names import short_names
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_lines import line_reference, object_reference, placed, signed_m

_USED_MM = 2.6
_OTHER_MM = 1.1
_FLOATING_MM = 1.6


class ObjectLabels:
    """Puts signs and names of one leg's objects on its strip."""

    def __init__(self, frame: StripFrame, plan: LegPlan, line: LegLine, labels: Labels) -> None:
        self._frame = frame
        self._plan = plan
        self._line = line
        self._labels = labels
        self._shorts = short_names(plan)
        self.said_lines: set[str] = set()
        """References of lines whose range stands at their object."""

    def signs(self, used: Sequence[IndexObject], floating: Sequence[Mark]) -> Iterator[Item]:
        """Signs of what is always shown; no label will stand on them."""
        for thing, place in self._on_strip(used):
            yield self._sign(place, Shape.DIAMOND, _USED_MM, object_reference(thing))
        for mark, place in self._marks_on_strip(floating):
            yield self._sign(place, Shape.RING, _FLOATING_MM, f"mark:{mark.name}")

    def _sign(self, place: Place, shape: Shape, size_mm: float, reference: str) -> Symbol:
        self._labels.keep_free(_around(place, size_mm))
        return Symbol(
            x_mm=place[0],
            y_mm=place[1],
            shape=shape,
            size_mm=size_mm,
            tone=Tone.OBJECT,
            is_filled=shape is not Shape.RING,
            reference=reference,
        )

    def used_names(self, used: Sequence[IndexObject]) -> Iterator[Item]:
        """Names with the range to key in: primary lines first, then the turn, then checks."""
        lines = {thing.id: self._line_of(thing) for thing in used}

        def rank(thing: IndexObject) -> tuple[int, str]:
            line = lines[thing.id]
            return (1 if line is None else 0 if line.role is Role.PRIMARY else 2), thing.id

        for thing, place in self._on_strip(sorted(used, key=rank)):
            line = lines[thing.id]
            is_bold = line is None or line.role is Role.PRIMARY
            for ways, says_range in self._ways(thing, line):
                items = self._strong(thing, place, ways, is_bold)
                if items and says_range and line is not None:
                    self.said_lines.add(line_reference(self._plan, line))
                yield from items
                if items:
                    break

    def _line_of(self, thing: IndexObject) -> IndexLine | None:
        """The line whose range may stand at an object: the only one on it, drawn through it."""
        lines = [
            line
            for line in self._plan.lines
            if line.object.id == thing.id and line.role in (Role.PRIMARY, Role.CHECK)
        ]
        is_drawn = len(lines) == 1 and abs(signed_m(lines[0])) <= self._frame.half_width_m
        return lines[0] if is_drawn else None

    def _ways(
        self, thing: IndexObject, line: IndexLine | None
    ) -> Iterator[tuple[list[tuple[str, ...]], bool]]:
        """Whole name with its range, in short form with it, the name alone, the short form."""
        short = self._shorts[thing.id]
        if line is not None:
            yield with_number(thing.id, range_words(line)), True
            if short != thing.id:
                yield with_number(short, range_words(line)), True
        yield broken(thing.id), False
        if short != thing.id:
            yield broken(short), False

    def _strong(
        self, thing: IndexObject, place: Place, ways: list[tuple[str, ...]], is_bold: bool
    ) -> tuple[Item, ...]:
        """Beside the sign on clear water or land, else led off, else over coast and lines."""
        outward = 1.0 if place[0] > self._frame.middle_mm else -1.0
        reference = object_reference(thing)
        near = near_spots(
            place,
            _USED_MM,
            ways,
            is_strong=True,
            is_bold=is_bold,
            reference=reference,
            outward=outward,
        )
        led = list(
            led_spots(
                place,
                _USED_MM,
                ways,
                is_strong=True,
                is_bold=is_bold,
                reference=reference,
                outward=outward,
            )
        )
        return (
            self._labels.place_as_can_be(near, Over.COAST)
            or self._labels.place_as_can_be(led, Over.COAST)
            or self._labels.place(near, Over.LINES)
            or self._labels.place(led, Over.LINES)
        )

    def mark_names(self, floating: Sequence[Mark]) -> Iterator[Item]:
        """Names of floating marks."""
        for mark, place in self._marks_on_strip(floating):
            yield from self._labels.place_as_can_be(
                self._weak(mark.name, place, _FLOATING_MM, f"mark:{mark.name}")
            )

    def others(self, others: Sequence[IndexObject]) -> Iterator[Item]:
        """Objects the leg does not use, small, where there is room for dot and name."""
        for thing, place in self._on_strip(others):
            reference = object_reference(thing)
            if not self._labels.is_free(_around(place, _OTHER_MM)):
                continue
            names = self._labels.place(
                self._weak(thing.id, place, _OTHER_MM, reference), Over.COAST
            )
            if names:
                yield self._sign(place, Shape.DOT, _OTHER_MM, reference)
                yield from names

    def _weak(self, name: str, place: Place, size_mm: float, reference: str) -> list[Block]:
        return near_spots(
            place,
            size_mm,
            broken(name),
            is_strong=False,
            is_bold=False,
            reference=reference,
            outward=1.0 if place[0] > self._frame.middle_mm else -1.0,
        )

    def _on_strip(self, things: Sequence[IndexObject]) -> Iterator[tuple[IndexObject, Place]]:
        where = placed(self._frame, self._line, [thing.position for thing in things])
        for thing, spot in zip(things, where, strict=True):
            if spot is not None:
                yield thing, self._frame.place(*spot)

    def _marks_on_strip(self, marks: Sequence[Mark]) -> Iterator[tuple[Mark, Place]]:
        where = placed(self._frame, self._line, [mark.position for mark in marks])
        for mark, spot in zip(marks, where, strict=True):
            if spot is not None:
                yield mark, self._frame.place(*spot)


def _around(place: Place, size: float) -> Rectangle:
    x, y = place
    return Rectangle(x_mm=x - size / 2.0, y_mm=y - size / 2.0, width_mm=size, height_mm=size)
