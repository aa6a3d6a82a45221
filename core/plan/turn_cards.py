"""Cards of all turns of a passage, made when its legs are planned; what is wrong with a turn."""

from dataclasses import replace

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.coverage.arc_sight import ArcSight
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.plan.candidates import LegField
from core.plan.index_object import IndexObject
from core.plan.plan_result import LegPlan
from core.plan.rules import PlanRules
from core.plan.turn_arc import arc_places, land_on_arc
from core.plan.turn_card import TurnScene, turn_card
from core.ship.ship import Ship


def arcs_of(fields: tuple[LegField, ...]) -> tuple[tuple[Position, ...], ...]:
    """The places of every leg's turn that are looked from; none where there is no turn."""
    return tuple(
        ()
        if field.turn_plan.turn is None
        else tuple(place.position for place in arc_places(field.line, field.turn_plan.turn))
        for field in fields
    )


def with_turn_cards(
    legs: list[LegPlan],
    fields: tuple[LegField, ...],
    sights: tuple[ArcSight, ...],
    objects: tuple[IndexObject, ...],
    land: LandModel,
    ship: Ship,
    rules: PlanRules,
) -> tuple[list[LegPlan], tuple[Finding, ...]]:
    """The legs with the card of the turn at the end of each, and what is wrong with the turns."""
    done: list[LegPlan] = []
    findings: list[Finding] = []
    for i, (leg, field) in enumerate(zip(legs, fields, strict=True)):
        turn = field.turn_plan.turn
        if turn is None or i + 1 >= len(legs):
            done.append(leg)
            continue
        is_across, nearest_m = land_on_arc(field.line, turn, land)
        card = turn_card(
            TurnScene(
                field=field,
                turn=turn,
                leg=leg,
                next_leg=legs[i + 1],
                next_sectors=fields[i + 1].sectors,
                sight=sights[i],
                objects=objects,
                scale_m=_scale_at_end(leg, ship.radars[0].name, field),
                is_across_land=is_across,
                nearest_land_m=nearest_m,
                rules=rules,
            )
        )
        done.append(replace(leg, turn_card=card))
        if is_across:
            findings.append(
                Finding(
                    severity=Severity.MUST_FIX,
                    code="turn-across-land",
                    what=tr("the turn at the end of the leg runs across land"),
                    where=Where(leg_number=i + 1),
                    todo=tr("Take a smaller radius or move the waypoint"),
                )
            )
    return done, tuple(findings)


def _scale_at_end(leg: LegPlan, radar: str, field: LegField) -> float:
    """Range scale of the main radar as the wheel goes over."""
    own = [one for one in leg.scales if one.radar == radar]
    return max(own, key=lambda one: one.to_along_m).scale_m if own else _first_scale_m(field)


def _first_scale_m(field: LegField) -> float:
    return field.settings[0].screen.scale_m
