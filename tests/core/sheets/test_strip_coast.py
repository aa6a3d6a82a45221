"""The coast on the strip: what the key says of each style is true of what is drawn in it."""

from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import CoastState
from core.sheets.page import Rectangle, Stroke, Text
from core.sheets.strip_block import make_strip
from core.sheets.strip_coast import COAST_STYLES
from core.sheets.strip_key import strip_key
from core.words.messages import Say
from tests.helpers.fixed_measure import FixedMeasure
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
        if isinstance(item, Stroke) and not item.reference:
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
