"""First paints made by hand for the sample outcome."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import (
    FirstPaint,
    MustNotPaint,
    PaintedStretch,
    PaintLimit,
    RadarPaint,
)
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan

START = PaintLimit(moment=None, reason="paints from the start of the leg on", is_from_start=True)


def never(reason: str) -> PaintLimit:
    """A limit that does not come."""
    return PaintLimit(moment=None, reason=reason)


def at(along_nm: float, range_nm: float = 12.0, bearing_deg: float = 71.0) -> PaintLimit:
    """A limit at a place along the leg."""
    return PaintLimit(
        moment=Moment(
            along_m=m_from_nm(along_nm), range_m=m_from_nm(range_nm), bearing_deg=bearing_deg
        )
    )


def with_paints(outcome: Outcome) -> Outcome:
    """The sample with the objects of its first leg painting between limits.

    A comes, B paints from the start and is overdue on the leg, C never paints; B must not paint
    over a stretch.
    """
    leg = outcome.plan.legs[0]
    paints = []
    for sight, limits in zip(
        leg.first_sights,
        (
            (at(0.5), at(0.9), at(1.3, 11.0), at(3.0, 8.0)),
            (START, START, START, at(2.0, 6.0)),
            (at(1.0), never("hidden"), never("never in sight on this leg: hidden"), never("no")),
        ),
        strict=True,
    ):
        possible, clear, by, overdue = limits
        stretches: tuple[PaintedStretch, ...] = ()
        if by.moment is not None:
            ends = at(4.0).moment
            assert ends is not None
            stretches = (
                PaintedStretch(
                    begins=by.moment, ends=ends, lasts=False, lost_to="land 84 m high, 2.1 NM off"
                ),
            )
        paints.append(
            FirstPaint(
                object_id=sight.object_id,
                name=sight.name,
                position=sight.position,
                height_above_water_m=sight.height_above_water_m,
                earliest_possible=possible,
                normally_from=clear,
                normally_by=by,
                corridor_by=by,
                overdue=overdue,
                stretches=stretches,
                what_if=(),
                by_radar=(RadarPaint(radar="Main radar", band="X", limit=by, stretches=()),),
            )
        )
    begins, ends = at(2.5).moment, at(3.5).moment
    assert begins is not None
    assert ends is not None
    hidden = MustNotPaint(
        object_id=paints[1].object_id,
        name=paints[1].name,
        position=paints[1].position,
        begins=begins,
        ends=ends,
        masked_by="land 84 m high, 2.1 NM off",
    )
    full: LegPlan = replace(leg, first_paints=tuple(paints), must_not_paint=(hidden,))
    return replace(outcome, plan=replace(outcome.plan, legs=(full, *outcome.plan.legs[1:])))
