"""One event of the watch in words: when, what kind, what is read at arm's length, what else."""

from dataclasses import dataclass

from core.coverage.coverage_result import FirstSight
from core.coverage.first_paint_result import FirstPaint, PaintLimit
from core.passage.timetable import Timetable
from core.plan.emergence_result import Emergence
from core.plan.plan_result import HandOver, IndexGap, ScaleStretch, WheelOver
from core.plan.tune_result import Rung, TuneCheck
from core.plan.watch_events import LATE_KINDS, WatchEvent, WatchKind
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.emergence_words import Hidden, emergence_line, head_name
from core.words.kept_words import shown
from core.words.messages import Say
from core.words.paint_words import limit_when

_KINDS = {
    WatchKind.PRE_ALERT: Bridge.EVENT_PRE_ALERT,
    WatchKind.WHEEL_OVER: Bridge.EVENT_WHEEL_OVER,
    WatchKind.OVERDUE: Bridge.EVENT_OVERDUE,
    WatchKind.GAP: Bridge.EVENT_GAP,
    WatchKind.HAND_OVER: Bridge.EVENT_HAND_OVER,
    WatchKind.SCALE: Bridge.EVENT_SCALE,
    WatchKind.TUNE_CHECK: Bridge.EVENT_TUNE,
    WatchKind.PAINT_BY: Bridge.EVENT_BY,
    WatchKind.SIGHT: Bridge.EVENT_SIGHT,
    WatchKind.PAINT_FROM: Bridge.EVENT_FROM,
    WatchKind.EMERGENCE: Bridge.EVENT_CRAFT,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WatchWords:
    """An event as it is printed."""

    time: str
    kind: str
    lead: str
    """What is read at arm's length."""
    range: str = ""
    """NM without the unit; empty where none belongs to it."""
    bearing: str = ""
    """Three figures, true."""
    more: str = ""
    """The rest, in small letters."""
    object_id: str = ""


def watch_words(event: WatchEvent, timetable: Timetable) -> WatchWords:
    """Words of one event; time rounded to the side that does not mislead."""
    rounded = times.when_late if event.kind in LATE_KINDS else times.when_early
    time = rounded(timetable, event.leg_index, event.along_m)
    kind = str(_KINDS[event.kind])
    matter = event.matter
    if isinstance(matter, FirstPaint):
        return _paint(event, matter, time, kind, timetable)
    if isinstance(matter, FirstSight):
        return _seen(matter, time, kind)
    lead, more = _deed(event, timetable)
    return WatchWords(time=time, kind=kind, lead=lead, more=more)


def _paint(
    event: WatchEvent, paint: FirstPaint, time: str, kind: str, timetable: Timetable
) -> WatchWords:
    limit: PaintLimit = {
        WatchKind.PAINT_BY: paint.normally_by,
        WatchKind.PAINT_FROM: paint.normally_from,
        WatchKind.OVERDUE: paint.overdue,
    }[event.kind]
    if limit.moment is None:
        raise ValueError(f"{event.kind} of {paint.object_id} has no moment")
    more = ""
    if event.kind is WatchKind.PAINT_BY:
        when = limit_when(timetable, event.leg_index, paint.normally_from)
        more = "" if when == quantities.DASH else Bridge.MAY_PAINT_FROM.format(when=when)
    return WatchWords(
        time=time,
        kind=kind,
        lead=paint.object_id,
        range=quantities.radar_range(limit.moment.range_m).removesuffix(" NM"),
        bearing=quantities.whole_degrees(limit.moment.bearing_deg),
        more=more,
        object_id=paint.object_id,
    )


def _seen(sight: FirstSight, time: str, kind: str) -> WatchWords:
    moment = sight.in_sight_from
    if moment is None:
        raise ValueError(f"{sight.object_id} never comes in sight")
    return WatchWords(
        time=time,
        kind=kind,
        lead=sight.object_id,
        range=quantities.radar_range(moment.range_m).removesuffix(" NM"),
        bearing=quantities.whole_degrees(moment.bearing_deg),
        object_id=sight.object_id,
    )


def _deed(event: WatchEvent, timetable: Timetable) -> tuple[str, str]:
    """What is to be done, and with what."""
    matter, index = event.matter, event.leg_index
    if isinstance(matter, WheelOver):
        return _turn(event, matter)
    if isinstance(matter, HandOver):
        till = Bridge.TILL.format(when=times.when_early(timetable, index, matter.to_along_m))
        more = f"{till}; {Say.FALLBACK.format(object=matter.fallback)}" if matter.fallback else till
        return Say.HAND_OVER_FROM_TO.format(start=matter.from_object, stop=matter.to_object), more
    if isinstance(matter, IndexGap):
        till = times.when(timetable, index, matter.to_along_m)
        lead = Bridge.TILL.format(when=till)
        return lead, Say.GAP_SUBSTITUTE.format(substitute=matter.substitute)
    if isinstance(matter, ScaleStretch):
        return quantities.scale(matter.scale_m), _setting(matter)
    if isinstance(matter, Emergence):
        lead = Bridge.CRAFT_FROM.format(head=head_name(matter), side=quantities.side(matter.side))
        return lead, f"{emergence_line(matter)}; {Hidden.ACTION}"
    if isinstance(matter, TuneCheck):
        return quantities.scale(matter.scale_m), _ladder(matter)
    raise TypeError(f"leg {index + 1} has an event of no known kind")


def _turn(event: WatchEvent, turn: WheelOver) -> tuple[str, str]:
    way = Say.TO_STARBOARD if turn.alteration_deg > 0.0 else Say.TO_PORT
    lead = f"{way} {quantities.track(turn.new_course_deg)}"
    if event.kind is WatchKind.PRE_ALERT:
        minutes = times.minutes_early(event.alert_minutes)
        return Bridge.PRE_ALERT.format(minutes=minutes), lead.capitalize().replace("° t", "° T")
    parts = [
        f"{quantities.distance_before_waypoint(turn.distance_before_waypoint_m)} "
        f"{Say.BEFORE_WAYPOINT}"
    ]
    if turn.line is not None:
        line = turn.line
        parts.append(
            f"{line.object.id} {quantities.side(line.side)} "
            f"{quantities.index_range(line.cross_index_range_m, line.range_scale_m)}, "
            f"{Say.COLUMN_LINE} {quantities.line_directions(line.line_bearing_deg)}"
        )
    if turn.second_mark is not None:
        mark = turn.second_mark
        parts.append(
            f"{Say.SECOND_MARK} {mark.object.id} {quantities.radar_range(mark.range_m)} "
            f"{quantities.course(mark.bearing_deg)}"
        )
    if len(parts) == 1:
        parts.append(str(Bridge.PLAIN_TURN))
    return lead, "; ".join(parts)


def _setting(stretch: ScaleStretch) -> str:
    parts = [stretch.radar]
    if stretch.off_centre_direction is None or stretch.off_centre_ratio == 0.0:
        parts.append(str(Say.CENTRED))
    else:
        parts.append(
            Say.OFF_CENTRE.format(
                share=quantities.percent(stretch.off_centre_ratio),
                direction=shown(stretch.off_centre_direction),
            )
        )
    if stretch.pulse:
        parts.append(Say.PULSE.format(pulse=stretch.pulse))
    return ", ".join(parts)


def _ladder(check: TuneCheck) -> str:
    """The echoes of the check by letter, strong to absent."""
    said = []
    for rung in Rung:
        echo = check.echo(rung)
        if echo is not None:
            word = Say.NONE if rung is Rung.ABSENT else rung.shown
            said.append(f"{word} {echo.object_id}")
    return ", ".join((Say.PULSE.format(pulse=check.pulse), *said))
