"""Hidden water of one leg in the plan file: emerging craft, places in it, sectors of own ship."""

from typing import Any

from core.coverage.coverage_result import LegShadow
from core.files.plan_numbers import deg, kn, moment_of, nm, nullable, place
from core.passage.timetable import Timetable
from core.plan.emergence_result import CraftRun, Emergence
from core.plan.intervals import Intervals
from core.plan.plan_result import LegPlan
from core.plan.sector_result import HiddenSector, SteadyApproach
from core.plan.waters_result import HiddenMark
from core.words.emergence_words import no_offing_words

_NOT_LOOKED_AT = "it was not looked for"


def waters_document(leg: LegPlan, timetable: Timetable) -> dict[str, Any]:
    """The fields ``emergences``, ``hidden_marks`` and ``sector_approaches``."""
    waters, index = leg.waters, leg.leg_index
    sectors = None if waters is None else waters.sectors
    return {
        **nullable(
            "emergences",
            None
            if waters is None
            else [_emergence(e, index, timetable) for e in waters.emergences],
            _NOT_LOOKED_AT,
        ),
        **nullable(
            "hidden_marks",
            None if waters is None else [_mark(m, index, timetable) for m in waters.hidden_marks],
            _NOT_LOOKED_AT,
        ),
        **nullable(
            "sector_approaches",
            None if sectors is None else [_sector(s) for s in sectors],
            "no blind sectors are stated for any radar",
        ),
    }


