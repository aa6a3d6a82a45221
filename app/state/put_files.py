"""Another route or another file in a project, and what goes with the old one."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from core.files.project import Project

OF_THE_LINE = ("route", "route_text", "is_reversed")
"""Parts of a project that say which line is run, and which way."""
OF_THE_LIMITS = ("limits", "limits_text")
_WITH_TEXT = ("ship", "marks", "limits")


def with_route(project: Project, *, route: Path | None, text: str = "") -> Project:
    """Another route is another passage: nothing of the old one may pass for it."""
    return replace(
        project,
        route=route,
        route_text=text,
        route_name="",
        leg_sources=(),
        is_reversed=False,
        overrides=(),
        contingencies=None,
    )


def with_file(project: Project, name: str, path: Path) -> Project:
    """The project with a file as its ship, marks, limits, streams, contingencies or classes.

    What was edited in the project in place of such a file goes.
    """
    changes: dict[str, Any] = {name: path}
    if name in _WITH_TEXT:
        changes[f"{name}_text"] = ""
    return replace(project, **changes)
