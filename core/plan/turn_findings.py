"""What is wrong with a turn: too tight, no room on the leg or in the corner, too large for one."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import kn_from_mps, nm_from_m
from core.plan.rules import PlanRules
from core.plan.turn_plan import TurnPlan, is_tighter


def turn_findings(
    plan: TurnPlan,
    *,
    leg_number: int,
    waypoint: str,
    leg_m: float,
    tangent_before_m: float,
    inner_corridor_m: float,
    rules: PlanRules,
) -> tuple[Finding, ...]:
    """Findings about the turn at the end of a leg.

    Parameters
    ----------
    plan : TurnPlan
        The turn.
    leg_number : int
        From 1.
    waypoint : str
        Name of the waypoint the turn is at.
    leg_m : float
        Length of the leg.
    tangent_before_m : float
        Tangent of the turn at the start of the leg; 0 for the first leg.
    inner_corridor_m : float
        Narrower corridor on the inside of the turn, of the two legs.
    rules : PlanRules
        Figures.
    """
    where = Where(leg_number=leg_number, waypoint=waypoint)
    if plan.turn is None:
        if leg_m < tangent_before_m:
            return (_too_short(where, leg_m, tangent_before_m, 0.0),)
        if plan.is_turn_back:
            return (
                Finding(
                    severity=Severity.MUST_FIX,
                    code="turn-back",
                    what=plan.no_turn_reason,
                    where=where,
                    todo=tr("Put in a waypoint, so that the turn is made in steps"),
                ),
            )
        return ()
    turn = plan.turn
    found: list[Finding] = []
    if is_tighter(turn.radius_m, plan.own_radius_m):
        found.append(_too_tight(where, plan, turn.radius_m))
    needed = turn.wheel_over_before_waypoint_m
    if tangent_before_m + needed > leg_m:
        found.append(_too_short(where, leg_m, tangent_before_m, needed))
    if turn.corner_cut_m > inner_corridor_m:
        found.append(
            Finding(
                severity=Severity.CHECK,
                code="corner-cut-over-corridor",
                what=(
                    tr(
                        "the turn passes {inside_nm:.2f} NM inside the corner, the "
                        "corridor there is {corridor_nm:.2f} NM",
                        inside_nm=nm_from_m(turn.corner_cut_m),
                        corridor_nm=nm_from_m(inner_corridor_m),
                    )
                ),
                where=where,
                todo=tr("Take a smaller radius or see that the corner is clear"),
            )
        )
    if abs(turn.alteration_deg) > rules.large_alteration_deg:
        found.append(
            Finding(
                severity=Severity.NOTE,
                code="large-alteration",
                what=tr(
                    "the course alters by {angle_deg:.0f}°", angle_deg=abs(turn.alteration_deg)
                ),
                where=where,
                todo=tr("Consider two steps; speed and radius change in a long turn"),
            )
        )
    return tuple(found)


def _too_tight(where: Where, plan: TurnPlan, radius_m: float) -> Finding:
    return Finding(
        severity=Severity.CHECK,
        code="turn-tighter-than-ship",
        what=tr(
            "the route plans this turn with a radius of {radius_nm:.2f} NM, the ship's own at "
            "{speed_kn:.1f} kn is {own_nm:.2f} NM",
            radius_nm=nm_from_m(radius_m),
            speed_kn=kn_from_mps(plan.speed_mps),
            own_nm=nm_from_m(plan.own_radius_m),
        ),
        where=where,
        todo=tr(
            "Plan the ship's own radius or slow down before the turn; with her own radius the "
            "wheel goes over earlier than planned here"
        ),
    )


def _too_short(where: Where, leg_m: float, before_m: float, needed_m: float) -> Finding:
    return Finding(
        severity=Severity.MUST_FIX,
        code="leg-too-short-for-turns",
        what=(
            tr(
                "the leg is {leg_nm:.2f} NM long, its turns take {turns_nm:.2f} NM of it",
                leg_nm=nm_from_m(leg_m),
                turns_nm=nm_from_m(before_m + needed_m),
            )
        ),
        where=where,
        todo=tr("Take smaller radii or move the waypoint"),
    )
