"""A plan made with what earlier plans found out is the plan that would be made without it.

Twelve kinds of edit on the first legs of the demo passage, one memory for all of them.
"""

import gc
import json
import weakref
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from core.base.errors import Cancelled
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.plan_json import plan_document
from core.files.project import Options, Project
from core.geodesy.position import Position
from core.jobs.demo import demo_project
from core.jobs.edit_project import with_edited_passage
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.land.land_model import LandModel
from core.passage.edit_passage import (
    PassageEdit,
    with_deleted,
    with_inserted,
    with_leg,
    with_waypoint,
)
from core.passage.passage import Passage
from core.plan.first_results import FirstResults
from core.plan.outcome import Outcome
from core.plan.plan_result import Override, Role
from tests.helpers.small_job import Scene

pytestmark = pytest.mark.slow

_LEGS = 5
"""Of the demo passage; the contingency leg leaves the fourth."""


def _document(outcome: Outcome) -> dict[str, Any]:
    """The plan file without the stamp and the timings."""
    document: dict[str, Any] = json.loads(json.dumps(plan_document(outcome)))
    del document["receipt"]["created_utc"], document["receipt"]["timings_s"]
    return document


def _plan(
    project: Project,
    memory: Memory = NOTHING_KEPT,
    leg_done: Callable[[FirstResults], None] | None = None,
) -> Outcome:
    return plan_passage(make_request(project), Quiet(), memory=memory, leg_done=leg_done)


def _edited(edit: Callable[[Passage], PassageEdit]) -> Callable[[Project], Project]:
    return lambda project: with_edited_passage(project, edit)


def _optioned(**options: Any) -> Callable[[Project], Project]:
    return lambda project: replace(project, options=replace(project.options, **options))


def _moved(passage: Passage, number: int, *, north_deg: float, east_deg: float) -> PassageEdit:
    waypoint = passage.waypoints[number]
    at = waypoint.position
    there = Position(lat_deg=at.lat_deg + north_deg, lon_deg=at.lon_deg + east_deg)
    return with_waypoint(passage, number, replace(waypoint, position=there))


def _noted(passage: Passage) -> PassageEdit:
    return with_leg(passage, 1, replace(passage.legs[1], note="call the pilot station"))


def _slowed(passage: Passage) -> PassageEdit:
    return with_leg(passage, 1, replace(passage.legs[1], speed_mps=4.0))


def _narrowed(passage: Passage) -> PassageEdit:
    leg = replace(passage.legs[2], corridor_port_m=250.0, corridor_starboard_m=300.0)
    return with_leg(passage, 2, leg)


def _inserted(passage: Passage) -> PassageEdit:
    one, two = (passage.waypoints[n].position for n in (2, 3))
    middle = Position(
        lat_deg=(one.lat_deg + two.lat_deg) / 2.0 + 0.002,
        lon_deg=(one.lon_deg + two.lon_deg) / 2.0,
    )
    return with_inserted(passage, 2, middle)


EDITS: dict[str, Callable[[Project], Project]] = {
    "nothing": lambda project: project,
    "a note": _edited(_noted),
    "the speed of a leg": _edited(_slowed),
    "all speeds": _optioned(speed_mps=6.0),
    "the start": _optioned(start_utc=datetime(2031, 5, 4, 6, tzinfo=UTC)),
    "a stream": _optioned(set_deg=90.0, drift_mps=0.5),
    "a corridor": _edited(_narrowed),
    "a waypoint moved": _edited(lambda p: _moved(p, 2, north_deg=0.002, east_deg=0.001)),
    "the first waypoint moved": _edited(lambda p: _moved(p, 0, north_deg=0.0, east_deg=0.002)),
    "a waypoint put in": _edited(_inserted),
    "a waypoint taken out": _edited(lambda p: with_deleted(p, 1)),
    "turned round": lambda project: replace(project, is_reversed=True),
    "rain": _optioned(rain_mm_h=8.0),
    "the tide": _optioned(tide_m=3.0, mean_sea_level_m=2.0),
    "the radius": _optioned(radius_m=m_from_nm(4.0)),
}


