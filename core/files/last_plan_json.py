"""The last plan of a project as the project file keeps it."""

from typing import Any

from core.plan.last_plan import LastPlan
from core.plan.request import InputFile

_TEXTS = ("created_utc", "digest", "version")


def last_plan_row(plan: LastPlan) -> dict[str, Any]:
    """As a JSON table."""
    return {name: getattr(plan, name) for name in _TEXTS} | {
        "asked": dict(plan.asked),
        "inputs": [{"role": f.role, "name": f.name, "sha256": f.sha256} for f in plan.inputs],
    }


def last_plan_of_row(row: object) -> LastPlan | None:
    """From a JSON table; None from none.

    Raises
    ------
    ValueError
        It is no such table; the message is the sentence for the officer.
    """
    if row is None:
        return None
    wrong = ValueError("last_plan does not hold time, digest, version, conditions and inputs")
    if not isinstance(row, dict):
        raise wrong
    try:
        files = tuple(
            InputFile(role=_text(f["role"]), name=_text(f["name"]), sha256=_text(f["sha256"]))
            for f in row["inputs"]
        )
        asked = tuple(sorted((_text(name), _text(row["asked"][name])) for name in row["asked"]))
        return LastPlan(asked=asked, inputs=files, **{name: _text(row[name]) for name in _TEXTS})
    except (KeyError, TypeError) as exc:
        raise wrong from exc


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value
