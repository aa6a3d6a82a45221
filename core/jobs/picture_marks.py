"""Marks of the officer as a picture shows them."""

from collections.abc import Sequence

from core.picture.point_echoes import PictureTarget
from core.plan.mark_echo import radar_target_of
from core.plan.plan_result import Mark
from core.ship.ship import Band


def mark_targets(marks: Sequence[Mark], band: Band) -> tuple[PictureTarget, ...]:
    """Marks at the weakest of their kind, each at its own height."""
    return tuple(
        PictureTarget(name=mark.name, position=mark.position, target=radar_target_of(mark, band))
        for mark in marks
    )
