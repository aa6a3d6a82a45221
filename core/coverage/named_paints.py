"""First paints apart from what their objects are called: letters and names change, echoes do not.

A name says where an object lies from the nearest waypoint, so moving one waypoint names objects
anew that are seen from every leg.
"""

from dataclasses import replace

from core.coverage.first_paint_result import LegPaints, MustNotPaint
from core.coverage.paint_gauge import PaintTarget

Targets = tuple[PaintTarget, ...]


def nameless(targets: Targets) -> Targets:
    """The same objects under their numbers."""
    return tuple(
        replace(target, sight=replace(target.sight, object_id=str(number), name=""))
        for number, target in enumerate(targets)
    )


def renamed(leg: LegPaints, before: Targets, after: Targets) -> LegPaints:
    """Paints of a leg with its objects called as in ``after``, the same objects in one order."""
    return replace(
        leg,
        paints=tuple(
            replace(paint, object_id=target.sight.object_id, name=target.sight.name)
            for paint, target in zip(leg.paints, after, strict=True)
        ),
        must_not=renamed_masks(leg.must_not, before, after),
        echoes=replace(leg.echoes, object_ids=tuple(t.sight.object_id for t in after)),
    )


def renamed_masks(
    masks: tuple[MustNotPaint, ...], before: Targets, after: Targets
) -> tuple[MustNotPaint, ...]:
    """The same for what must not paint."""
    called = {old.sight.object_id: new.sight for old, new in zip(before, after, strict=True)}
    return tuple(
        replace(mask, object_id=called[mask.object_id].object_id, name=called[mask.object_id].name)
        for mask in masks
    )
