"""What was seen beside an earlier plan."""

from pathlib import Path

from core.base.findings import Finding
from core.files.expected_plan import expected_of, read_expected
from core.files.plan_json import plan_document
from core.files.sightings_file import read_sightings
from core.plan.observed import observed_report
from core.plan.observed_result import ObservedReport
from core.plan.outcome import Outcome


def compare_observed(plan: Path, seen: Path) -> tuple[ObservedReport, tuple[Finding, ...]]:
    """Read a plan file and what was seen, and compare them.

    Raises
    ------
    InputError
        A file cannot be used, in one sentence.
    """
    sightings, findings = read_sightings(seen)
    return observed_report(read_expected(plan), sightings), findings


def compare_seen(outcome: Outcome, seen: Path) -> ObservedReport:
    """Read what was seen and compare it with a plan that was just made.

    Raises
    ------
    InputError
        The file cannot be used, in one sentence.
    """
    sightings, _findings = read_sightings(seen)
    return observed_report(expected_of(plan_document(outcome)), sightings)
