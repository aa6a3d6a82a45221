"""Words of a plan that was kept with its project: of when it is, what changed since, who copied."""

from collections.abc import Sequence
from datetime import UTC, datetime

from core.base.language import tr
from core.plan.last_plan import InputChange, LastPlan, Since

_ROLES = {
    tr("route"): tr("route"),
    tr("ship"): tr("ship"),
    tr("marks"): tr("marks"),
    "limits": tr("danger limits"),
    tr("streams"): tr("streams"),
    "contingencies": tr("contingency legs"),
    "classes": tr("kinds of ground"),
    "elevation": tr("land heights"),
    tr("coast"): tr("coast"),
}
_ASKED = {
    "reversed": tr("which way it runs"),
    "leg_sources": tr("legs"),
    "overrides": tr("choices of objects"),
    "start_utc": tr("start"),
    "draught_forward_m": tr("draught forward"),
    "draught_aft_m": tr("draught aft"),
    "antenna_height_m": tr("antenna height"),
    "refraction_k": tr("refraction"),
    "radius_m": tr("sweep radius"),
    "craft_height_m": tr("height of craft"),
    "height_error_m": tr("elevation error"),
    "coast_height_m": tr("height of land"),
    "rain_mm_h": tr("rain"),
    "traffic_speed_mps": tr("speed of other craft"),
    "decision_time_s": tr("decision time"),
    "fix_interval_s": tr("interval of fixes"),
    "set_deg": tr("set"),
    "drift_mps": tr("drift"),
    "pass_off_m": tr("how far craft pass off heads"),
    "overlap_s": tr("hand-over"),
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
        return utc or tr("an unknown time")
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return f"{moment.astimezone(UTC):%Y-%m-%d %H:%M} UTC"


def last_plan_words(last: LastPlan) -> str:
    """Which plan it is, as its sheets say."""
    return tr(
        "Last plan of {moment} (digest {digest})",
        moment=moment_words(last.created_utc),
        digest=last.digest[:12],
    )


def change_list_words(changes: Sequence[InputChange]) -> str:
    """What changed since, in one sentence."""
    if not changes:
        return tr("Files, conditions and choices are as they were.")
    words = [_one(change) for change in changes[:_MOST_NAMED]]
    more = len(changes) - len(words)
    if more:
        words.append(tr("{more} more", more=more))
    return tr("Changed since: {changes}.", changes="; ".join(words))


def _one(change: InputChange) -> str:
    role = _ROLES.get(change.role, change.role)
    match change.since:
        case Since.CHANGED:
            return f"{role} ({change.name})"
        case Since.ANOTHER:
            return tr(
                "{role} (now {name}, was {before})",
                role=role,
                name=change.name,
                before=change.before,
            )
        case Since.ADDED:
            return tr("new {role} ({name})", role=role, name=change.name)
        case Since.TAKEN_OUT:
            return tr("no {role} any more (was {name})", role=role, name=change.name)
        case Since.MISSING:
            return tr("{role} missing ({name})", role=role, name=change.name)
        case Since.UNREADABLE:
            return change.name.rstrip(".")
        case Since.ASKED:
            return _asked_words(change.name)
        case Since.PROGRAM:
            return tr("the program (was {name})", name=change.name)


def _asked_words(name: str) -> str:
    if name in _ASKED:
        return _ASKED[name]
    unit = next((unit for unit in _UNITS if name.endswith(unit)), "")
    return name.removesuffix(unit).replace("_", " ")
