"""First paints and what must not paint, as the plan file writes them."""

from typing import Any

from core.coverage.coverage_result import FirstSight, Moment
from core.coverage.first_paint_result import (
    FirstPaint,
    MustNotPaint,
    PaintLimit,
    WhatIf,
    WhatIfKind,
)
from core.files.plan_numbers import deg, metres, moment_of, nm, nullable, place
from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan

_LIMITS = ("earliest_possible", "normally_from", "normally_by", "overdue")
_NO_RADAR = "no radar was worked out"


def first_paint_documents(leg: LegPlan, timetable: Timetable) -> list[dict[str, Any]]:
    """Every object that comes, paints or is lost on a leg, in the order of the plan."""
    sights = {sight.object_id: sight for sight in leg.first_sights}
    paints = {paint.object_id: paint for paint in leg.first_paints}
    ids = list(dict.fromkeys((*sights, *paints)))
    return [_document(sights.get(i), paints.get(i), leg, timetable) for i in ids]


def coast_documents(leg: LegPlan, timetable: Timetable) -> list[dict[str, Any]]:
    """The stretches of coast that begin to paint on a leg, written like the objects."""
    return [_document(None, paint, leg, timetable) for paint in leg.coast_paints]


def _document(
    sight: FirstSight | None, paint: FirstPaint | None, leg: LegPlan, timetable: Timetable
) -> dict[str, Any]:
    thing = paint or sight
    if thing is None:
        raise ValueError("neither sight nor paint")
    index = leg.leg_index
    document: dict[str, Any] = {
        "object_id": thing.object_id,
        "name": thing.name,
        **place(thing.position),
        "height_above_water_m": metres(thing.height_above_water_m),
        **_limit(
            "in_sight_from",
            None if sight is None else sight.in_sight_from,
            "see normally_from" if sight is None else sight.in_sight_from_reason,
            index,
            timetable,
        ),
    }
    for name in _LIMITS:
        limit = None if paint is None else getattr(paint, name)
        document.update(_paint_limit(name, limit, index, timetable))
    corridor = None if paint is None else paint.corridor_by
    document.update(_paint_limit("normally_by_in_corridor", corridor, index, timetable))
    document.update(_lost(sight, paint, index, timetable))
    if paint is None:
        return document | {"seen_again": [], "what_if": [], "by_radar": []}
    document["seen_again"] = [_moment(m, index, timetable) for m in paint.seen_again]
    document["what_if"] = [
        {
            "kind": item.kind.value,
            **_varied(item),
            **_paint_limit("normally_by", item.limit, index, timetable),
        }
        for item in paint.what_if
    ]
    document["by_radar"] = [
        {
            "radar": item.radar,
            "band": item.band,
            **_paint_limit("normally_by", item.limit, index, timetable),
            "stretches_along_nm": [[nm(low), nm(high)] for low, high in item.stretches],
        }
        for item in paint.by_radar
    ]
    return document


def _varied(item: WhatIf) -> dict[str, float]:
    """What is varied, under its name."""
    conditions = item.conditions
    if item.kind is WhatIfKind.REFRACTION:
        return {"refraction_k": conditions.refraction_k}
    if item.kind is WhatIfKind.RAIN:
        return {"rain_mm_h": conditions.rain_mm_h}
    return {"sea_state": conditions.sea_state}


def _moment(moment: Moment, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "along_nm": nm(moment.along_m),
        "range_nm": nm(moment.range_m),
        "bearing_deg": deg(moment.bearing_deg),
        **moment_of(timetable, leg_index, moment.along_m),
    }


def _limit(
    name: str, moment: Moment | None, reason: str, leg_index: int, timetable: Timetable
) -> dict[str, Any]:
    value = None if moment is None else _moment(moment, leg_index, timetable)
    return nullable(name, value, reason)


def _paint_limit(
    name: str, limit: PaintLimit | None, leg_index: int, timetable: Timetable
) -> dict[str, Any]:
    if limit is None:
        return nullable(name, None, _NO_RADAR)
    document = _limit(name, limit.moment, limit.reason, leg_index, timetable)
    if document[name] is not None:
        document[name]["in_blind_sector_before"] = limit.held_by
    return document


def _lost(
    sight: FirstSight | None, paint: FirstPaint | None, leg_index: int, timetable: Timetable
) -> dict[str, Any]:
    """Where its paint ends, and to what; without a radar where its sight does."""
    if paint is None:
        moment = None if sight is None else sight.lost
        comes = sight is not None and sight.in_sight_from is not None
        reason = "it stays in sight" if comes else "it does not come in sight"
        return _limit("lost", moment, reason, leg_index, timetable) | {"lost_to": ""}
    lost = paint.lost
    reason = "it goes on painting" if paint.stretches else "it does not paint"
    moment = None if lost is None else lost.ends
    return _limit("lost", moment, reason, leg_index, timetable) | {
        "lost_to": "" if lost is None else lost.lost_to
    }


def look_alike_documents(leg: LegPlan) -> list[dict[str, Any]]:
    """Places from which the coast paints alike."""
    return [
        {
            "along_nm": nm(item.along_m),
            **place(item.position),
            "distance_nm": nm(item.distance_m),
            "bearing_deg": deg(item.bearing_deg),
            "likeness": round(item.likeness_ratio, 3),
        }
        for item in leg.look_alikes
    ]


def must_not_documents(leg: LegPlan, timetable: Timetable) -> list[dict[str, Any]]:
    """What land hides on a leg."""
    return [_must_not(item, leg.leg_index, timetable) for item in leg.must_not_paint]


def _must_not(item: MustNotPaint, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "object_id": item.object_id,
        "name": item.name,
        **place(item.position),
        "from": _moment(item.begins, leg_index, timetable),
        "to": _moment(item.ends, leg_index, timetable),
        "masked_by": item.masked_by,
    }
