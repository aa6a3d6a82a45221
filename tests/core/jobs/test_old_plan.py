"""What a project keeps of its last plan, and what of the inputs changed since."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.progress import Quiet
from core.files.copy_mark import CopyMark
from core.files.hashing import sha256_of
from core.files.project import Options, Project, project_from_text, read_project, write_project
from core.jobs.kept_plan import asked_of, last_plan_of
from core.jobs.make_request import make_request
from core.jobs.old_plan import changes_since
from core.plan.last_plan import InputChange, LastPlan, Since
from core.plan.plan_result import Override
from core.plan.request import InputFile
from core.words.old_plan_words import change_list_words, last_plan_words, moment_words
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.three_islets import ROUTE_TABLE, write_three_islets

_MADE = "2031-05-14T06:00:00Z"


@pytest.fixture
def project(tmp_path: Path) -> Project:
    (tmp_path / "route.csv").write_text(ROUTE_TABLE, encoding="utf-8")
    (tmp_path / "limits.csv").write_text(
        "object,leg,not_less_than_nm\nWEST ISLET,1,0.4\n", encoding="utf-8"
    )
    return Project(
        route=tmp_path / "route.csv",
        land=write_three_islets(tmp_path),
        limits=tmp_path / "limits.csv",
        options=Options(tide_m=1.2, mean_sea_level_m=2.0),
    )


@pytest.fixture
def last(project: Project) -> LastPlan:
    """As kept of a plan; the land alone is written down here, as the job does."""
    request = make_request(project)
    land = [
        InputFile(role=role, name=path.name, sha256=sha256_of(path))
        for role, path in zip(("elevation", "coast"), project.land, strict=True)
    ]
    kept = last_plan_of(replace(sample_outcome(), request=request, created_utc=_MADE), project)
    own = tuple(file for file in kept.inputs if file.role not in ("elevation", "coast"))
    return replace(kept, inputs=(*own, *land))


def _since(project: Project, last: LastPlan) -> list[tuple[Since, str, str]]:
    return [(c.since, c.role, c.name) for c in changes_since(project, last, Quiet())]


def test_nothing_changed_where_nothing_did(project: Project, last: LastPlan) -> None:
    assert [file.role for file in last.inputs] == ["route", "limits", "elevation", "coast"]
    assert _since(project, last) == []
    assert change_list_words(()) == "Files, conditions and choices are as they were."


def test_land_of_a_real_outcome_is_kept_with_it() -> None:
    outcome = sample_outcome()
    kept = last_plan_of(outcome, Project())
    land = {(s.role, s.name, s.sha256) for s in outcome.land.sources}
    assert land
    assert land <= {(f.role, f.name, f.sha256) for f in kept.inputs}
    assert kept.digest == outcome.digest


def _rewritten(path: Path) -> None:
    path.write_bytes(path.read_bytes() + b"\n")


def _route(project: Project) -> Project:
    assert project.route is not None
    _rewritten(project.route)
    return project


def _other_route(project: Project) -> Project:
    assert project.route is not None
    other = project.route.with_name("other.csv")
    other.write_text(ROUTE_TABLE + "WP4,0.3,-29.9\n", encoding="utf-8")
    return replace(project, route=other)


def _coast(project: Project) -> Project:
    _rewritten(project.land[1])
    return project


def _no_heights(project: Project) -> Project:
    project.land[0].unlink()
    return replace(project, land=(project.land[1].parent,))


def _more_land(project: Project) -> Project:
    new = project.land[1].with_name("newer.geojson")
    new.write_bytes(project.land[1].read_bytes())
    old = project.land[1].with_name("older.geojson")
    old.write_bytes(project.land[1].read_bytes())
    os.utime(new, (2_000_000_000.0, 2_000_000_000.0))
    os.utime(old, (1_000_000_000.0, 1_000_000_000.0))
    return replace(project, land=(project.land[1].parent,))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (_route, [(Since.CHANGED, "route", "route.csv")]),
        (_other_route, [(Since.ANOTHER, "route", "other.csv")]),
        (lambda p: replace(p, limits=None), [(Since.TAKEN_OUT, "limits", "limits.csv")]),
        (_coast, [(Since.CHANGED, "coast", "coast.geojson")]),
        (_no_heights, [(Since.MISSING, "elevation", "heights.tif")]),
        (_more_land, [(Since.ADDED, "coast", "newer.geojson")]),
        (
            lambda p: replace(p, options=Options(tide_m=1.3, mean_sea_level_m=2.0, sea_state=2.0)),
            [(Since.ASKED, "", "sea_state"), (Since.ASKED, "", "tide_m")],
        ),
        (
            lambda p: replace(
                p, overrides=(Override(leg_number=1, role="primary", object_id="A"),)
            ),
            [(Since.ASKED, "", "overrides")],
        ),
    ],
)
def test_each_change_is_told_once(
    project: Project,
    last: LastPlan,
    change: Callable[[Project], Project],
    told: list[tuple[Since, str, str]],
) -> None:
    last = replace(last, created_utc="2031-05-14T06:00:00Z")
    assert _since(change(project), last) == told


def test_what_cannot_be_read_is_told_in_its_own_sentence(project: Project, last: LastPlan) -> None:
    assert project.route is not None
    project.route.unlink()
    ((since, _role, words),) = _since(project, last)
    assert since is Since.UNREADABLE
    assert "route.csv" in words
    assert _since(replace(project, land=()), last)[0][0] is Since.UNREADABLE


def test_another_program_is_told(project: Project, last: LastPlan) -> None:
    assert _since(project, replace(last, version="0.0.1")) == [(Since.PROGRAM, "", "0.0.1")]


def test_conditions_that_cannot_be_used_do_not_hide_the_files(
    project: Project, last: LastPlan
) -> None:
    broken = replace(_route(project), options=Options(tide_m=1.2))
    assert _since(broken, last) == [
        (Since.ASKED, "", "mean_sea_level_m"),
        (Since.CHANGED, "route", "route.csv"),
    ]


def test_what_is_asked_knows_no_files(project: Project) -> None:
    assert asked_of(project) == asked_of(replace(project, route=None, land=(), limits=None))
    assert asked_of(project) != asked_of(replace(project, is_reversed=True))


def test_words(project: Project, last: LastPlan) -> None:
    assert last_plan_words(last) == (
        f"Last plan of 2031-05-14 06:00 UTC (digest {last.digest[:12]})"
    )
    words = change_list_words(changes_since(_other_route(project), last, Quiet()))
    assert words == "Changed since: route (now other.csv, was route.csv)."
    many = changes_since(_route(project), last, Quiet()) * 9
    assert change_list_words(many).endswith("; 3 more.")
    assert moment_words("") == "an unknown time"
    options = Options(tide_m=1.2, draught_aft_m=9.0, low_water_m=0.1)
    asked = changes_since(replace(project, options=options), last, Quiet())
    assert change_list_words(asked) == (
        "Changed since: draught aft; low water; mean sea level; route (route.csv)."
    )


def test_every_condition_has_words() -> None:
    for name in Options.__dataclass_fields__:
        words = change_list_words([InputChange(since=Since.ASKED, name=name)])
        assert "_" not in words
        assert not words.endswith((" m.", " s.", " mps.", " deg."))


def test_a_project_keeps_its_last_plan_and_who_copied_it(
    project: Project, last: LastPlan, tmp_path: Path
) -> None:
    mark = CopyMark(by="2/O A. Example", made_utc=_MADE, of="p.legsheet")
    path = tmp_path / "copy.legsheet"
    kept = replace(project, last_plan=last, read_only_copy=mark)
    write_project(path, kept)
    again = read_project(path)
    assert (again.last_plan, again.read_only_copy) == (last, mark)
    # Neither is asked of a plan: nothing gets out of date by them.
    assert again == project


@pytest.mark.parametrize(
    "entry",
    [
        '"last_plan": 1',
        '"last_plan": {"digest": "a"}',
        '"last_plan": {"created_utc": "", "digest": "", "version": "", "asked": {}, '
        '"inputs": [{"role": 1}]}',
        '"read_only_copy": {"by": 1}',
        '"read_only_copy": []',
    ],
)
def test_nonsense_is_refused_in_a_sentence(entry: str) -> None:
    text = '{"format": "legsheet-project", "version": 2, ' + entry + "}"
    with pytest.raises(InputError, match="does not hold"):
        project_from_text(text, "p.legsheet", Path())
