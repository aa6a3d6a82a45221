"""Invented looks of index objects, one for every primary and check line."""

from core.plan.object_result import Confidence, Grade, ObjectLook
from core.plan.plan_result import IndexLine, Role
from core.plan.reason import Reason


def looks_of(lines: tuple[IndexLine, ...]) -> tuple[ObjectLook, ...]:
    """Looks of the objects of primary and check lines, in their order, none twice."""
    by_id = {
        line.object.id: line for line in reversed(lines) if line.role in (Role.PRIMARY, Role.CHECK)
    }
    ordered = dict.fromkeys(line.object.id for line in lines if line.object.id in by_id)
    return tuple(_look(by_id[name], place) for place, name in enumerate(ordered, 1))


def _look(line: IndexLine, place: int) -> ObjectLook:
    is_mark = not line.object.confirm_on_chart
    return ObjectLook(
        object=line.object,
        place=place,
        is_weak=False,
        reason=line.reason,
        side=line.side,
        cross_index_range_m=line.cross_index_range_m,
        windows=((line.from_along_m, line.to_along_m),),
        extent_m=0.0 if is_mark else 120.0,
        beams_ratio=0.0 if is_mark else 1.6,
        slope_ratio=None if is_mark else 0.35,
        is_steep_to=False,
        tide_moves_m=0.0 if is_mark else 11.4,
        is_tide_at_least=False,
        isolation_m=None if is_mark else 1_400.0,
        inside_m=0.0,
        spread_m=0.0 if is_mark else 40.0,
        confidence=Confidence(
            grade=Grade.GOOD if is_mark else Grade.FAIR,
            reasons=()
            if is_mark
            else (Reason(code="height-could-hide", values=(("height_error_m", 5.0),)),),
            height_could_hide=None if is_mark else True,
            least_margin_db=None if is_mark else 12.7,
            cell_m=92.6,
        ),
        is_likely_conspicuous=not is_mark,
    )
