"""The one place where the window meets core's jobs; tests plug in stand-ins here."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from core.base.progress import Progress
from core.files.land_shelf import Shelf
from core.files.project import Project
from core.land.land_fit_result import LandFit
from core.passage.passage import Passage
from core.plan.first_results import FirstResults
from core.plan.last_plan import InputChange, LastPlan
from core.plan.observed_result import ObservedReport
from core.plan.offing_result import OffingTable
from core.plan.outcome import Outcome
from core.plan.request import Request


class PlanFunction(Protocol):
    """The main job."""

    def __call__(
        self,
        request: Request,
        progress: Progress,
        *,
        leg_done: Callable[[FirstResults], None] | None = None,
    ) -> Outcome:
        """Make a plan of a request."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoreJobs:
    """What the window asks core to do; each may raise ``LegsheetError``."""

    read_route: Callable[[Project], Passage]
    make_request: Callable[[Project], Request]
    plan: PlanFunction
    demo: Callable[[], Project]
    write_export: Callable[[Outcome, str, Path, Progress], tuple[Path, ...]]
    """Writes the plan in one format (``pdf``, ``json``, ``geojson``, ``csv``) to a path; every
    file that was written."""
    compare_offings: Callable[[Request, int, tuple[float, ...], Progress], OffingTable]
    """Plans one leg (from 1) at other offings, m, starboard positive."""
    compare_seen: Callable[[Outcome, Path], ObservedReport]
    """Reads first paints that were seen and sets them beside those of a plan."""
    look_at_land: Callable[[Shelf, tuple[Path, ...], Progress], Shelf]
    """The land shelf with all files below some paths, those looked at before not read again."""
    land_fit: Callable[[Shelf, Passage, float], LandFit]
    """What of a shelf serves a passage out to a distance, m."""
    tell_files: Callable[[tuple[Path, ...]], tuple[tuple[Path, str], ...]]
    """What dropped files are for; each can be used for it."""
    check_file: Callable[[str, Path], None]
    """Whether a file can be used as a ship, as marks, and so on."""
    changes_since: Callable[[Project, LastPlan, Progress], tuple[InputChange, ...]]
    """What of the inputs changed since the last plan of a project."""
    write_route: Callable[[Passage, Path], None]
    """Writes the passage as RTZ or GPX, by the ending of the path."""
