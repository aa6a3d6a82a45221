"""What land files cover of a passage, in words."""

import math
from collections.abc import Sequence

from core.base.language import tr, tr_n
from core.geodesy.position import Bounds
from core.land.land_fit_result import LandFit


def fit_words(fit: LandFit) -> str:
    """What covers the passage and what is missing, in a sentence or two."""
    if not fit.paths:
        return tr("None of this land covers this passage.")
    heights = [leg.leg_number for leg in fit.legs if leg.heights_fraction < 1.0]
    coast = [leg.leg_number for leg in fit.legs if leg.coast_fraction < 1.0]
    parts = [
        _cover_words(fit.heights_share, heights, are_heights=True),
        _cover_words(fit.coast_share, coast, are_heights=False),
    ]
    open_sea = tr(" Open sea needs no heights.") if heights else ""
    return " ".join(parts) + open_sea


def _cover_words(share: float, lacking: list[int], *, are_heights: bool) -> str:
    if not lacking:
        return (
            tr("Heights cover the waters of every leg, going by the areas the files state.")
            if are_heights
            else tr("Coast covers the waters of every leg, going by the areas the files state.")
        )
    if share == 0.0:
        return (
            tr("Heights: none covers this passage.")
            if are_heights
            else tr("Coast: none covers this passage.")
        )
    legs = ", ".join(map(str, lacking[:8])) + (tr(" and more") if len(lacking) > 8 else "")
    percent = percent_of(share)
    if are_heights:
        return tr_n(
            "Heights cover {percent} % of the waters; some is missing round leg {legs}.",
            "Heights cover {percent} % of the waters; some is missing round legs {legs}.",
            len(lacking),
            percent=percent,
            legs=legs,
        )
    return tr_n(
        "Coast covers {percent} % of the waters; some is missing round leg {legs}.",
        "Coast covers {percent} % of the waters; some is missing round legs {legs}.",
        len(lacking),
        percent=percent,
        legs=legs,
    )


def percent_of(share: float) -> int:
    """A share of the waters, whole percent: neither all nor nothing unless it is."""
    return min(max(math.floor(share * 100.0), 1 if share > 0.0 else 0), 100)


def area_words(areas: Sequence[Bounds]) -> str:
    """The box round some areas, in whole degrees outward; empty without any."""
    if not areas:
        return ""
    south, north = min(a.south_deg for a in areas), max(a.north_deg for a in areas)
    west, east = min(a.west_deg for a in areas), max(a.east_deg for a in areas)
    if east - west >= 360.0:
        west, east = -180.0, 180.0
    return tr(
        "{south} to {north}, {west} to {east}",
        south=_degrees(math.floor(south), "NS"),
        north=_degrees(math.ceil(north), "NS"),
        west=_degrees(_wrapped(math.floor(west)), "EW"),
        east=_degrees(_wrapped(math.ceil(east)), "EW"),
    )


def _degrees(value: int, hemispheres: str) -> str:
    width = 2 if hemispheres == "NS" else 3
    return f"{abs(value):0{width}d}° {hemispheres[value < 0]}"


def _wrapped(lon: int) -> int:
    """A meridian in -180 to 180; 180 stays what it is called."""
    return lon if -180 <= lon <= 180 else (lon + 180) % 360 - 180
