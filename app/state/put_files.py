"""Another route or another file in a project, and what goes with the old one."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from core.base.language import tr
from core.files.project import Options, Project

OF_THE_LINE = ("route", "route_text", "is_reversed")
"""Parts of a project that say which line is run, and which way."""
OF_LAND = ("land", *OF_THE_LINE)
"""What is told of land holds for this land and this line."""
OF_THE_LIMITS = ("limits", "limits_text")
_WITH_TEXT = ("ship", "marks", "limits")


_OF_THE_WATCH = (
    "craft_height_m",
    "traffic_speed_mps",
    "decision_time_s",
    "fix_interval_s",
    "overlap_s",
    "pass_off_m",
)
"""Conditions that are of the ship and her watch, not of one voyage, its water and its weather."""


def has_route(project: Project) -> bool:
    """Whether a route is named or typed."""
    return project.route is not None or bool(project.route_text)


def next_passage(project: Project) -> Project:
    """What the next passage of the same ship begins with.

    Draughts and antenna height are not kept: those of another voyage would pass for hers now.
    """
    kept = {name: getattr(project.options, name) for name in _OF_THE_WATCH}
    return Project(ship=project.ship, ship_text=project.ship_text, options=Options(**kept))


def next_passage_words(project: Project) -> str:
    """What of a project the next passage keeps; empty where there was nothing."""
    if project == Project():
        return ""
    if next_passage(project) == Project():
        return tr(
            "A new passage, not saved yet. Nothing of the one before is kept: give ship, land "
            "and conditions."
        )
    return tr(
        "A new passage, not saved yet. Own ship and the times of her watch are kept from the one "
        "before; draughts, tide, weather, start, marks and danger limits are not: give those of "
        "this voyage."
    )


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
