"""A ship written and read back."""

import dataclasses
from dataclasses import replace

import pytest

from core.base.units import mps_from_kn
from core.files.reading import blob_of
from core.files.ship_file import builtin_ship, builtin_ships, read_ship
from core.files.ship_write import ship_text
from core.ship.ship import BlindSector, LoadCondition, Ship, ShipPoint


def _back(ship: Ship) -> Ship:
    return read_ship(blob_of("ship", ship_text(ship).encode("utf-8")))[0]


def _assert_alike(one: object, other: object, path: str = "ship") -> None:
    """Equal, numbers to nine digits."""
    if dataclasses.is_dataclass(one):
        assert type(one) is type(other), path
        for field in dataclasses.fields(one):
            _assert_alike(
                getattr(one, field.name), getattr(other, field.name), f"{path}.{field.name}"
            )
    elif isinstance(one, tuple):
        assert isinstance(other, tuple)
        assert len(one) == len(other), path
        for number, (a, b) in enumerate(zip(one, other, strict=True)):
            _assert_alike(a, b, f"{path}[{number}]")
    elif isinstance(one, float):
        assert one == pytest.approx(other, rel=1e-9), path
    else:
        assert one == other, path


@pytest.mark.parametrize("stem", builtin_ships())
def test_every_built_in_ship_comes_back_as_it_was(stem: str) -> None:
    ship = builtin_ship(stem)
    _assert_alike(_back(ship), ship)


def test_an_edited_ship_comes_back_as_it_was() -> None:
    ship = builtin_ship("general_cargo")
    sectors = (
        BlindSector(from_relative_deg=355.0, to_relative_deg=5.0, cause='mast "A" \\ jib'),
        BlindSector(from_relative_deg=170.0, to_relative_deg=190.0, is_shadow=True),
    )
    radar = replace(
        ship.radars[0],
        load_conditions=(LoadCondition(name="deck cargo", blind_sectors=sectors),),
        blind_sectors=sectors,
        losses_db=4.0,
    )
    edited = replace(
        ship,
        name="Käthe ½",
        load_condition="deck cargo",
        reference=ShipPoint(from_stern_m=20.0, to_starboard_m=-3.5),
        conning=None,
        turn_radius_m=800.0,
        turns=(
            replace(ship.turns[0], speed_mps=mps_from_kn(6.0), radius_m=700.0),
            replace(ship.turns[0], speed_mps=mps_from_kn(12.0), radius_m=900.0),
        ),
        radars=(radar, replace(ship.radars[1], load_conditions=())),
    )
    _assert_alike(_back(edited), edited)
