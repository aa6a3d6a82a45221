"""What land files cover of a passage, in words."""

import math

from core.base.language import tr, tr_n
from core.land.land_fit_result import LandFit


def fit_words(fit: LandFit) -> str:
    """What covers the passage and what is missing, in a sentence or two."""
    if not fit.paths:
        return tr("Nothing on the shelf covers this passage.")
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
    # Cut, not rounded: with something missing it never reads as all.
    percent = math.floor(share * 100.0)
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
