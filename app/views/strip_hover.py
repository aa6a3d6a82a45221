"""What the mouse or the pointer of the keys is on in the strip, in deck words."""

import numpy as np

from app.views.strip_words import about
from core.base.language import tr
from core.land.land_model import Cell
from core.passage.passage import Side
from core.plan.outcome import Outcome
from core.sheets.page import Place
from core.sheets.strip_map import StripMap
from core.words import quantities

_STRETCH_KEYS = tr("Ctrl and wheel, or + and -, change it for this leg; 0 as on the sheet")


def explain(outcome: Outcome, leg_index: int, things: StripMap, place: Place) -> str:
    """What is at a place of the strip: the thing there, else how far along and across it is."""
    return explain_thing(outcome, leg_index, things, things.at(place), place)


def explain_thing(
    outcome: Outcome, leg_index: int, things: StripMap, reference: str, place: Place
) -> str:
    """Words of a thing met at a place; of the place alone where the thing says nothing."""
    frame = things.strip.frame
    along_m, cross_m = frame.track_coordinates(place)
    if reference == "stretch":
        return tr(
            "A mile across the leg is drawn {factor} as long as a mile along it. {stretch_keys}",
            factor=quantities.factor(frame.stretch_ratio),
            stretch_keys=_STRETCH_KEYS,
        )
    words = about(outcome, leg_index, reference, along_m)
    if words:
        return words
    if not frame.water.contains(place):
        return ""
    leg = outcome.plan.legs[leg_index]
    side = (Side.STARBOARD if cross_m > 0.0 else Side.PORT).shown
    across = (
        tr("on the track")
        if cross_m == 0.0
        else tr("{distance} to {side}", distance=quantities.distance(abs(cross_m), 2), side=side)
    )
    to_go_m = leg.distance_m - along_m
    along = (
        tr("{distance} to go", distance=quantities.distance(to_go_m, 2))
        if to_go_m >= 0.0
        else tr("{distance} past the waypoint", distance=quantities.distance(-to_go_m, 2))
    )
    ground = _ground(outcome, leg_index, reference, along_m, cross_m)
    where = f"{along}, {across}"
    return f"{ground} {where}" if ground else where


def _ground(
    outcome: Outcome, leg_index: int, reference: str, along_m: float, cross_m: float
) -> str:
    if reference == "hidden-water":
        craft = quantities.fine_height(outcome.request.environment.craft_height_m)
        return tr(
            "HIDDEN WATER: a craft {craft} high is hidden here from everywhere "
            "on the track of this leg.",
            craft=craft,
        )
    if reference == "no-data":
        return tr("NO DATA: neither land nor water is known here.")
    if reference == "land":
        return _land(outcome, leg_index, along_m, cross_m)
    return ""


def _land(outcome: Outcome, leg_index: int, along_m: float, cross_m: float) -> str:
    land = outcome.land
    line = outcome.plan.passage.line(leg_index)
    lat, lon = line.offset(np.array([along_m]), np.array([cross_m]))
    row, col = (int(np.rint(v[0])) for v in land.lattice.row_col(lat, lon))
    if not (0 <= row < land.lattice.rows and 0 <= col < land.lattice.cols):
        return tr("Land.")
    height_m = float(land.heights_m[row, col])
    if not np.isfinite(height_m) or land.cell[row, col] != int(Cell.LAND):
        return tr("Land.")
    height = quantities.height(height_m)
    if land.heights_assumed:
        return tr("Land {height} high, assumed.", height=height)
    return tr("Land {height} high, by the elevation data.", height=height)
