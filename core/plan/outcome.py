"""One computation from end to end: what it was asked, what it found."""

from dataclasses import dataclass

from core.base.findings import Finding
from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.plan.plan_result import Plan
from core.plan.request import Request
from core.plan.revision import FIRST, PlanRevision


@dataclass(frozen=True, slots=True, kw_only=True)
class Timings:
    """Wall time of the stages, s; the only part of an outcome that differs between runs."""

    land_s: float
    coverage_s: float
    plan_s: float
    total_s: float


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
