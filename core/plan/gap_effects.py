"""What a gap in the heights can hide: an object of the plan, a first sight, or nothing."""

from dataclasses import dataclass, replace

import numpy as np

from core.base.angles import Sector
from core.base.findings import Finding, Severity, Where
from core.coverage.coverage_result import Cause, Effect, FirstSight, Gap
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.plan.intervals import Interval

_STEPS = 25
_CAUSES = {
    Cause.VOID: "a void in the elevation",
    Cause.MISSING: "missing elevation",
    Cause.BEYOND_DATA: "the end of the data",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Watched:
    """An object that the plan relies on over a window, or would if it could be seen."""

    name: str
    position: Position
    window: Interval


def gap_with_effect(
    gap: Gap,
    line: LegLine,
    watched: tuple[Watched, ...],
    first_sights: tuple[FirstSight, ...],
    *,
    cell_m: float,
) -> tuple[Gap, str]:
    """The gap with its effect, and the name of what it can hide (empty for none)."""
    for item in watched:
        if _hides(gap, line, item.position, item.window, cell_m):
            return replace(gap, effect=Effect.OBJECT), item.name
    for sight in first_sights:
        moment = sight.in_sight_from
        if moment is None:
            continue
        window = (moment.along_m, moment.along_m)
        if _hides(gap, line, sight.position, window, cell_m):
            return replace(gap, effect=Effect.FIRST_SIGHT), sight.name
    return replace(gap, effect=Effect.NONE), ""


def _hides(gap: Gap, line: LegLine, position: Position, window: Interval, cell_m: float) -> bool:
    """Whether the gap lies in front of a place, or holds it, from anywhere in the window."""
    start, stop = max(window[0], gap.from_along_m), min(window[1], gap.to_along_m)
    if stop < start:
        return False
    lats, lons, _courses = line.at(np.linspace(start, stop, _STEPS))
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=lats,
        from_lon_deg=lons,
        to_lat_deg=position.lat_deg,
        to_lon_deg=position.lon_deg,
    )
    sector = Sector(from_deg=gap.bearing_from_deg, to_deg=gap.bearing_to_deg)
    # The ends of a sector of the whole circle coincide.
    is_all_round = gap.bearing_from_deg == gap.bearing_to_deg
    return any(
        (is_all_round or sector.contains(float(b))) and gap.range_from_m <= float(d) + cell_m
        for d, b in zip(distance, bearing, strict=True)
    )


def gap_findings(marked: tuple[tuple[Gap, str], ...], leg_number: int) -> tuple[Finding, ...]:
    """One finding for each thing that gaps can hide, one note for all that hide nothing."""
    found: list[Finding] = []
    where = Where(leg_number=leg_number)
    for effect, hidden in sorted(
        {(gap.effect, hidden) for gap, hidden in marked if hidden},
        key=lambda item: (item[0].value, item[1]),
    ):
        gaps = [gap for gap, name in marked if (gap.effect, name) == (effect, hidden)]
        what = f"heights are unknown {_sectors(gaps)}"
        if effect is Effect.OBJECT:
            found.append(
                Finding(
                    severity=Severity.MUST_FIX,
                    code="gap-hides-object",
                    what=f"{what}, where {hidden} could be indexed",
                    where=where,
                    todo="Get the missing elevation, or do not count on that object",
                )
            )
        else:
            found.append(
                Finding(
                    severity=Severity.CHECK,
                    code="gap-hides-first-sight",
                    what=f"{what}, on the bearing on which {hidden} first comes in sight",
                    where=where,
                    todo="Expect that land earlier or later than planned",
                )
            )
    # That the data ends within reach is told by coverage.
    idle = [
        gap
        for gap, _hidden in marked
        if gap.effect is Effect.NONE and gap.cause is not Cause.BEYOND_DATA
    ]
    if idle:
        found.append(
            Finding(
                severity=Severity.NOTE,
                code="gap-beside",
                what=f"heights are unknown {_sectors(idle)}; no index line depends on it",
                where=where,
            )
        )
    return tuple(found)


def _sectors(gaps: list[Gap]) -> str:
    """Sectors of gaps in words; of many gaps the widest two."""
    causes = " and ".join(dict.fromkeys(_CAUSES[gap.cause] for gap in gaps))
    widest = sorted(
        gaps,
        key=lambda g: (-((g.bearing_to_deg - g.bearing_from_deg) % 360.0), g.from_along_m),
    )[:2]
    sectors = " and ".join(
        f"{round(gap.bearing_from_deg) % 360:03d}° to {round(gap.bearing_to_deg) % 360:03d}°"
        for gap in widest
    )
    more = f" and {len(gaps) - 2} more sectors" if len(gaps) > 2 else ""
    return f"between {sectors}{more} ({causes})"
