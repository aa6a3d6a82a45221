"""Legs across hand-made land."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.findings import Severity
from core.coverage.land_crossing import crossing_findings, land_crossings
from core.land.coast import Coast, CoastLine
from core.land.land_model import LandModel
from core.passage.passage import Passage
from tests.helpers.islands import NM, box, flat_sea, islet, track


def _land(*, from_elevation: bool = False, cell_m: float = 60.0) -> LandModel:
    """An island 1 NM wide across the way at 3 NM, and an islet of 40 m at 6 NM."""
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=cell_m)
    sea = sea.land(box(-NM, 3.0 * NM, NM, 4.0 * NM), 50.0)
    model = sea.land(islet(0.0, 6.0 * NM, width_m=40.0), 10.0).model()
    return replace(model, coast=replace(model.coast, from_elevation=from_elevation))


def _stretches(passage: Passage, land: LandModel) -> list[tuple[int, float, float]]:
    return [
        (c.leg_index, c.from_along_m / NM, c.to_along_m / NM) for c in land_crossings(passage, land)
    ]


@pytest.mark.parametrize("from_elevation", [False, True])
def test_track_across_an_island_is_found_with_its_ends(from_elevation: bool) -> None:
    passage = track((0.0, 0.0), (0.0, 5.0 * NM))
    ((leg, from_nm, to_nm),) = _stretches(passage, _land(from_elevation=from_elevation))
    assert leg == 0
    # to half a cell of 60 m
    assert (from_nm, to_nm) == pytest.approx((3.0, 4.0), abs=0.04)


def test_islet_smaller_than_a_cell_is_found_by_its_coast() -> None:
    passage = track((0.0, 5.0 * NM), (0.0, 7.0 * NM))
    land = _land(cell_m=240.0)
    bare = replace(land, cell=np.zeros_like(land.cell), heights_m=np.zeros_like(land.heights_m))
    ((leg, from_nm, to_nm),) = _stretches(passage, bare)
    assert leg == 0
    assert from_nm < 1.0 < to_nm


def test_land_inside_the_corridor_only_is_no_crossing() -> None:
    passage = track((NM + 80.0, 0.0), (NM + 80.0, 5.0 * NM), corridor_m=400.0)
    assert _stretches(passage, _land()) == []
    assert crossing_findings(passage, land_crossings(passage, _land())) == ()


def test_crossing_must_be_fixed_and_names_the_leg() -> None:
    passage = track((0.0, -2.0 * NM), (0.0, 0.0), (0.0, 5.0 * NM))
    (finding,) = crossing_findings(passage, land_crossings(passage, _land()))
    assert finding.severity is Severity.MUST_FIX
    assert finding.code == "leg-across-land"
    assert finding.where.leg_number == 2
    assert "across land over 1.00 NM, first 3.00 NM after WP2" in finding.what


def test_berth_on_land_is_only_to_be_checked() -> None:
    # the passage ends 0.2 NM inside the island
    passage = track((0.0, 0.0), (0.0, 3.2 * NM))
    (crossing,) = land_crossings(passage, _land())
    assert crossing.is_at_berth
    (finding,) = crossing_findings(passage, (crossing,))
    assert finding.severity is Severity.CHECK
    # a waypoint in the middle of the passage is no berth
    passage = track((0.0, 0.0), (0.0, 3.2 * NM), (3.0 * NM, 3.2 * NM))
    assert not any(c.is_at_berth for c in land_crossings(passage, _land()))
    # nor is an end deeper inland
    passage = track((0.0, 0.0), (0.0, 3.5 * NM))
    assert not any(c.is_at_berth for c in land_crossings(passage, _land()))


def test_departure_berth_is_known_too() -> None:
    passage = track((0.0, 3.8 * NM), (0.0, 5.5 * NM))
    (crossing,) = land_crossings(passage, _land())
    assert crossing.is_at_berth
    assert crossing.from_along_m == 0.0


def test_bay_of_a_closed_coast_is_not_filled_in() -> None:
    # a horseshoe open to the south; the way runs up into the bay and out again beside the wall
    shape = box(-NM, 3.0 * NM, NM, 5.0 * NM).difference(
        box(-0.5 * NM, 3.0 * NM, 0.5 * NM, 4.5 * NM)
    )
    land = flat_sea(half_width_m=8.0 * NM, cell_m=60.0).land(shape, 30.0).model()
    assert _stretches(track((0.0, 0.0), (0.0, 4.4 * NM)), land) == []
    (stretch,) = _stretches(track((0.0, 0.0), (0.0, 6.0 * NM)), land)
    assert stretch[1:] == pytest.approx((4.5, 5.0), abs=0.04)


def test_crossing_is_found_across_the_antimeridian() -> None:
    land = _land()
    shifted = replace(
        land,
        lattice=replace(land.lattice, left_x=land.lattice.left_x - 150.0),
        coast=Coast(
            lines=tuple(
                CoastLine(
                    lat_deg=line.lat_deg,
                    lon_deg=np.mod(line.lon_deg - 150.0 + 180.0, 360.0) - 180.0,
                    is_closed=line.is_closed,
                )
                for line in land.coast.lines
            ),
            declared=land.coast.declared,
            from_elevation=False,
        ),
    )
    passage = track((-3.0 * NM, 3.5 * NM), (3.0 * NM, 3.5 * NM))
    moved = replace(
        passage,
        waypoints=tuple(
            replace(w, position=replace(w.position, lon_deg=w.position.lon_deg - 150.0))
            for w in passage.waypoints
        ),
    )
    ((leg, from_nm, to_nm),) = _stretches(moved, shifted)
    assert leg == 0
    assert (from_nm, to_nm) == pytest.approx((2.0, 4.0), abs=0.04)
