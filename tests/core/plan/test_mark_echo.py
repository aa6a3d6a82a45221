"""Marks as echoes: kinds by word, and ranges against the standard's table of small targets."""

import numpy as np
import pytest

from core.geodesy.position import Position
from core.plan.mark_echo import like_of, mark_margin_db, radar_target_of
from core.plan.plan_result import Mark
from core.radar.echo_budget import EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band


def _mark(kind: str, height_m: float = 3.5) -> Mark:
    return Mark(
        name="M",
        position=Position(lat_deg=0.0, lon_deg=-30.0),
        height_above_water_m=height_m,
        is_fixed=False,
        kind=kind,
    )


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("Lighthouse", "light tower of masonry"),
        ("red can BUOY", "typical buoy"),
        ("spar", "small plastic buoy, spar"),
        ("racon", "beacon, dolphin or steel pile"),
        ("breakwater end", "beacon, dolphin or steel pile"),
        ("mark", "beacon, dolphin or steel pile"),
    ],
)
def test_kinds_are_told_by_their_words(kind: str, name: str) -> None:
    assert like_of(_mark(kind)).name == name


def test_a_mark_stands_at_its_own_height() -> None:
    assert radar_target_of(_mark("buoy", 6.0), Band.X).height_m == 6.0
    assert radar_target_of(_mark("buoy", 0.0), Band.X).height_m > 0.0


@pytest.mark.parametrize(("band", "range_nm"), [(Band.X, 4.6), (Band.S, 3.0)])
def test_a_buoy_is_detected_where_the_standard_wants_it(band: Band, range_nm: float) -> None:
    # IMO MSC.192(79) table 2, typical navigation buoy, 15 m antenna: 4.6 NM X, 3.0 NM S
    radar = preset_set(band, Preset.MINIMUM)
    budget = EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=15.0)
    near, far = mark_margin_db(
        _mark("buoy"), budget, np.array([range_nm - 0.5, range_nm + 0.5]) * 1852.0
    )
    assert near > 0.0
    assert far < 0.0 if band is Band.X else far < 2.0
