"""What the officer must know of the land data as a whole."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.land.coast_check import CellDisagreement, CoastMismatch
from core.land.coast_data import CoastData

_APART_SHARE = 0.01
_DIFFERENT_SHARE = 0.05
_UPSIDE_DOWN = 0.5


def percent(share: float) -> str:
    """A share in whole per cent, never rounded to none or all."""
    whole = round(share * 100.0)
    if whole == 0 and share > 0.0:
        return tr("less than 1 %")
    return tr("more than 99 %") if whole == 100 and share < 1.0 else f"{whole} %"


def no_coast() -> Finding:
    """No coast file reaches the passage."""
    return Finding(
        severity=Severity.NOTE,
        code="coast-from-elevation",
        what=tr("no coast file is given; land is what the elevation shows above the water"),
        todo=tr("Give a coast file for a truer shoreline"),
    )


def second_opinion(coast: CoastData) -> Finding:
    """A coast file that finer ones leave nothing to say."""
    return Finding(
        severity=Severity.NOTE,
        code="coast-not-used",
        what=tr("is not used, since finer coast data covers the same waters"),
        where=Where(file=coast.source.name),
    )


def heights_assumed(height_m: float) -> Finding:
    """All heights are an assumption."""
    return Finding(
        severity=Severity.CHECK,
        code="heights-assumed",
        what=tr(
            "there is no elevation; all land is taken as {height_m:g} m above the water",
            height_m=height_m,
        ),
        todo=tr("Give elevation data: what stands behind the shore is not known"),
    )


def apart(mismatch: CoastMismatch) -> Finding | None:
    """Coast and waterline of the heights more than 100 m apart, if along 1 % or more."""
    if mismatch.apart_ratio < _APART_SHARE:
        return None
    return Finding(
        severity=Severity.CHECK,
        code="coast-elevation-apart",
        what=tr(
            "coast and waterline of the elevation lie more than 100 m apart "
            "along {percent} of the coast in reach (half of it is within "
            "{median_m:.0f} m, 95 % within {within_95_m:.0f} m)",
            percent=percent(mismatch.apart_ratio),
            median_m=mismatch.median_m,
            within_95_m=mismatch.within_95_m,
        ),
        todo=tr("Compare the coast with the chart before an index line is laid on it"),
    )


def cells_differ(found: CellDisagreement, name: str) -> Finding | None:
    """Coast and heights call different cells land, if in a share worth saying."""
    if found.high_sea_ratio > _UPSIDE_DOWN or (
        found.low_land_ratio > _UPSIDE_DOWN and found.high_sea_ratio > 0.0
    ):
        return Finding(
            severity=Severity.MUST_FIX,
            code="coast-elevation-contradict",
            what=tr(
                "coast and elevation contradict each other: {high_sea_percent} of its sea "
                "is higher than 10 m and {low_land_percent} of its land is not above the "
                "sea",
                high_sea_percent=percent(found.high_sea_ratio),
                low_land_percent=percent(found.low_land_ratio),
            ),
            where=Where(file=name),
            todo=tr(
                "Make sure that its polygons are land, not water, and that both are of one place"
            ),
        )
    if max(found.high_sea_ratio, found.low_land_ratio) < _DIFFERENT_SHARE:
        return None
    return Finding(
        severity=Severity.CHECK,
        code="coast-elevation-differ",
        what=tr(
            "coast and elevation differ: {high_sea_percent} of the sea by coast is "
            "higher than 10 m, {low_land_percent} of the land by coast is not above "
            "the sea; the coast is followed",
            high_sea_percent=percent(found.high_sea_ratio),
            low_land_percent=percent(found.low_land_ratio),
        ),
        where=Where(file=name),
        todo=tr("Compare with the chart"),
    )
