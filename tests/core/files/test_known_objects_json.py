"""Objects of earlier plans in project and plan files."""

import json
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.known_objects_json import read_known_objects
from core.files.plan_json import plan_bytes
from core.files.project import Project, read_project, write_project
from core.geodesy.position import Position
from core.plan.plan_result import KnownObject, ObjectKind
from tests.helpers.sample_outcome import sample_outcome

_KNOWN = (
    KnownObject(id="A", kind=ObjectKind.ISLET, position=Position(lat_deg=-36.5, lon_deg=174.8)),
    KnownObject(id="P1", kind=ObjectKind.PEAK, position=Position(lat_deg=-36.4, lon_deg=-179.9)),
)


def test_a_project_keeps_its_objects_and_is_equal_without_them(tmp_path: Path) -> None:
    path = tmp_path / "p.legsheet"
    write_project(path, Project(route_text="x", known_objects=_KNOWN))
    assert read_project(path).known_objects == _KNOWN
    assert read_project(path) == Project(route_text="x")
    assert read_known_objects(path) == _KNOWN


def test_a_project_written_before_objects_were_kept_still_opens(tmp_path: Path) -> None:
    path = tmp_path / "p.legsheet"
    path.write_text('{"format": "legsheet-project", "version": 1}', encoding="utf-8")
    assert read_project(path).known_objects == ()


def test_a_plan_file_gives_its_objects_back(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    path.write_bytes(plan_bytes(sample_outcome()))
    assert read_known_objects(path) == sample_outcome().plan.known_objects


@pytest.mark.parametrize(
    "rows",
    [
        "no list",
        [1],
        [{"id": "A"}],
        [{"id": "", "kind": "islet", "lat_deg": 1, "lon_deg": 1}],
        [{"id": "A", "kind": "castle", "lat_deg": 1, "lon_deg": 1}],
        [{"id": "A", "kind": "islet", "lat_deg": 91, "lon_deg": 1}],
        [{"id": "A", "kind": "islet", "lat_deg": True, "lon_deg": 1}],
        [{"id": "A", "kind": "islet", "lat_deg": 1, "lon_deg": 1}] * 2,
    ],
)
def test_wrong_objects_are_one_sentence(tmp_path: Path, rows: object) -> None:
    document = {"format": "legsheet-project", "version": 1, "known_objects": rows}
    path = tmp_path / "p.legsheet"
    path.write_text(json.dumps(document), encoding="utf-8")
    for read in (read_project, read_known_objects):
        with pytest.raises(InputError, match=r"p\.legsheet") as caught:
            read(path)
        assert "known_objects" in str(caught.value)


@pytest.mark.parametrize("text", ["", "{", "[1, 2]", "{}", "null"])
def test_a_file_without_objects_is_one_sentence(tmp_path: Path, text: str) -> None:
    path = tmp_path / "plan.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=r"plan\.json"):
        read_known_objects(path)
