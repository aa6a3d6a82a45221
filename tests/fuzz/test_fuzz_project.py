"""Project files with anything in them: a sentence, never a traceback."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from core.base.errors import InputError
from core.files.copy_mark import CopyMark
from core.files.project import Options, Project, project_from_text, project_text
from core.jobs.kept_plan import last_plan_of
from core.jobs.revise_plan import issued
from core.plan.plan_result import Override
from tests.helpers.sample_outcome import sample_outcome

_WHEN = "2031-05-14T06:00:00Z"


def _whole() -> Project:
    outcome = sample_outcome()
    return Project(
        route=Path("a.rtz"),
        route_text="47.0, -31.0\n47.1, -31.0",
        leg_sources=((0,),),
        land=(Path("land"),),
        options=Options(tide_m=1.0, start_utc=datetime(2031, 5, 14, tzinfo=UTC)),
        overrides=(Override(leg_number=1, role="primary", object_id="A"),),
        revisions=(issued(outcome, issued_utc=_WHEN, note="first", by="2/O A. Example"),),
        known_objects=outcome.plan.known_objects,
        last_plan=last_plan_of(outcome, Project()),
        read_only_copy=CopyMark(by="2/O A. Example", made_utc=_WHEN, of="a.legsheet"),
    )


_TEXT = project_text(_whole(), Path())
_JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner),
    max_leaves=4,
)


def _places(value: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    keys: list[Any] = []
    if isinstance(value, dict):
        keys = list(value)
    elif isinstance(value, list):
        keys = list(range(len(value)))
    return [at, *(place for key in keys for place in _places(value[key], (*at, key)))]


_PLACES = [place for place in _places(json.loads(_TEXT)) if place]


def _taken(text: str) -> Project | None:
    """The project; None where it was refused in a sentence that names the file."""
    said = ""
    try:
        return project_from_text(text, "p.legsheet", Path())
    except InputError as exc:
        said = str(exc)
    assert said.startswith("p.legsheet: ")
    return None


@given(st.sampled_from(_PLACES), _JUNK)
@settings(max_examples=400, deadline=None)
def test_any_value_in_any_place_is_taken_or_refused(place: tuple[Any, ...], junk: Any) -> None:
    document = json.loads(_TEXT)
    inner = document
    for key in place[:-1]:
        inner = inner[key]
    inner[place[-1]] = junk
    project = _taken(json.dumps(document))
    if project is not None:
        project_text(project, Path())


@given(st.integers(0, len(_TEXT)), st.text(max_size=20))
@settings(max_examples=200, deadline=None)
def test_a_text_cut_or_patched_anywhere_is_taken_or_refused(at: int, patch: str) -> None:
    assert at >= len(_TEXT.rstrip()) or _taken(_TEXT[:at]) is None, "half a project is none"
    _taken(_TEXT[:at] + patch + _TEXT[at + len(patch) :])
