"""From coverage to a plan: objects, letters, then leg after leg."""

from dataclasses import dataclass

import numpy as np

from core.base.findings import Finding, Severity
from core.base.progress import Progress, Span
from core.coverage.result import Coverage, FirstSight
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.land.sources import HeightSource
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.candidates import HeadlandRegister, LegField, tracks_of
from core.plan.choices import choices_of, unknown_names
from core.plan.feature import Feature
from core.plan.land_objects import islets
from core.plan.leg_context import LegContext
from core.plan.leg_lines import ObjectMaker
from core.plan.leg_plan import plan_leg
from core.plan.leg_sight import MarkSight, leg_sight
from core.plan.leg_survey import LegSurvey, survey_leg
from core.plan.lettering import letters_for, object_name
from core.plan.mark_objects import mark_features
from core.plan.mark_sight import marks_in_sight
from core.plan.range_scales import settings_of
from core.plan.request import Request
from core.plan.result import Edge, IndexObject, LegPlan, Plan
from core.plan.rules import DEFAULT_RULES, PlanRules
from core.plan.shore import cell_size_m
from core.plan.usable_window import EdgePoint, FeatureTrack
from core.plan.wheel_over import turn_plan
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

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    looking = Span(progress, 0.0, 0.3)
    mark_sight = marks_in_sight(request.marks, land, coverage, Span(looking, 0.0, 0.5))
    fields = _fields(
        request, passage, timetable, land, coverage, mark_sight, Span(looking, 0.5, 1.0), rules
    )
    surveys = tuple(survey_leg(field, rules) for field in fields)
    book = _letter(request, passage, fields, surveys)
    sights = _first_sights(passage, land, coverage, book, heights, Span(progress, 0.3, 0.7))
    legs: list[LegPlan] = []
    findings: list[Finding] = [
        *unknown_names(request.overrides, request.limits, book.ids, len(passage.legs)),
        *_radius_findings(passage, fields),
    ]
    for i, field in enumerate(fields):
        progress.report(0.7 + 0.3 * i / len(fields), f"index lines, leg {i + 1}")
        before = fields[i - 1].turn_plan.turn if i > 0 else None
        middle = field.line.position_at(field.line.length_m / 2.0)
        leg, found = plan_leg(
            field,
            surveys[i],
            choices_of(i + 1, request.overrides, request.limits, book.ids),
            LegContext(
                coverage=coverage.legs[i],
                land=land,
                cell_m=cell_size_m(land, lat_deg=middle.lat_deg, lon_deg=middle.lon_deg),
                ship=request.ship,
                first_sights=sights[i],
                ids=book.ids,
                leg_counts=book.leg_counts,
                make_object=book.maker(),
                new_field=fields[i + 1] if i + 1 < len(fields) else None,
                tangent_before_m=0.0 if before is None else before.tangent_m,
                to_waypoint=passage.waypoints[i + 1].name,
                rules=rules,
            ),
        )
        legs.append(leg)
        findings += found
    return Plan(
        passage=passage,
        timetable=timetable,
        legs=tuple(legs),
        objects=book.objects,
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
    rules: PlanRules,
) -> tuple[LegField, ...]:
    """Every leg with the objects in its reach."""
    ship: Ship = request.ship
    small = islets(land, rules)
    marks = mark_features(request.marks)
    register = HeadlandRegister(land)
    reach_m = rules.longest_index_scale_m
    fields = []
    for i, leg in enumerate(passage.legs):
        progress.report(i / len(passage.legs), f"objects in reach, leg {i + 1}")
        line = passage.line(i)
        speed = timetable.leg_speed_mps[i]
        sight = leg_sight(coverage.legs[i], mark_sight)
        frame, tracks = tracks_of(
            line,
            land,
            sight,
            islets=small,
            marks=marks,
            register=register,
            reach_m=reach_m,
            rules=rules,
        )
        middle = line.position_at(line.length_m / 2.0)
        cell = cell_size_m(land, lat_deg=middle.lat_deg, lon_deg=middle.lon_deg)
        fields.append(
            LegField(
                leg_index=i,
                leg=leg,
                line=line,
                speed_mps=speed,
                turn_plan=turn_plan(passage, i, ship, rules),
                sight=sight,
                tracks=tracks,
                settings=settings_of(
                    ship,
                    speed_mps=speed,
                    corridor_m=min(leg.corridor_port_m or 0.0, leg.corridor_starboard_m or 0.0),
                    rules=rules,
                ),
                near_m=max(cell, _COAST_M),
                frame=frame,
            )
        )
    return tuple(fields)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Book:
    """Letters and names of every object, by feature key."""

    ids: dict[str, str]
    names: dict[str, str]
    leg_counts: dict[str, int]
    objects: tuple[IndexObject, ...]

    def maker(self) -> ObjectMaker:
        """Turns a feature and its edge point into the printed object."""

        def make(track: FeatureTrack, edge: EdgePoint) -> IndexObject:
            key = track.feature.key
            return _object(track.feature, edge, object_id=self.ids[key], name=self.names[key])

        return make


