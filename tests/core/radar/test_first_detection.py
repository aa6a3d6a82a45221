"""Bands of detection, the first range, and what the sea hides."""

from dataclasses import replace

import numpy as np
import pytest

from core.radar.echo_budget import SEA_CLUTTER_ALLOWANCE_DB, Conditions, EchoBudget
from core.radar.first_detection import BRIDGED_GAP_M, detection_of, detection_ranges
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.radar.radar_target import TYPICAL_TARGETS, RadarTarget, Spread, shore
from core.radar.square_law import DetectionRule, Fluctuation, required_snr_db
from core.radar.target_echo import target_power_w, target_snr_db
from core.ship.ship import Band

_BUOY = RadarTarget(rcs_m2=5.0, height_m=3.5)


def _budget(
    conditions: Conditions | None = None,
    *,
    band: Band = Band.X,
    preset: Preset = Preset.MINIMUM,
    antenna_m: float = 15.0,
) -> EchoBudget:
    radar = preset_set(band, preset)
    return EchoBudget(
        radar=radar,
        pulse=radar.long_pulse,
        antenna_height_m=antenna_m,
        conditions=conditions or Conditions(),
    )


def _margin_db(budget: EchoBudget, target: RadarTarget, range_m: np.ndarray) -> np.ndarray:
    return target_snr_db(budget, target, range_m) - required_snr_db(0.8, 1e-4, budget.pulses)


@pytest.mark.parametrize(
    ("target", "antenna_m"),
    [
        (_BUOY, 15.0),
        (RadarTarget(rcs_m2=100.0, height_m=60.0), 40.0),
        (shore(60.0), 15.0),
        (RadarTarget(rcs_m2=0.5, height_m=1.0), 8.0),
    ],
)
def test_bands_hold_what_a_fine_walk_finds(target: RadarTarget, antenna_m: float) -> None:
    budget = _budget(antenna_m=antenna_m)
    found = detection_ranges(budget, target)
    assert found.first_m is not None
    walk = np.arange(budget.pulse.depth_m + 1.0, 1.3 * found.first_m, 1.0)
    seen = _margin_db(budget, target, walk) >= 0.0
    assert found.first_m == pytest.approx(walk[np.flatnonzero(seen)[-1]], abs=1.1)
    told = np.zeros(walk.size, bool)
    for band in found.bands:
        told |= (walk >= band.from_m) & (walk <= band.to_m)
    assert np.all(told[seen])
    # what is told although the walk does not see it lies in gaps that are passed over
    wrong = walk[told & ~seen]
    runs = np.split(wrong, np.flatnonzero(np.diff(wrong) > 1.5) + 1)
    assert all(run.size <= BRIDGED_GAP_M + 2.0 for run in runs)


def test_margin_is_nothing_at_the_first_range() -> None:
    found = detection_ranges(_budget(), _BUOY)
    assert found.first_m is not None
    assert float(_margin_db(_budget(), _BUOY, np.array([found.first_m]))[0]) == pytest.approx(
        0.0, abs=1e-3
    )


def test_more_rain_more_sea_less_bending_never_detect_farther() -> None:
    def first(conditions: Conditions) -> float:
        return detection_ranges(_budget(conditions), _BUOY).first_m or 0.0

    rain = [first(Conditions(rain_mm_h=r)) for r in (0.0, 1.0, 4.0, 16.0, 50.0)]
    assert rain == sorted(rain, reverse=True)
    assert rain[0] > rain[-1]
    seas = [first(Conditions(sea_state=s)) for s in (0.0, 2.0, 4.0, 6.0)]
    assert seas == sorted(seas, reverse=True)
    bends = [first(Conditions(refraction_k=k)) for k in (2.0, 4.0 / 3.0, 1.0)]
    assert bends == sorted(bends, reverse=True)


def test_a_higher_antenna_can_lift_a_small_target_out_of_its_last_lobe() -> None:
    # At 25 m the outermost lobe of a buoy still has the strength, at 40 m it lies too far out:
    # by hand, peaks of two rays over a flat sea stand at 4 h1 h2 / lambda, 11.0 and 17.6 km.
    at_25, at_40 = (
        detection_ranges(_budget(antenna_m=antenna_m), _BUOY).first_m for antenna_m in (25.0, 40.0)
    )
    assert at_25 is not None
    assert at_40 is not None
    assert at_40 < at_25


def test_a_typical_set_detects_farther_than_the_minimum() -> None:
    for kind in TYPICAL_TARGETS:
        for band in Band:
            least, typical = (
                detection_ranges(_budget(band=band, preset=preset), kind.weakest(band)).first_m
                for preset in (Preset.MINIMUM, Preset.TYPICAL)
            )
            assert least is not None
            assert typical is not None
            assert typical > least


def test_calm_sea_hides_nothing() -> None:
    assert detection_ranges(_budget(), _BUOY).lost_in_sea_inside_m is None


