"""Echo field and polar sweep by the same rays: each as it is by itself."""

import numpy as np
import pytest

from core.coverage.coverage_result import SweepSettings
from core.coverage.echo_sweep import sweep_echo, sweep_lit
from core.coverage.polar import sweep_polar
from core.coverage.terrain import Terrain, prepare_terrain
from core.land.land_model import Cell
from tests.helpers.islands import CENTRE, NM, Sea, box, disc, islet

_SETTINGS = SweepSettings(
    antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=6.0 * NM, craft_height_m=5.0
)


def _terrain(*, has_void: bool) -> Terrain:
    sea = Sea(half_width_m=7.0 * NM, cell_m=30.0)
    sea = sea.land(disc(0.0, 3.0 * NM, 900.0), 40.0)
    sea = sea.land(box(2000.0, -6000.0, 2600.0, -1500.0), 90.0)
    sea = sea.land(islet(-3000.0, 500.0), 12.0)
    if has_void:
        sea = sea.without_heights(box(-9000.0, -3000.0, -8000.0, 3000.0), Cell.VOID)
    return prepare_terrain(sea.model())


@pytest.mark.parametrize("has_void", [False, True])
def test_both_together_are_as_each_alone(has_void: bool) -> None:
    terrain = _terrain(has_void=has_void)
    field, polar = sweep_lit(terrain, CENTRE, _SETTINGS, cell_m=60.0, bearing_count=720)
    alone = sweep_polar(terrain, CENTRE, _SETTINGS)
    echo = sweep_echo(
        terrain,
        CENTRE,
        antenna_height_m=25.0,
        refraction_k=4.0 / 3.0,
        radius_m=6.0 * NM,
        cell_m=60.0,
        bearing_count=720,
    )
    # Bearings on which land is in sight, but for those at its very edges.
    has = [~np.isnan(one.horizon_slope) for one in (polar, alone)]
    assert np.count_nonzero(has[0]) > 300
    assert np.count_nonzero(has[0] != has[1]) <= 10
    both = has[0] & has[1]
    off = np.abs(polar.horizon_slope - alone.horizon_slope)[both]
    assert np.median(off) < 1e-4
    assert polar.nearest_land_range_m == alone.nearest_land_range_m
    hidden = [float((one.hidden.to_m - one.hidden.from_m).sum()) for one in (polar, alone)]
    assert hidden[0] > 50_000.0
    assert hidden[0] == pytest.approx(hidden[1], rel=0.01)
    assert np.isfinite(polar.unknown_from_m).any() == has_void
    unknown = [np.isfinite(one.unknown_from_m) for one in (polar, alone)]
    assert np.count_nonzero(unknown[0] != unknown[1]) <= 4
    known = unknown[0] & unknown[1]
    np.testing.assert_allclose(polar.unknown_from_m[known], alone.unknown_from_m[known], atol=60.0)
    assert float(field.face_m.sum()) == pytest.approx(float(echo.face_m.sum()), rel=0.01)
    assert np.mean(field.surface == echo.surface) > 0.999
