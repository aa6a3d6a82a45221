"""Draughts given for the voyage move the antennas; heights above the water do not follow them."""

from dataclasses import replace

import pytest

from core.base.errors import InputError
from core.files.project import Options
from core.jobs.check_options import check_options
from core.ship.draughts import at_draughts
from core.ship.ship import Band, Radar, Ship

_SHIP = Ship(
    name="invented",
    length_m=150.0,
    beam_m=22.0,
    draught_forward_m=8.0,
    draught_aft_m=8.0,
    turn_radius_m=700.0,
    response_distance_m=150.0,
    radars=(Radar(name="X", band=Band.X, antenna_above_keel_m=35.0),),
)


def test_five_metres_less_draught_is_five_metres_more_antenna() -> None:
    """T16b: the antenna 25 or 30 m above the water by draught."""
    deep = at_draughts(_SHIP, forward_m=10.0, aft_m=10.0)
    light = at_draughts(_SHIP, forward_m=5.0, aft_m=5.0)
    heights = [s.antenna_height_above_water_m(s.radars[0]) for s in (deep, light)]
    assert heights == [25.0, 30.0]


def test_heights_above_the_water_take_no_draughts() -> None:
    radar = Radar(name="X", band=Band.X, antenna_above_water_m=25.0)
    with pytest.raises(InputError, match="above the water"):
        at_draughts(replace(_SHIP, radars=(radar,)), forward_m=8.0, aft_m=8.0)


def test_no_antenna_goes_under_water() -> None:
    with pytest.raises(InputError, match="under water"):
        at_draughts(_SHIP, forward_m=36.0, aft_m=36.0)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (Options(draught_forward_m=8.0), "only one of the draughts"),
        (Options(draught_aft_m=8.0), "only one of the draughts"),
        (Options(draught_forward_m=8.0, draught_aft_m=0.0), "draught aft 0 m is not between"),
        (
            Options(draught_forward_m=8.0, draught_aft_m=8.0, antenna_height_m=25.0),
            "both draughts and an antenna height",
        ),
    ],
)
def test_draughts_that_cannot_be_meant_are_refused(options: Options, said: str) -> None:
    with pytest.raises(InputError, match=said):
        check_options(options)
