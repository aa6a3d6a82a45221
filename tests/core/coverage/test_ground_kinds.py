"""Kinds of ground from a raster: a town echoes strongly, mud weakly, the rest by its slope."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.progress import Quiet
from core.coverage.coverage_result import CoastPaint, SweepSettings
from core.coverage.echo_field import EchoField
from core.coverage.echo_sweep import sweep_echo
from core.coverage.land_echo import land_echo, land_rcs_m2
from core.coverage.object_echo import bin_rad_of, piece_margins_db
from core.coverage.object_light import light_pieces
from core.coverage.piece_light import Eye, Pieces
from core.coverage.run import cover_passage
from core.coverage.terrain import prepare_terrain
from core.land.land_model import LandModel
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.land_reflectivity import (
    CLASS_NUMBERS,
    LandClass,
    class_gamma_ratios,
    land_gamma_db,
    slope_gamma_db,
)
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.beaches import beach, plane_m
from tests.helpers.islands import CENTRE, NM, Sea, box, place, track

_TOWN, _MUD = LandClass.METROPOLITAN, LandClass.WET_SAND
_BEACH = box(4000.0, -3000.0, 5200.0, 3000.0)


def _sea() -> Sea:
    return Sea(half_width_m=6.0 * NM, cell_m=25.0)


def _of_kinds(land: LandModel, north: LandClass | None, south: LandClass | None) -> LandModel:
    """The land with one kind of ground north of the centre and one south of it."""
    rows = land.lattice.rows
    kinds = np.zeros(land.heights_m.shape, dtype=np.uint8)
    kinds[: rows // 2] = CLASS_NUMBERS[north] if north else 0
    kinds[rows // 2 :] = CLASS_NUMBERS[south] if south else 0
    return replace(land, ground=kinds)


def _place_of(east_m: float) -> tuple[float, float]:
    there = place(east_m, 0.0)
    return there.lat_deg, there.lon_deg


def _budget(band: Band, preset: Preset, pulse: int) -> EchoBudget:
    radar = preset_set(band, preset)
    return EchoBudget(
        radar=radar, pulse=radar.pulses[pulse], antenna_height_m=15.0, conditions=Conditions()
    )


def _field(land: LandModel, budget: EchoBudget) -> EchoField:
    return sweep_echo(
        prepare_terrain(land),
        CENTRE,
        antenna_height_m=15.0,
        refraction_k=budget.conditions.refraction_k,
        radius_m=4.0 * NM,
        cell_m=30.0,
        bearing_count=720,
    )


@pytest.mark.parametrize("band", [Band.X, Band.S])
def test_ground_of_one_kind_echoes_by_its_gamma_alone(band: Band) -> None:
    # A ramp of 1:10: by its slope it has -16.4 dB at 10 GHz, read off the table of slopes; town
    # has 0, wet sand -27.5 dB; from X to S band all change alike.
    def ramp(east: np.ndarray, _north: np.ndarray) -> np.ndarray:
        return (east - 4000.0) / 10.0

    land = _sea().land(box(4000.0, -3000.0, 5000.0, 3000.0), ramp).model()
    budget = _budget(band, Preset.TYPICAL, -1)
    plain = land_echo(_field(land, budget), budget).land_w
    strong = plain > plain.max() * 1e-3
    cells = np.zeros(plain.shape, dtype=np.bool_)
    cells[170:191, round(4200.0 / 30.0) : round(4800.0 / 30.0)] = True
    cells &= strong
    assert cells.sum() > 100
    by_slope_db = float(slope_gamma_db(0.1, budget.radar.frequency_hz))
    for kind in (_TOWN, _MUD):
        echo = land_echo(_field(_of_kinds(land, kind, kind), budget), budget)
        change_db = 10.0 * np.log10(echo.land_w[cells] / plain[cells])
        wanted_db = land_gamma_db(kind, budget.radar.frequency_hz) - by_slope_db
        assert change_db == pytest.approx(wanted_db, abs=0.3)


def test_ground_of_no_known_kind_echoes_as_without_a_raster_to_the_last_bit() -> None:
    land = _sea().land(_BEACH, beach(0.0)).model()
    budget = _budget(Band.X, Preset.TYPICAL, -1)
    without, blank = _field(land, budget), _field(_of_kinds(land, None, None), budget)
    assert without.known_face_m is None
    assert blank.known_face_m is not None
    assert not blank.known_face_m.any()
    first, second = land_echo(without, budget), land_echo(blank, budget)
    assert first.land_w.tobytes() == second.land_w.tobytes()
    assert first.margin_db.tobytes() == second.margin_db.tobytes()


def test_face_and_gamma_of_known_ground_are_those_of_its_cells() -> None:
    land = _sea().land(box(4000.0, -3000.0, 5000.0, 3000.0), 40.0).model()
    field = _field(_of_kinds(land, _TOWN, None), _budget(Band.X, Preset.TYPICAL, -1))
    assert field.known_face_m is not None
    assert field.known_gamma is not None
    at = slice(round(4000.0 / 30.0) - 3, round(4000.0 / 30.0) + 3)
    north, south = field.known_face_m[170, at], field.known_face_m[190, at]
    assert north.sum() == pytest.approx(field.face_m[170, at].sum(), rel=0.5)
    assert north.sum() > 10.0
    assert south.sum() == 0.0
    assert np.isnan(field.known_gamma[190]).all()
    found = field.known_gamma[170][np.isfinite(field.known_gamma[170])]
    assert found == pytest.approx(1.0)


def test_a_cell_of_both_adds_each_by_its_share() -> None:
    # By hand, at 10 GHz: 30 % town (1) and 70 % of slope 1.1 deg, -20 dB (0.01): 0.307.
    rcs = land_rcs_m2(
        10.0,
        1000.0,
        np.tan(np.radians(1.1)),
        frequency_hz=10e9,
        width_rad=0.02,
        known_ratio=0.3,
        known_gamma=1.0,
    )
    assert float(rcs) == pytest.approx(0.307 * 10.0 * 1000.0 * 0.02, rel=1e-6)
    poor = land_rcs_m2(
        10.0,
        1000.0,
        np.tan(np.radians(1.1)),
        frequency_hz=10e9,
        width_rad=0.02,
        gamma_shift_db=-5.0,
        known_ratio=0.3,
        known_gamma=1.0,
    )
    assert float(poor / rcs) == pytest.approx(10.0**-0.5)


def test_every_kind_has_a_number_and_its_gamma() -> None:
    ratios = class_gamma_ratios()
    assert ratios[0] == 0.0
    for kind, number in CLASS_NUMBERS.items():
        assert 10.0 * np.log10(ratios[number]) == pytest.approx(land_gamma_db(kind, 10e9))


def test_a_town_on_a_beach_paints_at_the_water_and_mud_only_at_the_bank_behind() -> None:
    # The set that does not paint the beach (handbook 8: like a weak buoy) paints a town on it.
    land = _of_kinds(_sea().land(_BEACH, beach(0.0)).model(), _TOWN, _MUD)
    assert land.ground is not None
    bank = land.lattice.row_col(*(np.array([v]) for v in _place_of(4590.0)))[1]
    kinds = land.ground.copy()
    kinds[kinds.shape[0] // 2 :, round(float(bank[0])) :] = 0
    land = replace(land, ground=kinds)
    budget = _budget(Band.X, Preset.MINIMUM, 0)
    settings = SweepSettings(
        antenna_height_m=15.0,
        refraction_k=budget.conditions.refraction_k,
        radius_m=4.0 * NM,
    )
    passage = track((0.0, -1500.0), (0.0, 1500.0))
    edge = cover_passage(passage, land, settings, Quiet(), budget=budget).legs[0].painted_edge
    assert edge is not None
    east, north = plane_m(land.points.lat_deg, land.points.lon_deg)
    front = np.abs(east - 4000.0) < 1.0
    town, mud = front & (north > 300.0) & (north < 1500.0), front & (north < -300.0)
    mud &= north > -1500.0
    assert set(edge.state[town]) == {CoastPaint.PAINTED}
    assert set(edge.state[mud]) == {CoastPaint.PAINTED_BEHIND}
    assert np.median(edge.inland_m[town]) < 60.0
    assert np.median(edge.inland_m[mud]) > 450.0


def test_first_paint_goes_by_the_kind_as_the_sweep_does() -> None:
    # Of one kind all over, nothing but gamma differs: all margins change by as many decibels.
    land = _sea().land(box(6000.0, -400.0, 6800.0, 400.0), 25.0).model()
    budget = _budget(Band.X, Preset.TYPICAL, -1)
    there = place(6400.0, 0.0)
    pieces = Pieces(
        lat_deg=np.array([there.lat_deg]),
        lon_deg=np.array([there.lon_deg]),
        reach_m=np.array([600.0]),
        height_m=np.array([25.0]),
    )
    margins = []
    for kind in (_TOWN, _MUD):
        light = light_pieces(
            prepare_terrain(_of_kinds(land, kind, kind)),
            CENTRE,
            pieces,
            np.zeros(1, dtype=np.int64),
            Eye(antenna_height_m=15.0, refraction_k=budget.conditions.refraction_k),
            cell_m=30.0,
            bin_rad=bin_rad_of(budget),
        )
        margins.append(float(piece_margins_db(light, budget)[0]))
    assert margins[0] - margins[1] == pytest.approx(27.5, abs=0.05)