def _object(feature: Feature, edge: EdgePoint, *, object_id: str, name: str) -> IndexObject:
    return IndexObject(
        id=object_id,
        name=name,
        position=edge.position,
        edge=edge.edge,
        kind=feature.kind,
        height_above_water_m=feature.height_m,
        is_fixed=feature.is_fixed,
        confirm_on_chart=feature.mark is None or not feature.mark.is_on_chart,
    )


def _letter(
    request: Request,
    passage: Passage,
    fields: tuple[LegField, ...],
    surveys: tuple[LegSurvey, ...],
) -> _Book:
    """Give every object a letter: by first leg, then along it; marks keep their names."""
    first_places: dict[str, tuple[int, float, float, float]] = {}
    first_edges: dict[str, EdgePoint] = {}
    features: dict[str, Feature] = {}
    leg_counts: dict[str, int] = {}
    for field, survey in zip(fields, surveys, strict=True):
        by_key = {track.feature.key: track.feature for track in field.tracks}
        for key in survey.candidate_keys:
            leg_counts[key] = leg_counts.get(key, 0) + 1
        for key, edge in survey.edges:
            if key in features:
                continue
            features[key], first_edges[key] = by_key[key], edge
            along, _cross = field.line.track_coordinates(
                np.array([edge.position.lat_deg]), np.array([edge.position.lon_deg])
            )
            first_places[key] = (
                field.leg_index,
                round(float(along[0]), 1),
                edge.position.lat_deg,
                edge.position.lon_deg,
            )
    taken = frozenset(mark.name.upper() for mark in request.marks)
    on_land = {k: place for k, place in first_places.items() if features[k].mark is None}
    ids = letters_for(on_land, taken)
    names = {k: object_name(features[k], first_edges[k].position, passage) for k in ids}
    objects = [_object(features[k], first_edges[k], object_id=ids[k], name=names[k]) for k in ids]
    for feature in mark_features(request.marks):
        if feature.mark is None:
            continue
        ids[feature.key] = names[feature.key] = feature.mark.name
        edge = _mark_edge(feature.mark.position)
        objects.append(_object(feature, edge, object_id=feature.mark.name, name=feature.mark.name))
    return _Book(ids=ids, names=names, leg_counts=leg_counts, objects=tuple(objects))


def _mark_edge(position: Position) -> EdgePoint:
    return EdgePoint(position=position, edge=Edge.POSITION, along_m=0.0, cross_m=0.0)


def _first_sights(
    passage: Passage,
    land: LandModel,
    coverage: Coverage,
    book: _Book,
    heights: HeightSource | None,
    progress: Progress,
) -> tuple[tuple[FirstSight, ...], ...]:
    """First sights, leg by leg."""
    del land, coverage, book, heights
    progress.report(1.0, "first sight of land")
    return tuple(() for _ in passage.legs)


def _radius_findings(passage: Passage, fields: tuple[LegField, ...]) -> tuple[Finding, ...]:
    """One note for all turns that take the ship's radius because the route states none."""
    assumed = [
        passage.waypoints[field.leg_index + 1].name or f"waypoint {field.leg_index + 2}"
        for field in fields
        if field.turn_plan.is_assumed_radius
    ]
    if not assumed:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="turn-radius-assumed",
            what=f"the route states no turn radius at {', '.join(assumed)}",
            todo="The ship's own radius is used there; check it against the turns planned",
        ),
    )
