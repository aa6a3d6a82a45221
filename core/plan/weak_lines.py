"""A note where nothing steady can carry a leg's primary line."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.plan.object_result import ObjectLook
from core.plan.plan_result import IndexLine

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
