"""The officer's own choices of index objects in a project."""

from dataclasses import replace

from core.base.language import tr
from core.files.project import Project
from core.plan.plan_result import Override, Role

_Part = tuple[float, float]


def choices_of(
    project: Project, leg_number: int, role: str, part_m: _Part | None = None
) -> tuple[Override, ...]:
    """The choices for a leg, from 1, and role, or those for a part of it."""
    return tuple(
        override
        for override in project.overrides
        if (override.leg_number, override.role) == (leg_number, role)
        and (part_m is None or override.is_for(*part_m))
    )


def without_choices(
    project: Project, leg_number: int, role: str, part_m: _Part | None = None
) -> Project:
    """What ``choices_of`` finds, left to the plan again."""
    gone = choices_of(project, leg_number, role, part_m)
    return replace(project, overrides=tuple(o for o in project.overrides if o not in gone))


def with_choice(project: Project, override: Override) -> Project:
    """A choice in place of earlier ones for the same leg, role and part."""
    kept = without_choices(project, override.leg_number, override.role, override.part_m).overrides
    return replace(project, overrides=(*kept, override))


def choose_words(role: str, leg_number: int) -> str:
    """What the step is called that puts a choice."""
    if role == Role.PRIMARY.value:
        return tr("choose primary object of leg {leg_number}", leg_number=leg_number)
    return tr("choose check object of leg {leg_number}", leg_number=leg_number)


def free_words(role: str, leg_number: int) -> str:
    """What the step is called that leaves a choice to the plan again."""
    if role == Role.PRIMARY.value:
        return tr("free primary object of leg {leg_number}", leg_number=leg_number)
    return tr("free check object of leg {leg_number}", leg_number=leg_number)
