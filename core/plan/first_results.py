"""What is known of the first legs of a passage while the rest is worked out."""

from dataclasses import dataclass, replace

from core.base.language import tr
from core.coverage.coverage_result import Coverage, LegCoverage, SweepSettings
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome, Timings
from core.plan.plan_result import LegPlan, Plan, Quality
from core.plan.request import Request

_NOT_PLANNED = tr("not planned yet")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FirstResults:
    """Coverage as far as it goes; nothing is planned."""

    drawn: Outcome
    """In the shape of a plan, for what draws plans: land, the legs covered so far and nothing
    else. It holds no object, no line, no turn and no finding, and is no plan."""

    @property
    def leg(self) -> LegCoverage:
        """The leg covered last."""
        return self.drawn.coverage.legs[-1]

    def with_leg(self, leg: LegCoverage) -> "FirstResults":
        """The same with the next leg."""
        coverage = self.drawn.coverage
        return FirstResults(
            drawn=replace(self.drawn, coverage=replace(coverage, legs=(*coverage.legs, leg)))
        )


def first_results(
    request: Request,
    passage: Passage,
    timetable: Timetable,
    land: LandModel,
    settings: SweepSettings,
) -> FirstResults:
    """Land and passage, with no leg covered yet."""
    return FirstResults(
        drawn=Outcome(
            request=request,
            digest="",
            land=land,
            coverage=Coverage(settings=settings, legs=(), sweep_count=0, findings=()),
            plan=Plan(
                passage=passage,
                timetable=timetable,
                legs=tuple(_bare(passage, timetable, i) for i in range(len(passage.legs))),
                objects=(),
                findings=(),
            ),
            findings=(),
            timings=Timings(land_s=0.0, coverage_s=0.0, plan_s=0.0, total_s=0.0),
            created_utc="",
        )
    )


def _bare(passage: Passage, timetable: Timetable, leg_index: int) -> LegPlan:
    """A leg of which only the line is known."""
    leg, line = passage.legs[leg_index], passage.line(leg_index)
    return LegPlan(
        leg_index=leg_index,
        course_deg=line.course_deg,
        distance_m=line.length_m,
        speed_mps=timetable.leg_speed_mps[leg_index],
        corridor_port_m=leg.corridor_port_m or 0.0,
        corridor_starboard_m=leg.corridor_starboard_m or 0.0,
        quality=Quality(grade="", reasons=()),
        gaps=(),
        first_sights=(),
        lines=(),
        no_index_reason=_NOT_PLANNED,
        hand_overs=(),
        index_gaps=(),
        scales=(),
        wheel_over=None,
        wheel_over_reason=_NOT_PLANNED,
        key_in=(),
        candidates=(),
    )
