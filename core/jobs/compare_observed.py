"""What was seen beside an earlier plan."""

from pathlib import Path

from core.base.findings import Finding
from core.files.expected_plan import read_expected
from core.files.sightings_file import read_sightings
from core.plan.observed import observed_report
from core.plan.observed_result import ObservedReport


def compare_observed(plan: Path, seen: Path) -> tuple[ObservedReport, tuple[Finding, ...]]:
    """Read a plan file and what was seen, and compare them.

    Raises
    ------
    InputError
        A file cannot be used, in one sentence.
    """
    sightings, findings = read_sightings(seen)
    return observed_report(read_expected(plan), sightings), findings
