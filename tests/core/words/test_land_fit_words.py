"""What land covers is told no better than it is."""

from pathlib import Path

from core.geodesy.position import Bounds
from core.land.land_fit_result import LandFit, LegFit
from core.words.land_fit_words import area_words, fit_words, percent_of


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


def test_a_share_reads_neither_as_all_nor_as_nothing_unless_it_is() -> None:
    assert [percent_of(share) for share in (0.0, 0.004, 0.886, 0.999, 1.0)] == [0, 1, 88, 99, 100]


def _box(south: float, west: float, north: float, east: float) -> Bounds:
    return Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east)


def test_the_area_of_a_file_is_told_in_whole_degrees_outward() -> None:
    assert area_words(()) == ""
    assert area_words([_box(59.2, 10.1, 60.0, 11.0)]) == "59° N to 60° N, 010° E to 011° E"
    assert area_words([_box(-1.5, -30.3, 0.3, -29.7), _box(0.0, -29.0, 1.0, -28.5)]) == (
        "02° S to 01° N, 031° W to 028° W"
    )
    assert area_words([_box(-60.0, 170.0, -59.0, 190.0)]) == "60° S to 59° S, 170° E to 170° W"
    assert area_words([_box(-90.0, -180.0, 90.0, 180.0)]).endswith("180° W to 180° E")
