"""Craft from behind land, places in hidden water and own ship's blind sectors in words.

Warning times are rounded down, offings that are wanted up. Nothing here says that water is clear.
"""

import math

from core.base.language import Texts, tr
from core.base.units import kn_from_mps, nm_from_m
from core.passage.passage import Side
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm, CraftRun, Emergence, NoOffing
from core.plan.sector_result import HiddenSector, SteadyApproach
from core.plan.waters_result import HiddenMark
from core.words import quantities, times
from core.words.quantities import DASH


class Hidden(Texts):
    """Titles, heads and short phrases."""

    TITLE = "Hidden water"
    LIST = "Hidden water: craft, places, blind sectors"
    COLUMN_WHAT = "what"
    COLUMN_FROM = "from {zone}"
    COLUMN_BEARING = "bearing"
    COLUMN_WORDS = "minutes in sight by speed of craft; what would help"
    MEANS = (
        "From behind a head: a craft that crosses the track at right angles, passing it by the "
        "distance stated, and is met there. Minutes from coming in sight, by line of sight alone, "
        "until met, rounded down; in brackets for own ship at that edge of the corridor. She may "
        "come otherwise, or show late or never on radar. No depths are known here."
    )
    HEAD = "head"
    ALL_LEGS = "All legs"
    EMERGENCE = "Emergence {name} {side} {time}"
    BLIND_SECTOR = "Blind sector"
    SHADOW_SECTOR = "Shadow sector"
    UNKNOWN = "heights in front are missing and taken as high"
    KEY = "craft may come out"
    HEAD_UNNAMED = "head {offing} off"
    FLAG = "FLAG"
    FLAG_TURN = "FLAG, less than a bold turn"
    ACTION = "look-out on that bearing, second scan"
    PLACE_OPENS = "opens {when}, {minutes} before abeam"
    PLACE_SHUT = "does not open on this leg before it is abeam"
    NEITHER = "no radar sees there"
    READ_ON = "read on {radars}"
    SHADOW = "small targets lost"
    WEAVE = "weave {degrees}{side} once each {minutes}"
    NO_WEAVE = "no alteration up to 60° opens it"
    STEADY = "stays there on a steady bearing: {courses}"
    NONE_STEADY = "none of 10 to 30 kn stays there on a steady bearing"


_NO_OFFING = {
    NoOffing.ENOUGH: tr("the warning is the decision time or more"),
    NoOffing.OTHER_SHORE: tr("land on the other side leaves no room for it"),
    NoOffing.NEAR_END: tr("the head lies too near an end of the leg for one bend in it"),
    NoOffing.NO_RUN: tr("no craft comes out there unseen"),
}


def no_offing_words(reason: NoOffing) -> str:
    """Why no wider offing, or no extra distance for it, is stated."""
    return _NO_OFFING[reason]


def minutes_down(time_s: float) -> str:
    """A warning time, rounded down to a tenth: ``1.8``."""
    return f"{math.floor(time_s / 6.0 + 1e-6) / 10.0:.1f}"


def head_name(head: Emergence) -> str:
    """The letter or name of the head, else how far off the track its tip lies."""
    offing = quantities.distance(head.offing_m, 2)
    return head.object_id or Hidden.HEAD_UNNAMED.format(offing=offing)


def emergence_time(head: Emergence, leg_index: int, timetable: Timetable) -> str:
    """When the first of the deciding craft may come in sight, rounded down."""
    return times.when_early(timetable, leg_index, head.deciding.own_along_m or 0.0)


def relative_sector(from_deg: float, to_deg: float) -> str:
    """Relative bearings, widened to whole degrees: ``rel 030° to 060°``."""
    start = math.floor(from_deg + 1e-9) % 360
    stop = math.ceil(to_deg - 1e-9) % 360
    return tr("rel {from_deg:03d}° to {to_deg:03d}°", from_deg=start, to_deg=stop)


def flag_words(alarm: Alarm) -> str:
    """The flag of a warning time, empty where it is long enough."""
    if alarm is Alarm.NONE:
        return ""
    return str(Hidden.FLAG if alarm is Alarm.SHORT else Hidden.FLAG_TURN)


def emergence_line(head: Emergence) -> str:
    """A head on the sheet of its leg: bearing, warning, passing distance, flag."""
    run = head.deciding
    warning = minutes_down(run.warning_s or 0.0)
    edge = run.at_edge_s
    warning = tr("{minutes} min", minutes=warning)
    if edge is not None and run.alarm is not Alarm.NONE and (run.warning_s or 0) >= head.decision_s:
        warning = tr(
            "{warning} ({minutes} at the corridor's edge)",
            warning=warning,
            minutes=minutes_down(edge),
        )
    words = tr(
        "{sector}, {warning} at {speed_kn:.0f} kn, pass-off {pass_off}",
        sector=relative_sector(head.relative_from_deg, head.relative_to_deg),
        warning=warning,
        speed_kn=kn_from_mps(run.craft_speed_mps),
        pass_off=quantities.distance(head.pass_off_m, 2),
    )
    flag = flag_words(run.alarm)
    return f"{words}: {flag}" if flag else words


