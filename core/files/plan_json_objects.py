"""The index objects of a leg in the plan file: ranked, with all that is known of them."""

from typing import Any

from core.files.plan_numbers import metres, moment_of, nm, nullable, place
from core.passage.timetable import Timetable
from core.plan import reason_codes
from core.plan.object_result import Confidence, ObjectLook
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Role
from core.words.reasons import sentence

_MARK = "it is a mark of the officer's"
_NO_CELLS = "elevation cells cannot tell"


def object_document(item: IndexObject) -> dict[str, Any]:
    """An object as every line names it."""
    return {
        "id": item.id,
        "name": item.name,
        **place(item.position),
        "edge": item.edge.value,
        "kind": item.kind.value,
        "height_above_water_m": metres(item.height_above_water_m),
        "fixed": item.is_fixed,
        "confirm_on_chart": item.confirm_on_chart,
    }


def objects_document(leg: LegPlan, timetable: Timetable) -> dict[str, Any]:
    """Ranked objects, marks that are never indexed, and what the data cannot hold."""
    grain_m = leg.data_grain_m
    return {
        "objects": [_look(look, leg.leg_index, timetable) for look in leg.looks],
        "never_indexed": [
            {"object": object_document(thing), "reason": sentence(reason)}
            for thing, reason in leg.candidates
            if reason.code == reason_codes.FLOATING
        ],
        **nullable(
            "data_grain_m",
            None if grain_m is None else metres(grain_m),
            "there is no coast in reach",
        ),
    }


def fallback_document(line: IndexLine) -> dict[str, Any]:
    """What to use where the object of a line is not seen."""
    other = line.fallback
    reason = "nothing else can be used there"
    if line.role not in (Role.PRIMARY, Role.CHECK):
        reason = "only primary and check lines have one"
    return nullable(
        "fallback",
        None
        if other is None
        else {
            "object_id": other.object_id,
            "from_along_nm": nm(other.from_along_m),
            "to_along_nm": nm(other.to_along_m),
        },
        reason,
    )


def corridor_document(leg: LegPlan) -> dict[str, Any]:
    """Whether the corridor can be watched on the scale in use."""
    watch = leg.corridor_watch
    if watch is None:
        return nullable("corridor_watch", None, "there is no primary line to watch it by")
    better_m = watch.better_scale_m
    document = {
        "scale_nm": nm(watch.scale_m),
        "range_error_nm": nm(watch.range_error_m),
        "least_corridor_nm": nm(watch.least_corridor_m),
        "watched": watch.is_watched,
        **nullable(
            "better_scale_nm",
            None if better_m is None else nm(better_m),
            "none is needed" if watch.is_watched else "none holds an object of the leg",
        ),
    }
    return nullable("corridor_watch", document, "")


def _look(look: ObjectLook, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    is_mark = look.tide_moves_m == 0.0 and look.slope_ratio is None and not look.is_tide_at_least
    unknown = _MARK if is_mark else _NO_CELLS
    return {
        "place": look.place,
        "object": object_document(look.object),
        "weak": look.is_weak,
        "reason": sentence(look.reason),
        "side": look.side.value,
        "cross_index_range_nm": nm(look.cross_index_range_m),
        "windows": [
            {
                "from_along_nm": nm(start),
                "to_along_nm": nm(stop),
                **moment_of(timetable, leg_index, start, "from"),
                **moment_of(timetable, leg_index, stop, "to"),
            }
            for start, stop in look.windows
        ],
        "extent_m": metres(look.extent_m),
        "extent_beams": round(look.beams_ratio, 2),
        **nullable(
            "slope",
            None if look.slope_ratio is None else round(look.slope_ratio, 3),
            "its shore is lower than the tide" if look.is_tide_at_least else unknown,
        ),
        "steep_to": look.is_steep_to,
        **nullable(
            "tide_moves_edge_m",
            None if look.tide_moves_m is None else metres(look.tide_moves_m),
            unknown,
        ),
        "tide_moves_edge_at_least": look.is_tide_at_least,
        **nullable(
            "isolation_nm",
            None if look.isolation_m is None else nm(look.isolation_m),
            "it stands on a coast",
        ),
        "paints_inside_coast_m": metres(look.inside_m),
        "paint_spread_m": metres(look.spread_m),
        "confidence": _confidence(look.confidence),
        "likely_conspicuous_calculated": look.is_likely_conspicuous,
    }


def _confidence(sure: Confidence) -> dict[str, Any]:
    margin_db = sure.least_margin_db
    return {
        "grade": sure.grade.value,
        "reasons": [sentence(reason) for reason in sure.reasons],
        **nullable("height_error_could_hide", sure.height_could_hide, _MARK),
        **nullable(
            "least_margin_db",
            None if margin_db is None else round(margin_db, 1),
            "no echo of land was worked out for it",
        ),
        "cell_m": metres(sure.cell_m),
    }
