"""The standard's table of detection ranges, and what the model says to each of its rows.

IMO MSC.192(79), 5.3.1.1 and table 2: antenna 15 m, no clutter, 8 of 10 scans, one false alarm in
ten thousand. Ranges were read; radar cross-sections are from memory (of the test standard
IEC 62388) except where said, corroborated as far as handbook 2.1, 7.3 and 12 tell.
"""

from dataclasses import dataclass

from core.base.units import m_from_nm
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.first_detection import DetectionRanges, detection_ranges
from core.radar.radar_set import RadarSet
from core.radar.radar_target import RadarTarget, Spread
from core.radar.square_law import DetectionRule
from core.ship.ship import Band

STANDARD_ANTENNA_M = 15.0
"""Height of the antenna the table is for, m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StandardRow:
    """One row of the table; both bands."""

    name: str
    height_m: float
    x_band_range_m: float
    s_band_range_m: float
    x_band_rcs_m2: float
    s_band_rcs_m2: float
    spread: Spread = Spread.POINT
    is_footnote: bool = False
    """A footnote's target, range and cross-section from memory."""

    def range_m(self, band: Band) -> float:
        """Least range of detection the standard asks for, m."""
        return self.x_band_range_m if band is Band.X else self.s_band_range_m

    def target(self, band: Band) -> RadarTarget:
        """The row's target."""
        return RadarTarget(
            rcs_m2=self.x_band_rcs_m2 if band is Band.X else self.s_band_rcs_m2,
            height_m=self.height_m,
            spread=self.spread,
        )


def _row(
    name: str,
    height_m: float,
    ranges_nm: tuple[float, float],
    rcs_m2: tuple[float, float],
    *,
    spread: Spread = Spread.POINT,
    is_footnote: bool = False,
) -> StandardRow:
    return StandardRow(
        name=name,
        height_m=height_m,
        x_band_range_m=m_from_nm(ranges_nm[0]),
        s_band_range_m=m_from_nm(ranges_nm[1]),
        x_band_rcs_m2=rcs_m2[0],
        s_band_rcs_m2=rcs_m2[1],
        spread=spread,
        is_footnote=is_footnote,
    )


STANDARD_ROWS = (
    _row("shoreline rising to 60 m", 60.0, (20.0, 20.0), (50_000.0, 50_000.0), spread=Spread.SHORE),
    _row("shoreline rising to 6 m", 6.0, (8.0, 8.0), (5_000.0, 5_000.0), spread=Spread.SHORE),
    _row("shoreline rising to 3 m", 3.0, (6.0, 6.0), (2_500.0, 2_500.0), spread=Spread.SHORE),
    _row("ship over 5000 GT", 10.0, (11.0, 11.0), (50_000.0, 30_000.0), spread=Spread.EXTENDED),
    _row("ship over 500 GT", 5.0, (8.0, 8.0), (1_800.0, 1_000.0), spread=Spread.EXTENDED),
    # Cross-sections of MSC.164(78) 3.1, read.
    _row("small vessel with reflector", 4.0, (5.0, 3.7), (7.5, 0.5)),
    _row("buoy with corner reflector", 3.5, (4.9, 3.6), (10.0, 1.0)),
    _row("typical buoy", 3.5, (4.6, 3.0), (5.0, 0.5)),
    _row("vessel of 10 m, no reflector", 2.0, (3.4, 3.0), (2.5, 1.4)),
    _row("channel marker", 1.0, (2.0, 1.0), (1.0, 0.1), is_footnote=True),
)
"""The rows in the standard's order, then its footnote."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableLine:
    """One row with what the model finds in each of the conditions asked for."""

    row: StandardRow
    ranges: tuple[DetectionRanges, ...]
    """By condition, in their order."""


def table_of(
    radar: RadarSet,
    conditions: tuple[Conditions, ...],
    *,
    antenna_height_m: float = STANDARD_ANTENNA_M,
    rule: DetectionRule | None = None,
) -> tuple[TableLine, ...]:
    """Work out every row for one set, with its long pulse.

    Parameters
    ----------
    radar : RadarSet
        The set.
    conditions : tuple of Conditions
        The first is the one to compare with the standard: no sea, no rain.
    antenna_height_m : float
        Height of the antenna above the water, m.
    rule : DetectionRule, optional
        The standard's if None.
    """
    budgets = [
        EchoBudget(
            radar=radar,
            pulse=radar.long_pulse,
            antenna_height_m=antenna_height_m,
            conditions=condition,
        )
        for condition in conditions
    ]
    return tuple(
        TableLine(
            row=row,
            ranges=tuple(
                detection_ranges(budget, row.target(radar.band), rule) for budget in budgets
            ),
        )
        for row in STANDARD_ROWS
    )
