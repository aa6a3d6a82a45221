"""What is kept of a plan with its project."""

import json
from pathlib import Path

from core import __version__
from core.files.project import Project, project_text
from core.plan.last_plan import LastPlan
from core.plan.outcome import Outcome
from core.plan.request import InputFile

_CHOICES = ("reversed", "leg_sources", "overrides", "anchorage")
"""Names in the project file beside the options."""


def last_plan_of(outcome: Outcome, project: Project) -> LastPlan:
    """What is kept of a plan that was made from a project."""
    land = [InputFile(role=s.role, name=s.name, sha256=s.sha256) for s in outcome.land.sources]
    return LastPlan(
        created_utc=outcome.created_utc,
        digest=outcome.digest,
        version=__version__,
        asked=asked_of(project),
        inputs=(*outcome.request.inputs, *land),
    )


def asked_of(project: Project) -> tuple[tuple[str, str], ...]:
    """Conditions and choices: what an officer set besides naming files."""
    document = json.loads(project_text(project, Path()))
    asked = {**document["options"], **{name: document.get(name) for name in _CHOICES}}
    return tuple((name, json.dumps(asked[name], sort_keys=True)) for name in sorted(asked))
