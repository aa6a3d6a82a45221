"""What a gap in the heights can hide: an object of the plan, a first sight, or nothing."""

from dataclasses import dataclass, replace

import numpy as np

from core.base.angles import Sector
from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_listed, tr_n
from core.coverage.coverage_result import Cause, Effect, FirstSight, Gap
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.plan.intervals import Interval

_STEPS = 25
_CAUSES = {
    Cause.VOID: tr("a void in the elevation"),
    Cause.MISSING: tr("missing elevation"),
    Cause.BEYOND_DATA: tr("the end of the data"),
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
    """One finding for the objects that gaps of a leg can hide, one for its first sights."""
    found: list[Finding] = []
    where = Where(leg_number=leg_number)
    objects = [(gap, name) for gap, name in marked if gap.effect is Effect.OBJECT]
    if objects:
        found.append(
            Finding(
                severity=Severity.MUST_FIX,
                code="gap-hides-object",
                what=(
                    tr(
                        "heights are unknown {sectors}, where {names} could be indexed",
                        sectors=_sectors([gap for gap, _name in objects]),
                        names=_names(objects),
                    )
                ),
                where=where,
                todo=tr("Get the missing elevation, or do not count on that land"),
            )
        )
    sights = [(gap, name) for gap, name in marked if gap.effect is Effect.FIRST_SIGHT]
    if sights:
        found.append(
            Finding(
                severity=Severity.CHECK,
                code="gap-hides-first-sight",
                what=(
                    tr(
                        "heights are unknown {sectors}, on the bearings on which {names} first "
                        "come in sight",
                        sectors=_sectors([gap for gap, _name in sights]),
                        names=_names(sights),
                    )
                    if len({name for _gap, name in sights}) > 1
                    else tr(
                        "heights are unknown {sectors}, on the bearing on which {name} first comes "
                        "in sight",
                        sectors=_sectors([gap for gap, _name in sights]),
                        name=_names(sights),
                    )
                ),
                where=where,
                todo=tr("Expect that land earlier or later than planned"),
            )
        )
    return tuple(found)


def idle_gap_finding(legs: tuple[tuple[int, tuple[Gap, ...]], ...]) -> tuple[Finding, ...]:
    """One note for all legs, given by number, whose missing heights hide nothing of the plan.

    That heights are missing is told leg by leg by coverage, and that the data ends.
    """
    idle = [
        str(number)
        for number, gaps in legs
        if any(gap.cause is not Cause.BEYOND_DATA for gap in gaps)
        and all(gap.effect is Effect.NONE for gap in gaps)
    ]
    if not idle:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="gap-beside",
            what=tr_n(
                "no index line and no first sight depends on the heights missing on leg {legs}",
                "no index line and no first sight depends on the heights missing on legs {legs}",
                len(idle),
                legs=tr_listed(idle),
            ),
        ),
    )


def _names(hidden: list[tuple[Gap, str]]) -> str:
    """What gaps can hide, the first two by name."""
    names = list(dict.fromkeys(name for _gap, name in hidden))
    if len(names) <= 2:
        return tr_listed(names)
    return tr(
        "{names} and {more_count} more", names=", ".join(names[:2]), more_count=len(names) - 2
    )


def _sectors(gaps: list[Gap]) -> str:
    """Sectors of gaps in words, those that meet as one; of many the widest two."""
    causes = tr(" and ").join(dict.fromkeys(_CAUSES[gap.cause] for gap in gaps))
    merged = _merged(gaps)
    if merged is None:
        return tr("all round ({causes})", causes=causes)
    sectors = [
        tr("between {start:03d}° and {stop:03d}°", start=start, stop=stop) for start, stop in merged
    ]
    if len(sectors) <= 3:
        return tr("{sectors} ({causes})", sectors=tr_listed(sectors), causes=causes)
    return tr(
        "{sectors} and in {more_count} other sectors ({causes})",
        sectors=tr_listed(sectors[:2]),
        more_count=len(sectors) - 2,
        causes=causes,
    )


def _merged(gaps: list[Gap]) -> list[tuple[int, int]] | None:
    """Sectors of gaps in whole degrees, none meeting another, widest first; None is all round."""
    dark = np.zeros(360, dtype=np.bool_)
    for gap in gaps:
        start, width = gap.bearing_from_deg, (gap.bearing_to_deg - gap.bearing_from_deg) % 360.0
        if width == 0.0:
            return None
        stop = max(round(start + width), round(start) + 1)
        dark[np.arange(round(start), stop) % 360] = True
    if dark.all():
        return None
    starts = np.flatnonzero(dark & ~np.roll(dark, 1))
    stops = np.flatnonzero(~dark & np.roll(dark, 1))
    # The sector through north begins behind the last end.
    ends = [int(stops[stops > start].min(initial=360 + stops[0])) for start in starts]
    found = [(int(start), end) for start, end in zip(starts, ends, strict=True)]
    found.sort(key=lambda one: (one[0] - one[1], one[0]))
    return [(start, end % 360) for start, end in found]
