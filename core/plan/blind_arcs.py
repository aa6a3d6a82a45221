"""Blind sectors of every radar on every leg, as first paints look past them."""

from core.coverage.own_blind import BlindArc
from core.plan.blind_conflicts import words_of_sector
from core.plan.blind_sectors import sectors_about_course
from core.plan.candidates import LegField
from core.ship.ship import Ship


def blind_arcs(
    ship: Ship, fields: tuple[LegField, ...]
) -> tuple[tuple[tuple[BlindArc, ...], ...], ...]:
    """For each radar, for each leg, the arcs off the course in which it may be blind.

    Shadow sectors are left out: large echoes show in them.
    """
    return tuple(
        tuple(
            tuple(
                BlindArc(
                    from_off_deg=one.from_off_deg,
                    width_deg=one.width_deg,
                    words=words_of_sector(one.sector),
                )
                for one in sectors_about_course(radar.blind_sectors, field.motion)
                if not one.sector.is_shadow
            )
            for field in fields
        )
        for radar in ship.radars
    )
