"""What land covers is told no better than it is."""

from pathlib import Path

from core.land.land_fit_result import LandFit, LegFit
from core.words.land_fit_words import fit_words


def _fit(*shares: float) -> LandFit:
    return LandFit(
        paths=(Path("a.tif"),),
        kinds=("elevation",),
        shares=(shares[0],),
        legs=tuple(
            LegFit(leg_number=number, heights_fraction=share, coast_fraction=1.0)
            for number, share in enumerate(shares, start=1)
        ),
    )


def test_almost_all_is_not_all() -> None:
    assert "Heights cover 99 % of the waters; some is missing round leg 2" in fit_words(
        _fit(1.0, 0.998)
    )


def test_whole_cover_is_told_as_what_the_files_state() -> None:
    assert "waters of every leg, going by the areas the files state." in fit_words(_fit(1.0, 1.0))
