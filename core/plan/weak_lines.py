"""Findings where nothing better can carry a primary line or a wheel-over than a weak object."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.plan.object_result import ObjectLook
from core.plan.plan_result import IndexLine, WheelOver
from core.plan.ranking import is_doubtful
from core.plan.rules import PlanRules

_WORDS = {
    "slides_m": tr("its tangent slides as you pass"),
    "straight": tr("its coast has no point to hold"),
    "masked_ratio": tr("nearer land masks it for long"),
    "tide_moves_m": tr("the tide moves its edge"),
    "low_shore_m": tr("the tide moves its edge"),
    "shore_blank_m": tr("the elevation does not show its shore"),
    "low_m": tr("it is low"),
    "near_m": tr("it passes close"),
    "in_corridor": tr("it lies inside the corridor"),
    "paint_spread_m": tr("its painted edge wanders"),
}
"""What makes an object weak, by the names of its reason's values."""


def weak_line_findings(
    primaries: tuple[IndexLine, ...], looks: tuple[ObjectLook, ...], leg_number: int
) -> tuple[Finding, ...]:
    """One note for a leg whose primary lines rest on weak objects, unless the officer chose them.

    A weak object never ranks before another (A5), so it carries a line only where no other can.
    """
    weak = {look.object.id: look for look in looks if look.is_weak}
    said = []
    for name in dict.fromkeys(
        line.object.id for line in primaries if line.override is None and line.object.id in weak
    ):
        values = dict(weak[name].reason.values)
        why = dict.fromkeys(words for key, words in _WORDS.items() if key in values)
        said.append(f"{name} ({', '.join(why)})" if why else name)
    if not said:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="weak-object-carries-line",
            what=tr(
                "no steady object can carry the primary line all along: {reasons}",
                reasons="; ".join(said),
            ),
            where=Where(leg_number=leg_number),
            todo=tr("Check the position more often by another aid there"),
        ),
    )


def doubtful_turn_findings(
    turn: WheelOver | None, leg_number: int, rules: PlanRules
) -> tuple[Finding, ...]:
    """A check where a wheel-over leans on an islet that may lie under water."""
    if turn is None:
        return ()
    used = [] if turn.line is None else [turn.line.object]
    used += [] if turn.second_mark is None else [turn.second_mark.object]
    doubtful = {t.id: t for t in used if is_doubtful(t.kind, t.height_above_water_m, rules)}
    if not doubtful:
        return ()
    return (
        Finding(
            severity=Severity.CHECK,
            code="wheel-over-on-doubtful-islet",
            what=tr(
                "the wheel-over is read off {objects}, no higher than height error and high "
                "water together, {height_m:.0f} m: there may be nothing to see",
                objects=", ".join(doubtful),
                height_m=rules.doubtful_height_m,
            ),
            where=Where(leg_number=leg_number),
            todo=tr("Look on the chart whether it stands above water, else turn by other means"),
        ),
    )
