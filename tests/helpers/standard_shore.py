"""The shorelines of the standard's table as made land, and how much later they paint than asked.

IMO MSC.192(79) table 2: shorelines rising to 60, 6 and 3 m. Everything else here is invented.
"""

from core.land.land_model import LandModel
from core.ship.ship import Band
from tests.helpers.islands import NM, Sea, box

CELL_M = 30.0
"""Elevation cells; the shore rises within one of them, half before its face and half behind."""
HALF_LENGTH_M = 3.0 * NM
THICKNESS_M = 2500.0

RESIDUAL_NM = {
    (60.0, Band.X): -1.2,
    (60.0, Band.S): -0.65,
    (6.0, Band.X): -1.95,
    (6.0, Band.S): -2.4,
    (3.0, Band.X): -1.95,
    (3.0, Band.S): -2.45,
}
"""Detected on natural ground by the minimum standard preset, minus the standard's range."""


def straight_shore(height_m: float, half_width_m: float) -> LandModel:
    """A wall of land from north to south through the centre, open sea west of it."""
    shore = box(-1.0, -HALF_LENGTH_M, THICKNESS_M, HALF_LENGTH_M)
    return Sea(half_width_m=half_width_m, cell_m=CELL_M).land(shore, height_m).model()
