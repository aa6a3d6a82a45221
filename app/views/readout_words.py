"""The read-out line: what holds where own ship is on the leg, in deck words."""

from core.base.language import tr
from core.coverage.coverage_result import ViewpointCoverage
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role
from core.words import quantities, times

_MET_M = 1.0


def nearest_viewpoint(outcome: Outcome, leg_index: int, along_m: float) -> ViewpointCoverage | None:
    """The viewpoint on the track nearest to a place along a leg; None where none was swept."""
    views = outcome.coverage.legs[leg_index].on_track()
    if not views:
        return None
    return min(views, key=lambda view: abs(view.viewpoint.along_m - along_m))


def lines_in_force(leg: LegPlan, along_m: float) -> tuple[str, ...]:
    """Index lines to be kept at a place, each as it is said aloud."""
    words = []
    for line in leg.lines:
        if line.role is Role.WHEEL_OVER:
            continue
        if not line.from_along_m - _MET_M <= along_m <= line.to_along_m + _MET_M:
            continue
        side = quantities.side(line.side)
        if line.limit is not None:
            number = quantities.margin(line.cross_index_range_m, line.limit, line.range_scale_m)
            words.append(f"{line.object.id} {side} {number}")
        else:
            number = quantities.index_range(line.cross_index_range_m, line.range_scale_m)
            reading = f"{line.object.id} {side} {number}"
            words.append(
                reading if line.role is Role.PRIMARY else tr("check {reading}", reading=reading)
            )
    return tuple(words)


def scales_in_force(leg: LegPlan, along_m: float) -> str:
    """Range scales at a place; each with the first word of its radar where there are several."""
    several = len({stretch.radar for stretch in leg.scales}) > 1
    words: dict[str, str] = {}
    for stretch in leg.scales:
        if stretch.from_along_m - _MET_M <= along_m <= stretch.to_along_m + _MET_M:
            name = f" ({stretch.radar.split()[0]})" if several and stretch.radar.strip() else ""
            words.setdefault(stretch.radar, f"{quantities.scale(stretch.scale_m)}{name}")
    return tr("scale {scales}", scales=", ".join(words.values())) if words else ""


def readout(outcome: Outcome, leg_index: int, along_m: float) -> tuple[str, str, str]:
    """Three lines: where and when, what to keep, what is near and hidden."""
    leg = outcome.plan.legs[leg_index]
    timetable = outcome.plan.timetable
    to_go_m = max(leg.distance_m - along_m, 0.0)
    where = [tr("{distance} to go", distance=quantities.distance(to_go_m, 2))]
    if leg.wheel_over is not None:
        to_turn_m = leg.wheel_over.along_m - along_m
        where.append(
            tr(
                "wheel over in {distance_to_wheel_over}",
                distance_to_wheel_over=quantities.distance_to_wheel_over(to_turn_m),
            )
            if to_turn_m >= 0.0
            else tr("past the wheel-over")
        )
    where.append(f"{times.when(timetable, leg_index, along_m)} {times.zone_words(timetable)}")
    where.append(scales_in_force(leg, along_m))
    kept = lines_in_force(leg, along_m)
    keep = tr("Keep {readings}", readings="; ".join(kept)) if kept else tr("No index line here")
    view = nearest_viewpoint(outcome, leg_index, along_m)
    near = [tr("No viewpoint here")]
    if view is not None:
        near = []
        if view.nearest_land_range_m is not None and view.nearest_land_bearing_deg is not None:
            near.append(
                tr(
                    "Nearest land {range}, {course}",
                    range=quantities.radar_range(view.nearest_land_range_m),
                    course=quantities.course(view.nearest_land_bearing_deg),
                )
            )
        else:
            near.append(tr("No known land in reach"))
        if view.shadows:
            first = min(view.shadows, key=lambda shadow: shadow.range_from_m)
            near.append(
                tr(
                    "hidden water from {range} in {sector}",
                    range=quantities.radar_range(first.range_from_m),
                    sector=quantities.sector(first.bearing_from_deg, first.bearing_to_deg),
                )
            )
        else:
            near.append(tr("no hidden water found from here"))
    near += next_paints(outcome, leg, along_m)
    return "   ".join(filter(None, where)), keep, "; ".join(near)


def next_paints(outcome: Outcome, leg: LegPlan, along_m: float) -> list[str]:
    """What is to paint next from a place on, and what is overdue next."""
    timetable = outcome.plan.timetable
    words = []
    coming = [
        (paint.normally_by.moment.along_m, paint.object_id)
        for paint in leg.first_paints
        if paint.normally_by.moment is not None and paint.normally_by.moment.along_m >= along_m
    ]
    if coming:
        at_m, name = min(coming)
        words.append(
            tr(
                "next to paint {name} by {time}",
                name=name,
                time=times.when_late(timetable, leg.leg_index, at_m),
            )
        )
    due = [
        (paint.overdue.moment.along_m, paint.object_id)
        for paint in leg.first_paints
        if paint.overdue.moment is not None and paint.overdue.moment.along_m >= along_m
    ]
    if due:
        at_m, name = min(due)
        words.append(
            tr(
                "{name} overdue {time}",
                name=name,
                time=times.when_late(timetable, leg.leg_index, at_m),
            )
        )
    return words
