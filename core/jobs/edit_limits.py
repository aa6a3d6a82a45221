"""Danger limits put, changed and taken out by hand, one at a time, and kept in the project.

Nothing here makes a limit: each comes from the officer, who takes it from the chart.
"""

from collections.abc import Iterable
from dataclasses import replace

from core.base.errors import InputError
from core.base.language import tr
from core.base.units import nm_from_m
from core.files.project import Project
from core.jobs.edit_project import limits_of, with_limits
from core.plan.plan_result import DangerLimit, IndexLine, Limit

LEAST_M = 18.52
"""A tenth of a cable: no limit is set finer than a radar is read."""
FARTHEST_M = 92_600.0
"""50 NM, as in files of limits."""


def _is_same(limit: DangerLimit, object_id: str, leg_number: int | None) -> bool:
    return (
        limit.object_id.strip().casefold() == object_id.strip().casefold()
        and limit.leg_number == leg_number
    )


def limit_behind(
    limits: Iterable[DangerLimit], line: IndexLine, leg_number: int
) -> DangerLimit | None:
    """The limit that a margin line of a leg shows; None where it is there no more.

    A limit of the leg itself goes before one of every leg, the one with the line's own value
    before both.
    """
    if line.limit is None:
        return None
    found = [
        limit
        for number in (leg_number, None)
        for limit in limits
        if _is_same(limit, line.object.id, number) and value_of(limit, line.limit) is not None
    ]
    exact = [
        limit
        for limit in found
        if abs((value_of(limit, line.limit) or 0.0) - line.cross_index_range_m) < 0.5
    ]
    return next(iter((*exact, *found)), None)


def value_of(limit: DangerLimit, which: Limit) -> float | None:
    """Its distance «not less than» or «not more than», m."""
    return limit.least_m if which is Limit.NOT_LESS_THAN else limit.most_m


def moved_limit(
    limits: Iterable[DangerLimit], line: IndexLine, leg_number: int, distance_m: float
) -> DangerLimit:
    """The limit of a margin line at another distance; one of the leg where it had none."""
    which = line.limit or Limit.NOT_LESS_THAN
    limit = limit_behind(limits, line, leg_number) or DangerLimit(
        object_id=line.object.id, leg_number=leg_number, least_m=None, most_m=None
    )
    if which is Limit.NOT_LESS_THAN:
        return replace(limit, least_m=distance_m)
    return replace(limit, most_m=distance_m)


def with_limit(
    project: Project,
    limit: DangerLimit,
    *,
    instead_of: DangerLimit | None = None,
    leg_count: int | None = None,
) -> Project:
    """The project with a limit in the place of that of the same object and leg.

    Parameters
    ----------
    instead_of : DangerLimit or None
        Another limit that it replaces, such as the same one for other legs.
    leg_count : int or None
        Legs of the passage; None reads the route.

    Raises
    ------
    InputError
        The limit is none, or what the project holds cannot be read.
    """
    _check(limit)
    old = limit if instead_of is None else instead_of
    kept: list[DangerLimit] = []
    is_put = False
    for one in limits_of(project, leg_count=leg_count):
        is_same = _is_same(one, limit.object_id, limit.leg_number)
        if is_same or _is_same(one, old.object_id, old.leg_number):
            if not is_put:
                kept.append(limit)
            is_put = True
        else:
            kept.append(one)
    if not is_put:
        kept.append(limit)
    return with_limits(project, tuple(kept))


def without_limit(project: Project, limit: DangerLimit, *, leg_count: int | None = None) -> Project:
    """The project without the limit of the same object and leg.

    Raises
    ------
    InputError
        What the project holds cannot be read.
    """
    kept = tuple(
        one
        for one in limits_of(project, leg_count=leg_count)
        if not _is_same(one, limit.object_id, limit.leg_number)
    )
    return with_limits(project, kept)


def _check(limit: DangerLimit) -> None:
    where = tr("danger limit off {object_id}", object_id=limit.object_id)
    values = [value for value in (limit.least_m, limit.most_m) if value is not None]
    if not values:
        raise InputError(
            tr("there is no distance"),
            where=where,
            todo=tr("Give not less than, not more than, or both"),
        )
    if min(values) < LEAST_M - 1e-6:
        raise InputError(
            tr("{distance_nm:.3f} NM is less than 0.01 NM", distance_nm=nm_from_m(min(values))),
            where=where,
            todo=tr("Take the distance from the chart"),
        )
    if max(values) > FARTHEST_M + 1e-6:
        raise InputError(
            tr("{distance_nm:.2f} NM is more than 50 NM", distance_nm=nm_from_m(max(values))),
            where=where,
            todo=tr("Correct it"),
        )
    least, most = limit.least_m, limit.most_m
    if least is not None and most is not None and least >= most:
        raise InputError(
            tr(
                "not less than {least_nm:.2f} NM is not below not more than {most_nm:.2f} NM",
                least_nm=nm_from_m(least),
                most_nm=nm_from_m(most),
            ),
            where=where,
            todo=tr("Exchange or correct them"),
        )
