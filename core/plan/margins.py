"""Margin lines from the danger limits the officer gave; none without one."""

from dataclasses import dataclass

from core.base.angles import wrap_360_deg
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import nm_from_m
from core.passage.passage import Side
from core.plan import reason_codes
from core.plan.intervals import Interval
from core.plan.plan_result import DangerLimit, IndexLine, IndexObject, Limit, Reason, Role
from core.plan.usable_window import EdgePoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What a danger limit must hold beside the error of reading it (job.md 2.5.3), m."""

    hull_m: float
    """How far the hull reaches towards the danger, half beam and drift angle."""
    response_m: float
    """Run until she answers the helm."""


def margin_lines(
    limit: DangerLimit,
    thing: IndexObject,
    edge: EdgePoint,
    *,
    window: Interval,
    course_deg: float,
    range_scale_m: float,
    error_m: float,
    allowances: Allowances,
) -> tuple[IndexLine, ...]:
    """The lines «not less than» and «not more than» of one limit over one window.

    The line is the limit as the officer gave it; what he must allow for beside it is told.
    """
    lines = []
    for value, which in (
        (limit.least_m, Limit.NOT_LESS_THAN),
        (limit.most_m, Limit.NOT_MORE_THAN),
    ):
        if value is None:
            continue
        lines.append(
            IndexLine(
                role=Role.MARGIN,
                object=thing,
                side=Side.STARBOARD if edge.cross_m > 0.0 else Side.PORT,
                cross_index_range_m=value,
                limit=which,
                line_bearing_deg=course_deg,
                echo_travel_deg=wrap_360_deg(course_deg + 180.0),
                from_along_m=window[0],
                to_along_m=window[1],
                range_scale_m=range_scale_m,
                uncertainty_m=error_m,
                reason=Reason(
                    code=reason_codes.MARGIN,
                    values=(
                        ("limit_m", value),
                        ("read_m", error_m),
                        ("hull_m", allowances.hull_m),
                        ("response_m", allowances.response_m),
                    ),
                ),
            )
        )
    return tuple(lines)


def limit_findings(
    limit: DangerLimit,
    thing: IndexObject,
    edge: EdgePoint,
    *,
    leg_number: int,
    corridor_m: float,
    error_m: float,
    hull_m: float,
) -> tuple[Finding, ...]:
    """Where the planned track or its corridor does not keep a danger limit.

    ``corridor_m`` is the side of the corridor towards the object, ``hull_m`` how far the hull
    reaches to that side, drift angle included.
    """
    off = abs(edge.cross_m)
    where = Where(leg_number=leg_number)
    name = f"{thing.id} ({thing.name})" if thing.id != thing.name else thing.id
    found: list[Finding] = []
    least, most = limit.least_m, limit.most_m
    if (least is not None and off < least) or (most is not None and off > most):
        bound = (
            tr("not less than {distance}", distance=_nm(least))
            if least is not None and off < least
            else ""
        )
        bound = bound or tr("not more than {distance}", distance=_nm(most or 0.0))
        found.append(
            Finding(
                severity=Severity.MUST_FIX,
                code="track-breaks-danger-limit",
                what=tr(
                    "the planned track passes {distance_nm} off {name}, the limit is {bound}",
                    distance_nm=_nm(off),
                    name=name,
                    bound=bound,
                ),
                where=where,
                todo=tr("Move the track or correct the limit"),
            )
        )
    elif least is not None and off - corridor_m - hull_m < least:
        found.append(
            Finding(
                severity=Severity.CHECK,
                code="corridor-breaks-danger-limit",
                what=(
                    tr(
                        "the corridor reaches {corridor_off} off {name}, her side {beam} "
                        "nearer; the limit is not less than {limit}",
                        corridor_off=_nm(off - corridor_m),
                        name=name,
                        beam=_nm(hull_m),
                        limit=_nm(least),
                    )
                ),
                where=where,
                todo=tr("Narrow the corridor on that side or move the track"),
            )
        )
    elif least is not None and off - least < error_m + hull_m:
        found.append(
            Finding(
                severity=Severity.CHECK,
                code="danger-limit-within-error",
                what=(
                    tr(
                        "track and limit off {name} are {apart} apart, less than the radar "
                        "reads ({range_error}) and her side reaches ({beam})",
                        name=name,
                        apart=_nm(off - least),
                        range_error=_nm(error_m),
                        beam=_nm(hull_m),
                    )
                ),
                where=where,
                todo=tr("Do not rely on radar alone to keep this limit"),
            )
        )
    return tuple(found)


def unused_limit(limit: DangerLimit, why: str, leg_number: int | None) -> Finding:
    """A limit that gave no line."""
    return Finding(
        severity=Severity.MUST_FIX,
        code="danger-limit-without-line",
        what=tr(
            "the danger limit off {object_id} has no margin line: {why}",
            object_id=limit.object_id,
            why=why,
        ),
        where=Where(leg_number=leg_number),
        todo=tr("Keep this limit by other means or name another object"),
    )


def _nm(distance_m: float) -> str:
    return f"{nm_from_m(distance_m):.2f} NM"
