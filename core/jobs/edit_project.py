"""Edits of a project by hand: waypoints, legs, marks and danger limits kept in the project.

The first edit takes what the file holds into the project; the file stays as it is.
"""

from collections.abc import Callable
from dataclasses import replace

from core.files.csv_route_write import csv_route_text
from core.files.limits_file import read_limits
from core.files.marks_file import read_marks
from core.files.marks_write import limits_text, marks_text
from core.files.project import Project
from core.files.reading import blob_of
from core.jobs.leg_numbers import LegNumbers
from core.jobs.make_request import read_route
from core.passage.edit_passage import PassageEdit
from core.passage.passage import Passage
from core.passage.reverse import reversed_number, reversed_passage
from core.plan.anchoring_result import Anchorage
from core.plan.plan_result import DangerLimit, Mark, Override

Sources = tuple[tuple[int, ...], ...]


def passage_to_edit(project: Project) -> Passage:
    """The passage the way it is planned, with what the route says and nothing assumed.

    Raises
    ------
    InputError
        The route cannot be read.
    """
    passage = read_route(project).passage
    return reversed_passage(passage) if project.is_reversed else passage


def with_edited_passage(
    project: Project, edit: Callable[[Passage], PassageEdit], before: Passage | None = None
) -> Project:
    """The project with its passage, the way it is planned, edited.

    Choices of objects go with their legs, and so do limits kept in the project; an anchorage
    goes with its waypoint. Legs of files are found again by ``Project.leg_sources``.

    Parameters
    ----------
    before : Passage, optional
        The passage where it is known already: then its file is not read again.

    Raises
    ------
    InputError
        The route or the limits cannot be read.
    ValueError
        The edit cannot be done.
    """
    if before is None:
        before = passage_to_edit(project)
    edited = edit(before)
    if edited.passage == before:
        return project
    passage, sources = edited.passage, edited.sources
    if project.is_reversed:
        passage = reversed_passage(passage)
        sources = _turned(sources, len(before.legs))
    limits: tuple[DangerLimit, ...] | None = None
    if project.limits_text:
        limits = tuple(
            replace(limit, leg_number=number)
            for limit in read_limits(blob_of("limits", project.limits_text.encode()))[0]
            for number in _numbers_of(limit.leg_number, sources)
        )
    return replace(
        project,
        route=None,
        route_text=csv_route_text(passage),
        route_name=passage.name,
        leg_sources=_after(project.leg_sources, sources),
        overrides=_moved(project.overrides, edited.sources),
        limits_text=project.limits_text if limits is None else limits_text(limits),
        anchorage=_renamed(project, before, edited.passage),
    )


def _turned(sources: Sources, leg_count: int) -> Sources:
    return tuple(tuple(leg_count - 1 - leg for leg in legs[::-1]) for legs in sources[::-1])


def _after(earlier: Sources, later: Sources) -> Sources:
    """Sources of an edit upon an edit."""
    if not earlier:
        return later
    return tuple(tuple(dict.fromkeys(s for leg in legs for s in earlier[leg])) for legs in later)


def _numbers_of(number: int | None, sources: Sources) -> tuple[int | None, ...]:
    if number is None:
        return (None,)
    return tuple(i + 1 for i, legs in enumerate(sources) if number - 1 in legs)


def _moved(overrides: tuple[Override, ...], sources: Sources) -> tuple[Override, ...]:
    """Choices by the new numbers; where legs were joined those of the first count.

    A part of a leg that was joined or divided is no part of the new one: the choice is then for
    the whole leg.
    """
    found: dict[tuple[int, str], list[Override]] = {}
    for index, legs in enumerate(sources):
        is_same = len(legs) == 1 and sum(legs[0] in others for others in sources) == 1
        for leg in legs:
            by_role: dict[tuple[int, str], list[Override]] = {}
            for override in overrides:
                if override.leg_number == leg + 1:
                    part_m = override.part_m if is_same else None
                    moved = replace(override, leg_number=index + 1, part_m=part_m)
                    by_role.setdefault((index + 1, override.role), []).append(moved)
            for key, moved_ones in by_role.items():
                found.setdefault(key, moved_ones)
    return tuple(dict.fromkeys(override for chosen in found.values() for override in chosen))


def _renamed(project: Project, before: Passage, after: Passage) -> Anchorage | None:
    anchorage = project.anchorage
    if anchorage is None or len(before.waypoints) != len(after.waypoints):
        return anchorage
    for was, is_now in zip(before.waypoints, after.waypoints, strict=True):
        if was.name == anchorage.waypoint and is_now.name != was.name:
            return replace(anchorage, waypoint=is_now.name)
    return anchorage


def marks_of(project: Project) -> tuple[Mark, ...]:
    """Marks and places of the project, none without any.

    Raises
    ------
    InputError
        The file cannot be read.
    """
    source = project.source_of("marks")
    return () if source is None else read_marks(source)[0]


def limits_of(project: Project, *, leg_count: int | None = None) -> tuple[DangerLimit, ...]:
    """Danger limits by the numbers of the legs as planned; none without any.

    ``leg_count`` saves reading the route where it is known how many legs it has.

    Raises
    ------
    InputError
        Route or limits cannot be read.
    """
    source = project.source_of("limits")
    if source is None:
        return ()
    if leg_count is None:
        leg_count = len(read_route(project).passage.legs)
    numbers = LegNumbers.of(project, leg_count)
    return numbers.limits(read_limits(source)[0], source.name, is_file=not project.limits_text)[0]


def with_marks(project: Project, marks: tuple[Mark, ...]) -> Project:
    """The project with these marks, kept in it."""
    return replace(project, marks=None, marks_text=marks_text(marks))


def with_limits(project: Project, limits: tuple[DangerLimit, ...]) -> Project:
    """The project with these danger limits, by the numbers of the legs as planned, kept in it.

    Raises
    ------
    InputError
        The route cannot be read.
    """
    if project.is_reversed:
        count = len(read_route(project).passage.legs)
        limits = tuple(
            limit
            if limit.leg_number is None
            else replace(limit, leg_number=reversed_number(limit.leg_number, count))
            for limit in limits
        )
    return replace(project, limits=None, limits_text=limits_text(limits))
