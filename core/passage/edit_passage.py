"""Edits of a passage by hand: each gives a new passage, and which legs its legs are made of.

Where the line changes, times of the route file are of another line: legs without a speed keep the
one that followed from them, and the times but the first departure are left out.
"""

from dataclasses import dataclass, replace

from core.geodesy.position import Position
from core.passage.defaults import scheduled_speeds
from core.passage.passage import Leg, Passage, Waypoint


@dataclass(frozen=True, slots=True, kw_only=True)
class PassageEdit:
    """A passage after an edit.

    ``sources[i]`` are the indices of the legs before that its leg i is made of: two where legs were
    joined, none for a leg that is new. What belongs to a leg goes with it.
    """

    passage: Passage
    sources: tuple[tuple[int, ...], ...]


def _same(passage: Passage) -> tuple[tuple[int, ...], ...]:
    return tuple((i,) for i in range(len(passage.legs)))


def with_waypoint(passage: Passage, index: int, waypoint: Waypoint) -> PassageEdit:
    """Another waypoint in place of one: moved, renamed, with another radius."""
    same = _same(passage)
    if waypoint.position == passage.waypoints[index].position:
        waypoints = (*passage.waypoints[:index], waypoint, *passage.waypoints[index + 1 :])
        return PassageEdit(passage=replace(passage, waypoints=waypoints), sources=same)
    timeless = without_times(passage)
    kept = replace(
        waypoint,
        eta_utc=timeless.waypoints[index].eta_utc,
        etd_utc=timeless.waypoints[index].etd_utc,
    )
    waypoints = (*timeless.waypoints[:index], kept, *timeless.waypoints[index + 1 :])
    return PassageEdit(passage=replace(timeless, waypoints=waypoints), sources=same)


def with_leg(passage: Passage, leg_index: int, leg: Leg) -> PassageEdit:
    """Another leg in place of one: its kind, corridor, speed, note."""
    if leg.kind is not passage.legs[leg_index].kind or (
        leg.speed_mps != passage.legs[leg_index].speed_mps
    ):
        passage = without_times(passage)
    legs = (*passage.legs[:leg_index], leg, *passage.legs[leg_index + 1 :])
    return PassageEdit(passage=replace(passage, legs=legs), sources=_same(passage))


def with_inserted(passage: Passage, leg_index: int, position: Position) -> PassageEdit:
    """A waypoint put into a leg, which becomes two with the same corridor, speed and kind."""
    passage = without_times(passage)
    waypoint = Waypoint(name=_free_name(passage, leg_index), position=position)
    first = passage.legs[leg_index]
    at = leg_index + 1
    return PassageEdit(
        passage=replace(
            passage,
            waypoints=(*passage.waypoints[:at], waypoint, *passage.waypoints[at:]),
            legs=(*passage.legs[:at], replace(first, note=""), *passage.legs[at:]),
        ),
        sources=(*_same(passage)[:at], *_same(passage)[leg_index:]),
    )


def with_added(passage: Passage, position: Position, *, at_start: bool = False) -> PassageEdit:
    """A waypoint put before the first or after the last one."""
    passage = without_times(passage)
    same = _same(passage)
    beside = passage.legs[0 if at_start else -1]
    leg = replace(beside, note="")
    waypoint = Waypoint(name=_free_name(passage, 0 if at_start else len(same)), position=position)
    old = passage.waypoints
    if at_start:
        return PassageEdit(
            passage=replace(passage, waypoints=(waypoint, *old), legs=(leg, *passage.legs)),
            sources=((), *same),
        )
    return PassageEdit(
        passage=replace(passage, waypoints=(*old, waypoint), legs=(*passage.legs, leg)),
        sources=(*same, ()),
    )


def with_deleted(passage: Passage, index: int) -> PassageEdit:
    """One waypoint fewer; the two legs at it become one with the narrower of their corridors.

    Raises
    ------
    ValueError
        The passage has only two waypoints.
    """
    if len(passage.waypoints) <= 2:
        raise ValueError("a passage needs two waypoints")
    passage = without_times(passage)
    last = len(passage.waypoints) - 1
    waypoints = (*passage.waypoints[:index], *passage.waypoints[index + 1 :])
    same, count = _same(passage), len(passage.legs)
    if index in (0, last):
        dropped = 0 if index == 0 else count - 1
        legs = (*passage.legs[:dropped], *passage.legs[dropped + 1 :])
        sources = (*same[:dropped], *same[dropped + 1 :])
    else:
        before, after = passage.legs[index - 1], passage.legs[index]
        joined = replace(
            before,
            corridor_port_m=_narrower(before.corridor_port_m, after.corridor_port_m),
            corridor_starboard_m=_narrower(before.corridor_starboard_m, after.corridor_starboard_m),
        )
        legs = (*passage.legs[: index - 1], joined, *passage.legs[index + 1 :])
        sources = (*same[: index - 1], (index - 1, index), *same[index + 1 :])
    return PassageEdit(passage=replace(passage, waypoints=waypoints, legs=legs), sources=sources)


def _narrower(one_m: float | None, other_m: float | None) -> float | None:
    given = [value for value in (one_m, other_m) if value is not None]
    return min(given) if given else None


def without_times(passage: Passage) -> Passage:
    """The passage without times but the first departure; legs keep the speed that followed."""
    if not any(w.eta_utc or w.etd_utc for w in passage.waypoints):
        return passage
    speeds, _findings = scheduled_speeds(passage)
    first = passage.waypoints[0]
    return replace(
        passage,
        waypoints=(
            replace(first, eta_utc=None),
            *(replace(w, eta_utc=None, etd_utc=None) for w in passage.waypoints[1:]),
        ),
        legs=tuple(
            replace(leg, speed_mps=leg.speed_mps or speed)
            for leg, speed in zip(passage.legs, speeds, strict=True)
        ),
    )


def _free_name(passage: Passage, after: int) -> str:
    """A name no waypoint has: that of the one before with a letter."""
    taken = {w.name for w in passage.waypoints}
    base = passage.waypoints[after].name[:20]
    letters = [chr(ord("A") + i) for i in range(26)]
    names = [f"{base}{letter}" for letter in letters]
    names += [f"{base}{number}" for number in range(1, len(taken) + 2)]
    return next(name for name in names if name not in taken)
