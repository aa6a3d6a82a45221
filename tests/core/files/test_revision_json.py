"""Revisions in project and plan file: there and back, and no nonsense taken."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.base.errors import InputError
from core.files.plan_json import plan_document
from core.files.project import Project, read_project, write_project
from core.files.revision_json import read_revision, revision_of, revision_row, revisions_of
from core.jobs.revise_plan import compared_with, issued
from tests.helpers.sample_outcome import sample_outcome

_WHEN = "2031-05-14T00:00:00Z"


def _revision() -> Any:
    return issued(sample_outcome(), issued_utc=_WHEN, note="first  issue ", by=" 2/O  A. Example")


def test_a_revision_comes_back_as_it_was() -> None:
    revision = _revision()
    assert (revision.note, revision.by) == ("first issue", "2/O A. Example")
    assert len(revision.legs) == len(sample_outcome().plan.legs)
    assert revision_of(json.loads(json.dumps(revision_row(revision)))) == revision


def test_a_revision_issued_before_names_were_kept_has_none() -> None:
    row = revision_row(_revision())
    del row["by"]
    assert revision_of(row).by == ""


def test_a_project_keeps_its_revisions(tmp_path: Path) -> None:
    revision = _revision()
    path = tmp_path / "p.legsheet"
    write_project(path, Project(route_text="a", revisions=(revision,)))
    assert read_project(path).revisions == (revision,)
    assert read_revision(path) == revision


def test_a_plan_file_can_be_compared_with(tmp_path: Path) -> None:
    first = compared_with(sample_outcome(), None)
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(plan_document(first)))
    again = compared_with(sample_outcome(), read_revision(path))
    assert (again.revision.number, again.revision.is_issued) == (1, True)


def _changed(key: str, value: object) -> dict[str, Any]:
    return {**revision_row(_revision()), key: value}


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("number", 0),
        ("number", True),
        ("number", "1"),
        ("legs", {}),
        ("legs", [{}]),
        ("legs", [None]),
        ("note", 3),
        ("digest", None),
    ],
)
def test_what_is_no_revision_is_refused(key: str, value: object) -> None:
    with pytest.raises(ValueError, match="a revision does not hold"):
        revision_of(_changed(key, value))


@pytest.mark.parametrize("value", [91.0, "x", None, True, float("nan"), float("inf")])
def test_a_leg_without_a_place_is_refused(value: object) -> None:
    row = revision_row(_revision())
    row["legs"][0]["from"]["lat_deg"] = value
    with pytest.raises(ValueError, match="a revision does not hold"):
        revision_of(row)


def test_revisions_out_of_order_are_refused() -> None:
    row = revision_row(_revision())
    with pytest.raises(ValueError, match="not in order"):
        revisions_of([row, row])


@pytest.mark.parametrize("text", ["{", "[]", "{}", '{"revision": 3}', '{"revisions": []}', "1"])
def test_a_file_without_a_revision_is_refused_in_a_sentence(tmp_path: Path, text: str) -> None:
    path = tmp_path / "old.json"
    path.write_text(text)
    with pytest.raises(InputError, match=r"old\.json"):
        read_revision(path)
