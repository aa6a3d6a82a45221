"""The coast on the strip: what the key says of each style is true of what is drawn in it."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.progress import Quiet
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.run import cover_passage
from core.land.land_model import LandModel
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.sheets.page import Rectangle, Stroke, Text
from core.sheets.strip_block import make_strip
from core.sheets.strip_coast import COAST_STYLES, coast_lines, coast_strokes
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_key import strip_key
from core.ship.ship import Band
from core.words.messages import Say
from tests.helpers.beaches import beach
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.islands import NM, Sea, box, track
from tests.helpers.sample_outcome import sample_outcome

_ROOM = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=125.0, height_mm=170.0)


def _states_drawn(*of_views: CoastState) -> set[CoastState]:
    """States in whose style some coast is drawn when viewpoints find all coast so, in turn."""
    outcome = sample_outcome()
    leg = outcome.coverage.legs[0]
    views = tuple(
        replace(
            view,
            coast_state=np.full_like(view.coast_state, int(of_views[number % len(of_views)])),
        )
        for number, view in enumerate(leg.viewpoints)
    )
    legs = (replace(leg, viewpoints=views), *outcome.coverage.legs[1:])
    strip = make_strip(
        replace(outcome, coverage=replace(outcome.coverage, legs=legs)),
        0,
        frame=_ROOM,
        measure=FixedMeasure(),
    )
    found = set()
    for item in strip.items:
        if isinstance(item, Stroke) and item.reference.startswith("coast:"):
            style = (item.tone, item.width_mm, item.dash)
            found |= {state for state, of in COAST_STYLES.items() if of == style}
    return found


@pytest.mark.parametrize(
    ("found", "drawn"),
    [
        ((CoastState.IN_SIGHT, CoastState.HIDDEN), CoastState.IN_SIGHT),
        ((CoastState.LAND_BEHIND, CoastState.HIDDEN), CoastState.LAND_BEHIND),
        ((CoastState.LAND_BEHIND, CoastState.UNKNOWN), CoastState.LAND_BEHIND),
        ((CoastState.HIDDEN, CoastState.OUTSIDE), CoastState.HIDDEN),
        # Hidden from one place and not known from another is not known to be out of sight.
        ((CoastState.HIDDEN, CoastState.UNKNOWN), CoastState.OUTSIDE),
        ((CoastState.UNKNOWN,), CoastState.OUTSIDE),
        ((CoastState.OUTSIDE,), CoastState.OUTSIDE),
    ],
)
def test_the_best_any_viewpoint_knows_is_drawn(
    found: tuple[CoastState, ...], drawn: CoastState
) -> None:
    assert _states_drawn(*found) == {drawn}


def test_every_style_differs_and_stands_in_the_key() -> None:
    assert len({(width, dash) for _tone, width, dash in COAST_STYLES.values()}) == 4
    room = Rectangle(x_mm=11.0, y_mm=0.0, width_mm=188.0, height_mm=14.0)
    items = strip_key(room, craft_height_m=5.0, measure=FixedMeasure())
    swatches = [(item.tone, item.width_mm, item.dash) for item in items if isinstance(item, Stroke)]
    words = {item.text for item in items if isinstance(item, Text)}
    for style in COAST_STYLES.values():
        assert style in swatches
    assert {
        Say.KEY_COAST_IN_SIGHT,
        Say.KEY_COAST_LAND_BEHIND,
        Say.KEY_COAST_HIDDEN,
        Say.KEY_COAST_OUTSIDE,
    } <= words
    assert all(room.contains(place) for i in items if isinstance(i, Stroke) for place in i.points)


def test_the_key_of_what_paints_names_the_edge_and_the_coast_without_one() -> None:
    room = Rectangle(x_mm=11.0, y_mm=0.0, width_mm=188.0, height_mm=14.0)
    items = strip_key(room, craft_height_m=5.0, measure=FixedMeasure(), paints=True)
    swatches = [(item.tone, item.width_mm, item.dash) for item in items if isinstance(item, Stroke)]
    words = {item.text for item in items if isinstance(item, Text)}
    assert {Say.KEY_PAINTED_EDGE, Say.KEY_COAST_PAINTS_NOT, Say.KEY_COAST_OUTSIDE} <= words
    assert not {Say.KEY_COAST_IN_SIGHT, Say.KEY_COAST_LAND_BEHIND, Say.KEY_COAST_HIDDEN} & words
    for state, style in COAST_STYLES.items():
        assert (style in swatches) == (state is not CoastState.LAND_BEHIND)


_FRAME = StripFrame(
    outer=_ROOM,
    water=_ROOM,
    spine_mm=25.0,
    low_along_m=-500.0,
    high_along_m=3500.0,
    half_width_m=5000.0,
)
"""50 mm to each side: 100 m to the millimetre across."""


def _drawn_from(land: LandModel, preset: Preset, pulse: int) -> dict[CoastState, np.ndarray]:
    """Metres across and along of all that is drawn of each style, from a track 4000 m off."""
    radar = preset_set(Band.X, preset)
    budget = EchoBudget(
        radar=radar, pulse=radar.pulses[pulse], antenna_height_m=15.0, conditions=Conditions()
    )
    settings = SweepSettings(
        antenna_height_m=15.0, refraction_k=budget.conditions.refraction_k, radius_m=5.0 * NM
    )
    passage = track((0.0, -1500.0), (0.0, 1500.0))
    leg = cover_passage(passage, land, settings, Quiet(), budget=budget).legs[0]
    line = passage.line(0)
    strokes = list(coast_strokes(_FRAME, line, land, leg, coast_lines(_FRAME, line, land)))
    found = {}
    for state, style in COAST_STYLES.items():
        of = [s for s in strokes if (s.tone, s.width_mm, s.dash) == style]
        places = [_FRAME.track_coordinates(p)[::-1] for s in of for p in s.points]
        found[state] = np.array(places).reshape(-1, 2)
    return found


def _facing(places: np.ndarray) -> np.ndarray:
    """What of it lies well between the ends of the shore."""
    return places[np.abs(places[:, 1] - 1500.0) < 1800.0]


def test_a_beach_is_two_lines_the_charted_coast_thin_and_the_painted_edge_inland() -> None:
    # Handbook 8: a flat beach paints at the bank behind it, shown as a line of its own.
    shore = box(4000.0, -3000.0, 5200.0, 3000.0)
    land = Sea(half_width_m=6.0 * NM, cell_m=25.0).land(shore, beach(0.0)).model()
    found = _drawn_from(land, Preset.MINIMUM, 0)
    edge = _facing(found[CoastState.IN_SIGHT])
    assert np.median(edge[:, 0]) == pytest.approx(4600.0, abs=60.0)
    assert np.ptp(edge[:, 1]) > 3000.0
    assert edge[:, 0].min() > 4400.0
    charted = _facing(found[CoastState.HIDDEN])
    assert charted[:, 0] == pytest.approx(4000.0, abs=10.0)
    assert found[CoastState.LAND_BEHIND].size == found[CoastState.OUTSIDE].size == 0


def test_a_cliff_is_one_line_at_the_waterline() -> None:
    shore = box(4000.0, -3000.0, 4800.0, 3000.0)
    land = Sea(half_width_m=6.0 * NM, cell_m=25.0).land(shore, 40.0).model()
    found = _drawn_from(land, Preset.TYPICAL, -1)
    assert _facing(found[CoastState.IN_SIGHT])[:, 0] == pytest.approx(4000.0, abs=40.0)
    assert _facing(found[CoastState.HIDDEN])[:, 0] == pytest.approx(4800.0, abs=40.0)


def test_the_edge_breaks_where_heights_are_not_known() -> None:
    shore = box(4000.0, -3000.0, 5200.0, 3000.0)
    sea = Sea(half_width_m=6.0 * NM, cell_m=25.0).land(shore, 40.0)
    land = sea.without_heights(box(3000.0, -400.0, 5300.0, 400.0)).model()
    found = _drawn_from(land, Preset.TYPICAL, -1)
    north = found[CoastState.IN_SIGHT][:, 1] - 1500.0
    assert np.abs(north).min() > 250.0
    assert north.min() < -500.0
    assert north.max() > 500.0
    unknown = found[CoastState.OUTSIDE][:, 1] - 1500.0
    assert np.abs(unknown) == pytest.approx(400.0, abs=100.0)
