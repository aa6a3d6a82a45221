"""A ship at other draughts than her file states."""

from dataclasses import replace

from core.base.errors import InputError
from core.base.language import tr
from core.ship.ship import Ship


def at_draughts(ship: Ship, *, forward_m: float, aft_m: float) -> Ship:
    """The same ship at draughts given by the officer, m; her antennas stand by them.

    Raises
    ------
    InputError
        No antenna height of hers follows the draughts, or an antenna would be under water.
    """
    if not any(_follows(ship, number) for number in range(len(ship.radars))):
        raise InputError(
            tr(
                "draughts are given, but «{name}» states her antenna heights above the water",
                name=ship.name,
            ),
            todo=tr(
                "Give the antenna height above the water, or its height above the "
                "keel in the ship file"
            ),
        )
    floated = replace(ship, draught_forward_m=forward_m, draught_aft_m=aft_m)
    for radar in floated.radars:
        if floated.antenna_height_above_water_m(radar) <= 0.0:
            raise InputError(
                tr(
                    "draughts of {forward_m:g} m forward and {aft_m:g} m aft put the "
                    "antenna of {name} under water",
                    forward_m=forward_m,
                    aft_m=aft_m,
                    name=radar.name,
                ),
                todo=tr("Give other draughts"),
            )
    return floated


def _follows(ship: Ship, number: int) -> bool:
    return ship.radars[number].antenna_above_water_m is None
