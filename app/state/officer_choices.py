"""The officer's own choices of index objects in a project."""

from dataclasses import replace

from core.base.language import tr
from core.files.project import Project
from core.plan.plan_result import Override, Role


def choice_of(project: Project, leg_number: int, role: str) -> Override | None:
    """The choice for a leg, from 1, and role, if there is one."""
    for override in project.overrides:
        if (override.leg_number, override.role) == (leg_number, role):
            return override
    return None


def without_choice(project: Project, leg_number: int, role: str) -> Project:
    """The choice left to the plan again."""
    kept = tuple(o for o in project.overrides if (o.leg_number, o.role) != (leg_number, role))
    return replace(project, overrides=kept)


def with_choice(project: Project, override: Override) -> Project:
    """A choice in place of an earlier one for the same leg and role."""
    kept = without_choice(project, override.leg_number, override.role).overrides
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
