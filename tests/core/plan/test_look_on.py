"""On which screen an overdue echo is to be looked for; scales and ranges are made by hand."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import FirstPaint, PaintLimit, RadarPaint
from core.plan.look_on import LookOn, Way, look_on
from core.plan.reason import Reason
from core.plan.scale_result import ScaleStretch, ScanRhythm
from core.ship.ship import Band, Radar, Ship
from core.words.look_words import look_cell, look_words
from tests.helpers.plans import SHIP
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints

_OUTCOME = with_paints(sample_outcome())
_LINE = _OUTCOME.plan.passage.line(0)
_MAIN = Radar(name="main", band=Band.X, antenna_above_water_m=25.0)
_SECOND = Radar(name="second", band=Band.S, antenna_above_water_m=28.0)


def _stretch(radar: str, scale_nm: float, scan_nm: float | None = None) -> ScaleStretch:
    scan = None
    if scan_nm is not None:
        scan = ScanRhythm(
            scale_m=m_from_nm(scan_nm),
            every_minutes=6.0,
            for_minutes=1.0,
            spare_m=m_from_nm(6.0),
            closing_mps=13.0,
        )
    return ScaleStretch(
        from_along_m=0.0,
        to_along_m=_LINE.length_m,
        radar=radar,
        scale_m=m_from_nm(scale_nm),
        off_centre_ratio=0.0,
        off_centre_direction=None,
        pulse="short",
        reason=Reason(code="look-out"),
        scan=scan,
    )


def _look(range_nm: float, *, paints_on_second: bool = True) -> tuple[LookOn | None, Ship]:
    """The screen for an echo overdue at a range: X on 3 NM, S on 6 NM with a scan on 12."""
    ship = replace(SHIP, radars=(_MAIN, _SECOND))
    leg = replace(
        _OUTCOME.plan.legs[0], scales=(_stretch("main", 3.0), _stretch("second", 6.0, 12.0))
    )
    moment = Moment(along_m=m_from_nm(1.0), range_m=m_from_nm(range_nm), bearing_deg=20.0)
    own = RadarPaint(
        radar="second",
        band="S",
        limit=PaintLimit(moment=moment),
        stretches=((0.0, _LINE.length_m),) if paints_on_second else (),
    )
    some: FirstPaint = _OUTCOME.plan.legs[0].first_paints[0]
    paint = replace(some, overdue=PaintLimit(moment=moment), by_radar=(own,))
    return look_on(leg, _LINE, ship, paint), ship


@pytest.mark.parametrize(
    ("range_nm", "cell", "words"),
    [
        (2.5, ("X 3 NM", ""), ""),
        (5.0, ("S 6 NM", ""), "look on S 6 NM"),
        (10.5, ("S 12 NM", "scan"), "look on S 12 NM, scan"),
        (13.8, ("X 24 NM", "SET IT"), "SET X 24 NM to look"),
        (30.0, ("–", "no scale"), "beyond every scale of the main radar"),
    ],
)
def test_the_card_names_a_screen_that_shows_what_it_calls_for(
    range_nm: float, cell: tuple[str, str], words: str
) -> None:
    look, ship = _look(range_nm)
    assert look_cell(look, ship) == cell
    assert look_words(look, ship) == words
    if look is not None:
        assert nm_from_m(look.scale_m) > range_nm


def test_a_radar_on_which_it_does_not_paint_is_no_place_to_look() -> None:
    look, _ship = _look(5.0, paints_on_second=False)
    assert look is not None
    assert (look.radar.name, nm_from_m(look.scale_m), look.way) == ("main", 6.0, Way.TO_SET)
