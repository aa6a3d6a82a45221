"""Turning a project round: what goes with it and what does not."""

from dataclasses import replace

from core.base.findings import Finding, Severity
from core.base.language import tr, tr_listed, tr_n
from core.files.project import Project


def reversed_project(project: Project) -> Project:
    """The project planned the other way round.

    Choices of objects belong to legs that are others now, and so do contingency legs; the time of
    start, streams, leeway and the anchorage belong to the other voyage: they are left out. Danger
    limits, marks and letters are of places and stay.
    """
    return replace(
        project,
        is_reversed=not project.is_reversed,
        overrides=(),
        contingencies=None,
        streams=None,
        anchorage=None,
        options=replace(
            project.options,
            start_utc=None,
            set_deg=None,
            drift_mps=None,
            leeway_port_deg=None,
            leeway_starboard_deg=None,
        ),
    )


def left_out_words(project: Project) -> str:
    """What turning a project round leaves out, as a sentence; empty where nothing is."""
    count = len(project.overrides)
    parts = []
    if count:
        parts.append(
            tr_n("{count} choice of index objects", "{count} choices of index objects", count)
        )
    if project.contingencies is not None:
        parts.append(tr("the contingency legs"))
    if project.options.start_utc is not None:
        parts.append(tr("the start time"))
    options = project.options
    leeway = (options.leeway_port_deg, options.leeway_starboard_deg)
    if project.streams is not None or any(v is not None for v in (options.set_deg, *leeway)):
        parts.append(tr("stream and leeway"))
    if project.anchorage is not None:
        parts.append(tr("the anchorage"))
    if not parts:
        return ""
    singular = (tr("the start time"), tr("the anchorage"))
    is_one = len(parts) == 1 and (count == 1 or parts[0] in singular)
    things = tr_listed(parts)
    said = tr_n("{things} is left out.", "{things} are left out.", 2 - is_one, things=things)
    return said[:1].upper() + said[1:]


def turned_words(left_out: str) -> str:
    """What to look at once a passage was turned round by hand, after ``left_out_words``."""
    left_out = f" {left_out}" if left_out else ""
    return tr(
        "The passage runs the other way now.{left_out} Check that each "
        "line may be run this way, give draughts, tide and start, then "
        "compute. Undo takes it back.",
        left_out=left_out,
    )


def reversed_finding() -> Finding:
    """What to look at before a line is run the other way (job.md 1.12.10)."""
    return Finding(
        severity=Severity.CHECK,
        code="passage-reversed",
        what=tr(
            "the passage is planned the other way round: corridors changed "
            "sides, times of the route file are left out"
        ),
        todo=tr(
            "Check that each line may be run this way, in narrow channels and "
            "lanes above all; give draughts, tide, stream and start of this "
            "voyage"
        ),
    )
