"""The land's echo: closed forms, the published example of a beach, weather."""

import math
from functools import lru_cache

import numpy as np
import pytest

from core.base.arrays import FloatArray
from core.coverage.echo_field import EchoField, Surface
from core.coverage.echo_sweep import sweep_echo
from core.coverage.land_echo import LandEcho, land_echo, land_rcs_m2
from core.coverage.terrain import prepare_terrain
from core.geodesy.position import Position
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.land_reflectivity import slope_gamma_db
from core.radar.over_sea import over_sea_factor_db
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.radar.resolution_cell import effective_width_rad
from core.ship.ship import Band
from tests.helpers.islands import CENTRE, NM, Sea, box, place

K = 4.0 / 3.0


def _budget(
    band: Band = Band.X,
    preset: Preset = Preset.TYPICAL,
    *,
    antenna_m: float = 15.0,
    conditions: Conditions | None = None,
) -> EchoBudget:
    radar = preset_set(band, preset)
    return EchoBudget(
        radar=radar,
        pulse=radar.long_pulse,
        antenna_height_m=antenna_m,
        conditions=conditions or Conditions(),
    )


def _field(
    sea: Sea,
    *,
    at: Position = CENTRE,
    antenna_m: float = 15.0,
    radius_m: float = 8.0 * NM,
    cell_m: float = 30.0,
    k: float = K,
) -> EchoField:
    return sweep_echo(
        prepare_terrain(sea.model()),
        at,
        antenna_height_m=antenna_m,
        refraction_k=k,
        radius_m=radius_m,
        cell_m=cell_m,
        bearing_count=1440,
    )


def _sea() -> Sea:
    return Sea(half_width_m=9.0 * NM, cell_m=30.0)


@lru_cache(maxsize=1)
def _wall_field() -> EchoField:
    """A wall 40 m high 4 NM east, wider than any beam."""
    return _field(_sea().land(box(4.0 * NM, -2000.0, 4.0 * NM + 300.0, 2000.0), 40.0))


@pytest.mark.parametrize("band", list(Band))
@pytest.mark.parametrize("preset", list(Preset))
def test_a_wide_wall_is_as_strong_as_its_formula(band: Band, preset: Preset) -> None:
    # sigma = gamma H R theta_e in one pulse, F^4 averaged over the height, all by numpy and the
    # uncompiled rule of the field over the sea.
    budget = _budget(band, preset)
    echo = land_echo(_wall_field(), budget)
    row = echo.land_w[360]
    at = int(np.argmax(row))
    assert at * 30.0 == pytest.approx(4.0 * NM, abs=95.0)
    range_m = 4.0 * NM
    steep = 40.0 / 30.0  # over one cell of the raster
    gamma = 10.0 ** (float(slope_gamma_db(steep, budget.radar.frequency_hz)) / 10.0)
    width = effective_width_rad(budget.radar.horizontal_beamwidth_deg)
    heights = (np.arange(400, dtype=np.float64) + 0.5) / 10.0
    f4 = np.mean(10.0 ** (2.0 * over_sea_factor_db(budget.sea, range_m, heights) / 10.0))
    power = budget.echo_power_w(range_m, gamma * 40.0 * range_m * width, float(f4))
    assert 10.0 * math.log10(row[at] / float(power)) == pytest.approx(0.0, abs=0.5)
    margin = 10.0 * math.log10(float(power) / budget.noise_power_w) - echo.snr_required_db
    assert echo.margin_db[360, at] == pytest.approx(margin, abs=0.5)


def test_where_there_is_no_land_there_is_no_echo_of_land() -> None:
    echo = land_echo(_wall_field(), _budget())
    assert np.all(echo.land_w[720:1400] == 0.0)
    assert np.all(np.isneginf(echo.margin_db[720:1400]))
    assert not echo.land_w.flags.writeable
    # Past the wall a pulse later nothing more comes.
    end = int((4.0 * NM + 90.0 + 60.0) / 30.0)
    assert np.all(echo.land_w[360, end + 2 :] == 0.0)


def test_the_echo_is_wider_than_the_land_by_half_a_beam_at_least() -> None:
    echo = land_echo(_wall_field(), _budget())
    lit = (_wall_field().face_m > 1.0).any(axis=1)
    painted = (echo.margin_db >= 0.0).any(axis=1)
    beam = _budget().radar.horizontal_beamwidth_deg
    assert painted.sum() * 0.25 - lit.sum() * 0.25 > beam


def test_a_beach_is_as_weak_as_in_the_published_example() -> None:
    # Handbook 8 and check value 8.09 (X, antenna 15 m, 6 NM, 1 deg, 0.25 us: 37.47 m, gamma
    # -20 dB): slope 1:50 1.77 dBsm, 1:10 8.6; computed there with the half-power width. Rock of
    # 45 deg with -5 dB: 32.1 there, with the cell not lengthened by 1 / cos psi as its own 4.2
    # has it, which is 1.5 dB at 45 deg: 33.6.
    depth, width, range_m = 37.47, math.radians(1.0), 6.0 * NM
    for slope, gamma_db, dbsm in ((0.02, -20.0, 1.77), (0.1, -20.0, 8.6), (1.0, -5.0, 32.1 + 1.5)):

        def shore(east: FloatArray, north: FloatArray, slope: float = slope) -> FloatArray:
            return np.asarray(slope * (east - range_m + 300.0), np.float64)

        sea = _sea().land(box(range_m - 300.0, -600.0, range_m + 300.0, 600.0), shore)
        field = _field(sea, cell_m=depth / 3.0)
        # Heights near 0 as in the example: the part of the slope that begins the pulse at 6 NM
        # is 300 slope high, which takes 300 slope / R off the angle.
        n = int(range_m / field.cell_m)
        face = field.face_m[360, n - 1 : n + 2].sum()
        own = 10.0 * math.log10(10.0 ** (gamma_db / 10.0) * float(face) * range_m * width)
        assert own == pytest.approx(dbsm, abs=0.25)
    # The gamma our slopes give: -20 dB on the beach, -5 dB on the rock, at 10 GHz.
    beach = land_rcs_m2(1.0, 1.0, 0.02, frequency_hz=10e9, width_rad=1.0)
    rock = land_rcs_m2(1.0, 1.0, 1.0, frequency_hz=10e9, width_rad=1.0)
    assert 10.0 * np.log10([float(beach), float(rock)]) == pytest.approx([-20.0, -5.0], abs=0.1)