@pytest.mark.parametrize("band", list(Band))
@pytest.mark.parametrize("sea_state", [2.0, 3.0, 5.0])
def test_inside_the_lost_range_sea_clutter_is_what_hides(band: Band, sea_state: float) -> None:
    budget = _budget(Conditions(sea_state=sea_state), band=band, preset=Preset.TYPICAL)
    found = detection_ranges(budget, _BUOY)
    lost_m, first_m = found.lost_in_sea_inside_m, found.first_m
    assert lost_m is not None
    assert first_m is not None
    assert lost_m < first_m
    needed = 10.0 ** (found.snr_required_db / 10.0)
    just_in = np.array([lost_m - 0.5])
    power = target_power_w(budget, _BUOY, just_in)[0] / needed
    sea = budget.sea_power_w(just_in)[0] * 10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0)
    assert power < budget.background_power_w(just_in)[0]
    assert power >= budget.noise_power_w
    assert sea >= budget.noise_power_w
    # between there and the first range only lobes' nulls hide it
    between = np.linspace(lost_m + 1.0, first_m - 1.0, 400)
    calm = _budget(Conditions(), band=band, preset=Preset.TYPICAL)
    gone = _margin_db(budget, _BUOY, between) < 0.0
    clutter = budget.sea_power_w(between) * 10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0)
    assert not np.any(
        gone
        & (clutter > calm.noise_power_w)
        & (target_power_w(budget, _BUOY, between) / needed >= budget.noise_power_w)
    )


def test_rougher_sea_hides_a_small_target_farther_out() -> None:
    lost = [
        detection_ranges(_budget(Conditions(sea_state=s)), _BUOY).lost_in_sea_inside_m or 0.0
        for s in (2.0, 4.0, 6.0)
    ]
    assert lost == sorted(lost)
    assert lost[0] < lost[-1]


def test_a_target_hidden_everywhere_is_lost_out_to_its_range_in_calm_sea() -> None:
    spar = RadarTarget(rcs_m2=0.3, height_m=1.0)
    found = detection_ranges(_budget(Conditions(sea_state=6.0)), spar)
    calm = detection_ranges(_budget(), spar)
    assert found.first_m is None
    assert found.bands == ()
    assert calm.first_m is not None
    # waves take from the lobes too, so it is not the very same range
    assert found.lost_in_sea_inside_m is not None
    assert 0.7 * calm.first_m < found.lost_in_sea_inside_m < calm.first_m


def test_a_hopeless_target_is_detected_nowhere() -> None:
    speck = RadarTarget(rcs_m2=1e-9, height_m=0.1)
    found = detection_ranges(_budget(), speck)
    assert (found.first_m, found.bands, found.lost_in_sea_inside_m) == (None, (), None)


def test_a_huge_target_is_followed_beyond_the_horizon() -> None:
    wall = RadarTarget(rcs_m2=1e8, height_m=60.0, spread=Spread.EXTENDED)
    budget = _budget(band=Band.S, preset=Preset.TYPICAL)
    first_m = detection_ranges(budget, wall).first_m
    horizon_m = 2.2256 * 1852.0 * (15.0**0.5 + 60.0**0.5)
    assert first_m is not None
    assert horizon_m < first_m < 2.0 * horizon_m


def test_a_fluctuating_target_is_detected_later() -> None:
    # handbook 12, conclusion 6: some 0.6 to 1.1 NM for ships and shores
    ship = RadarTarget(rcs_m2=50_000.0, height_m=10.0, spread=Spread.EXTENDED)
    steady = detection_of(_budget(), ship)
    changing = detection_of(_budget(), ship, DetectionRule(fluctuation=Fluctuation.SCAN_TO_SCAN))
    assert steady.ranges.first_m is not None
    assert changing.ranges.first_m is not None
    cost_nm = (steady.ranges.first_m - changing.ranges.first_m) / 1852.0
    assert 0.6 < cost_nm < 1.2
    assert changing.rule.fluctuation is Fluctuation.SCAN_TO_SCAN


def test_a_shore_is_an_extended_target_of_its_height() -> None:
    # definitions of the project: 833.3 m2 a metre
    assert shore(6.0).rcs_m2 == pytest.approx(5000.0)
    body = RadarTarget(rcs_m2=5000.0, height_m=6.0, spread=Spread.EXTENDED)
    assert detection_ranges(_budget(), shore(6.0)) == detection_ranges(_budget(), body)


def test_an_extended_target_adds_the_powers_of_its_parts() -> None:
    budget, ranges = _budget(), np.array([5000.0, 20_000.0])
    body = RadarTarget(rcs_m2=900.0, height_m=9.0, spread=Spread.EXTENDED)
    parts = sum(
        target_power_w(budget, RadarTarget(rcs_m2=100.0, height_m=0.5 + part), ranges)
        for part in range(9)
    )
    assert target_power_w(budget, body, ranges) == pytest.approx(parts)


@pytest.mark.parametrize(("rcs_m2", "height_m"), [(0.0, 1.0), (1.0, 0.0), (float("nan"), 1.0)])
def test_what_cannot_echo_is_refused(rcs_m2: float, height_m: float) -> None:
    with pytest.raises(ValueError, match="above 0"):
        RadarTarget(rcs_m2=rcs_m2, height_m=height_m)


def test_the_pulse_of_a_short_scale_meets_less_sea() -> None:
    far = _budget(Conditions(sea_state=4.0))
    near = replace(far, pulse=far.radar.pulses[0])
    at = np.array([1000.0, 3000.0])
    ratio = far.sea_power_w(at) / near.sea_power_w(at)
    assert ratio == pytest.approx(far.pulse.length_s / near.pulse.length_s, rel=1e-9)
