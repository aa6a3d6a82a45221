"""A passage written anew as rows of a table: what belongs to a leg or a waypoint goes with it."""

from dataclasses import dataclass, replace

from core.passage.edit_passage import PassageEdit, without_times
from core.passage.passage import Leg, Passage, Waypoint


@dataclass(frozen=True, slots=True, kw_only=True)
class WaypointRow:
    """A waypoint with the leg that leads to it, and what they were before.

    The leg of the first row is not looked at.
    """

    waypoint: Waypoint
    leg: Leg
    source: int | None
    """The waypoint before, from 0; None for a new one."""
    leg_sources: tuple[int, ...]
    """The legs before that the leg is made of, from 0."""


def with_rows(passage: Passage, rows: tuple[WaypointRow, ...]) -> PassageEdit:
    """The passage of these rows.

    Where the line or a speed changes, times of the route are of another voyage: as in the other
    edits all but the first departure are left out, and legs keep the speed that followed from
    them.

    Raises
    ------
    ValueError
        Fewer than two rows.
    """
    if len(rows) < 2:
        raise ValueError("a passage needs two waypoints")
    sources = tuple(row.leg_sources for row in rows[1:])
    is_same_line = (
        [row.source for row in rows] == list(range(len(passage.waypoints)))
        and all(
            row.waypoint.position == was.position
            for row, was in zip(rows, passage.waypoints, strict=True)
        )
        and all(
            (row.leg.kind, row.leg.speed_mps) == (was.kind, was.speed_mps)
            for row, was in zip(rows[1:], passage.legs, strict=True)
        )
    )
    if is_same_line:
        return PassageEdit(
            passage=replace(
                passage,
                waypoints=tuple(row.waypoint for row in rows),
                legs=tuple(row.leg for row in rows[1:]),
            ),
            sources=sources,
        )
    timeless = without_times(passage)
    starts_there = rows[0].source == 0
    first = replace(
        rows[0].waypoint,
        eta_utc=None,
        etd_utc=timeless.waypoints[0].etd_utc if starts_there else None,
    )
    return PassageEdit(
        passage=replace(
            passage,
            waypoints=(
                first,
                *(replace(row.waypoint, eta_utc=None, etd_utc=None) for row in rows[1:]),
            ),
            legs=tuple(_with_speed(row, passage, timeless) for row in rows[1:]),
        ),
        sources=sources,
    )


def _with_speed(row: WaypointRow, passage: Passage, timeless: Passage) -> Leg:
    """The leg with the speed that followed from the times; one taken out by hand stays out."""
    if row.leg.speed_mps is not None or not row.leg_sources:
        return row.leg
    source = row.leg_sources[0]
    if passage.legs[source].speed_mps is not None:
        return row.leg
    return replace(row.leg, speed_mps=timeless.legs[source].speed_mps)
