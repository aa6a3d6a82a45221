"""What of the inputs of the last plan of a project changed since."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from core import __version__
from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress
from core.files.hashing import sha256_of
from core.files.land_paths import find_land
from core.files.project import Options, Project
from core.jobs.kept_plan import asked_of
from core.jobs.make_request import make_request
from core.plan.last_plan import InputChange, LastPlan, Since

_LAND = ("elevation", "coast")
_NONE = "null"
"""What was not asked for when the plan was made."""


def changes_since(project: Project, last: LastPlan, progress: Progress) -> tuple[InputChange, ...]:
    """What the last plan was made from and is otherwise now; reads every file it was made from.

    Land that the plan did not need is looked at by its date alone.
    """
    changes = []
    if last.version != __version__:
        changes.append(InputChange(since=Since.PROGRAM, name=last.version))
    then, now = dict(last.asked), dict(asked_of(project))
    changes += [
        InputChange(since=Since.ASKED, name=name)
        for name in sorted({*then, *now})
        if then.get(name, _NONE) != now.get(name, _NONE)
    ]
    changes += _of_files(project, last)
    changes += _of_land(project, last, progress)
    return tuple(changes)


def _of_files(project: Project, last: LastPlan) -> list[InputChange]:
    """Of everything but the land."""
    try:
        # Conditions are told by themselves; one that cannot be used must not hide the files.
        now = make_request(replace(project, options=Options())).inputs
    except InputError as exc:
        return [InputChange(since=Since.UNREADABLE, name=str(exc))]
    then = {file.role: file for file in last.inputs if file.role not in _LAND}
    changes = []
    for file in now:
        before = then.pop(file.role, None)
        if before is None:
            changes.append(InputChange(since=Since.ADDED, role=file.role, name=file.name))
        elif before.sha256 != file.sha256:
            is_same = before.name == file.name
            changes.append(
                InputChange(
                    since=Since.CHANGED if is_same else Since.ANOTHER,
                    role=file.role,
                    name=file.name,
                    before=before.name,
                )
            )
    changes += [
        InputChange(since=Since.TAKEN_OUT, role=file.role, name=file.name) for file in then.values()
    ]
    return changes


def _of_land(project: Project, last: LastPlan, progress: Progress) -> list[InputChange]:
    if not project.land:
        return []
    then = [file for file in last.inputs if file.role in _LAND]
    try:
        found = find_land(project.land)
    except InputError as exc:
        return [InputChange(since=Since.UNREADABLE, name=str(exc))]
    by_name: dict[str, list[Path]] = {}
    for one in found:
        by_name.setdefault(one.path.name, []).append(one.path)
    for vrt in [one.path for one in found if one.path.suffix.lower() == ".vrt"]:
        # Parts of a mosaic may have names that no land data has by itself.
        for path in vrt.parent.rglob("*"):
            by_name.setdefault(path.name, []).append(path)
    changes = []
    for number, file in enumerate(then):
        progress.report(
            number / len(then), tr("Looking whether {file_name} has changed", file_name=file.name)
        )
        paths = by_name.get(file.name, [])
        if not paths:
            changes.append(InputChange(since=Since.MISSING, role=file.role, name=file.name))
        elif file.sha256 not in [_sha256(path) for path in paths]:
            changes.append(InputChange(since=Since.CHANGED, role=file.role, name=file.name))
    names = {file.name for file in then}
    made_s = _seconds(last.created_utc)
    changes += [
        InputChange(since=Since.ADDED, role=one.kind.value, name=one.path.name)
        for one in found
        if one.path.name not in names and _changed_s(one.path) > made_s
    ]
    return changes


def _sha256(path: Path) -> str:
    try:
        return sha256_of(path)
    except InputError:
        return ""


def _changed_s(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _seconds(utc: str) -> float:
    """Seconds since 1970; of what is no time, later than any file."""
    try:
        return datetime.fromisoformat(utc).timestamp()
    except ValueError:
        return float("inf")
