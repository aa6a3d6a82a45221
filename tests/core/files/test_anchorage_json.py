"""The anchorage in the project and as typed."""

from pathlib import Path
from typing import Any

import pytest

from app.base.anchor_arguments import AnchorWords, anchorage_in
from core.base.errors import InputError
from core.base.units import m_from_nm, mps_from_kn
from core.files.anchorage_json import anchorage_of, anchorage_row, speeds_in_text
from core.files.project import Project, read_project, write_project
from core.plan.anchoring_result import Anchorage, SpeedStep

_ANCHORAGE = Anchorage(
    waypoint="Inner roads",
    cable_m=165.0,
    speeds=(
        SpeedStep(from_to_go_m=m_from_nm(3.0), speed_mps=mps_from_kn(8.0)),
        SpeedStep(from_to_go_m=m_from_nm(1.5), speed_mps=mps_from_kn(6.0)),
    ),
)


def test_a_project_keeps_its_anchorage(tmp_path: Path) -> None:
    path = tmp_path / "p.legsheet"
    write_project(path, Project(route_text="a", anchorage=_ANCHORAGE))
    kept = read_project(path).anchorage
    assert kept is not None
    assert anchorage_row(kept) == anchorage_row(_ANCHORAGE)
    write_project(path, Project(route_text="a"))
    assert read_project(path).anchorage is None


def test_speeds_are_typed_with_point_or_comma() -> None:
    assert speeds_in_text(" 3:8  1,5:6 ") == ((3.0, 8.0), (1.5, 6.0))
    assert speeds_in_text("") == ()


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ([], "not a table"),
        ({"speeds": 3}, "not a table"),
        ({"speeds": [[1.0]]}, "not a pair"),
        ({"speeds": [[1.0, "x"]]}, "not a number"),
        ({"speeds": [[1.0, float("nan")]]}, "not a number"),
        ({"speeds": [[1.0, 6.0], [2.0, 4.0]]}, "do not come nearer"),
        ({"speeds": [[1.0, 0.0]]}, "no step of an approach"),
        ({"cable_m": -1.0}, "length of cable"),
        ({"cable_m": True}, "not a number"),
        ({"hawse_m": 900.0}, "hawse"),
    ],
)
def test_what_is_no_anchorage_is_refused(row: Any, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        anchorage_of(row)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (AnchorWords(cable_m=100.0), "not said to end at anchor"),
        (AnchorWords(is_anchor=True, approach="fast"), "no step such as"),
        (AnchorWords(is_anchor=True, approach="1:2:3"), "no step such as"),
        (AnchorWords(is_anchor=True, cable_m=5000.0), "length of cable"),
    ],
)
def test_what_cannot_be_meant_is_told_in_a_sentence(words: AnchorWords, said: str) -> None:
    with pytest.raises(InputError, match=said):
        anchorage_in(words)
    assert anchorage_in(AnchorWords()) is None
