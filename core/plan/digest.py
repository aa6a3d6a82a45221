"""Inputs and parameters of a plan in one canonical form, and their fingerprint."""

import hashlib
import json
from typing import Any

from core import __version__
from core.base.units import kn_from_mps, nm_from_m
from core.passage.stream import LegStream
from core.plan.choices import names_in
from core.plan.outcome import Outcome


def inputs_of(outcome: Outcome) -> list[dict[str, str]]:
    """Every file that went in: role, name, SHA-256; files of the request first."""
    rows = [(f.role, f.name, f.sha256) for f in outcome.request.inputs]
    rows += [(s.role, s.name, s.sha256) for s in outcome.land.sources]
    return [{"role": role, "name": name, "sha256": sha} for role, name, sha in rows]


def parameters_of(outcome: Outcome) -> dict[str, Any]:
    """Everything besides the files that the numbers depend on, in the units of the plan file."""
    request, environment = outcome.request, outcome.request.environment
    settings = outcome.coverage.settings
    return {
        "version": __version__,
        "setting": "exact" if settings.is_exact else "planning",
        "antenna_height_above_water_m": round(settings.antenna_height_m, 3),
        "draughts_m": [request.ship.draught_forward_m, request.ship.draught_aft_m],
        "refraction_k": round(settings.refraction_k, 6),
        "radius_nm": round(nm_from_m(settings.radius_m), 4),
        "craft_height_m": settings.craft_height_m,
        "tide_m": environment.tide_m,
        "mean_sea_level_m": environment.mean_sea_level_m,
        "tidal_range_m": environment.tidal_range_m,
        "low_and_high_water_m": [environment.low_water_m, environment.high_water_m],
        "height_error_m": environment.height_error_m,
        "coast_height_m": request.coast_height_m,
        "sea_state": environment.sea_state,
        "rain_mm_h": environment.rain_mm_h,
        "traffic_speed_kn": None
        if environment.traffic_speed_mps is None
        else round(kn_from_mps(environment.traffic_speed_mps), 4),
        "decision_time_s": environment.decision_time_s,
        "fix_interval_s": environment.fix_interval_s,
        **_everywhere(request.streams.everywhere),
        "pass_off_nm": None
        if environment.pass_off_m is None
        else round(nm_from_m(environment.pass_off_m), 4),
        "overlap_s": environment.overlap_s,
        "start_utc": None if request.start_utc is None else request.start_utc.isoformat(),
        "speed_kn": None if request.speed_mps is None else round(kn_from_mps(request.speed_mps), 4),
        "corridor_nm": None
        if request.corridor_m is None
        else round(nm_from_m(request.corridor_m), 4),
        "reversed": request.is_reversed,
        "overrides": [
            [o.leg_number, o.role, o.object_id, o.is_locked, o.remark, *(o.part_m or ())]
            for o in request.overrides
        ],
        "anchorage": None
        if request.anchorage is None
        else [
            request.anchorage.waypoint,
            request.anchorage.cable_m,
            request.anchorage.hawse_m,
            [[round(s.from_to_go_m, 3), round(s.speed_mps, 6)] for s in request.anchorage.speeds],
        ],
        # What a first plan would know by itself is no input, unless a choice rests on it.
        "letters_kept": [
            [o.id, o.kind.value, round(o.position.lat_deg, 7), round(o.position.lon_deg, 7)]
            for o in (request.known_objects if _counts_letters(outcome) else ())
        ],
        "letters_anew": any(finding.code == "letters-anew" for finding in request.findings),
    }


def _everywhere(given: LegStream) -> dict[str, float | None]:
    """Stream and leeway of the whole passage; those of legs stand in a file of their own."""
    stream, leeway = given.stream, given.leeway
    return {
        "set_deg": None if stream is None else round(stream.set_deg, 4),
        "drift_kn": None if stream is None else round(kn_from_mps(stream.drift_mps), 4),
        "leeway_port_deg": None if leeway is None else leeway.to_port_deg,
        "leeway_starboard_deg": None if leeway is None else leeway.to_starboard_deg,
    }


def _counts_letters(outcome: Outcome) -> bool:
    """Whether a plan without known objects would have other letters or other findings."""
    request = outcome.request
    known = {thing.id.casefold() for thing in request.known_objects}
    named = names_in(request.overrides, request.limits)
    return outcome.plan.are_letters_kept or not known.isdisjoint(named)


def digest_of(outcome: Outcome) -> str:
    """SHA-256, in hex, of inputs, parameters and version."""
    canonical = json.dumps(
        {"inputs": inputs_of(outcome), "parameters": parameters_of(outcome)},
        sort_keys=True,
        separators=(",", ":"),
        ensure_ascii=True,
    )
    return hashlib.sha256(canonical.encode("ascii")).hexdigest()
