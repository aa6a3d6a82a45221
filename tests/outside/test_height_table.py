"""The height table against published and hand-worked figures.

T5, T5b: the rule 2.21 x (root of antenna + root of target) of stored training notes, and the exact
4/3 Earth. T6: shorelines of IMO MSC.192(79), table 1, antenna 15 m: 60 m at 20 NM, 6 m at 8 NM,
3 m at 6 NM. The table of «possible / R^2/12» for antennas of 15 to 45 m is hand-worked in the
trade notes (4.1.7) with coefficient 2.21, that is k = 1.3147.
"""

import pytest

from core.base.units import nm_from_m
from core.radar.shoreline_rule import horizon_range_m, shoreline_range_m
from core.sheets.height_page import ANTENNA_HEIGHTS_M, OBJECT_HEIGHTS_M, height_table
from core.words.voyage_words import antennas
from tests.helpers.sample_outcome import sample_outcome

_K_221 = 1.3147
_TABLE = {
    15.0: ((3, 12.4, 6.0), (10, 15.5, 10.5), (30, 20.7, 15.5), (60, 25.7, 20.0),
           (100, 30.7, 24.3), (200, 39.8, 32.1), (500, 58.0, 47.6)),
    25.0: ((3, 14.9, 6.0), (10, 18.0, 11.0), (30, 23.2, 16.7), (60, 28.2, 21.4),
           (100, 33.2, 25.8), (200, 42.3, 33.7), (500, 60.5, 49.2)),
    35.0: ((3, 16.9, 6.0), (10, 20.1, 11.0), (30, 25.2, 17.6), (60, 30.2, 22.5),
           (100, 35.2, 27.0), (200, 44.3, 35.0), (500, 62.5, 50.5)),
    45.0: ((3, 18.7, 6.0), (10, 21.8, 11.0), (30, 26.9, 18.2), (60, 31.9, 23.3),
           (100, 36.9, 27.9), (200, 46.1, 36.0), (500, 64.2, 51.7)),
}  # fmt: skip


@pytest.mark.parametrize("antenna_m", sorted(_TABLE))
def test_horizon_and_rule_agree_with_the_hand_worked_table(antenna_m: float) -> None:
    for shore_m, horizon_nm, rule_nm in _TABLE[antenna_m]:
        heights = {"antenna_m": antenna_m, "shore_m": float(shore_m), "refraction_k": _K_221}
        assert nm_from_m(horizon_range_m(**heights)) == pytest.approx(horizon_nm, abs=0.06)
        # The notes round 10.95 to 11.0 and print the rule to 0.1 NM.
        assert nm_from_m(shoreline_range_m(**heights)) == pytest.approx(rule_nm, abs=0.06)


def test_t5b_a_cliff_of_100_m_from_an_antenna_of_25_m() -> None:
    """T5b (published rule and hand): 33.15 NM with 2.21, 33.38 NM at exactly 4/3."""
    for k, wanted in ((_K_221, 33.15), (4.0 / 3.0, 33.38)):
        found = horizon_range_m(antenna_m=25.0, shore_m=100.0, refraction_k=k)
        assert nm_from_m(found) == pytest.approx(wanted, abs=0.01)


def test_t6_the_shorelines_of_the_standard_fit_the_rule() -> None:
    """T6 (published): 60 m at 20 NM, 6 m at 8 NM, 3 m at 6 NM from an antenna of 15 m."""
    for shore_m, least_nm in ((60.0, 20.0), (6.0, 8.0), (3.0, 6.0)):
        found = shoreline_range_m(antenna_m=15.0, shore_m=shore_m, refraction_k=_K_221)
        assert nm_from_m(found) == pytest.approx(least_nm, rel=0.07)


def test_t18_refraction_moves_the_rule_less_than_the_horizon() -> None:
    """T18 (hand): k 0.8 to 2.0 moves the horizon from 25.9 to 40.9 NM, R^2/12 by 7 NM only."""
    rows = ((0.8, 25.9, 22.0), (1.0, 28.9, 23.7), (4.0 / 3.0, 33.4, 25.9), (2.0, 40.9, 28.8))
    for k, horizon_nm, rule_nm in rows:
        heights = {"antenna_m": 25.0, "shore_m": 100.0, "refraction_k": k}
        assert nm_from_m(horizon_range_m(**heights)) == pytest.approx(horizon_nm, abs=0.1)
        assert nm_from_m(shoreline_range_m(**heights)) == pytest.approx(rule_nm, abs=0.1)


def test_the_printed_table_rounds_the_horizon_up_and_the_rule_down() -> None:
    outcome = sample_outcome()
    k = outcome.coverage.settings.refraction_k
    table = height_table(outcome)
    own = [height_m for _band, height_m in antennas(outcome)[:2]]
    columns = (*own, *ANTENNA_HEIGHTS_M)
    assert len(table.rows) == 1 + len(OBJECT_HEIGHTS_M)
    for row, shore_m in zip(table.rows[1:], OBJECT_HEIGHTS_M, strict=True):
        for cell, antenna_m in zip(row.cells[1:], columns, strict=True):
            heights = {"antenna_m": antenna_m, "shore_m": shore_m, "refraction_k": k}
            upper, lower = float(cell.text), float(cell.second)
            assert 0.0 <= upper - nm_from_m(horizon_range_m(**heights)) < 0.1 + 1e-6
            assert 0.0 <= nm_from_m(shoreline_range_m(**heights)) - lower < 0.1 + 1e-6
