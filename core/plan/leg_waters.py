"""Hidden water of every leg: craft that come out of it, places in it, sectors of own structure."""

from core.base.language import tr
from core.base.progress import Progress
from core.coverage.coverage_result import Coverage
from core.coverage.profiles import Grid
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.candidates import LegField
from core.plan.emergence_look import Scene
from core.plan.emergences import emergences_of, turn_s
from core.plan.hidden_marks import hidden_marks_of
from core.plan.own_way import own_way
from core.plan.request import Request
from core.plan.rules import PlanRules
from core.plan.sector_approaches import hidden_sectors
from core.plan.turn_plan import final_course_deg
from core.plan.waters_result import LegWaters


def waters_of(
    request: Request,
    passage: Passage,
    land: LandModel,
    grid: Grid,
    coverage: Coverage,
    fields: tuple[LegField, ...],
    ids: dict[str, str],
    rules: PlanRules,
    progress: Progress,
) -> tuple[LegWaters, ...]:
    """Look into the hidden water beside every leg.

    Parameters
    ----------
    request : Request
        Ship, marks and places.
    passage : Passage
        With every default filled in.
    land : LandModel
        Coast and heights.
    grid : Grid
        The same land made ready for rays.
    coverage : Coverage
        Its viewpoints are used again, nothing is swept.
    fields : tuple of LegField
        The coast beside each leg.
    ids : dict
        Letters of features by key.
    rules : PlanRules
        Passing distance, decision time, speeds of craft.
    progress : Progress
        Told leg by leg.
    """
    way = own_way(passage, tuple(field.speed_mps for field in fields))
    ship = request.ship
    found = []
    for i, field in enumerate(fields):
        progress.report(i / len(fields), tr("hidden water, leg {leg_number}", leg_number=i + 1))
        course_deg, motion = _middle_course_deg(field), field.motion
        scene = Scene(
            leg_index=i,
            line=field.line,
            own_speed_mps=field.speed_mps,
            motion=motion,
            way=way,
            land=land,
            grid=grid,
            settings=coverage.settings,
        )
        found.append(
            LegWaters(
                emergences=emergences_of(
                    field,
                    coverage.legs[i],
                    scene,
                    ids=ids,
                    turn_s=turn_s(
                        radius_m=ship.turn_radius_at_m(field.speed_mps),
                        response_m=ship.response_distance_m,
                        speed_mps=field.speed_mps,
                        alteration_deg=rules.emergence.bold_turn_deg,
                    ),
                    rules=rules,
                ),
                hidden_marks=hidden_marks_of(
                    request.marks,
                    request.places,
                    field.line,
                    land,
                    grid,
                    coverage.settings,
                    corridor_m=(field.corridor_port_m, field.corridor_starboard_m),
                    speed_mps=field.speed_mps,
                    rules=rules.hidden_marks,
                ),
                sectors=hidden_sectors(
                    ship.radars,
                    headings_deg=(
                        course_deg + motion.least_heading_off_deg,
                        course_deg + motion.most_heading_off_deg,
                    ),
                    course_deg=course_deg,
                    speed_mps=field.speed_mps,
                    target_speeds_mps=rules.emergence.craft_speeds_mps,
                    decision_s=rules.decision_time_s,
                ),
            )
        )
    return tuple(found)


def _middle_course_deg(field: LegField) -> float:
    """Course half-way along: that of a geodesic turns by little."""
    first, last = field.line.course_deg, final_course_deg(field.line)
    return (first + ((last - first + 180.0) % 360.0 - 180.0) / 2.0) % 360.0
