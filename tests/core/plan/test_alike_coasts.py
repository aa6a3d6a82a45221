"""Where look-alike coasts are looked for: far round a landfall, near by on other legs."""

from core.base.progress import Quiet
from core.coverage.coverage_result import Coverage, SweepSettings
from core.coverage.run import cover_passage
from core.land.land_model import LandModel
from core.plan.alike_coasts import alike_coasts, alike_findings
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import radar_set
from core.ship.ship import Band, Radar
from tests.helpers.islands import NM, Sea, box, track

_ANTENNA_M = 25.0
_SET = radar_set(Radar(name="X", band=Band.X, antenna_above_water_m=_ANTENNA_M))
_BUDGET = EchoBudget(
    radar=_SET, pulse=_SET.long_pulse, antenna_height_m=_ANTENNA_M, conditions=Conditions()
)


def _two_capes(half_width_nm: float = 28.0) -> LandModel:
    """Low capes 8 NM apart on a low coast, 8 NM east of the centre line."""
    sea = Sea(half_width_m=half_width_nm * NM, cell_m=200.0)
    sea = sea.land(box(8.0 * NM, -24.0 * NM, 11.0 * NM, 24.0 * NM), 14.0)
    for north_nm in (-4.0, 4.0):
        cape = box(5.0 * NM, (north_nm - 0.7) * NM, 8.5 * NM, (north_nm + 0.7) * NM)
        sea = sea.land(cape, 14.0)
    return sea.model()


def _covered(land: LandModel, *points_nm: tuple[float, float]) -> Coverage:
    passage = track(*((east * NM, north * NM) for east, north in points_nm))
    settings = SweepSettings(
        antenna_height_m=_ANTENNA_M, refraction_k=4.0 / 3.0, radius_m=20.0 * NM
    )
    return cover_passage(passage, land, settings, Quiet(), budget=_BUDGET)


def test_a_landfall_between_equal_capes_is_flagged_once_on_its_leg() -> None:
    land = _two_capes()
    coverage = _covered(land, (-16.0, -4.0), (-12.0, -4.0), (2.0, -4.0))
    open_sea, landfall = alike_coasts(land, coverage, Quiet())
    assert not open_sea
    assert any(abs(one.distance_m - 8.0 * NM) < 0.6 * NM for one in landfall)
    (finding,) = alike_findings((open_sea, landfall))
    assert finding.where.leg_number == 2
    assert "like it does" in finding.what


def test_on_a_coastal_leg_places_miles_off_are_not_looked_for() -> None:
    land = _two_capes()
    coverage = _covered(land, (1.0, -4.0), (1.0, -3.0))
    (found,) = alike_coasts(land, coverage, Quiet())
    assert all(one.distance_m <= 4.0 * NM for one in found)


def test_without_a_radar_nothing_is_compared() -> None:
    land = _two_capes()
    passage = track((1.0 * NM, -4.0 * NM), (1.0 * NM, -3.0 * NM))
    settings = SweepSettings(
        antenna_height_m=_ANTENNA_M, refraction_k=4.0 / 3.0, radius_m=12.0 * NM
    )
    coverage = cover_passage(passage, land, settings, Quiet())
    assert alike_coasts(land, coverage, Quiet()) == ((),)