def runs_words(head: Emergence) -> str:
    """Warning times in minutes: ``10 kn 3.2 (2.6), 20 kn 1.8 (1.5), 30 kn 1.2 (1.0)``."""
    return ", ".join(_run_words(run) for run in head.runs)


def _run_words(run: CraftRun) -> str:
    speed = f"{kn_from_mps(run.craft_speed_mps):.0f} kn"
    if run.warning_s is None or run.at_edge_s is None:
        return f"{speed} {DASH}"
    return f"{speed} {minutes_down(run.warning_s)} ({minutes_down(run.at_edge_s)})"


def offing_words(head: Emergence) -> str:
    """What offing would give the decision time; empty where the warning is long enough."""
    if head.needed_offing_m is None:
        return ""
    words = tr(
        "{decision_min:g} min want {offing} off",
        decision_min=head.decision_s / 60.0,
        offing=_miles_up(head.needed_offing_m),
    )
    if head.extra_offing_m is not None:
        words = tr("{sentence}, {extra} more", sentence=words, extra=_miles_up(head.extra_offing_m))
    if head.extra_distance_m is None:
        return f"{words}; {no_offing_words(head.no_offing or NoOffing.ENOUGH)}"
    return tr(
        "{sentence}; one bend there lengthens the leg by {longer}",
        sentence=words,
        longer=_miles_up(head.extra_distance_m),
    )


def _miles_up(distance_m: float) -> str:
    return f"{math.ceil(nm_from_m(distance_m) * 10.0 - 1e-6) / 10.0:.1f} NM"


def hidden_mark_words(mark: HiddenMark, leg_index: int, timetable: Timetable) -> str:
    """How long craft there are hidden while it is near, and when it opens before abeam."""
    within = quantities.scale(mark.within_m)
    parts = []
    if mark.hidden_s > 0.0:
        parts.append(
            tr(
                "hidden {duration} while within {distance}",
                duration=times.duration(mark.hidden_s / 60.0),
                distance=within,
            )
        )
        if mark.track_hidden_s < 3.0:
            parts.append(tr("not from the track itself"))
        elif mark.track_hidden_s < mark.hidden_s - 3.0:
            parts.append(
                tr("from the track {duration}", duration=times.duration(mark.track_hidden_s / 60.0))
            )
    if mark.unknown:
        parts.append(tr("not known for part of it: heights in front are missing"))
    if mark.opens_m is not None and mark.open_before_abeam_s is not None:
        parts.append(
            Hidden.PLACE_OPENS.format(
                when=times.when_late(timetable, leg_index, mark.opens_m),
                minutes=f"{minutes_down(mark.open_before_abeam_s)} min",
            )
        )
    elif mark.hidden_s > 0.0:
        parts.append(str(Hidden.PLACE_SHUT))
    return "; ".join(parts)


def sector_line(sector: HiddenSector) -> str:
    """A sector on the sheet of a leg: who sees there, what opens it."""
    start, stop = sector.from_relative_deg, sector.to_relative_deg
    kind = f"{Hidden.SHADOW}, " if sector.is_shadow else ""
    if sector.seen_by:
        seen = Hidden.READ_ON.format(radars=", ".join(sector.seen_by))
        return f"{relative_sector(start, stop)}: {kind}{seen}"
    return f"{relative_sector(start, stop)}: {kind}{Hidden.NEITHER}; {weave_words(sector)}"


def weave_words(sector: HiddenSector) -> str:
    """The alteration that opens a sector and how often it is made."""
    if sector.weave_deg is None:
        return str(Hidden.NO_WEAVE)
    side = (
        ""
        if sector.weave_to == "either side"
        else tr(" to {side}", side=Side(sector.weave_to).shown)
    )
    return Hidden.WEAVE.format(
        degrees=f"{sector.weave_deg:.0f}°",
        side=side,
        minutes=f"{sector.weave_every_s / 60.0:g} min",
    )


def approaches_words(sector: HiddenSector) -> str:
    """Which targets stay in the sector on a steady bearing until they are met."""
    courses = "; ".join(_approach_words(one) for one in sector.approaches if one.courses_deg)
    return Hidden.STEADY.format(courses=courses) if courses else str(Hidden.NONE_STEADY)


def _approach_words(one: SteadyApproach) -> str:
    courses = tr(" and ").join(
        f"{quantities.whole_degrees(start)}{DASH}{quantities.whole_degrees(stop)}"
        for start, stop in one.courses_deg
    )
    return tr(
        "{speed_kn:.0f} kn on {courses} T", speed_kn=kn_from_mps(one.speed_mps), courses=courses
    )
