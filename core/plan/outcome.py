"""One computation from end to end: what it was asked, what it found."""

from dataclasses import dataclass

from core.base.findings import Finding
from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.plan.plan_result import LegPlan, Plan, WheelOver
from core.plan.request import Request
from core.plan.revision import FIRST, PlanRevision


@dataclass(frozen=True, slots=True, kw_only=True)
class Timings:
    """Wall time of the stages, s; the only part of an outcome that differs between runs."""

    land_s: float
    coverage_s: float
    plan_s: float
    total_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AbortPoint:
    """Where the line of a contingency leg leaves the track of a leg."""

    number: int
    """Of the contingency leg, from 1, in the order along the passage."""
    leg_number: int
    """Of the leg it leaves, from 1."""
    along_m: float
    """Along that leg."""
    to_go_m: float
    """From there to the leg's last waypoint; below 0 beyond it."""
    turn_before_m: float | None = None
    """A line, so far before that waypoint, that the turn was asked to keep clear of."""
    note: str = ""
    """In the officer's words."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outcome:
    """A finished plan with everything it stands on."""

    request: Request
    digest: str
    """SHA-256 over inputs, parameters and version."""
    land: LandModel
    coverage: Coverage
    plan: Plan
    findings: tuple[Finding, ...]
    """All findings, worst first."""
    timings: Timings
    created_utc: str
    revision: PlanRevision = FIRST
    """How it stands to the last revision that was issued."""
    contingencies: tuple["ContingencyPlan", ...] = ()
    """In the order of the legs they leave."""
    leaves: AbortPoint | None = None
    """Where a contingency leaves the passage; None for a passage."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ContingencyPlan:
    """A contingency leg, planned as the second leg of a passage of two.

    The first leg is the one it leaves, as far as the abort point; nothing of its plan counts but
    the turn.
    """

    at: AbortPoint
    outcome: Outcome
    """Of the two legs, on the land of the whole passage."""

    @property
    def parent_index(self) -> int:
        """Of the leg it leaves, from 0."""
        return self.at.leg_number - 1

    @property
    def leg(self) -> LegPlan:
        """The contingency leg."""
        return self.outcome.plan.legs[1]

    @property
    def wheel_over(self) -> WheelOver | None:
        """The turn onto it; None where there is none to plan."""
        return self.outcome.plan.legs[0].wheel_over

    @property
    def last_m(self) -> float:
        """Along the leg it leaves: where the wheel goes over at the latest."""
        return self.at.along_m if self.wheel_over is None else self.wheel_over.along_m

    @property
    def name(self) -> str:
        """Of the place it leads to."""
        return self.outcome.plan.passage.waypoints[2].name