@pytest.fixture(scope="module")
def project() -> Project:
    """The first legs, with objects that have their letters."""
    whole = demo_project()
    short = replace(whole, anchorage=None, options=replace(whole.options, radius_m=m_from_nm(5.0)))

    def cut(passage: Passage) -> PassageEdit:
        count = len(passage.waypoints)
        edit = with_deleted(passage, count - 1)
        for last in range(count - 2, _LEGS, -1):
            edit = with_deleted(edit.passage, last)
        return replace(edit, sources=tuple((leg,) for leg in range(_LEGS)))

    cut_short = with_edited_passage(short, cut)
    return replace(cut_short, known_objects=_plan(cut_short).plan.known_objects)


@pytest.fixture(scope="module")
def memory(project: Project) -> Memory:
    kept = Memory()
    _plan(project, kept)
    return kept


@pytest.mark.parametrize("name", EDITS)
def test_a_plan_is_the_same_with_a_memory(name: str, project: Project, memory: Memory) -> None:
    edited = EDITS[name](project)
    assert _document(_plan(edited, memory)) == _document(_plan(edited))


def test_an_officers_choice_takes_nothing_anew(project: Project) -> None:
    memory = Memory()
    legs = _plan(project, memory).plan.legs
    known = len(memory)
    number, line = next(
        (leg.leg_index + 1, line) for leg in legs for line in leg.lines if line.role is Role.PRIMARY
    )
    choice = Override(
        leg_number=number, role=line.role.value, object_id=line.object.id, is_locked=True
    )
    locked = replace(project, overrides=(choice,))
    made = _plan(locked, memory)
    assert len(memory) == known
    assert _document(made) == _document(_plan(locked))


def test_a_stopped_computation_goes_on_from_where_it_was(project: Project) -> None:
    memory = Memory()
    done: list[int] = []

    def stop_after_two(first: FirstResults) -> None:
        done.append(first.leg.leg_index)
        if len(done) == 2:
            raise Cancelled

    with pytest.raises(Cancelled):
        _plan(project, memory, stop_after_two)
    known = len(memory)
    assert known > 0
    whole = _plan(project, memory)
    swept = _plan(project)
    assert _document(whole) == _document(swept)
    for index in (0, 1):
        # The very leg that was covered before the stop, not one like it.
        again: list[FirstResults] = []
        _plan(project, memory, again.append)
        assert again[index].leg is whole.coverage.legs[index]


def _small(folder: Path, radius_nm: float) -> Project:
    scene = Scene(folder=folder, lat_deg=48.0, lon_deg=-31.0)
    return Project(
        route_text=scene.route_text(),
        land=scene.write_whole(),
        options=Options(antenna_height_m=20.0, radius_m=m_from_nm(radius_nm), corridor_m=300.0),
    )


@pytest.fixture
def without_searches() -> Iterator[None]:
    """No search for garbage: what goes must go by itself, as in a window that is computing."""
    gc.collect()
    gc.disable()
    yield
    gc.enable()


@pytest.mark.usefixtures("without_searches")
def test_a_plan_goes_when_nobody_holds_it(tmp_path: Path) -> None:
    memory = Memory()
    project = _small(tmp_path, 6.0)
    lands = [weakref.ref(_plan(project, memory).land)]
    assert lands[0]() is not None, "the memory holds one land"
    lands.append(weakref.ref(_plan(_small(tmp_path, 16.0), memory).land))
    assert [land() is None for land in lands] == [True, False]
    memory.clear()
    assert lands[1]() is None


@pytest.mark.usefixtures("without_searches")
def test_a_stopped_plan_leaves_nothing_but_what_is_kept(tmp_path: Path) -> None:
    memory = Memory()
    lands: list[weakref.ref[LandModel]] = []

    def stop(first: FirstResults) -> None:
        lands.append(weakref.ref(first.drawn.land))
        raise Cancelled

    with pytest.raises(Cancelled):
        _plan(_small(tmp_path, 6.0), memory, stop)
    assert lands[0]() is not None
    memory.clear()
    assert lands[0]() is None
