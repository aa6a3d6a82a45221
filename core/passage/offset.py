"""A leg shifted parallel to itself, and one leg taken out of a passage."""

from dataclasses import replace

import numpy as np

from core.geodesy.position import Position
from core.passage.passage import Leg, Passage, Waypoint


def shifted_leg(passage: Passage, leg_index: int, shift_m: float) -> Passage:
    """The passage with one leg moved square to itself.

    Parameters
    ----------
    passage : Passage
        As planned.
    leg_index : int
        The leg, from 0.
    shift_m : float
        How far, m, starboard positive.

    Returns
    -------
    Passage
        Both waypoints of the leg moved; the legs beside it run from their far ends to them.
    """
    line = passage.line(leg_index)
    lats, lons = line.offset(np.array([0.0, line.length_m]), np.full(2, shift_m))
    moved = [
        replace(
            waypoint,
            position=Position(lat_deg=float(lat), lon_deg=float(lon)),
            eta_utc=None,
            etd_utc=None,
        )
        for waypoint, lat, lon in zip(
            passage.waypoints[leg_index : leg_index + 2], lats, lons, strict=True
        )
    ]
    return replace(
        passage,
        waypoints=(*passage.waypoints[:leg_index], *moved, *passage.waypoints[leg_index + 2 :]),
    )


def leg_alone(passage: Passage, leg_index: int, next_m: float) -> Passage:
    """One leg and the first ``next_m`` of the one after it, where there is one."""
    waypoints: list[Waypoint] = list(passage.waypoints[leg_index : leg_index + 2])
    legs: list[Leg] = [passage.legs[leg_index]]
    if leg_index + 1 < len(passage.legs):
        line = passage.line(leg_index + 1)
        end = passage.waypoints[leg_index + 2]
        if line.length_m > next_m:
            end = replace(end, position=line.position_at(next_m))
        waypoints.append(end)
        legs.append(passage.legs[leg_index + 1])
    return Passage(
        name=passage.name,
        waypoints=tuple(replace(w, eta_utc=None, etd_utc=None) for w in waypoints),
        legs=tuple(legs),
    )


def length_beside_m(passage: Passage, leg_index: int) -> float:
    """Length of a leg and the legs before and after it, m."""
    first, last = max(leg_index - 1, 0), min(leg_index + 2, len(passage.legs))
    return sum(passage.line(index).length_m for index in range(first, last))
