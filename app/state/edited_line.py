"""What was read or edited as a passage, and which legs an edit of its line leaves as they were."""

from collections.abc import Callable
from pathlib import Path

from core.files.project import Project
from core.geodesy.position import Position, wrap_lon_deg
from core.jobs.edit_project import with_edited_passage
from core.jobs.reverse_project import reversed_project
from core.passage.edit_passage import PassageEdit
from core.passage.passage import Leg, Passage

Way = tuple[Path | None, str, bool]
"""A route, or its text, and whether it is run the other way."""

_SAME_DEG = 1e-8
_SAME_M = 0.01


def way_of(project: Project) -> Way:
    """Which passage a project is of."""
    return project.route, project.route_text, project.is_reversed


class Lines:
    """Passages as their routes have them, nothing assumed, and which were edited out of which."""

    def __init__(self) -> None:
        self._passages: dict[Way, Passage] = {}
        self._roots: dict[Way, Way] = {}

    def clear(self) -> None:
        """Forget all: another document."""
        self._passages.clear()
        self._roots.clear()

    def put(self, project: Project, passage: Passage) -> None:
        """Keep the passage of a project."""
        self._passages[way_of(project)] = passage

    def of(self, project: Project) -> Passage | None:
        """The passage of a project; None where it was not read yet."""
        return self._passages.get(way_of(project))

    def note_edit(self, before: Project, after: Project) -> None:
        """The line of one project was edited into that of another."""
        self._roots[way_of(after)] = self._root(before)

    def are_kin(self, one: Project, other: Project) -> bool:
        """Whether both lines come from one by edits of waypoints and legs."""
        return self._root(one) == self._root(other)

    def _root(self, project: Project) -> Way:
        way = way_of(project)
        return self._roots.get(way, way)


def edited_line(
    project: Project,
    edit: Callable[[Passage], PassageEdit],
    line: Passage,
    *,
    is_turned: bool = False,
) -> tuple[Project, tuple[tuple[int, ...], ...]]:
    """The project with its line edited, and the legs before that each leg is made of, from 0.

    With ``is_turned`` it is then planned the other way.

    Raises
    ------
    InputError, ValueError
        The edit cannot be done.
    """
    edited = edit(line)
    after, sources = with_edited_passage(project, lambda _line: edited, line), edited.sources
    if is_turned:
        return reversed_project(after), tuple(legs[::-1] for legs in sources[::-1])
    return after, sources


def same_legs(before: Passage, after: Passage) -> dict[int, int]:
    """Legs of ``after`` that run as a leg of ``before`` did, by its number there, from 0.

    Same ends, same kind, same corridor: what can be seen from such a leg is the same. Its turns,
    times and lines may not be.
    """
    by_start: dict[tuple[float, float], list[int]] = {}
    for other in range(len(before.legs)):
        by_start.setdefault(_corner(before, other), []).append(other)
    found: dict[int, int] = {}
    first = 0
    for index in range(len(after.legs)):
        for other in by_start.get(_corner(after, index), ()):
            if other >= first and _is_same_leg(before, other, after, index):
                found[index] = other
                first = other + 1
                break
    return found


def _corner(passage: Passage, leg_index: int) -> tuple[float, float]:
    """Where a leg starts, to some decimetres: legs of another place need no closer look.

    Where rounding parts one place from itself, the leg is taken as changed, which hides no change.
    """
    place = passage.waypoints[leg_index].position
    return round(place.lat_deg, 6), round(place.lon_deg, 6)


def _is_same_leg(before: Passage, other: int, after: Passage, index: int) -> bool:
    one, two = before.legs[other], after.legs[index]
    return (
        one.kind is two.kind
        and _has_same_corridor(one, two)
        and is_same_place(before.waypoints[other].position, after.waypoints[index].position)
        and is_same_place(before.waypoints[other + 1].position, after.waypoints[index + 1].position)
    )


def _has_same_corridor(one: Leg, two: Leg) -> bool:
    pairs = (
        (one.corridor_port_m, two.corridor_port_m),
        (one.corridor_starboard_m, two.corridor_starboard_m),
    )
    return all(a == b if a is None or b is None else abs(a - b) <= _SAME_M for a, b in pairs)


def is_same_place(one: Position, two: Position) -> bool:
    """Whether two positions are one, but for how they were written (some millimetres)."""
    lon_deg = wrap_lon_deg(one.lon_deg - two.lon_deg)
    return abs(one.lat_deg - two.lat_deg) <= _SAME_DEG and abs(lon_deg) <= _SAME_DEG
