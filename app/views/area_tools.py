"""What mouse and keys do in the area view: waypoints moved, put in and taken out, and a ruler.

A waypoint that is being moved stays where it was until it is set; then it is one step of undo.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.state.document import Document
from app.state.edited_line import is_same_place
from app.state.notices import NoticeKind
from app.views.area_measure import between_words, key_step, moved_words, stepped
from core.base.errors import LegsheetError
from core.base.language import tr
from core.base.units import m_from_nm
from core.geodesy.position import Position
from core.passage.edit_passage import (
    PassageEdit,
    with_added,
    with_deleted,
    with_inserted,
    with_waypoint,
)
from core.passage.passage import Passage
from core.words import quantities

_BEYOND_M = m_from_nm(1.0)
_CHOOSE = tr("Page Up, Page Down: others. Insert: one behind it. Delete: out.")


@dataclass(frozen=True, slots=True)
class Ruler:
    """A cross that is moved; once its start is set, a line from there. Fixed when measured."""

    end: Position
    start: Position | None = None
    is_fixed: bool = False


class AreaTools:
    """The waypoint chosen and where it is being moved to, or the ruler."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self.chosen: int | None = None
        self.moved_to: Position | None = None
        self._start: Position | None = None
        self.ruler: Ruler | None = None

    # What is chosen

    @property
    def can_edit(self) -> bool:
        """Whether the passage is known as its route has it."""
        return self._document.line is not None

    def passage_changed(self) -> None:
        """Keep the choice where there is such a waypoint, and its move where it has not moved.

        A plan that is done must not take a waypoint out of the hand.
        """
        passage, count = self._document.passage, 0
        if passage is not None:
            count = len(passage.waypoints)
        if self.chosen is not None and self.chosen >= count:
            self.chosen = None
        was, now = self._start, None
        if passage is not None and self.chosen is not None:
            now = passage.waypoints[self.chosen].position
        if was is None or now is None or not is_same_place(was, now):
            self.moved_to = None

    def choose(self, index: int | None) -> None:
        """Choose a waypoint, or none; one being moved is let go."""
        self.chosen, self.moved_to = index, None
        if index is not None:
            self.ruler = None

    def step_choice(self, step: int) -> None:
        """Choose the next waypoint or the one before; first that at the start of the leg."""
        passage = self._document.passage
        if passage is None:
            return
        self.set_move()
        last = len(passage.waypoints) - 1
        start = self._document.leg_index
        self.choose(min(max(start if self.chosen is None else self.chosen + step, 0), last))

    @property
    def place(self) -> Position | None:
        """Where the chosen waypoint is, or is being moved to."""
        passage = self._document.passage
        if passage is None or self.chosen is None or self.chosen >= len(passage.waypoints):
            return None
        return self.moved_to or passage.waypoints[self.chosen].position

    # Waypoints

    def move_to(self, place: Position) -> None:
        """Show the chosen waypoint elsewhere; nothing is edited yet."""
        passage = self._document.passage
        if self.can_edit and passage is not None and self.chosen is not None:
            self._start = passage.waypoints[self.chosen].position
            self.moved_to = place

    def nudge(self, bearing_deg: float, m_per_px: float, *, is_fine: bool) -> None:
        """Move the chosen waypoint, or the ruler's loose end, by one step of the keys."""
        step = key_step(m_per_px)
        distance_m = step.fine_m if is_fine else step.coarse_m
        if self.ruler is not None:
            self.ruler = replace(
                self.ruler, end=stepped(self.ruler.end, bearing_deg, distance_m), is_fixed=False
            )
        elif self.place is not None:
            self.move_to(stepped(self.place, bearing_deg, distance_m))

    def set_move(self) -> None:
        """Make the move an edit."""
        line, index, place = self._document.line, self.chosen, self.moved_to
        self.moved_to = None
        if line is None or index is None or place is None:
            return
        moved = replace(line.waypoints[index], position=place)
        self._edit(
            tr("move waypoint {name}", name=moved.name),
            lambda passage: with_waypoint(passage, index, moved),
        )

    def insert_on(self, leg_index: int, place: Position) -> None:
        """Put a waypoint into a leg and choose it."""
        done = self._edit(
            tr("insert waypoint on leg {leg_number}", leg_number=leg_index + 1),
            lambda passage: with_inserted(passage, leg_index, place),
        )
        if done:
            self.choose(leg_index + 1)

    def add(self, place: Position, *, at_start: bool) -> None:
        """Put a waypoint before the first or behind the last and choose it."""
        where = tr("before the first") if at_start else tr("behind the last")
        done = self._edit(
            tr("add waypoint {on_which_leg}", on_which_leg=where),
            lambda passage: with_added(passage, place, at_start=at_start),
        )
        passage = self._document.passage
        if done and passage is not None:
            self.choose(0 if at_start else len(passage.waypoints) - 1)

    def insert_beside(self, *, is_before: bool) -> None:
        """Put a waypoint into the middle of the leg behind or before the chosen waypoint.

        At the ends of the passage it goes a mile on, along the course. Without a choice it goes
        into the leg that is shown.
        """
        line = self._document.line
        if line is None:
            return
        self.set_move()
        line = self._document.line or line
        leg_index = self._document.leg_index
        if self.chosen is not None:
            leg_index = self.chosen - 1 if is_before else self.chosen
        if 0 <= leg_index < len(line.legs):
            leg = line.line(leg_index)
            self.insert_on(leg_index, leg.position_at(leg.length_m / 2.0))
        elif leg_index < 0:
            self.add(line.line(0).position_at(-_BEYOND_M), at_start=True)
        else:
            last = line.line(len(line.legs) - 1)
            self.add(last.position_at(last.length_m + _BEYOND_M), at_start=False)

    def delete(self, index: int) -> None:
        """Take a waypoint out; the one before it is chosen."""
        line = self._document.line
        if line is None or index >= len(line.waypoints):
            return
        if self._edit(
            tr("delete waypoint {name}", name=line.waypoints[index].name),
            lambda passage: with_deleted(passage, index),
        ):
            self.choose(max(index - 1, 0))

    def _edit(self, text: str, edit: Callable[[Passage], PassageEdit]) -> bool:
        before = self._document.project
        try:
            self._document.edit_passage(text, edit)
        except (LegsheetError, ValueError) as exc:
            words = str(exc).rstrip(".")
            self._document.notices.post(
                NoticeKind.TROUBLE,
                tr("Not done: {reason}.", reason=words[0].lower() + words[1:]),
            )
            return False
        return self._document.project != before

    # The ruler

    def start_ruler(self, place: Position, *, is_start_set: bool) -> None:
        """Begin to measure at a place; by keys the cross is first taken to where it starts."""
        self.choose(None)
        self.ruler = Ruler(end=place, start=place if is_start_set else None)

    def ruler_to(self, place: Position) -> None:
        """Take the loose end of the ruler to a place."""
        if self.ruler is not None and not self.ruler.is_fixed:
            self.ruler = replace(self.ruler, end=place)

    def set_ruler(self) -> None:
        """Set the start of the ruler, then its end; then it begins anew from there."""
        if self.ruler is None:
            return
        if self.ruler.start is None or self.ruler.is_fixed:
            self.ruler = Ruler(end=self.ruler.end, start=self.ruler.end)
        else:
            self.ruler = replace(self.ruler, is_fixed=True)

    # Keys that mean the same everywhere

    def set_it(self) -> None:
        """Set the waypoint or the ruler."""
        if self.moved_to is not None:
            self.set_move()
        else:
            self.set_ruler()

    def let_go(self) -> bool:
        """Undo the last thing that is not set: a move, the ruler, the choice. False without any."""
        if self.moved_to is not None:
            self.moved_to = None
        elif self.ruler is not None:
            self.ruler = None
        elif self.chosen is not None:
            self.chosen = None
        else:
            return False
        return True

    @property
    def is_at_work(self) -> bool:
        """Whether anything is chosen, moved or measured."""
        return self.chosen is not None or self.ruler is not None

    def words(self, m_per_px: float) -> tuple[str, ...]:
        """What is going on and which keys there are, one line each."""
        passage, step = self._document.passage, key_step(m_per_px)
        if self.ruler is not None:
            return _ruler_words(self.ruler, self._own_ship(), step.words)
        if passage is None or self.chosen is None or self.place is None:
            return ()
        if self.moved_to is not None:
            moved = moved_words(passage, self.chosen, self.moved_to)
            return (*moved, tr("NOT SET: Enter sets it, Esc lets go; {keys}", keys=step.words))
        name = passage.waypoints[self.chosen].name
        head = f"{name}: {quantities.position(self.place)}"
        if not self.can_edit:
            return (head,)
        return (head, tr("Move: drag, or {keys}", keys=step.words), _CHOOSE)

    def _own_ship(self) -> Position | None:
        passage, leg_index = self._document.passage, self._document.leg_index
        if passage is None or leg_index >= len(passage.legs):
            return None
        return passage.line(leg_index).position_at(self._document.cursor_along_m)


def _ruler_words(ruler: Ruler, own_ship: Position | None, keys: str) -> tuple[str, ...]:
    lines = [quantities.position(ruler.end)]
    if own_ship is not None:
        lines[0] += tr(
            "   from own ship {range_and_bearing}",
            range_and_bearing=between_words(own_ship, ruler.end),
        )
    if ruler.start is None:
        return (*lines, tr("Enter measures from here; {keys}; Esc ends", keys=keys))
    lines.insert(
        0,
        tr("Measured {range_and_bearing}", range_and_bearing=between_words(ruler.start, ruler.end)),
    )
    if ruler.is_fixed:
        return (*lines, tr("Enter measures on from here; Esc takes it away"))
    return (*lines, tr("Enter or click sets it; {keys}; Esc ends", keys=keys))
