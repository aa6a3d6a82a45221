"""Index lines on what paints: a cliff at its waterline, a low point farther in, and said so."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.progress import Quiet
from core.coverage.coverage_result import SweepSettings
from core.coverage.run import cover_passage
from core.land.land_model import LandModel
from core.plan.plan_result import IndexLine, Plan, Role
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from core.words.reasons import sentence
from tests.helpers.islands import NM, Sea, disc, place, track
from tests.helpers.plans import planned

_TIP_M, _RADIUS_M = 2000.0, 400.0
_HALF_CELL_M = 12.5


def _sea() -> Sea:
    return Sea(half_width_m=7.0 * NM, cell_m=25.0)


def _island(apron_m: float) -> LandModel:
    """A round island, 2000 m off the track at its nearest: a bank of 30 m within a low apron."""

    def height(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        off = np.hypot(east - _TIP_M - _RADIUS_M, north)
        return np.where(off > _RADIUS_M - apron_m, 0.1, 30.0)

    return _sea().land(disc(_TIP_M + _RADIUS_M, 0.0, _RADIUS_M), height).model()


def _planned(land: LandModel) -> Plan:
    radar = preset_set(Band.X, Preset.TYPICAL)
    budget = EchoBudget(
        radar=radar, pulse=radar.pulses[0], antenna_height_m=25.0, conditions=Conditions()
    )
    settings = SweepSettings(
        antenna_height_m=25.0, refraction_k=budget.conditions.refraction_k, radius_m=6.0 * NM
    )
    passage = track((0.0, -1000.0), (0.0, 1000.0))
    coverage = cover_passage(passage, land, settings, Quiet(), budget=budget)
    return planned(land, passage, coverage)


def _primary(plan: Plan) -> IndexLine:
    (line,) = (line for line in plan.legs[0].lines if line.role is Role.PRIMARY)
    return line


def test_a_cliff_is_indexed_at_its_waterline_and_a_low_point_where_it_paints() -> None:
    # Ground of 0.1 m gives no echo to speak of (handbook 8: a beach of 1:50 is like a weak buoy
    # at no height); the bank 95 m behind it does, more than half a cell inside the coast.
    cliff, low = _primary(_planned(_island(0.0))), _primary(_planned(_island(95.0)))
    assert cliff.cross_index_range_m == pytest.approx(_TIP_M, abs=_HALF_CELL_M)
    assert "paints_inside_m" not in dict(cliff.reason.values)
    assert "inside the charted coast" not in sentence(cliff.reason)
    # Seen askance the beam smears the bank's flanks towards the tip, so the least is less than 95.
    inside_m = dict(low.reason.values)["paints_inside_m"]
    assert isinstance(inside_m, float)
    assert _HALF_CELL_M < inside_m < 95.0
    assert _TIP_M + 5.0 < low.cross_index_range_m < _TIP_M + 95.0
    assert "inside the charted coast" in sentence(low.reason)
    # The object stands where its edge paints.
    here = place(low.cross_index_range_m, 0.0)
    assert low.object.position.lon_deg == pytest.approx(here.lon_deg, abs=1e-6)
    # What it wanders over the window is in its error: abeam it paints at the bank's foot.
    more_m = math.sqrt(low.uncertainty_m**2 - cliff.uncertainty_m**2)
    assert 20.0 < more_m < 95.0


def test_without_a_radar_the_charted_edge_is_indexed() -> None:
    land = _island(95.0)
    passage = track((0.0, -1000.0), (0.0, 1000.0))
    settings = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=6.0 * NM)
    coverage = cover_passage(passage, land, settings, Quiet())
    assert all(view.paint is None for view in coverage.legs[0].viewpoints)
    line = _primary(planned(land, passage, replace(coverage, findings=())))
    assert line.cross_index_range_m == pytest.approx(_TIP_M, abs=1.0)
