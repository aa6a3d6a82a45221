"""From coverage to a plan: objects, letters, then leg after leg."""

from dataclasses import replace

from core.base.findings import Finding, Severity
from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress, Span
from core.coverage.coverage_result import Coverage, FirstSight
from core.coverage.first_paint_result import LegPaints
from core.coverage.look_alike_result import LookAlike
from core.coverage.profiles import grid_of
from core.land.land_model import LandModel
from core.land.sources import HeightSource
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.alike_coasts import alike_coasts, alike_findings
from core.plan.anchor_approach import anchoring_of
from core.plan.blind_arcs import blind_arcs
from core.plan.blind_sectors import sectors_about_course
from core.plan.candidates import HeadlandRegister, LegField, tracks_of
from core.plan.choices import choices_of, moved_names, names_in, unknown_names
from core.plan.emergence_findings import emergence_findings
from core.plan.from_afar import FromAfar, from_afar
from core.plan.gap_effects import idle_gap_finding
from core.plan.ladder_input import ladder_echoes
from core.plan.land_objects import islets
from core.plan.leg_context import LegContext
from core.plan.leg_fixes import fix_findings
from core.plan.leg_plan import plan_leg
from core.plan.leg_rules import rules_for, rules_of_leg
from core.plan.leg_scales import first_object
from core.plan.leg_sight import MarkSight, leg_sight
from core.plan.leg_survey import LegSurvey, survey_leg
from core.plan.leg_waters import waters_of
from core.plan.mark_objects import mark_features
from core.plan.mark_sight import marks_in_sight
from core.plan.mark_sites import on_their_sites
from core.plan.object_book import object_book
from core.plan.paint_looks import paint_looks, paint_targets
from core.plan.peaks import peaks_of
from core.plan.plan_result import LegPlan, Plan
from core.plan.range_scales import settings_of
from core.plan.ranking import is_doubtful
from core.plan.request import Request
from core.plan.rules import DEFAULT_RULES, PlanRules, Weather
from core.plan.shore import cell_size_m, is_known_low
from core.plan.siting_guideline import siting_findings
from core.plan.tide_findings import tide_findings
from core.plan.turn_cards import arcs_of, with_turn_cards
from core.plan.turn_plan import turn_plan
from core.ship.ship import Ship

_COAST_M = 100.0


