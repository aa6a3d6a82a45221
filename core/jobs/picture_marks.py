"""Marks of the officer and objects of a plan as a picture shows them."""

from collections.abc import Sequence
from dataclasses import replace

from core.picture.point_echoes import PictureTarget
from core.plan.plan_result import Mark
from core.radar.radar_target import TYPICAL_TARGETS, TypicalTarget
from core.ship.ship import Band

_LIKE = (
    (("light tower", "lighthouse", "tower"), "light tower of masonry"),
    (("lanby", "superbuoy", "light vessel"), "large lighted buoy with reflector"),
    (("buoy",), "typical buoy"),
    (("spar", "perch", "withy"), "small plastic buoy, spar"),
)
_BEACON = "beacon, dolphin or steel pile"
_BY_NAME = {kind.name: kind for kind in TYPICAL_TARGETS}
_LEAST_HEIGHT_M = 0.5


def echoes_like(kind_of_mark: str) -> TypicalTarget:
    """The typical target a mark echoes like, by the word of its kind; else a beacon.

    Common practice, no source.
    """
    kind = kind_of_mark.casefold()
    for words, name in _LIKE:
        if any(word in kind for word in words):
            return _BY_NAME[name]
    return _BY_NAME[_BEACON]


def mark_targets(marks: Sequence[Mark], band: Band) -> tuple[PictureTarget, ...]:
    """Marks at the weakest of their kind, each at its own height."""
    return tuple(
        PictureTarget(
            name=mark.name,
            position=mark.position,
            target=replace(
                echoes_like(mark.kind).weakest(band),
                height_m=max(mark.height_above_water_m, _LEAST_HEIGHT_M),
            ),
        )
        for mark in marks
    )
