"""What the officer must know about coverage, in words."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.coverage_result import Cause, Gap, LegCoverage
from core.coverage.gaps import NEAR_M

_CAUSE_WORDS = {
    Cause.VOID: tr("no heights in the elevation file (a void)"),
    Cause.MISSING: tr("no elevation file"),
    Cause.BEYOND_DATA: tr("no data at all"),
}


def findings_of(legs: tuple[LegCoverage, ...]) -> tuple[Finding, ...]:
    """Findings about gaps, leg by leg.

    The severity of a gap depends on what it can hide, which the plan decides; here an
    incomplete leg is something to check, and data that ends far off a note.
    """
    findings = []
    for leg in legs:
        where = Where(leg_number=leg.leg_index + 1)
        harmful = [g for g in leg.gaps if is_harmful(g)]
        if not leg.is_complete:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="coverage-incomplete",
                    what=tr("coverage is incomplete: {gaps}", gaps=_gap_words(harmful)),
                    where=where,
                    todo=tr("Add elevation data for this area, or keep what it may hide in mind"),
                )
            )
        elif leg.gaps:
            findings.append(
                Finding(
                    severity=Severity.NOTE,
                    code="data-ends-in-reach",
                    what=tr(
                        "the data ends within the sweep radius: {gaps}",
                        gaps=_gap_words(list(leg.gaps)),
                    ),
                    where=where,
                )
            )
    return tuple(findings)


def is_harmful(gap: Gap) -> bool:
    """Whether a gap makes its leg incomplete."""
    return gap.cause is not Cause.BEYOND_DATA or gap.range_from_m <= NEAR_M


def _gap_words(gaps: list[Gap]) -> str:
    """The nearest gap of each cause, and how many more there are."""
    parts = []
    for cause in Cause:
        here = sorted((g for g in gaps if g.cause is cause), key=lambda g: g.range_from_m)
        if not here:
            continue
        first = here[0]
        text = tr(
            "{cause} from {distance_nm:.1f} NM off, bearing {from_bearing} to {to_bearing}",
            cause=_CAUSE_WORDS[cause],
            distance_nm=nm_from_m(first.range_from_m),
            from_bearing=_bearing(first.bearing_from_deg),
            to_bearing=_bearing(first.bearing_to_deg),
        )
        if len(here) > 1:
            text = tr("{gap}, and {more_count} more", gap=text, more_count=len(here) - 1)
        parts.append(text)
    return "; ".join(parts)


def _bearing(bearing_deg: float) -> str:
    return f"{round(bearing_deg) % 360:03d}"
