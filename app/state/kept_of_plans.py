"""What plans leave with their project: objects that keep their letters, and of when the plan is."""

from dataclasses import replace
from pathlib import Path

from core.files.project import Project
from core.jobs.kept_plan import last_plan_of
from core.plan.last_plan import LastPlan
from core.plan.outcome import Outcome
from core.plan.plan_result import KnownObject

Route = tuple[Path | None, str]


def route_of(project: Project) -> Route:
    """Which route a project names or holds."""
    return project.route, project.route_text


class KeptOfPlans:
    """Apart from the project, since none of it is an edit: nothing to undo, nothing out of date."""

    def __init__(self) -> None:
        self._known: dict[Route, tuple[KnownObject, ...]] = {}
        self._last_plan: LastPlan | None = None

    def begin(self, project: Project) -> None:
        """A project was opened."""
        self._known = {route_of(project): project.known_objects}
        self._last_plan = project.last_plan

    def take(self, outcome: Outcome, project: Project) -> None:
        """A plan was made of a project."""
        self._known.pop(route_of(project), None)
        self._known[route_of(project)] = outcome.plan.known_objects
        self._last_plan = last_plan_of(outcome, project)

    def put_into(self, project: Project) -> Project:
        """The project with it, as it is written.

        A route without a plan takes objects of the last plan: it may be a revision of its route.
        """
        last = next(reversed(self._known.values()), ())
        known = self._known.get(route_of(project), last)
        return replace(project, known_objects=known, last_plan=self._last_plan, read_only_copy=None)
