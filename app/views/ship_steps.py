"""Own ship moved along the chosen leg by time and by what comes next."""

from app.state.document import Document
from app.state.stops import stepped_m
from core.base.language import tr
from core.plan.plan_result import Plan
from core.words import quantities
from core.words.stop_words import LegStop, leg_stops

_HERE_M = 1.0


class ShipSteps:
    """Moves the cursor of a document and tells what begins, ends or is due where it is."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._kept: tuple[Plan, int, tuple[LegStop, ...]] | None = None
        document.opened.connect(self._forget)

    def _forget(self) -> None:
        self._kept = None

    def by_events(self, steps: int) -> None:
        """To where something begins, ends or is due, forward positive."""
        document = self._document
        places_m = [stop.along_m for stop in self.stops]
        document.set_cursor(stepped_m(places_m, document.cursor_along_m, steps))

    def by_minutes(self, minutes: float) -> None:
        """By a time's run at the planned speed over the ground, forward positive."""
        document, leg = self._document, self._document.leg_plan
        if leg is not None:
            document.set_cursor(document.cursor_along_m + minutes * 60.0 * leg.speed_mps)

    @property
    def stops(self) -> tuple[LegStop, ...]:
        """All stops of the chosen leg; none without a plan."""
        outcome, leg_index = self._document.outcome, self._document.leg_index
        if outcome is None or leg_index >= len(outcome.plan.legs):
            return ()
        kept = self._kept
        if kept is None or kept[0] is not outcome.plan or kept[1] != leg_index:
            kept = (outcome.plan, leg_index, leg_stops(outcome.plan, leg_index))
            self._kept = kept
        return kept[2]

    @property
    def stop_here(self) -> LegStop | None:
        """What begins, ends or is due where own ship is."""
        here_m = self._document.cursor_along_m
        near = [stop for stop in self.stops if abs(stop.along_m - here_m) <= _HERE_M]
        return min(near, key=lambda stop: abs(stop.along_m - here_m), default=None)

    @property
    def words_here(self) -> str:
        """How far to go, and what begins, ends or is due here; empty without a plan."""
        leg = self._document.leg_plan
        if leg is None:
            return ""
        to_go = quantities.distance(leg.distance_m - self._document.cursor_along_m, 2)
        stop = self.stop_here
        return (
            tr("{to_go} to go", to_go=to_go)
            if stop is None
            else tr("{to_go} to go: {what_is_due}", to_go=to_go, what_is_due=stop.words)
        )
