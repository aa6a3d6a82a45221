"""Words of a plan that was kept with its project: of when it is, what changed since, who copied."""

from collections.abc import Sequence
from datetime import UTC, datetime

from core.plan.last_plan import InputChange, LastPlan, Since

_ROLES = {
    "route": "route",
    "ship": "ship",
    "marks": "marks",
    "limits": "danger limits",
    "streams": "streams",
    "contingencies": "contingency legs",
    "classes": "kinds of ground",
    "elevation": "land heights",
    "coast": "coast",
}
_ASKED = {
    "reversed": "which way it runs",
    "leg_sources": "legs",
    "overrides": "choices of objects",
    "start_utc": "start",
    "draught_forward_m": "draught forward",
    "draught_aft_m": "draught aft",
    "antenna_height_m": "antenna height",
    "refraction_k": "refraction",
    "radius_m": "sweep radius",
    "craft_height_m": "height of craft",
    "height_error_m": "elevation error",
    "coast_height_m": "height of land",
    "rain_mm_h": "rain",
    "traffic_speed_mps": "speed of other craft",
    "decision_time_s": "decision time",
    "fix_interval_s": "interval of fixes",
    "set_deg": "set",
    "drift_mps": "drift",
    "pass_off_m": "how far craft pass off heads",
    "overlap_s": "hand-over",
}
"""Names that do not read by themselves once their unit is taken off."""
_UNITS = ("_m", "_s", "_mps", "_deg", "_k", "_mm_h")
_MOST_NAMED = 6
"""Changes named one by one; a folder of new land data has hundreds."""


def moment_words(utc: str) -> str:
    """A time in ISO 8601 as officers read it; what is none, as it stands."""
    try:
        moment = datetime.fromisoformat(utc)
    except ValueError:
        return utc or "an unknown time"
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return f"{moment.astimezone(UTC):%Y-%m-%d %H:%M} UTC"


def last_plan_words(last: LastPlan) -> str:
    """Which plan it is, as its sheets say."""
    return f"Last plan of {moment_words(last.created_utc)} (digest {last.digest[:12]})"


def change_list_words(changes: Sequence[InputChange]) -> str:
    """What changed since, in one sentence."""
    if not changes:
        return "Files, conditions and choices are as they were."
    words = [_one(change) for change in changes[:_MOST_NAMED]]
    more = len(changes) - len(words)
    if more:
        words.append(f"{more} more")
    return f"Changed since: {'; '.join(words)}."


def _one(change: InputChange) -> str:
    role = _ROLES.get(change.role, change.role)
    match change.since:
        case Since.CHANGED:
            return f"{role} ({change.name})"
        case Since.ANOTHER:
            return f"{role} (now {change.name}, was {change.before})"
        case Since.ADDED:
            return f"new {role} ({change.name})"
        case Since.TAKEN_OUT:
            return f"no {role} any more (was {change.name})"
        case Since.MISSING:
            return f"{role} missing ({change.name})"
        case Since.UNREADABLE:
            return change.name.rstrip(".")
        case Since.ASKED:
            return _asked_words(change.name)
        case Since.PROGRAM:
            return f"the program (was {change.name})"


def _asked_words(name: str) -> str:
    if name in _ASKED:
        return _ASKED[name]
    unit = next((unit for unit in _UNITS if name.endswith(unit)), "")
    return name.removesuffix(unit).replace("_", " ")
