"""Index lines of a leg on the numbered lines that a radar offers."""

from core.plan import setup_codes as codes
from core.plan.plan_result import IndexLine, LegPlan
from core.plan.reason import Reason
from core.plan.setup_result import Control, SetupRow


def index_line_rows(plan: LegPlan) -> tuple[SetupRow, ...]:
    """A row a line in order of use, or one row that says why there is none."""
    if not plan.lines:
        return (
            SetupRow(
                control=Control.INDEX_LINE,
                setting=Reason(code=codes.SET_NONE),
                reason=Reason(code=codes.WHY_SAID, values=(("cause", plan.no_index_reason),)),
                from_along_m=0.0,
                to_along_m=plan.distance_m,
                is_common_practice=False,
            ),
        )
    return tuple(_row(line, number) for line, number in numbered(plan.lines))


def numbered(lines: tuple[IndexLine, ...]) -> tuple[tuple[IndexLine, int], ...]:
    """Lines with the number, from 1, of the radar's line that carries each, by number and time.

    A line takes the lowest number that is free from its start on, so that as many numbers are
    used as lines are set at once.
    """
    free_from: list[float] = []
    found: list[tuple[IndexLine, int]] = []
    for line in sorted(lines, key=lambda one: (one.from_along_m, one.to_along_m)):
        slot = next(
            (i for i, along_m in enumerate(free_from) if along_m <= line.from_along_m),
            len(free_from),
        )
        free_from[slot : slot + 1] = [line.to_along_m]
        found.append((line, slot + 1))
    return tuple(sorted(found, key=lambda one: (one[1], one[0].from_along_m)))


def _row(line: IndexLine, number: int) -> SetupRow:
    values: tuple[tuple[str, float | str], ...] = (
        ("object", line.object.id),
        ("role", line.role.value),
        ("side", line.side.value),
        ("cross_index_range_m", line.cross_index_range_m),
        ("range_scale_m", line.range_scale_m),
        ("line_bearing_deg", line.line_bearing_deg),
    )
    if line.limit is not None:
        values += (("limit", line.limit.value),)
    return SetupRow(
        control=Control.INDEX_LINE,
        number=number,
        setting=Reason(code=codes.SET_INDEX_LINE, values=values),
        reason=line.reason,
        from_along_m=line.from_along_m,
        to_along_m=line.to_along_m,
        is_common_practice=False,
    )
