"""Legs that were covered before there is a plan of them, for as long as their inputs stand."""

from app.state.edited_line import way_of
from core.coverage.coverage_result import LegCoverage
from core.files.project import Project
from core.plan.first_results import FirstResults
from core.plan.outcome import Outcome


def _seen_by(project: Project) -> tuple[object, ...]:
    """What coverage of a project depends on; notes, marks, limits and choices change none."""
    return (
        way_of(project),
        *(project.land, project.classes),
        *(project.ship, project.ship_text, project.options),
    )


class FirstLegs:
    """First results, leg by leg; those of a computation that was stopped stay."""

    def __init__(self) -> None:
        self._inputs: tuple[object, ...] = ()
        self._by_leg: dict[int, FirstResults] = {}
        self._last: FirstResults | None = None

    def clear(self) -> None:
        """Forget all: there is a plan, or another document."""
        self._by_leg, self._last = {}, None

    def keep_if_of(self, project: Project) -> bool:
        """Forget all that is not of the inputs as they are now; whether anything was."""
        if not self._by_leg or _seen_by(project) == self._inputs:
            return False
        self.clear()
        return True

    def take(self, first: FirstResults, computed: Project, project: Project) -> bool:
        """Take what a computation of a project found; whether it is of the inputs as they are."""
        inputs = _seen_by(computed)
        if inputs != _seen_by(project):
            return False
        if inputs != self._inputs:
            self.clear()
            self._inputs = inputs
        self._by_leg[first.leg.leg_index] = self._last = first
        return True

    @property
    def numbers(self) -> frozenset[int]:
        """The legs covered, from 0."""
        return frozenset(self._by_leg)

    def leg(self, leg_index: int) -> LegCoverage | None:
        """The coverage of a leg; None while it is not covered."""
        found = self._by_leg.get(leg_index)
        return None if found is None else found.leg

    def drawn(self, leg_index: int) -> Outcome | None:
        """What a view of one leg draws: the same for as long as that leg is the same."""
        found = self._by_leg.get(leg_index)
        return None if found is None else found.drawn

    @property
    def last(self) -> Outcome | None:
        """What a view of the whole passage draws: all legs covered so far."""
        return None if self._last is None else self._last.drawn
