"""From which point of the ship ranges are taken, in words."""

from core.base.language import tr
from core.ship.hull_reach import ReferenceKind, reference_of
from core.ship.ship import Ship

_POINTS = {
    ReferenceKind.STATED: tr("the radar's reference point"),
    ReferenceKind.ANTENNA: tr("the main antenna"),
    ReferenceKind.ASSUMED: tr("amidships, as no reference point is stated"),
}


def reference_words(ship: Ship) -> str:
    """Such as ``Ranges from the radar's reference point, 148 m abaft the bow``."""
    reference = reference_of(ship)
    abaft_m = ship.length_m - reference.point.from_stern_m
    return tr(
        "Ranges from {points}, {abaft_m:.0f} m abaft the bow",
        points=_POINTS[reference.kind],
        abaft_m=abaft_m,
    )
