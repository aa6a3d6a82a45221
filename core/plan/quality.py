"""How good the data of a leg is, as a grade with reasons in words."""

from core.base.language import tr, tr_n
from core.base.units import nm_from_m
from core.coverage.coverage_result import LegCoverage
from core.land.land_model import LandModel
from core.plan.plan_result import Quality

_FINE_CELL_M = 45.0
_FAIR_CELL_M = 120.0
_GRADES = ("good", "fair", "poor")


def quality_of(
    leg: LegCoverage,
    land: LandModel,
    *,
    cell_m: float,
    nearest_land_m: float | None,
    mismatch: bool,
) -> Quality:
    """Grade the data behind one leg.

    Parameters
    ----------
    leg : LegCoverage
        Its coverage.
    land : LandModel
        Land with its sources and findings.
    cell_m : float
        Longer side of an elevation cell, m.
    nearest_land_m : float or None
        Least distance to land in sight on the leg; None where no land was seen.
    mismatch : bool
        Whether coast and elevation disagree about the waterline.
    """
    worst = 0
    reasons: list[str] = []

    def note(level: int, text: str) -> None:
        nonlocal worst
        worst = max(worst, level)
        reasons.append(text)

    if land.heights_assumed:
        note(2, tr("heights of land are an assumption, only a coast is given"))
    elif cell_m <= _FINE_CELL_M:
        note(0, tr("elevation cells of {cell_m:.0f} m", cell_m=cell_m))
    else:
        note(
            1 if cell_m <= _FAIR_CELL_M else 2,
            tr("elevation cells of {cell_m:.0f} m are coarse", cell_m=cell_m),
        )
    if land.coast.from_elevation:
        note(1, tr("no coast data, the waterline is taken from the elevation"))
    if mismatch:
        note(1, tr("coast and elevation disagree about the waterline"))
    undated = [source.name for source in land.sources if not source.released]
    if undated:
        note(
            1,
            tr_n(
                "date of {count} data file is not known",
                "date of {count} data files is not known",
                len(undated),
            ),
        )
    if not leg.is_complete:
        note(2, tr("heights are missing where they could matter"))
    if nearest_land_m is not None and nearest_land_m < 3.0 * cell_m:
        note(
            1,
            tr(
                "land {land_nm:.2f} NM off is within three cells of the track",
                land_nm=nm_from_m(nearest_land_m),
            ),
        )
    return Quality(grade=_GRADES[worst], reasons=tuple(reasons))
