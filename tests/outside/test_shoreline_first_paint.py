"""First paint of the standard's shorelines on made land, as a passage towards them finds it.

IMO MSC.192(79) 5.3.1.1 and table 2 (reproduced text read; check values 2.01 to 2.03): antenna
15 m, no clutter, shorelines rising to 60, 6 and 3 m detected at 20, 8 and 6 NM in both bands. The
same land and the same sets as in ``test_shoreline_rows.py``, where a sweep all round from single
places says when they are detected; here a track runs in at right angles, and first paint is
searched along it, only as wide as the shore's own piece. Both ways must tell the same, and both
say how far natural ground falls short of the standard:

    minimum standard preset, NM; first paint minus the standard's range

    row      asked    convention's section   ground by its slope
    60 m     20 NM    X -0.2   S +1.0        X -1.3   S -0.7
    6 m       8 NM    X +0.5   S +0.7        X -1.9   S -2.4
    3 m       6 NM    X +0.6   S +0.4        X -1.9   S -2.5

The convention's radar cross-sections are from memory, 833.3 m2 a metre of height; they only make
the chain comparable with the model, and are no fact about any shore.
"""

import math
from functools import lru_cache

import pytest

from core.coverage.coverage_result import SweepSettings
from core.coverage.first_paint import PaintLooks, first_paints_on
from core.coverage.first_paint_result import PaintLimit
from core.coverage.land_echo import land_rcs_m2
from core.coverage.paint_gauge import Gauge, Look, PaintTarget
from core.coverage.sight_scene import Scene, SightTarget, scene_of
from core.passage.passage import Passage
from core.radar.echo_budget import EchoBudget
from core.radar.first_detection import detection_ranges
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.radar.radar_target import SHORE_M2_PER_M
from core.radar.resolution_cell import effective_width_rad
from core.radar.standard_table import STANDARD_ANTENNA_M, STANDARD_ROWS
from core.ship.ship import Band
from tests.helpers.islands import NM, place, track
from tests.helpers.standard_shore import CELL_M, RESIDUAL_NM, straight_shore

ASKED_NM = {60.0: 20.0, 6.0: 8.0, 3.0: 6.0}
REACH_M = 1000.0
"""Of the shore's piece, to each side: wider than either beam's half at 20 NM."""


def _look(band: Band, gamma_shift_db: float = 0.0) -> Look:
    radar = preset_set(band, Preset.MINIMUM)
    budget = EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=STANDARD_ANTENNA_M)
    return Look(budget=budget, gamma_shift_db=gamma_shift_db)


@lru_cache(maxsize=3)
def _approach(height_m: float) -> tuple[Passage, Scene, Gauge]:
    """A track from two miles outside the standard's range to one off the shore."""
    passage = track((-(ASKED_NM[height_m] + 2.0) * NM, 0.0), (-1.0 * NM, 0.0))
    land = straight_shore(height_m, (ASKED_NM[height_m] + 3.0) * NM)
    target = PaintTarget(
        sight=SightTarget(
            object_id="A",
            name="invented shore",
            position=place(-CELL_M / 2.0, 0.0),
            height_above_water_m=height_m,
            is_on_land=True,
            own_radius_m=REACH_M,
        ),
        reach_m=REACH_M,
    )
    settings = SweepSettings(
        antenna_height_m=STANDARD_ANTENNA_M, refraction_k=2.0, radius_m=24.0 * NM
    )
    scene = scene_of(passage, land, (target.sight,), settings, None, None)
    return passage, scene, Gauge(scene, (target,))


def _first_paint_nm(height_m: float, look: Look) -> float:
    passage, scene, gauge = _approach(height_m)
    looks = PaintLooks(main_name="only", main=look, poorest=look)
    (paint,) = first_paints_on(passage, 0, scene, gauge, looks, lambda: None).paints
    limit: PaintLimit = paint.normally_by
    assert limit.moment is not None, limit.reason
    return limit.moment.range_m / NM


def test_rows_are_those_of_the_standard() -> None:
    # check values 2.01 to 2.03
    rows = [row for row in STANDARD_ROWS if row.height_m in ASKED_NM and "shore" in row.name]
    assert [row.height_m for row in rows] == list(ASKED_NM)
    for row in rows:
        assert row.x_band_range_m == row.s_band_range_m == ASKED_NM[row.height_m] * NM


@pytest.mark.slow
@pytest.mark.parametrize(("row", "residual_nm"), RESIDUAL_NM.items())
def test_a_passage_first_paints_the_shore_where_the_sweep_detects_it(
    row: tuple[float, Band], residual_nm: float
) -> None:
    # Asked: 0.3 NM. Reached: 0.1, of which 0.05 is how finely first paint is searched.
    height_m, band = row
    short_nm = _first_paint_nm(height_m, _look(band)) - ASKED_NM[height_m]
    assert short_nm == pytest.approx(residual_nm, abs=0.1)
    assert short_nm < -0.5  # natural ground falls short of the standard, in every row


CONVENTION_NM = {
    (60.0, Band.X): -0.2,
    (60.0, Band.S): 1.0,
    (6.0, Band.X): 0.5,
    (6.0, Band.S): 0.7,
    (3.0, Band.X): 0.6,
    (3.0, Band.S): 0.4,
}
"""First paint of the convention's cross-section, minus the standard's range; the table above."""


@pytest.mark.slow
@pytest.mark.parametrize(("row", "residual_nm"), CONVENTION_NM.items())
def test_with_the_conventions_cross_section_first_paint_is_the_models_range(
    row: tuple[float, Band], residual_nm: float
) -> None:
    height_m, band = row
    standard = next(r for r in STANDARD_ROWS if r.height_m == height_m and "shore" in r.name)
    budget = _look(band).budget
    model_m = detection_ranges(budget, standard.target(band)).first_m
    assert model_m is not None
    own_m2 = land_rcs_m2(
        height_m,
        model_m,
        height_m / CELL_M,
        frequency_hz=budget.radar.frequency_hz,
        width_rad=effective_width_rad(budget.radar.horizontal_beamwidth_deg),
    )
    shift_db = 10.0 * math.log10(SHORE_M2_PER_M * height_m / float(own_m2))
    first_nm = _first_paint_nm(height_m, _look(band, shift_db))
    # What the horizon hides of the shore echoes in the model by bending, and not in the chain.
    assert -0.3 < first_nm - model_m / NM < 0.1
    assert first_nm - ASKED_NM[height_m] == pytest.approx(residual_nm, abs=0.1)
