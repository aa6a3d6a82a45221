"""Letters stay with their objects from one revision to the next."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from core.geodesy.position import Position
from core.plan.known_objects import all_known, kept_letters
from core.plan.plan_result import KnownObject, ObjectKind

_KINDS = (ObjectKind.ISLET, ObjectKind.HEADLAND, ObjectKind.STEEP_SHORE)
_APART_DEG = 0.02
"""More than a mile at these latitudes: every object is nearest to its own old place."""


def _world(count: int) -> dict[str, tuple[ObjectKind, Position]]:
    return {
        f"thing {i}": (
            _KINDS[i % 3],
            Position(lat_deg=50.0 + _APART_DEG * (i // 6), lon_deg=-5.0 + 2 * _APART_DEG * (i % 6)),
        )
        for i in range(count)
    }


def _known(world: dict[str, tuple[ObjectKind, Position]]) -> tuple[KnownObject, ...]:
    return tuple(
        KnownObject(id=f"X{key.removeprefix('thing ')}", kind=kind, position=position)
        for key, (kind, position) in world.items()
    )


@given(
    before=st.sets(st.integers(0, 17)),
    now=st.sets(st.integers(0, 17)),
    shift=st.floats(-0.001, 0.001),
)
def test_whatever_is_found_again_keeps_its_letter(
    before: set[int], now: set[int], shift: float
) -> None:
    world = _world(18)
    known = tuple(k for k in _known(world) if int(k.id[1:]) in before)
    # 0.001 deg of latitude is 111 m: other land data move an object about so much.
    found = {
        f"thing {i}": (
            world[f"thing {i}"][0],
            replace(world[f"thing {i}"][1], lat_deg=world[f"thing {i}"][1].lat_deg + shift),
        )
        for i in now
    }
    letters = kept_letters(found, known)
    assert letters == {f"thing {i}": f"X{i}" for i in before & now}


def test_a_neighbour_of_another_kind_or_too_far_gets_no_old_letter() -> None:
    place = Position(lat_deg=50.0, lon_deg=-5.0)
    known = (KnownObject(id="A", kind=ObjectKind.ISLET, position=place),)
    far = Position(lat_deg=50.002, lon_deg=-5.0)
    assert kept_letters({"k": (ObjectKind.HEADLAND, place)}, known) == {}
    assert kept_letters({"k": (ObjectKind.ROCK, place)}, known) == {"k": "A"}
    assert kept_letters({"k": (ObjectKind.ISLET, far)}, known) == {}


def test_of_two_near_objects_the_nearer_keeps_the_letter_and_only_it() -> None:
    known = (
        KnownObject(
            id="A", kind=ObjectKind.HEADLAND, position=Position(lat_deg=50.0, lon_deg=-5.0)
        ),
    )
    found = {
        "far": (ObjectKind.HEADLAND, Position(lat_deg=50.002, lon_deg=-5.0)),
        "near": (ObjectKind.STEEP_SHORE, Position(lat_deg=50.001, lon_deg=-5.0)),
    }
    assert kept_letters(found, known) == {"near": "A"}


def test_objects_not_found_now_keep_their_letters_reserved() -> None:
    world = _known(_world(3))
    now = world[:1]
    assert {thing.id for thing in all_known(now, world)} == {thing.id for thing in world}


def test_matching_works_across_the_date_line() -> None:
    known = (
        KnownObject(
            id="A", kind=ObjectKind.PEAK, position=Position(lat_deg=-17.0, lon_deg=179.9999)
        ),
    )
    found = {"k": (ObjectKind.PEAK, Position(lat_deg=-17.0, lon_deg=-179.9999))}
    assert kept_letters(found, known) == {"k": "A"}
