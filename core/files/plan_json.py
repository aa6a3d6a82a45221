"""The plan file: a plan as JSON, versioned, described by a JSON Schema in resources.

Definitions of the fields stand in the schema. Nautical units, since this file is an edge.
"""

import json
from typing import Any

from core.base.findings import Finding
from core.files.known_objects_json import known_object_row
from core.files.plan_json_anchor import anchoring_document
from core.files.plan_json_contingency import contingency_documents
from core.files.plan_json_leg import leg_document
from core.files.plan_numbers import kn, metres, nm, nullable, place, utc_text
from core.files.revision_json import leg_row
from core.plan.digest import inputs_of, parameters_of
from core.plan.leg_rules import rules_for
from core.plan.outcome import Outcome
from core.plan.plan_result import Plan
from core.plan.request import Request
from core.plan.rules import DEFAULT_RULES
from core.ship.ship import Radar, Ship

FORMAT = "legsheet-plan"
VERSION = 1
_HALF_RANGE = "none was given; half the tidal range each way of mean sea level is taken"


def finding_document(finding: Finding) -> dict[str, Any]:
    """One finding as JSON."""
    return {
        "severity": finding.severity.value,
        "code": finding.code,
        "what": finding.what,
        "where": str(finding.where),
        "leg": finding.where.leg_number,
        "leg_reason": "" if finding.where.leg_number is not None else "it is not about one leg",
        "todo": finding.todo,
    }


def _passage(plan: Plan, *, is_reversed: bool) -> dict[str, Any]:
    start = plan.timetable.start_utc
    return {
        "name": plan.passage.name,
        "reversed": is_reversed,
        "distance_nm": nm(sum(leg.distance_m for leg in plan.legs)),
        **nullable(
            "start_utc", None if start is None else utc_text(start), "no start time was given"
        ),
        "waypoints": [
            {
                "name": waypoint.name,
                **place(waypoint.position),
                **nullable(
                    "turn_radius_nm",
                    None if waypoint.turn_radius_m is None else nm(waypoint.turn_radius_m),
                    "the route states none",
                ),
            }
            for waypoint in plan.passage.waypoints
        ],
    }


def _radar(ship: Ship, radar: Radar) -> dict[str, Any]:
    return {
        "name": radar.name,
        "band": radar.band.value,
        "antenna_height_above_water_m": metres(ship.antenna_height_above_water_m(radar)),
        "horizontal_beamwidth_deg": radar.horizontal_beamwidth_deg,
        "range_scales_nm": [nm(scale) for scale in radar.range_scales_m],
    }


def _ship(request: Request, antenna_height_m: float) -> dict[str, Any]:
    ship = request.ship
    return {
        "name": ship.name,
        "invented": ship.invented,
        "length_m": ship.length_m,
        "beam_m": ship.beam_m,
        "draught_forward_m": ship.draught_forward_m,
        "draught_aft_m": ship.draught_aft_m,
        "antenna_height_above_water_m": metres(antenna_height_m),
        "turn_radius_nm": nm(ship.turn_radius_m),
        "response_distance_nm": nm(ship.response_distance_m),
        "radars": [_radar(ship, radar) for radar in ship.radars],
    }


def _environment(outcome: Outcome) -> dict[str, Any]:
    environment = outcome.request.environment
    rules = rules_for(environment, DEFAULT_RULES)
    no_tide = "no tide was given; heights are above mean sea level"
    return {
        **nullable("tide_m", environment.tide_m, no_tide),
        **nullable("mean_sea_level_m", environment.mean_sea_level_m, no_tide),
        **nullable(
            "tidal_range_m",
            environment.tidal_range_m,
            f"no tidal range was given; {DEFAULT_RULES.tidal_range_m:g} m is assumed where shores "
            "are judged",
        ),
        **nullable("low_water_m", environment.low_water_m, _HALF_RANGE),
        **nullable("high_water_m", environment.high_water_m, _HALF_RANGE),
        "water_level_above_mean_sea_level_m": metres(outcome.land.water_level_m),
        "refraction_k": round(environment.refraction_k, 6),
        "radius_nm": nm(environment.radius_m),
        "craft_height_m": environment.craft_height_m,
        "height_error_m": environment.height_error_m,
        "sea_state": environment.sea_state,
        "rain_mm_h": environment.rain_mm_h,
        "traffic_speed_kn": kn(environment.traffic_speed_mps or DEFAULT_RULES.other_speed_mps),
        "decision_minutes": round(
            (environment.decision_time_s or DEFAULT_RULES.decision_time_s) / 60.0, 4
        ),
        "fix_interval_minutes": round(
            (environment.fix_interval_s or DEFAULT_RULES.fix_interval_s) / 60.0, 4
        ),
        "pass_off_nm": nm(rules.pass_off_m),
        "overlap_minutes": round(rules.overlap_s / 60.0, 4),
    }


def _revision(outcome: Outcome) -> dict[str, Any]:
    """Without the moment of issue, which is that of the receipt."""
    revision = outcome.revision
    since = revision.since
    return {
        "number": revision.number,
        **nullable(
            "since", None if since is None else since.number, "no earlier revision was given"
        ),
        "digest": outcome.digest,
        "note": revision.note,
        "legs": [leg_row(leg) for leg in revision.legs],
        "changed_legs": [index + 1 for index in revision.marked()],
        "dropped": list(revision.dropped),
    }


def plan_document(outcome: Outcome) -> dict[str, Any]:
    """The whole plan as a JSON document."""
    timings = outcome.timings
    return {
        "format": FORMAT,
        "version": VERSION,
        "receipt": {
            "created_utc": outcome.created_utc,
            "digest": outcome.digest,
            "inputs": inputs_of(outcome),
            "parameters": parameters_of(outcome),
            "viewpoints": outcome.coverage.sweep_count,
            "timings_s": {
                "land": round(timings.land_s, 3),
                "coverage": round(timings.coverage_s, 3),
                "plan": round(timings.plan_s, 3),
                "total": round(timings.total_s, 3),
            },
        },
        "caution": (
            "Calculated from open data for planning only. Official charts and publications, local "
            "rules, company procedures and the judgement of master and pilot take precedence."
        ),
        "passage": _passage(outcome.plan, is_reversed=outcome.request.is_reversed),
        "ship": _ship(outcome.request, outcome.coverage.settings.antenna_height_m),
        "environment": _environment(outcome),
        "data_sources": [
            {
                "role": source.role,
                "name": source.name,
                "sha256": source.sha256,
                "resolution": source.resolution,
                "released": source.released,
                "licence": source.licence,
            }
            for source in outcome.land.sources
        ],
        "revision": _revision(outcome),
        "known_objects": [known_object_row(thing) for thing in outcome.plan.known_objects],
        **anchoring_document(outcome.plan),
        "findings": [finding_document(finding) for finding in outcome.findings],
        "legs": [leg_document(outcome, index) for index in range(len(outcome.plan.legs))],
        "contingencies": contingency_documents(outcome),
    }


def plan_bytes(outcome: Outcome) -> bytes:
    """The plan file as it is written: UTF-8, two spaces, same inputs same bytes.

    Only ``receipt.created_utc`` and ``receipt.timings_s`` differ between runs.
    """
    text = json.dumps(plan_document(outcome), indent=1, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")