def test_ground_that_echoes_worse_loses_as_much() -> None:
    budget = _budget()
    plain, poor = (land_echo(_wall_field(), budget, gamma_shift_db=g) for g in (0.0, -5.0))
    lit = plain.land_w > 0.0
    assert poor.margin_db[lit] == pytest.approx(plain.margin_db[lit] - 5.0, abs=0.01)


def test_rain_takes_from_the_echo_and_adds_its_own() -> None:
    dry, wet = (
        land_echo(_wall_field(), _budget(conditions=Conditions(rain_mm_h=rain)))
        for rain in (0.0, 16.0)
    )
    at = int(np.argmax(dry.land_w[360]))
    # ITU-R P.838-3 at 9.41 GHz H, 16 mm/h: 0.332 dB/km one way.
    lost = 10.0 * math.log10(dry.land_w[360, at] / wet.land_w[360, at])
    assert lost == pytest.approx(2.0 * 0.332 * 4.0 * NM / 1000.0, abs=0.1)
    assert dry.rain_w[at] == 0.0
    assert wet.rain_w[at] > wet.noise_w
    assert wet.margin_db[360, at] < dry.margin_db[360, at] - lost


def test_the_sea_echoes_where_its_water_is_in_sight_and_nowhere_else() -> None:
    budget = _budget(conditions=Conditions(sea_state=4.0))
    echo = land_echo(_wall_field(), budget)
    middles = (np.arange(echo.sea_w.shape[1], dtype=np.float64) + 0.5) * 30.0
    whole = budget.sea_power_w(middles)
    # Open sea all round to the west; the first pulse is not yet full.
    assert echo.sea_w[1080, 4:400] == pytest.approx(whole[4:400], rel=0.001)
    assert np.all(echo.sea_w[360, 300:] == 0.0)
    behind = int((4.0 * NM + 500.0) / 30.0)
    assert np.all(_wall_field().surface[360, behind:] == Surface.HIDDEN)
    assert np.all(land_echo(_wall_field(), _budget()).sea_w == 0.0)


def _gain_db(echo: LandEcho, free: EchoBudget, n: int) -> float:
    field, budget = echo.field, echo.budget
    range_m = (n + 0.5) * field.cell_m
    rcs = land_rcs_m2(
        field.face_m[360, n].astype(np.float64),
        range_m,
        field.steepness[360, n].astype(np.float64),
        frequency_hz=budget.radar.frequency_hz,
        width_rad=effective_width_rad(budget.radar.horizontal_beamwidth_deg),
    )
    return 10.0 * math.log10(float(echo.land_w[360, n]) / float(free.echo_power_w(range_m, rcs, 1)))


def test_no_gain_by_a_mirror_that_is_land() -> None:
    # A wall 15 m high at 3 NM: with the antenna as high the mirror lies half way, which is water,
    # or an island. Both are far inside the horizon: only the mirror differs.
    wall = box(3.0 * NM, -800.0, 3.0 * NM + 300.0, 800.0)
    open_sea = _sea().land(wall, 15.0)
    island = open_sea.land(box(1.0 * NM, -900.0, 2.2 * NM, 900.0), 1.0)
    budget = _budget()
    gains = []
    for sea in (open_sea, island):
        field = _field(sea, cell_m=90.0, radius_m=4.0 * NM)
        echo = land_echo(field, budget)
        n = int(
            np.argmax(
                np.where(np.arange(field.face_m.shape[1]) * 90.0 > 2.8 * NM, 1, 0)
                * field.face_m[360]
            )
        )
        gains.append(_gain_db(echo, budget, n))
    assert gains[0] > 3.0
    assert gains[1] < 0.6


def test_another_antenna_or_air_is_refused() -> None:
    with pytest.raises(ValueError, match="same antenna and air"):
        land_echo(_wall_field(), _budget(antenna_m=20.0))
    with pytest.raises(ValueError, match="same antenna and air"):
        land_echo(_wall_field(), _budget(conditions=Conditions(refraction_k=1.0)))


def test_unknown_ground_stays_unknown_beside_its_echo() -> None:
    sea = _sea().land(box(3.0 * NM, -900.0, 4.0 * NM, 900.0), 60.0)
    sea = sea.without_heights(box(1.0 * NM, -900.0, 1.1 * NM, 900.0))
    echo = land_echo(_field(sea, at=place(0.0, 0.0)), _budget())
    at = int(np.argmax(echo.field.face_m[360]))
    assert echo.land_w[360, at] > 0.0
    assert echo.field.surface[360, at] == Surface.UNKNOWN
