"""What is kept of a plan with its project."""

import hashlib
import json
from pathlib import Path

from core import __version__
from core.files.project import Project, project_text
from core.plan.last_plan import LastPlan
from core.plan.outcome import Outcome
from core.plan.request import InputFile


def last_plan_of(outcome: Outcome, project: Project) -> LastPlan:
    """What is kept of a plan that was made from a project."""
    land = [InputFile(role=s.role, name=s.name, sha256=s.sha256) for s in outcome.land.sources]
    return LastPlan(
        created_utc=outcome.created_utc,
        digest=outcome.digest,
        version=__version__,
        asked_sha256=asked_sha256(project),
        inputs=(*outcome.request.inputs, *land),
    )


def asked_sha256(project: Project) -> str:
    """Over conditions and choices: what an officer set besides naming files."""
    asked = Project(
        is_reversed=project.is_reversed,
        leg_sources=project.leg_sources,
        options=project.options,
        overrides=project.overrides,
        anchorage=project.anchorage,
    )
    document = json.loads(project_text(asked, Path()))
    del document["version"]
    canonical = json.dumps(document, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(canonical.encode("ascii")).hexdigest()
