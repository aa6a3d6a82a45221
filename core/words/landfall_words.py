"""A landfall in words: where it begins, when the limits of its objects are."""

from itertools import combinations

from core.base.language import tr
from core.passage.timetable import Timetable
from core.plan.landfall import cut_deg
from core.plan.landfall_result import Landfall, LandfallLimit
from core.plan.outcome import Outcome
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.messages import Say


def landfall_words(outcome: Outcome, landfall: Landfall) -> tuple[str, str]:
    """From when to when there is no land of use, and where the fix is."""
    timetable = outcome.plan.timetable
    zone = times.zone_words(timetable)
    bare = Bridge.NO_LAND.format(
        start=times.when(timetable, landfall.bare_leg_index, landfall.bare_along_m),
        stop=times.when_late(timetable, landfall.first_leg_index, landfall.first_along_m),
        zone=zone,
    )
    leg = outcome.plan.legs[landfall.leg_index]
    place = Bridge.FIX_AT.format(
        time=times.when_late(timetable, landfall.leg_index, landfall.along_m),
        zone=zone,
        leg=landfall.leg_index + 1,
        to_go=quantities.distance(leg.distance_m - landfall.along_m),
    )
    return bare, place


def limit_time(timetable: Timetable, limit: LandfallLimit | None, *, is_late: bool = False) -> str:
    """Time of a limit, rounded so that it does not mislead; a word or a dash where none is."""
    if limit is None:
        return quantities.DASH
    if limit.holds_already:
        return str(Say.AT_START)
    rounded = times.when_late if is_late else times.when_early
    return rounded(timetable, limit.leg_index, limit.along_m)


def cut_words(landfall: Landfall) -> str:
    """Angles at which the ranges cross, pair by pair, rounded down."""
    numbered = list(enumerate(landfall.arcs, start=1))
    cuts = (
        tr(
            "{first_number} and {second_number} {angle_deg}°",
            first_number=n,
            second_number=m,
            angle_deg=int(cut_deg(one.bearing_deg, other.bearing_deg)),
        )
        for (n, one), (m, other) in combinations(numbered, 2)
    )
    return Bridge.CUTS.format(cuts=", ".join(cuts))
