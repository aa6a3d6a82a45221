"""The demo passage through the whole job: the gap that matters matters, and no other one."""

from pathlib import Path

import numpy as np
import pytest
import rasterio

from core.base.findings import Severity
from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.project import Options, Project
from core.jobs.demo import demo_paths
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.outcome import Outcome
from core.plan.plan_result import Role

pytestmark = pytest.mark.slow

_LEGS_WITH_GAP = {9, 10, 11, 12}
"""The legs from which the void on the north coast is in reach and not behind a ridge."""


def _planned(land: tuple[Path, ...]) -> Outcome:
    paths = demo_paths()
    project = Project(
        route=paths.route,
        land=land,
        ship=paths.ship,
        marks=paths.marks,
        limits=paths.limits,
        options=Options(radius_m=m_from_nm(12.0)),
    )
    return plan_passage(make_request(project), Quiet())


@pytest.fixture(scope="module")
def demo() -> Outcome:
    return _planned(demo_paths().land)


def test_only_the_legs_that_look_at_the_void_are_incomplete(demo: Outcome) -> None:
    with_gap = {leg.leg_index + 1 for leg in demo.plan.legs if leg.gaps}
    assert with_gap == _LEGS_WITH_GAP
    hidden = [f.where.leg_number for f in demo.findings if f.code == "gap-hides-object"]
    assert set(hidden) <= _LEGS_WITH_GAP
    assert hidden


def test_with_the_void_filled_every_leg_is_complete(tmp_path: Path) -> None:
    (folder,) = demo_paths().land
    (tmp_path / "coast.geojson").write_bytes((folder / "coast.geojson").read_bytes())
    with rasterio.open(folder / "elevation.tif") as raster:
        values, profile = raster.read(1), raster.profile
    values[values == -32768] = 60
    with rasterio.open(tmp_path / "elevation.tif", "w", **profile) as raster:
        raster.write(values.astype(np.int16), 1)
    outcome = _planned((tmp_path,))
    assert [leg.gaps for leg in outcome.plan.legs] == [()] * len(outcome.plan.legs)


def test_the_ocean_leg_has_nothing_to_index_and_says_why(demo: Outcome) -> None:
    ocean = demo.plan.legs[0]
    assert ocean.lines == ()
    assert ocean.no_index_reason


def test_every_other_leg_has_a_primary_line_on_a_fixed_object(demo: Outcome) -> None:
    for leg in demo.plan.legs[1:]:
        primary = [line for line in leg.lines if line.role is Role.PRIMARY]
        assert primary, leg.leg_index + 1
        assert all(line.object.is_fixed for line in primary)


def test_the_officers_limits_become_margin_lines(demo: Outcome) -> None:
    margins = {
        (leg.leg_index + 1, line.object.id)
        for leg in demo.plan.legs
        for line in leg.lines
        if line.role is Role.MARGIN
    }
    assert {(limit.leg_number, limit.object_id) for limit in demo.request.limits} == margins


def test_only_the_gap_must_be_fixed_and_no_corner_is_too_wide(demo: Outcome) -> None:
    grave = {finding.code for finding in demo.findings if finding.severity is Severity.MUST_FIX}
    assert all(code.startswith("gap-") for code in grave)
    assert "corner-cut-over-corridor" not in {finding.code for finding in demo.findings}
