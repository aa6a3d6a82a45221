import json
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.errors import InputError
from core.files.project import Options, Project, is_project, read_project, write_project
from core.plan.plan_result import Override


def _project(folder: Path) -> Project:
    return Project(
        route=folder / "a.rtz",
        is_reversed=True,
        land=(folder / "land", Path("/elsewhere/coast.geojson")),
        ship=folder / "ship.toml",
        streams=folder / "streams.csv",
        classes=folder / "ground.tif",
        options=Options(
            tide_m=3.1,
            mean_sea_level_m=2.9,
            start_utc=datetime(2026, 11, 25, 5, 0, tzinfo=UTC),
            antenna_height_m=25.0,
            traffic_speed_mps=10.0,
            decision_time_s=720.0,
            fix_interval_s=180.0,
            set_deg=45.0,
            drift_mps=0.75,
            leeway_port_deg=0.0,
            leeway_starboard_deg=4.0,
            overlap_s=300.0,
        ),
        overrides=(
            Override(leg_number=3, role="primary", object_id="B", remark="pilot's choice"),
            Override(leg_number=2, role="check", object_id="C", part_m=(1852.0, 9260.5)),
        ),
    )


def test_a_project_comes_back_as_it_was_written(tmp_path: Path) -> None:
    path = tmp_path / "passage.legsheet"
    write_project(path, _project(tmp_path))
    assert read_project(path) == _project(tmp_path)
    assert is_project(path)


def test_paths_below_the_project_move_with_its_folder(tmp_path: Path) -> None:
    first, second = tmp_path / "one", tmp_path / "two"
    first.mkdir()
    write_project(first / "p.legsheet", _project(first))
    first.rename(second)
    assert read_project(second / "p.legsheet").route == second / "a.rtz"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "this file is empty"),
        ("{", "this is not a project file, or it is cut short"),
        ("[1]", "this is not a project file"),
        ('{"format": "legsheet-project", "version": 99}', "the project has version 99"),
        ('{"format": "legsheet-project", "version": 1, "land": "x"}', "land or overrides"),
        (
            '{"format": "legsheet-project", "version": 1, "options": {"tide_m": "high"}}',
            "tide_m is not a number",
        ),
        ('{"format": "legsheet-project", "version": 1, "route": 7}', "route is not a path"),
        (
            '{"format": "legsheet-project", "version": 1, "options": {"start_utc": "noon"}}',
            "start_utc 'noon' is not a time",
        ),
        (
            '{"format": "legsheet-project", "version": 1, "reversed": 1}',
            "reversed is neither true nor false",
        ),
    ],
)
def test_a_broken_project_is_refused_in_one_sentence(
    tmp_path: Path, text: str, sentence: str
) -> None:
    path = tmp_path / "p.legsheet"
    path.write_text(text)
    with pytest.raises(InputError, match=sentence) as caught:
        read_project(path)
    assert "p.legsheet" in str(caught.value)
    assert "\n" not in str(caught.value)


_JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.text(max_size=6) | st.integers(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner),
    max_leaves=6,
)


@given(
    changes=st.dictionaries(
        st.sampled_from(["route", "land", "options", "overrides", "version", "ship", "reversed"]),
        _JSON,
        max_size=3,
    )
)
def test_a_mutated_project_gives_a_project_or_one_sentence(
    tmp_path_factory: pytest.TempPathFactory, changes: dict[str, object]
) -> None:
    path = tmp_path_factory.mktemp("p") / "p.legsheet"
    document = {"format": "legsheet-project", "version": 1, "land": []} | changes
    path.write_text(json.dumps(document))
    try:
        assert isinstance(read_project(path), Project)
    except InputError as error:
        assert "\n" not in str(error)  # noqa: PT017 - either end is right


def test_an_interrupted_write_leaves_the_old_project(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "p.legsheet"
    write_project(path, _project(tmp_path))
    before = path.read_bytes()

    def fail(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", fail)
    with pytest.raises(Exception, match=r"p\.legsheet"):
        write_project(path, Project(route=tmp_path / "b.rtz"))
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_number_longer_than_any_is_no_fault_of_the_program(tmp_path: Path) -> None:
    path = tmp_path / "p.legsheet"
    path.write_text('{"format": "legsheet-project", "version": ' + "9" * 5000 + "}")
    with pytest.raises(InputError, match="not a project file"):
        read_project(path)


def test_a_project_of_the_first_version_opens_and_is_written_as_the_newest(tmp_path: Path) -> None:
    old = tmp_path / "old.legsheet"
    old.write_text(
        '{"format": "legsheet-project", "version": 1, "route": "r.rtz", "land": ["z.tif"], '
        '"options": {"speed_mps": 5.0}, "overrides": []}',
        encoding="utf-8",
    )
    project = read_project(old)
    assert project.route == tmp_path / "r.rtz"
    assert project.options.speed_mps == 5.0
    assert project.leg_sources == ()
    write_project(old, project)
    assert '"version": 3' in old.read_text(encoding="utf-8")
    assert read_project(old) == project
