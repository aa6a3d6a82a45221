"""From the echoes of a leg to what a tune check chooses from."""

from dataclasses import dataclass

import numpy as np

from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import LegEchoes, LegPaints, MustNotPaint
from core.geodesy.leg_line import LegLine
from core.passage.motion import still_water
from core.plan.blind_sectors import CourseSector, sectors_about_course
from core.plan.ladder_input import ladder_echoes
from core.ship.ship import BlindSector
from tests.helpers.islands import NM, place, track

_PLACES = {name: (f"invented {name}", place(0.0, 3.0 * NM)) for name in ("A", "B", "C")}


@dataclass
class _Field:
    """What is looked at of a leg."""

    line: LegLine
    sectors: tuple[CourseSector, ...] = ()


def _paints(must_not: tuple[MustNotPaint, ...] = ()) -> LegPaints:
    margin_db = np.array([[12.0, -np.inf, 5.0], [15.0, 2.0, 6.0]])
    return LegPaints(
        paints=(),
        must_not=must_not,
        echoes=LegEchoes(
            object_ids=("A", "B", "C"),
            along_m=np.array([0.0, 900.0]),
            range_m=np.full((2, 3), 5000.0),
            bearing_deg=np.array([[10.0, 90.0, 200.0], [12.0, 92.0, 202.0]]),
            margin_db=margin_db,
            is_masked=np.isneginf(margin_db),
        ),
    )


def _moment(along_m: float) -> Moment:
    return Moment(along_m=along_m, range_m=5000.0, bearing_deg=90.0)


def _field(sectors: tuple[BlindSector, ...] = ()) -> _Field:
    about = sectors_about_course(sectors, still_water(6.0))
    return _Field(line=track((0.0, 0.0), (0.0, 2.0 * NM)).line(0), sectors=about)


def test_what_is_only_out_of_sight_is_no_absent_echo() -> None:
    found = ladder_echoes(_paints(), _field(), _PLACES)  # type: ignore[arg-type] # line and sectors are all it reads
    assert found is not None
    assert [(e.object_id, e.along_m) for e in found] == [
        ("A", 0.0),
        ("A", 900.0),
        ("B", 900.0),
        ("C", 0.0),
        ("C", 900.0),
    ]
    assert not any(e.is_masked_by_land for e in found)


def test_what_must_not_paint_is_absent_with_its_mask() -> None:
    hidden = MustNotPaint(
        object_id="B",
        name="B",
        position=_PLACES["B"][1],
        begins=_moment(0.0),
        ends=_moment(500.0),
        masked_by="land 84 m",
    )
    found = ladder_echoes(_paints((hidden,)), _field(), _PLACES)  # type: ignore[arg-type] # as above
    assert found is not None
    absent = [e for e in found if e.is_masked_by_land]
    assert [(e.object_id, e.along_m, e.margin_db, e.masked_by) for e in absent] == [
        ("B", 0.0, None, "land 84 m")
    ]


def test_blind_sectors_and_objects_that_do_not_count() -> None:
    sector = BlindSector(from_relative_deg=190.0, to_relative_deg=210.0)
    known = {name: _PLACES[name] for name in ("A", "C")}
    found = ladder_echoes(_paints(), _field((sector,)), known)  # type: ignore[arg-type] # as above
    assert found is not None
    assert {(e.object_id, e.in_blind_sector) for e in found} == {("A", False), ("C", True)}


def test_without_a_radar_there_are_no_echoes() -> None:
    assert ladder_echoes(None, _field(), _PLACES) is None  # type: ignore[arg-type] # as above
