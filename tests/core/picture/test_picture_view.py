"""What a place's view holds: powers of land and points, gaps, own sectors; geometry by formula."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import CoastState
from core.coverage.echo_sweep import sweep_echo
from core.coverage.land_echo import land_echo
from core.picture.controls import Controls, threshold_db
from core.picture.display_chain import display
from core.picture.picture_view import Ground, Own, PictureView
from core.picture.point_echoes import PictureTarget
from core.radar.echo_budget import Conditions
from core.radar.radar_set import RadarSet
from core.radar.radar_target import RadarTarget
from core.radar.target_echo import target_power_w
from core.ship.ship import BlindSector
from tests.helpers.islands import NM, place
from tests.helpers.picture_views import buoy, radar_of, view_of, waters


def _one_degree(pulse_us: float = 0.25) -> RadarSet:
    radar = radar_of()
    pulse = replace(
        radar.pulses[1], length_s=pulse_us * 1e-6, from_scale_m=1.0, to_scale_m=100.0 * NM
    )
    return replace(radar, horizontal_beamwidth_deg=1.0, pulses=(pulse,))


def _lit(view: PictureView, over_db: float) -> np.ndarray:
    """Cells within ``over_db`` below the strongest."""
    return np.asarray(view.echo_db >= view.echo_db.max() - over_db)


def test_a_point_smears_over_a_beam_width() -> None:
    # Handbook 8: theta_disp = theta sqrt(excess / 6.02 dB), so an echo 6.02 dB over the threshold
    # shows over theta; at 6 NM and 1 deg that is 193.9 m.
    view = view_of("bare", radar=_one_degree(), targets=(buoy(5.99 * NM),), scale_m=6.5 * NM)
    widths = _lit(view, 6.0206).any(axis=1).sum() * 360.0 / view.bearings
    step_deg = 360.0 / view.bearings
    assert widths == pytest.approx(1.0, abs=step_deg + 1e-9)
    assert math.radians(1.0) * 6.0 * NM == pytest.approx(193.9, abs=0.05)
    assert math.radians(widths) * 6.0 * NM == pytest.approx(
        193.9, abs=math.radians(step_deg) * 6.0 * NM
    )
    # Twice as far over the threshold in dB: sqrt 2 as wide.
    wider = _lit(view, 12.0412).any(axis=1).sum() * step_deg
    assert wider == pytest.approx(math.sqrt(2.0), abs=step_deg + 1e-9)


def test_a_point_smears_outward_by_half_the_pulse() -> None:
    # Handbook 8: c tau / 2 outward; 0.25 us is 37.47 m.
    radar = _one_degree()
    assert radar.pulses[0].depth_m == pytest.approx(37.47, abs=0.01)
    view = view_of("bare", radar=radar, targets=(buoy(1000.0),), scale_m=NM)
    cells = np.flatnonzero(_lit(view, 0.1).any(axis=0))
    assert cells[0] * view.cell_m <= 1000.0 < (cells[0] + 1) * view.cell_m
    assert cells[-1] * view.cell_m <= 1037.47 < (cells[-1] + 1) * view.cell_m
    assert view.cell_m <= 37.48 / 2.0


def test_two_posts_open_at_the_rule_of_gap_closing() -> None:
    # Handbook 8: an opening shows inside opening (m) / (32.3 theta) NM, 32.3 = 1852 pi / 180. Two
    # equal points 129.3 m apart part inside 4.0 NM at 1 deg: each covers a beam when 6.02 dB over
    # the threshold, so just inside a gap shows, and outside none.
    assert 129.3 / math.radians(1.0) == pytest.approx(4.0 * NM, rel=1e-3)

    def between(range_m: float) -> bool:
        posts = tuple(
            PictureTarget(
                name=str(east),
                position=place(east, range_m),
                target=RadarTarget(rcs_m2=10.0, height_m=4.0),
            )
            for east in (-64.65, 64.65)
        )
        view = view_of("bare", radar=_one_degree(), targets=posts, scale_m=6.0 * NM)
        shown = view.echo_db[:, int(range_m / view.cell_m)]
        level = (
            view_of("bare", radar=_one_degree(), targets=posts[:1], scale_m=6.0 * NM).echo_db.max()
            - 6.0206
        )
        return bool(shown[0] < level)

    assert between(0.75 * 4.0 * NM)
    assert not between(1.25 * 4.0 * NM)


def test_powers_agree_with_the_coverage_where_no_point_stands() -> None:
    view = view_of(conditions=Conditions(sea_state=2.0, rain_mm_h=0.5), scale_m=3.0 * NM)
    field = sweep_echo(
        waters("islands"),
        view.position,
        antenna_height_m=15.0,
        refraction_k=4.0 / 3.0,
        radius_m=3.0 * NM,
        cell_m=view.cell_m,
        bearing_count=view.bearings,
    )
    echo = land_echo(field, view.budget)
    shown = display(view, Controls())
    land = echo.margin_db > -60.0
    # Tuned and without clutter controls a margin is that of the coverage, unless clutter shows.
    same = land & (shown.margin_db > -60.0)
    assert same.sum() > 1000
    assert np.all(shown.margin_db[same] <= echo.margin_db[same] + 1e-3)
    spikes = 10.0 * view.sea_ratio + 10.0**0.4 * view.rain_ratio + 1e-12
    quiet = 10.0 * np.log10(spikes) < threshold_db(view.rule, view.budget.pulses)
    clear = same & quiet
    assert clear.any()
    assert shown.margin_db[clear] == pytest.approx(echo.margin_db[clear], abs=1e-3)


def test_a_point_is_as_strong_as_its_formula_and_hidden_behind_land() -> None:
    seen = buoy(2.0 * NM)
    behind = replace(
        buoy(0.0, "behind"), position=replace(seen.position, lat_deg=0.0, lon_deg=-30.0 + 4.0 / 60)
    )
    view = view_of(targets=(seen, behind))
    by_name = {point.name: point for point in view.points}
    power = float(target_power_w(view.budget, seen.target, 2.0 * NM))
    assert by_name["buoy"].power_w == pytest.approx(power, rel=1e-3)
    assert by_name["buoy"].state is CoastState.IN_SIGHT
    assert by_name["behind"].state is CoastState.HIDDEN
    assert by_name["behind"].power_w == 0.0
    at = view.echo_db[0, int(2.0 * NM / view.cell_m)]
    assert at == pytest.approx(10.0 * math.log10(power / view.budget.noise_power_w), abs=0.05)


def test_hidden_unknown_and_far_water_are_told_apart() -> None:
    view = view_of("gap", antenna_m=4.0)
    east = view.ground[view.bearings // 4]
    col = int(3.0 * NM / view.cell_m)
    assert east[col] == Ground.SHADOW
    north = view.ground[0]
    # The horizon of a 4 m antenna: 2.23 sqrt 4 = 4.5 NM (handbook 1.2).
    assert north[int(4.3 * NM / view.cell_m)] == Ground.SEA
    assert north[int(4.7 * NM / view.cell_m)] == Ground.BELOW_HORIZON
    assert (view.ground == Ground.UNKNOWN).any()


def test_own_sectors_go_by_heading_and_leeway_makes_their_edges_doubtful() -> None:
    sectors = (
        BlindSector(from_relative_deg=170.0, to_relative_deg=190.0),
        BlindSector(from_relative_deg=358.0, to_relative_deg=2.0, is_shadow=True),
    )
    view = view_of("bare", sectors=sectors, heading_deg=90.0)

    def own(bearing_deg: float, of: PictureView = view) -> int:
        return int(of.own[round(bearing_deg * of.bearings / 360.0) % of.bearings])

    assert own(270.0) == Own.BLIND
    assert own(259.0) == own(281.0) == own(0.0) == Own.CLEAR
    assert own(90.0) == own(91.5) == Own.SHADOW
    turned = view.turned(0.0, leeway_deg=5.0)
    assert own(180.0, turned) == Own.BLIND
    assert own(172.0, turned) == own(166.0, turned) == own(194.0, turned) == Own.SHADOW
    assert own(163.0, turned) == Own.CLEAR
    assert own(270.0, turned) == Own.CLEAR
    assert turned.echo_db is view.echo_db


def test_off_centring_reaches_farther() -> None:
    view = view_of("bare", off_centre_ratio=0.5, scale_m=3.0 * NM)
    assert view.radius_m == pytest.approx(4.5 * NM)
    assert view.echo_db.shape[1] * view.cell_m >= 4.5 * NM
    assert not view.echo_db.flags.writeable
