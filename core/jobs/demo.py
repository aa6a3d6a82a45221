"""Where the files of the embedded demo passage are; all of it is invented."""

import importlib.resources
from dataclasses import dataclass
from pathlib import Path

from core.files.project import Project
from core.plan.anchoring_result import Anchorage


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoPaths:
    """The inputs of the demo passage."""

    route: Path
    land: tuple[Path, ...]
    """The folder with elevation and coast."""
    ship: Path
    marks: Path
    limits: Path
    contingencies: Path


def demo_paths() -> DemoPaths:
    """Paths of the demo passage that comes with the program."""
    folder = Path(str(importlib.resources.files("resources") / "demo"))
    return DemoPaths(
        route=folder / "route.rtz",
        land=(folder / "land",),
        ship=folder / "ship.toml",
        marks=folder / "marks.csv",
        limits=folder / "limits.csv",
        contingencies=folder / "contingencies.csv",
    )


def demo_project() -> Project:
    """The demo passage as a project: it ends at anchor, nothing else is set by hand."""
    paths = demo_paths()
    return Project(
        route=paths.route,
        land=paths.land,
        ship=paths.ship,
        marks=paths.marks,
        limits=paths.limits,
        contingencies=paths.contingencies,
        anchorage=Anchorage(cable_m=165.0),
    )