def build_plan(
    request: Request,
    passage: Passage,
    timetable: Timetable,
    land: LandModel,
    coverage: Coverage,
    heights: HeightSource | None,
    progress: Progress,
    rules: PlanRules = DEFAULT_RULES,
    *,
    beside: Plan | None = None,
    is_brief: bool = False,
    memory: Memory = NOTHING_KEPT,
) -> Plan:
    """Plan the use of radar on every leg.

    Parameters
    ----------
    request : Request
        Ship, marks, danger limits and the officer's decisions.
    passage : Passage
        With every default filled in.
    timetable : Timetable
        Speeds of the legs.
    land : LandModel
        Coast and heights.
    coverage : Coverage
        What is in sight from where.
    heights : HeightSource or None
        Elevation to the horizon, for first sights; None where there is none.
    progress : Progress
        Told leg by leg.
    rules : PlanRules
        Figures of planning.
    beside : Plan or None
        The plan that this one is a part or a variant of: its objects keep their names, and what
        is seen from afar (first sights and paints, look-alikes) is not worked out anew.
    is_brief : bool
        Without what-ifs, second radars, stretches of coast and look-alikes, for comparing
        variants in less time.
    memory : Memory
        What of earlier computations serves this one.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    rules = rules_for(request.environment, rules)
    by_leg = tuple(rules_of_leg(request.environment, rules, leg) for leg in coverage.legs)
    looking = Span(progress, 0.0, 0.3)
    mark_sight = marks_in_sight(request.marks, land, coverage, Span(looking, 0.0, 0.5), memory)
    fields = _fields(
        request, passage, timetable, land, coverage, mark_sight, Span(looking, 0.5, 1.0), by_leg
    )
    surveys = tuple(survey_leg(field, own) for field, own in zip(fields, by_leg, strict=True))
    peaks = peaks_of(passage, land, heights, memory) if beside is None else ()
    named = names_in(request.overrides, request.limits)
    book = object_book(
        passage,
        request.marks,
        peaks,
        fields,
        surveys,
        request.known_objects,
        named,
        names={} if beside is None else {thing.id: thing.name for thing in beside.objects},
    )
    afar = tuple(FromAfar() for _ in fields)
    alikes: tuple[tuple[LookAlike, ...], ...] = tuple(() for _ in fields)
    if beside is None:
        targets = paint_targets(book, fields, rules)
        budget = coverage.budget
        looks = None
        if budget is not None:
            arcs = blind_arcs(request.ship, fields)
            looks = replace(paint_looks(request, budget, rules), arcs=arcs)
            looks = replace(looks, what_if=(), others=()) if is_brief else looks
        afar = from_afar(
            passage,
            land,
            coverage,
            heights,
            targets,
            looks,
            Span(progress, 0.3, 0.75),
            with_coast=not is_brief,
            arcs=arcs_of(fields),
            arc_reach_m=rules.longest_index_scale_m,
            memory=memory,
        )
        if not is_brief:
            alikes = alike_coasts(land, coverage, Span(progress, 0.75, 0.78), memory)
    grid = grid_of(land)
    waters = waters_of(
        request, passage, land, grid, coverage, fields, book.ids, rules, Span(progress, 0.78, 0.8)
    )
    legs: list[LegPlan] = []
    findings: list[Finding] = [
        *unknown_names(request.overrides, request.limits, book.ids, book.known, len(passage.legs)),
        *moved_names(request.overrides, request.limits, book.moved_m),
        *_radius_findings(passage, fields),
        *_tide_findings(surveys, fields, rules),
        *siting_findings(request.ship.radars),
        *emergence_findings(waters),
    ]
    fixed = {t.id: (t.name, t.position) for t in book.objects if t.is_fixed}
    doubtful = frozenset(
        t.id for t in book.objects if is_doubtful(t.kind, t.height_above_water_m, rules)
    )
    # From the last leg back, so that each knows the first object of the next.
    for i, field in reversed(tuple(enumerate(fields))):
        progress.report(
            1.0 - 0.2 * (i + 1) / len(fields), tr("index lines, leg {leg_number}", leg_number=i + 1)
        )
        before = fields[i - 1].turn_plan.turn if i > 0 else None
        middle = field.line.position_at(field.line.length_m / 2.0)
        told_sights, told_paints = _worth_telling(afar[i].sights, afar[i].paints)
        leg, found = plan_leg(
            field,
            surveys[i],
            choices_of(i + 1, request.overrides, request.limits, book.ids),
            LegContext(
                coverage=coverage.legs[i],
                land=land,
                grid=grid,
                settings=coverage.settings,
                cell_m=cell_size_m(land, lat_deg=middle.lat_deg, lon_deg=middle.lon_deg),
                ship=request.ship,
                first_sights=told_sights,
                paints=told_paints,
                coast_paints=afar[i].coast,
                ids=book.ids,
                leg_counts=book.leg_counts,
                make_object=book.maker(),
                new_field=fields[i + 1] if i + 1 < len(fields) else None,
                new_first=first_object(legs[0], field) if legs else None,
                tangent_before_m=0.0 if before is None else before.tangent_m,
                to_waypoint=passage.waypoints[i + 1].name,
                rules=by_leg[i],
                ladder_echoes=ladder_echoes(afar[i].paints, field, fixed, doubtful),
                paint_pulse=None if coverage.budget is None else coverage.budget.pulse,
                waters=waters[i],
                weather=Weather(
                    sea_state=request.environment.sea_state,
                    rain_mm_h=request.environment.rain_mm_h,
                ),
            ),
        )
        legs.insert(0, replace(leg, look_alikes=alikes[i]))
        findings += found
    legs, found = with_turn_cards(
        legs, fields, tuple(a.arc for a in afar), book.objects, land, request.ship, rules
    )
    findings += found
    findings += alike_findings(alikes)
    findings += tide_findings(legs)
    findings += fix_findings(legs)
    findings += idle_gap_finding(tuple((leg.leg_index + 1, leg.gaps) for leg in legs))
    return Plan(
        passage=passage,
        timetable=timetable,
        legs=tuple(legs),
        objects=book.objects,
        known_objects=book.known,
        are_letters_kept=book.are_letters_kept,
        anchoring=anchoring_of(request, passage, fields, tuple(legs), afar, book, rules),
        findings=tuple(findings),
    )


def _fields(
    request: Request,
    passage: Passage,
    timetable: Timetable,
    land: LandModel,
    coverage: Coverage,
    mark_sight: MarkSight,
    progress: Progress,
    by_leg: tuple[PlanRules, ...],
) -> tuple[LegField, ...]:
    """Every leg with the objects in its reach."""
    ship: Ship = request.ship
    rules = by_leg[0]
    every_islet = islets(land, rules)
    islet_keys = frozenset(islet.key for islet in every_islet)
    marks, small = on_their_sites(
        mark_features(request.marks),
        tuple(
            islet
            for islet in every_islet
            if not is_known_low(
                land,
                lat_deg=float(islet.lat_deg[0]),
                lon_deg=float(islet.lon_deg[0]),
                height_m=islet.height_m,
                rules=rules,
            )
        ),
        land,
        rules,
    )
    register = HeadlandRegister(land)
    reach_m = rules.longest_index_scale_m
    fields = []
    for i, leg in enumerate(passage.legs):
        progress.report(
            i / len(passage.legs), tr("objects in reach, leg {leg_number}", leg_number=i + 1)
        )
        line = passage.line(i)
        speed, motion = timetable.leg_speed_mps[i], timetable.motion_of(i)
        middle = line.position_at(line.length_m / 2.0)
        cell = cell_size_m(land, lat_deg=middle.lat_deg, lon_deg=middle.lon_deg)
        sight = leg_sight(coverage.legs[i], mark_sight, cell)
        frame, tracks = tracks_of(
            line,
            land,
            sight,
            islets=small,
            islet_keys=islet_keys,
            marks=marks,
            register=register,
            reach_m=reach_m,
            rules=rules,
        )
        fields.append(
            LegField(
                leg_index=i,
                leg=leg,
                line=line,
                speed_mps=speed,
                motion=motion,
                turn_plan=turn_plan(
                    passage, i, ship, speed_mps=motion.water_speed_mps, rules=rules
                ),
                sight=sight,
                tracks=tracks,
                settings=settings_of(
                    ship,
                    speed_mps=speed,
                    corridor_m=min(leg.corridor_port_m or 0.0, leg.corridor_starboard_m or 0.0),
                    rules=by_leg[i],
                ),
                near_m=max(cell, _COAST_M),
                frame=frame,
                sectors=sectors_about_course(ship.radars[0].blind_sectors, motion),
                beam_deg=ship.radars[0].horizontal_beamwidth_deg,
            )
        )
    return tuple(fields)


def _worth_telling(
    sights: tuple[FirstSight, ...], paints: LegPaints | None
) -> tuple[tuple[FirstSight, ...], LegPaints | None]:
    """What begins or ceases to be in sight or to paint on a leg; the rest says nothing new."""
    ids = {s.object_id for s in sights if s.in_sight_from is not None or s.lost is not None}
    if paints is not None:
        ids |= {p.object_id for p in paints.paints if p.says_something}
        paints = replace(paints, paints=tuple(p for p in paints.paints if p.object_id in ids))
    return tuple(s for s in sights if s.object_id in ids), paints


def _radius_findings(passage: Passage, fields: tuple[LegField, ...]) -> tuple[Finding, ...]:
    """One note for all turns that take the ship's radius because the route states none."""
    assumed = [
        passage.waypoints[field.leg_index + 1].name
        or tr("waypoint {waypoint_number}", waypoint_number=field.leg_index + 2)
        for field in fields
        if field.turn_plan.is_assumed_radius
    ]
    if not assumed:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="turn-radius-assumed",
            what=tr("the route states no turn radius at {assumed}", assumed=", ".join(assumed)),
            todo=tr("The ship's own radius is used there; check it against the turns planned"),
        ),
    )


def _tide_findings(
    surveys: tuple[LegSurvey, ...], fields: tuple[LegField, ...], rules: PlanRules
) -> tuple[Finding, ...]:
    """One note where shores are judged by an assumed tidal range."""
    lettered = {key for survey in surveys for key, _edge in survey.edges}
    if not rules.is_tidal_range_assumed or not any(
        track.feature.rise is not None and track.feature.key in lettered
        for field in fields
        for track in field.tracks
    ):
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="tidal-range-assumed",
            what=(
                tr(
                    "no tidal range is given, so shores are judged as if it were "
                    "{tidal_range_m:g} m",
                    tidal_range_m=rules.tidal_range_m,
                )
            ),
            todo=tr("Give the spring range of these waters"),
        ),
    )