def shadow_document(shadow: LegShadow, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    """One land shadow, with when it begins and ends."""
    own = shadow.track_along_m
    return {
        "from_along_nm": nm(shadow.from_along_m),
        "to_along_nm": nm(shadow.to_along_m),
        **moment_of(timetable, leg_index, shadow.from_along_m, "from"),
        **moment_of(timetable, leg_index, shadow.to_along_m, "to"),
        **nullable(
            "track_along_nm",
            None if own is None else [nm(own[0]), nm(own[1])],
            "only an edge of the corridor has it",
        ),
        "bearing_from_deg": deg(shadow.bearing_from_deg),
        "bearing_to_deg": deg(shadow.bearing_to_deg),
        "range_from_nm": nm(shadow.range_from_m),
        "range_to_nm": nm(shadow.range_to_m),
        "side": shadow.side.value,
        "cause": shadow.cause,
    }


def emergence_summary(head: Emergence) -> dict[str, Any]:
    """What the GeoJSON says of a head."""
    run = head.deciding
    return {
        "number": head.number,
        "object_id": head.object_id,
        "side": head.side.value,
        "offing_nm": nm(head.offing_m),
        "pass_off_nm": nm(head.pass_off_m),
        "craft_kn": kn(run.craft_speed_mps),
        "warning_minutes": _minutes(run.warning_s),
        "alarm": _alarm(head),
        "meaning": "tip of a head from behind which a craft may come out unseen and cross the "
        "track at right angles; minutes from coming in sight to meeting",
    }


def _emergence(head: Emergence, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    why = "" if head.no_offing is None else no_offing_words(head.no_offing)
    own_m = head.deciding.own_along_m or 0.0
    return {
        "number": head.number,
        **nullable("object_id", head.object_id or None, "no lettered object has this tip"),
        "side": head.side.value,
        "tip": place(head.tip),
        "tip_along_nm": nm(head.tip_along_m),
        "offing_nm": nm(head.offing_m),
        "pass_off_nm": nm(head.pass_off_m),
        "hidden_nm2": round(head.hidden_m2 / 1852.0**2, 3),
        "behind_unknown_heights": head.is_behind_unknown,
        "relative_from_deg": deg(head.relative_from_deg),
        "relative_to_deg": deg(head.relative_to_deg),
        **moment_of(timetable, leg_index, own_m),
        "warning_minutes": _minutes(head.deciding.warning_s),
        "deciding_craft_kn": kn(head.deciding.craft_speed_mps),
        "decision_minutes": round(head.decision_s / 60.0, 4),
        "alarm": _alarm(head),
        "craft": [_run(run) for run in head.runs],
        **nullable(
            "needed_offing_nm",
            None if head.needed_offing_m is None else nm(head.needed_offing_m),
            why,
        ),
        **nullable(
            "extra_offing_nm",
            None if head.extra_offing_m is None else nm(head.extra_offing_m),
            why,
        ),
        **nullable(
            "extra_distance_nm",
            None if head.extra_distance_m is None else nm(head.extra_distance_m),
            why,
        ),
    }


def _alarm(head: Emergence) -> str:
    return head.alarm.name.lower()


def _minutes(time_s: float | None) -> float | None:
    return None if time_s is None else round(time_s / 60.0, 2)


def _run(run: CraftRun) -> dict[str, Any]:
    why = "a craft of this speed does not come out there unseen"
    return {
        "speed_kn": kn(run.craft_speed_mps),
        **nullable("warning_minutes", _minutes(run.warning_s), why),
        **nullable("at_corridor_edge_minutes", _minutes(run.at_edge_s), why),
        **nullable("own_along_nm", None if run.own_along_m is None else nm(run.own_along_m), why),
        **nullable("position", None if run.position is None else place(run.position), why),
        "relative_deg": deg(run.relative_deg),
        "alarm": run.alarm.name.lower(),
    }


def _stretches(parts: Intervals) -> list[list[float]]:
    return [[nm(start), nm(stop)] for start, stop in parts]


def _mark(mark: HiddenMark, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    opens: dict[str, Any] = {}
    why = "it does not open before it is abeam"
    if mark.opens_m is not None:
        opens = {"along_nm": nm(mark.opens_m), **moment_of(timetable, leg_index, mark.opens_m)}
    return {
        "name": mark.name,
        "kind": mark.kind,
        "place": mark.is_place,
        "side": mark.side.value,
        "abeam_along_nm": nm(mark.abeam_m),
        "off_track_nm": nm(mark.off_track_m),
        "within_nm": nm(mark.within_m),
        "near_along_nm": [nm(mark.near[0]), nm(mark.near[1])],
        "hidden_from_track_along_nm": _stretches(mark.hidden),
        "hidden_along_nm": _stretches(mark.hidden_somewhere),
        "not_known_along_nm": _stretches(mark.unknown),
        "hidden_from_track_minutes": round(mark.track_hidden_s / 60.0, 2),
        "hidden_minutes": round(mark.hidden_s / 60.0, 2),
        **nullable("opens", opens or None, why),
        **nullable("open_before_abeam_minutes", _minutes(mark.open_before_abeam_s), why),
    }


def _sector(sector: HiddenSector) -> dict[str, Any]:
    why = "another radar sees there" if sector.seen_by else "no alteration up to 60 deg opens it"
    return {
        "from_relative_deg": deg(sector.from_relative_deg),
        "to_relative_deg": deg(sector.to_relative_deg),
        "from_true_deg": deg(sector.from_true_deg),
        "to_true_deg": deg(sector.to_true_deg),
        "kind": "shadow" if sector.is_shadow else "blind",
        "hidden_from": list(sector.radars),
        "seen_by": list(sector.seen_by),
        "causes": list(sector.causes),
        "approaches": [_approach(one) for one in sector.approaches],
        **nullable("weave_deg", sector.weave_deg, why),
        **nullable("weave_to", sector.weave_to or None, why),
        "weave_every_minutes": round(sector.weave_every_s / 60.0, 4),
    }


def _approach(one: SteadyApproach) -> dict[str, Any]:
    return {
        "speed_kn": kn(one.speed_mps),
        "courses_deg": [[deg(start), deg(stop)] for start, stop in one.courses_deg],
        **nullable(
            "closing_kn",
            None if one.closing_mps is None else [kn(one.closing_mps[0]), kn(one.closing_mps[1])],
            "none of this speed stays there and closes",
        ),
    }
