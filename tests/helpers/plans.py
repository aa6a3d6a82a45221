"""Plans over hand-made land: the whole way from land through coverage to the plan."""

from dataclasses import replace

from core.base.progress import Quiet
from core.coverage.coverage_result import Coverage, SweepSettings
from core.coverage.run import cover_passage
from core.land.land_model import LandModel
from core.passage.motion import LegMotion
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.build_plan import build_plan
from core.plan.plan_result import DangerLimit, KnownObject, LegPlan, Mark, Override, Plan
from core.plan.request import Environment, Request
from core.ship.ship import Band, Radar, Ship
from tests.helpers.islands import NM, place

KNOTS_12 = 12.0 * NM / 3600.0
SHIP = Ship(
    name="invented",
    length_m=120.0,
    beam_m=20.0,
    draught_forward_m=6.0,
    draught_aft_m=6.0,
    turn_radius_m=0.8 * NM,
    response_distance_m=0.1 * NM,
    radars=(
        Radar(name="main", band=Band.X, antenna_above_water_m=25.0),
        Radar(name="second", band=Band.S, antenna_above_water_m=27.0),
    ),
    invented=True,
)


def covered(land: LandModel, passage: Passage, *, radius_m: float = 12.0 * NM) -> Coverage:
    """Coverage of a passage from an antenna 25 m above the water."""
    settings = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=radius_m)
    return cover_passage(passage, land, settings, Quiet())


def planned(
    land: LandModel,
    passage: Passage,
    coverage: Coverage,
    *,
    ship: Ship = SHIP,
    marks: tuple[Mark, ...] = (),
    limits: tuple[DangerLimit, ...] = (),
    overrides: tuple[Override, ...] = (),
    known_objects: tuple[KnownObject, ...] = (),
    places: tuple[Mark, ...] = (),
    environment: Environment | None = None,
    motions: tuple[LegMotion, ...] = (),
) -> Plan:
    """The plan of a passage whose corridors and speeds are all filled in."""
    starts, speeds = [0.0], []
    for i, leg in enumerate(passage.legs):
        speed = leg.speed_mps or KNOTS_12
        speeds.append(speed)
        starts.append(starts[-1] + passage.line(i).length_m / speed)
    return build_plan(
        Request(
            passage=passage,
            ship=ship,
            land_paths=(),
            marks=marks,
            places=places,
            environment=environment or Environment(),
            limits=limits,
            overrides=overrides,
            known_objects=known_objects,
        ),
        passage,
        Timetable(
            start_utc=None,
            leg_start_s=tuple(starts[:-1]),
            leg_speed_mps=tuple(speeds),
            leg_motion=motions,
        ),
        land,
        coverage,
        None,
        Quiet(),
    )


def mark(
    name: str,
    east_m: float,
    north_m: float,
    *,
    is_fixed: bool = True,
    height_m: float = 12.0,
    kind: str = "beacon",
    is_on_chart: bool = True,
) -> Mark:
    """A mark at metres east and north of the centre."""
    return Mark(
        name=name,
        position=place(east_m, north_m),
        height_above_water_m=height_m,
        is_fixed=is_fixed,
        kind=kind,
        is_on_chart=is_on_chart,
    )


def with_turn_radius(passage: Passage, radius_m: float) -> Passage:
    """The passage with a turn radius at every waypoint."""
    return replace(
        passage,
        waypoints=tuple(replace(w, turn_radius_m=radius_m) for w in passage.waypoints),
    )


def findings_of(plan: Plan, code: str) -> list[int | None]:
    """Leg numbers of the findings with a code."""
    return [f.where.leg_number for f in plan.findings if f.code == code]


def candidate_ids(leg: LegPlan) -> list[str]:
    """Ids of the candidates, best first."""
    return [thing.id for thing, _reason in leg.candidates]
