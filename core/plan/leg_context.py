"""What planning a leg needs besides the leg's own field."""

from dataclasses import dataclass

from core.coverage.coverage_result import FirstSight, LegCoverage, SweepSettings
from core.coverage.first_paint_result import FirstPaint, LegPaints
from core.coverage.profiles import Grid
from core.land.land_model import LandModel
from core.plan.candidates import LegField
from core.plan.plan_result import IndexObject
from core.plan.rules import PlanRules, Weather
from core.plan.tune_result import LadderEcho
from core.plan.waters_result import LegWaters
from core.plan.wheel_over import ObjectMaker
from core.radar.radar_set import RadarPulse
from core.ship.ship import Ship


@dataclass(frozen=True, slots=True, kw_only=True)
class LegContext:
    """Coverage, land, ship, letters and neighbours of one leg."""

    coverage: LegCoverage
    land: LandModel
    grid: Grid
    """The land made ready for lines of sight from place to place."""
    settings: SweepSettings
    cell_m: float
    """Longer side of an elevation cell at the leg, m."""
    ship: Ship
    first_sights: tuple[FirstSight, ...]
    paints: LegPaints | None
    """What paints from where; None where no radar was worked out."""
    coast_paints: tuple[FirstPaint, ...]
    """Stretches of coast that begin to paint on the leg."""
    ids: dict[str, str]
    """Letter or name of every feature that has one, by key."""
    leg_counts: dict[str, int]
    """On how many legs a feature can be used, by key."""
    make_object: ObjectMaker
    new_field: LegField | None
    """The next leg."""
    tangent_before_m: float
    to_waypoint: str
    rules: PlanRules
    weather: Weather
    """That the plan is made for."""
    waters: LegWaters
    """Hidden water beside the leg."""
    ladder_echoes: tuple[LadderEcho, ...] | None = None
    """What every object in reach shows as from candidate places of the leg; None where it was not
    worked out, empty where there is no land and no mark."""
    paint_pulse: RadarPulse | None = None
    """Pulse that those echoes were worked out for."""
    new_first: IndexObject | None = None
    """First index object of the next leg, where its line is in use from the turn on."""
