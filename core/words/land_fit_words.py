"""What land files cover of a passage, in words."""

import math

from core.base.language import tr
from core.land.land_fit_result import LandFit


def fit_words(fit: LandFit) -> str:
    """What covers the passage and what is missing, in a sentence or two."""
    if not fit.paths:
        return tr("Nothing on the shelf covers this passage.")
    heights = [leg.leg_number for leg in fit.legs if leg.heights_fraction < 1.0]
    coast = [leg.leg_number for leg in fit.legs if leg.coast_fraction < 1.0]
    parts = [
        _kind_words(tr("Heights"), fit.heights_share, heights),
        _kind_words(tr("Coast"), fit.coast_share, coast),
    ]
    open_sea = tr(" Open sea needs no heights.") if heights else ""
    return " ".join(parts) + open_sea


def _kind_words(kind: str, share: float, lacking: list[int]) -> str:
    verb = "cover" if kind == "Heights" else "covers"
    if not lacking:
        return tr(
            "{kind} {verb} the waters of every leg, going by the areas the files state.",
            kind=kind,
            verb=verb,
        )
    if share == 0.0:
        return tr("{kind}: none covers this passage.", kind=kind)
    legs = ", ".join(map(str, lacking[:8])) + (tr(" and more") if len(lacking) > 8 else "")
    word = "leg" if len(lacking) == 1 else "legs"
    # Cut, not rounded: with something missing it never reads as all.
    percent = math.floor(share * 100.0)
    return tr(
        "{kind} {verb} {percent} % of the waters; some is missing round {word} {legs}.",
        kind=kind,
        verb=verb,
        percent=percent,
        word=word,
        legs=legs,
    )
