"""Landfalls: where land first paints within use, and which ranges cut there.

Angles of cut and places are computed by hand from a plane; the limits used (24 NM, 30 degrees)
are those of job.md 1.6.3 and A22, 10 NM without land is common practice, no source.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import FirstPaint, PaintedStretch, PaintLimit
from core.geodesy.position import Position
from core.plan.landfall import cut_deg, fix_scale_m, landfalls_of
from core.plan.landfall_result import Landfall
from core.plan.outcome import Outcome
from core.plan.plan_result import Edge, IndexObject, ObjectKind
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import START, never

_KINDS = {"A": ObjectKind.ISLET, "B": ObjectKind.HEADLAND, "C": ObjectKind.ROCK}


def _place(outcome: Outcome, along_nm: float, cross_nm: float) -> Position:
    line = outcome.plan.passage.line(0)
    spot = line.offset(np.array([m_from_nm(along_nm)]), np.array([m_from_nm(cross_nm)]))
    return Position(lat_deg=float(spot[0][0]), lon_deg=float(spot[1][0]))


def _paint(outcome: Outcome, name: str, place: Position, from_nm: float) -> FirstPaint:
    """Painting from a place of the first leg to its end; what else is the same place."""
    leg = outcome.plan.legs[0]
    moment = Moment(along_m=m_from_nm(from_nm), range_m=m_from_nm(5.0), bearing_deg=10.0)
    by = START if from_nm == 0.0 else PaintLimit(moment=moment)
    ends = replace(moment, along_m=leg.distance_m)
    return FirstPaint(
        object_id=name,
        name=name,
        position=place,
        height_above_water_m=40.0,
        earliest_possible=START,
        normally_from=by,
        normally_by=by,
        corridor_by=by,
        overdue=never("never in sight"),
        stretches=(PaintedStretch(begins=moment, ends=ends, lasts=True, lost_to=""),),
        what_if=(),
        by_radar=(),
    )


def _landfalls(
    things: dict[str, tuple[float, float, float]], *, has_coast_from_nm: float = 99.0
) -> tuple[Landfall, ...]:
    """Of a first leg with objects (along, cross, painting from), all in NM."""
    outcome = sample_outcome()
    places = {name: _place(outcome, x, y) for name, (x, y, _from) in things.items()}
    paints = tuple(
        _paint(outcome, name, places[name], from_nm) for name, (_x, _y, from_nm) in things.items()
    )
    objects = tuple(
        IndexObject(
            id=name,
            name=name,
            position=place,
            edge=Edge.POSITION,
            kind=_KINDS.get(name, ObjectKind.PEAK),
            height_above_water_m=40.0,
            is_fixed=name != "Buoy",
            confirm_on_chart=False,
        )
        for name, place in places.items()
    )
    leg = replace(outcome.plan.legs[0], first_paints=paints, must_not_paint=())
    plan = replace(outcome.plan, legs=(leg,), objects=objects)
    covered = outcome.coverage.legs[0]
    coverage = replace(
        outcome.coverage,
        legs=(
            replace(covered, viewpoints=tuple(replace(v, paint=None) for v in covered.viewpoints)),
        ),
    )
    return landfalls_of(plan, coverage)


def test_two_of_three_ranges_cut_at_thirty_degrees_or_more() -> None:
    (found,) = _landfalls({"A": (8.0, 3.0, 1.0), "B": (8.0, -3.0, 1.0), "C": (9.0, 0.2, 2.0)})
    assert {arc.object_id for arc in found.arcs} == {"A", "B", "C"}
    assert found.arcs == tuple(sorted(found.arcs, key=lambda arc: arc.bearing_deg))
    along_nm = nm_from_m(found.along_m)
    # All three have painted for a mile from 3 NM on; there A and B already cut well.
    assert 3.0 <= along_nm < 3.6
    bearings = [math.degrees(math.atan2(y, 8.0 - along_nm)) for y in (3.0, -3.0)]
    assert found.best_cut_deg == pytest.approx(cut_deg(*bearings), abs=0.3)
    assert found.best_cut_deg >= 30.0
    assert nm_from_m(found.first_along_m) == pytest.approx(1.0, abs=0.3)
    for arc, (x, y) in zip(
        sorted(found.arcs, key=lambda a: a.object_id),
        ((8.0, 3.0), (8.0, -3.0), (9.0, 0.2)),
        strict=True,
    ):
        assert nm_from_m(arc.range_m) == pytest.approx(math.hypot(x - along_nm, y), abs=0.02)


def test_nothing_floating_is_ranged_on() -> None:
    (found,) = _landfalls({"A": (8.0, 3.0, 1.0), "Buoy": (8.0, -3.0, 1.0)})
    assert "Buoy" not in {arc.object_id for arc in found.arcs}
    assert found.arcs == ()


def test_summits_are_taken_only_where_there_are_not_three_others() -> None:
    summits = {"P1": (8.0, 6.0, 1.0), "P2": (8.0, -6.0, 1.0)}
    (few,) = _landfalls({"A": (8.0, 1.0, 1.0), **summits})
    assert any(arc.is_summit for arc in few.arcs)
    sharp = {"A": (8.0, 3.0, 1.0), "B": (8.0, -3.0, 1.0), "C": (9.0, 0.2, 1.0)}
    (enough,) = _landfalls({**sharp, **summits})
    assert not any(arc.is_summit for arc in enough.arcs)


def test_there_is_no_landfall_where_land_paints_from_the_start() -> None:
    assert _landfalls({"A": (8.0, 3.0, 0.0)}) == ()


def test_land_beyond_its_use_makes_no_landfall() -> None:
    assert _landfalls({"A": (40.0, 0.0, 1.0)}) == ()


@pytest.mark.parametrize(
    ("one", "other", "wanted"),
    [(10.0, 40.0, 30.0), (350.0, 20.0, 30.0), (0.0, 150.0, 30.0), (0.0, 180.0, 0.0)],
)
def test_angles_of_cut(one: float, other: float, wanted: float) -> None:
    # Circles about two objects cross at the angle between their bearings (plane geometry).
    assert cut_deg(one, other) == pytest.approx(wanted)


def test_the_scale_holds_the_objects_of_the_fix() -> None:
    (found,) = _landfalls({"A": (8.0, 3.0, 1.0), "B": (8.0, -3.0, 1.0)})
    scales = tuple(m_from_nm(nm) for nm in (3.0, 6.0, 12.0, 24.0))
    reach = max(arc.range_m for arc in found.arcs)
    assert fix_scale_m(found, scales) == min(s for s in scales if s >= 1.02 * reach)
    assert fix_scale_m(replace(found, arcs=()), scales) == m_from_nm(24.0)
    assert fix_scale_m(found, (m_from_nm(1.5),)) == m_from_nm(1.5)


def test_a_paint_that_holds_before_the_bare_stretch_is_told_as_such() -> None:
    (found,) = _landfalls({"A": (8.0, 3.0, 1.0), "B": (8.0, -3.0, 1.0)})
    assert [paint.object_id for paint in found.paints] == ["A", "B"]
    for paint in found.paints:
        assert paint.earliest_possible is not None
        assert paint.earliest_possible.holds_already
        assert not paint.normally_by.holds_already
        assert nm_from_m(paint.normally_by.along_m) == pytest.approx(1.0)
        assert paint.overdue is None
