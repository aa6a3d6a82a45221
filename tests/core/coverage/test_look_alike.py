"""Look-alike coasts (job.md B19, computed by hand): two equal capes are found, unequal ones not."""

import numpy as np
import pytest
import shapely

from core.coverage.coverage_result import SweepSettings
from core.coverage.echo_signature import BEARINGS, EchoSignature, likeness, signature_of
from core.coverage.look_alike import land_blocks, look_alikes
from core.coverage.look_alike_result import LookAlike
from core.coverage.nearby import blocks_of
from core.coverage.place import Lookout
from core.coverage.terrain import prepare_terrain
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import radar_set
from core.ship.ship import Band, Radar
from tests.helpers.islands import CENTRE, NM, Sea, box, place

_ANTENNA_M = 25.0
_RADAR = radar_set(Radar(name="X", band=Band.X, antenna_above_water_m=_ANTENNA_M))
_BUDGET = EchoBudget(
    radar=_RADAR, pulse=_RADAR.long_pulse, antenna_height_m=_ANTENNA_M, conditions=Conditions()
)
_SETTINGS = SweepSettings(antenna_height_m=_ANTENNA_M, refraction_k=4.0 / 3.0, radius_m=24.0 * NM)


def _cape(north_nm: float, length_nm: float = 3.0) -> shapely.Geometry:
    """Reaches west from the coast at 8 NM east of the centre line."""
    return box((8.0 - length_nm) * NM, (north_nm - 0.7) * NM, 8.5 * NM, (north_nm + 0.7) * NM)


def _coast(*capes: shapely.Geometry) -> Sea:
    sea = Sea(half_width_m=30.0 * NM, cell_m=150.0)
    sea = sea.land(box(8.0 * NM, -26.0 * NM, 14.0 * NM, 26.0 * NM), 90.0)
    for cape in capes:
        sea = sea.land(cape, 90.0)
    return sea


def _found(sea: Sea, north_nm: float, reach_nm: float = 12.0) -> tuple[LookAlike, ...]:
    land = sea.model()
    lookout = Lookout(land, prepare_terrain(land), blocks_of(land), _SETTINGS, _BUDGET)
    here = place(0.0, north_nm * NM)
    paint = lookout.look(here).paint
    assert paint is not None
    return look_alikes(
        signature_of(land.points, paint, here),
        land,
        land_blocks(land),
        lookout,
        along_m=0.0,
        reach_m=reach_nm * NM,
    )


def test_two_equal_capes_are_taken_for_each_other() -> None:
    found = _found(_coast(_cape(-4.0), _cape(5.0)), north_nm=-4.0)
    (north,) = [one for one in found if one.position.lat_deg > 0.0]
    assert np.cos(np.radians(north.bearing_deg)) > 0.998
    assert north.distance_m == pytest.approx(9.0 * NM, abs=0.4 * NM)
    assert north.likeness_ratio > 0.75


def test_a_cape_of_another_shape_is_not() -> None:
    islands = box(2.0 * NM, -8.0 * NM, 3.0 * NM, -6.0 * NM)
    assert not _found(_coast(_cape(-4.0), _cape(5.0, 0.8), islands), north_nm=-4.0)


def test_a_coast_without_features_is_alike_all_along() -> None:
    found = _found(_coast(), north_nm=0.0)
    assert len(found) >= 2
    for item in found:
        across = item.distance_m * abs(np.sin(np.radians(item.bearing_deg)))
        assert across < 1.0 * NM


def test_beyond_reach_nothing_is_looked_for() -> None:
    assert not _found(_coast(_cape(-4.0), _cape(5.0)), north_nm=-4.0, reach_nm=6.0)


def _signature(range_nm: dict[int, float], *, unknown: tuple[int, ...] = ()) -> EchoSignature:
    range_m = np.full(BEARINGS, np.inf)
    for index, value in range_nm.items():
        range_m[index] = value * NM
    range_m[list(unknown)] = np.nan
    return EchoSignature(position=CENTRE, range_m=range_m)


def test_likeness_counts_echoes_of_both_sides() -> None:
    one = _signature(dict.fromkeys(range(20), 6.0))
    assert likeness(one, one) == 1.0
    assert likeness(one, _signature(dict.fromkeys(range(20), 6.2))) == 1.0
    assert likeness(one, _signature(dict.fromkeys(range(20), 7.0))) == 0.0
    assert likeness(one, _signature(dict.fromkeys(range(40), 6.0))) == pytest.approx(41.0 / 60.0)
    assert likeness(one, _signature({})) == 0.0


def test_unknown_bearings_do_not_count_and_too_many_tell_nothing() -> None:
    one = _signature(dict.fromkeys(range(20), 6.0))
    half = _signature(dict.fromkeys(range(10, 20), 6.0), unknown=tuple(range(8)))
    assert likeness(one, half) == pytest.approx((11.0 + 10.0) / (12.0 + 10.0))
    assert likeness(one, _signature({}, unknown=tuple(range(15)))) == 0.0
