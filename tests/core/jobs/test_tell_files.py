"""Files told apart by what stands in them."""

from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.project import Project, write_project
from core.jobs.demo import demo_paths
from core.jobs.tell_files import ROLES, tell_files


def test_the_demo_files_are_what_they_are(tmp_path: Path) -> None:
    paths = demo_paths()
    project = tmp_path / "plan.legsheet"
    write_project(project, Project(route=paths.route))
    wanted = [
        (project, "project"),
        (paths.route, "route"),
        (paths.ship, "ship"),
        (paths.marks, "marks"),
        (paths.limits, "limits"),
        *((path, "land") for path in paths.land),
        *((file, "land") for folder in paths.land if folder.is_dir() for file in _land(folder)),
    ]
    told = tell_files([path for path, _role in wanted])
    assert list(told) == wanted
    assert {role for _path, role in told} <= set(ROLES)


def _land(folder: Path) -> list[Path]:
    return [p for p in folder.iterdir() if p.suffix in (".tif", ".geojson")]


@pytest.mark.parametrize(
    ("text", "role"),
    [
        ("name,lat,lon\nA,1N,2W\nB,2N,2W\n", "route"),
        ("START 56 12.34N 005 45.60W\nEND 56 20.0N 005 50.0W\n", "route"),
        ("name;lat;lon;kind;fixed\nA;1N;2W;beacon;yes\n", "marks"),
        ("object,leg,not_less_than_nm\nA,1,0.5\n", "limits"),
        ("# invented\nleg,set_deg,drift_kn\n1,90,2\n", "streams"),
        ("leg,from_nm_to_go,course_deg,distance_nm\n3,1.8,300,4.5\n", "contingencies"),
    ],
)
def test_tables_are_told_by_their_header(tmp_path: Path, text: str, role: str) -> None:
    path = tmp_path / "table.csv"
    path.write_text(text, encoding="utf-8")
    assert tell_files([path]) == ((path, role),)


def test_what_nobody_can_use_is_refused(tmp_path: Path) -> None:
    picture = tmp_path / "photo.png"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n")
    with pytest.raises(InputError, match=r"photo\.png"):
        tell_files([picture])
    with pytest.raises(InputError, match="no such file"):
        tell_files([tmp_path / "none.rtz"])


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("ship.toml", "this is no ship file"),
        ("limits.csv", "object,leg,not_less_than_nm\nA,1,far\n"),
        ("marks.csv", "name;lat;lon;kind;fixed\nA;95N;2W;beacon;yes\n"),
    ],
)
def test_a_file_that_cannot_be_used_for_what_it_seems_is_refused(
    tmp_path: Path, name: str, text: str
) -> None:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=name):
        tell_files([path])


def test_a_folder_without_land_is_refused(tmp_path: Path) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    with pytest.raises(InputError, match="empty: the folder holds no land data"):
        tell_files([empty])
