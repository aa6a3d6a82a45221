"""The display chain: speckle statistics, what controls take away, and that none adds."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.picture.controls import Controls, speckle_rate
from core.picture.display_chain import (
    UNCERTAIN_DB,
    Paint,
    display,
    margins_at,
    well_set,
)
from core.radar.echo_budget import Conditions
from core.ship.ship import BlindSector
from tests.helpers.islands import NM
from tests.helpers.picture_views import ROUGH, buoy, view_of

VIEW = view_of(targets=(buoy(1.5 * NM), buoy(3.0 * NM, "far")))
WEATHER = view_of(conditions=ROUGH, targets=(buoy(1.5 * NM),))


def test_speckle_paints_at_the_rate_of_the_threshold() -> None:
    # Noise summed over n pulses exceeds the threshold with Pfa (exponential statistics for each);
    # a binomial count of that many cells, four standard deviations.
    view = view_of("bare", scale_m=6.0 * NM)
    count = view.echo_db.size
    for gain_db in (0.0, 2.0, 4.0):
        rate = float(speckle_rate(gain_db, view.rule, view.budget.pulses))
        shown = display(view, Controls(gain_db=gain_db))
        lit = int((shown.paint == Paint.SPECKLE).sum())
        assert abs(lit - count * rate) < 4.0 * np.sqrt(count * rate)
    assert float(speckle_rate(0.0, view.rule, view.budget.pulses)) == pytest.approx(1e-4)


def test_interference_rejection_takes_single_blips_and_a_little_of_the_echo() -> None:
    view = view_of("bare", targets=(buoy(3.0 * NM),))
    gain = Controls(gain_db=4.0)
    one = display(view, gain)
    two = display(view, replace(gain, interference_rejection=True))
    rate = float((one.paint == Paint.SPECKLE).mean())
    both = float((two.paint == Paint.SPECKLE).mean())
    count = view.echo_db.size
    assert both == pytest.approx(rate**2, abs=4.0 * np.sqrt(rate**2 / count) + 1e-6)
    assert np.all((two.paint != Paint.SPECKLE) | (one.paint == Paint.SPECKLE))
    cost = one.margin_db.max() - two.margin_db.max()
    assert 0.0 < cost < 1.5


def test_the_same_place_has_the_same_speckle() -> None:
    again = view_of(conditions=ROUGH, targets=(buoy(1.5 * NM),))
    assert np.array_equal(display(WEATHER, Controls()).paint, display(again, Controls()).paint)


def test_classes_go_by_margin() -> None:
    shown = display(VIEW, Controls())
    margin = shown.margin_db
    is_painted = shown.paint >= Paint.PAINTED
    assert np.all(margin[is_painted] >= UNCERTAIN_DB)
    assert np.all(np.abs(margin[shown.paint == Paint.UNCERTAIN]) <= UNCERTAIN_DB)
    assert is_painted.any()


_CONTROLS = st.builds(
    Controls,
    gain_db=st.floats(-20.0, 10.0),
    mistuning_db=st.floats(0.0, 20.0),
    sea_clutter=st.floats(0.0, 1.0),
    rain_clutter=st.floats(0.0, 1.0),
    interference_rejection=st.booleans(),
    echo_stretch=st.booleans(),
)


@settings(max_examples=25)
@given(controls=_CONTROLS, less_db=st.floats(0.0, 15.0))
def test_less_gain_and_more_mistuning_never_add_an_echo(controls: Controls, less_db: float) -> None:
    # Calm weather; in clutter less gain may bring an echo out of a full screen, as it does at sea.
    before = display(VIEW, controls)
    for after in (
        display(VIEW, replace(controls, gain_db=max(controls.gain_db - less_db, -40.0))),
        display(VIEW, replace(controls, mistuning_db=controls.mistuning_db + less_db)),
    ):
        assert np.all(after.margin_db <= before.margin_db + 1e-4)
        assert not np.any((after.paint >= Paint.UNCERTAIN) & (before.paint < Paint.UNCERTAIN))
        assert not np.any((after.paint >= Paint.PAINTED) & (before.paint < Paint.PAINTED))


@settings(max_examples=25)
@given(controls=_CONTROLS, less_db=st.floats(0.0, 15.0))
def test_less_gain_never_inks_more_in_any_weather(controls: Controls, less_db: float) -> None:
    before = display(WEATHER, controls)
    after = display(WEATHER, replace(controls, gain_db=max(controls.gain_db - less_db, -40.0)))
    inked, was = after.paint >= Paint.SPECKLE, before.paint >= Paint.SPECKLE
    revealed = after.paint >= Paint.UNCERTAIN
    assert not np.any(inked & ~was & ~revealed)


def test_too_much_sea_clutter_control_takes_the_near_echo_first() -> None:
    lost = []
    for amount in np.linspace(0.0, 1.0, 21):
        shown = display(VIEW, Controls(sea_clutter=float(amount)))
        margins = [shown.margin_db[0, int(nm * NM / VIEW.cell_m) + 1] for nm in (1.5, 3.0)]
        lost.append(margins)
    near, far = np.array(lost).T
    assert np.all(np.diff(near) <= 1e-4)
    assert np.all(np.diff(far) <= 1e-4)
    assert near[0] - near[-1] > far[0] - far[-1] > 0.0
    # 30 log10 (8 / 1.5) = 21.8 dB at full, by the law.
    assert near[0] - near[-1] == pytest.approx(21.8, abs=0.3)


def test_rain_clutter_control_keeps_leading_edges_and_thins_what_is_behind() -> None:
    rows = slice(VIEW.bearings * 305 // 360, VIEW.bearings * 325 // 360)
    off, full = display(VIEW, Controls()), display(VIEW, Controls(rain_clutter=1.0))
    before, after = off.paint[rows] >= Paint.PAINTED, full.paint[rows] >= Paint.PAINTED
    assert 0 < after.sum() < 0.5 * before.sum()
    fronts = np.argmax(before, axis=1)[before.any(axis=1)]
    still = np.argmax(after, axis=1)[before.any(axis=1)]
    assert np.mean(np.abs(still - fronts) <= 2) > 0.8


def test_rain_and_sea_paint_as_clutter_and_their_controls_clear_them() -> None:
    wet = view_of("bare", conditions=Conditions(rain_mm_h=16.0))
    raw = (display(wet, Controls()).paint == Paint.CLUTTER).mean()
    dry = (display(wet, Controls(rain_clutter=1.0)).paint == Paint.CLUTTER).mean()
    assert raw > 0.5 > 0.1 > dry
    rough = view_of("bare", conditions=Conditions(sea_state=4.0))
    open_ = (display(rough, Controls()).paint == Paint.CLUTTER).mean()
    cut = (display(rough, Controls(sea_clutter=1.0)).paint == Paint.CLUTTER).mean()
    assert open_ > 0.2 > 0.05 > cut


def test_a_full_screen_hides_an_echo_until_clutter_is_turned_down() -> None:
    view = view_of("bare", conditions=Conditions(sea_state=5.0), targets=(
        buoy(0.75 * NM, rcs_m2=1000.0, height_m=8.0),))  # fmt: skip
    at = 0, int(0.75 * NM / view.cell_m) + 1
    assert display(view, Controls()).margin_db[at] < 0.0
    assert display(view, well_set(view)).margin_db[at] > display(view, Controls()).margin_db[at]


def test_echo_stretch_draws_outward_and_takes_nothing() -> None:
    plain, long = display(VIEW, Controls()), display(VIEW, Controls(echo_stretch=True))
    was, now = plain.paint >= Paint.UNCERTAIN, long.paint >= Paint.UNCERTAIN
    assert np.all(now | ~was)
    assert now.sum() > was.sum()
    assert np.array_equal(plain.margin_db, long.margin_db)
    for row in np.flatnonzero(was.any(axis=1))[::50]:
        assert np.argmax(now[row]) == np.argmax(was[row])


def test_behind_own_structure_nothing_shows_and_beside_it_large_echoes_do() -> None:
    blind = view_of(
        sectors=(
            BlindSector(from_relative_deg=60.0, to_relative_deg=89.0),
            BlindSector(from_relative_deg=90.0, to_relative_deg=110.0, is_shadow=True),
        )
    )
    clear = view_of()
    shown, free = display(blind, Controls()), display(clear, Controls())
    row = blind.bearings * 75 // 360
    assert np.all(shown.paint[row] == Paint.BLIND)
    row = blind.bearings * 100 // 360
    most = int(np.argmax(free.margin_db[row]))
    assert free.margin_db[row, most] - shown.margin_db[row, most] == pytest.approx(10.0, abs=0.01)
    assert shown.paint[row, most] >= Paint.UNCERTAIN


def test_a_gap_stays_a_gap_under_any_control() -> None:
    view = view_of("gap", conditions=ROUGH)
    gap = view.ground == Paint.UNKNOWN
    assert gap.any()
    for controls in (Controls(), Controls(gain_db=15.0, echo_stretch=True)):
        assert np.all(display(view, controls).paint[gap] == Paint.UNKNOWN)


def test_well_set_is_off_in_calm_and_meets_noise_in_a_sea() -> None:
    assert well_set(view_of("bare")) == Controls()
    rough = view_of("bare", conditions=Conditions(sea_state=3.0))
    well = well_set(rough)
    reach_m = well.sea_clutter * 8.0 * NM
    ratio = float(rough.budget.sea_power_w(reach_m)) / rough.budget.noise_power_w
    assert 10.0 * np.log10(ratio) == pytest.approx(0.0, abs=0.3)
    assert (well.gain_db, well.mistuning_db, well.rain_clutter) == (0.0, 0.0, 0.0)
    wet = well_set(view_of("bare", conditions=Conditions(rain_mm_h=16.0)))
    assert 0.0 < wet.rain_clutter < 1.0
    assert wet.sea_clutter == 0.0


def test_margins_at_cells_are_those_of_the_display() -> None:
    controls = Controls(gain_db=-3.0, mistuning_db=2.0, sea_clutter=0.3, rain_clutter=0.4)
    shown = display(WEATHER, controls)
    rows, cols = np.nonzero(shown.margin_db > -50.0)
    echo = WEATHER.echo_db[rows, cols].astype(np.float64)
    assert margins_at(WEATHER, controls, rows, cols, echo) == pytest.approx(
        shown.margin_db[rows, cols], abs=1e-3
    )
