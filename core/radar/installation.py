"""What a radar was approved to, and the accuracy that may be expected of it for that."""

import re
from dataclasses import dataclass
from enum import Enum


class InstallationStandard(Enum):
    """Performance standard of a set's type approval, by its resolution."""

    MSC_192 = "MSC.192(79)"
    """For sets fitted from 1 July 2008."""
    MSC_64 = "MSC.64(67)"
    """For sets fitted from 1 January 1999 to 1 July 2008."""
    A_477 = "A.477(XII)"
    """For sets fitted from 1 September 1984."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AccuracyLimits:
    """Limits a standard sets to a whole radar (handbook 2.2, 2.3)."""

    range_error_ratio: float
    """Permitted range error as a share of the range scale, bare."""
    range_error_least_m: float
    bearing_error_deg: float
    least_range_m: float
    """Range down to which the table's buoy must show, m."""
    range_discrimination_m: float
    bearing_discrimination_deg: float
    is_from_memory: bool
    """True where the figures were not read in the resolution."""

    def range_error_m(self, range_scale_m: float) -> float:
        """Permitted range error on a scale, m: by the scale, whatever the range measured."""
        return max(self.range_error_least_m, self.range_error_ratio * range_scale_m)


ACCURACY = {
    # 5.12.2, 5.15.1, 5.4.1 and 5.5, read.
    InstallationStandard.MSC_192: AccuracyLimits(
        range_error_ratio=0.01,
        range_error_least_m=30.0,
        bearing_error_deg=1.0,
        least_range_m=40.0,
        range_discrimination_m=40.0,
        bearing_discrimination_deg=2.5,
        is_from_memory=False,
    ),
    # Annex 4, 3.4.3 and 3.6.2 read; least range and discrimination from memory.
    InstallationStandard.MSC_64: AccuracyLimits(
        range_error_ratio=0.01,
        range_error_least_m=30.0,
        bearing_error_deg=1.0,
        least_range_m=50.0,
        range_discrimination_m=40.0,
        bearing_discrimination_deg=2.5,
        is_from_memory=True,
    ),
    InstallationStandard.A_477: AccuracyLimits(
        range_error_ratio=0.015,
        range_error_least_m=70.0,
        bearing_error_deg=1.0,
        least_range_m=50.0,
        range_discrimination_m=50.0,
        bearing_discrimination_deg=2.5,
        is_from_memory=True,
    ),
}
"""Limits by standard."""

_SIGNS = (
    (InstallationStandard.MSC_192, re.compile(r"MSC\W*192\b", re.IGNORECASE)),
    (InstallationStandard.MSC_64, re.compile(r"MSC\W*64\b", re.IGNORECASE)),
    (InstallationStandard.A_477, re.compile(r"\bA\W*477\b", re.IGNORECASE)),
)


def standard_in(text: str) -> InstallationStandard | None:
    """The standard a certificate's words name, such as «type-tested to IMO MSC.192(79)».

    None where they name none of the three known here; with several, the newest.
    """
    return next((standard for standard, sign in _SIGNS if sign.search(text)), None)
