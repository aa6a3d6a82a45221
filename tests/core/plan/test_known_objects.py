"""Letters stay with their objects from one revision to the next."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.geodesy.position import Position
from core.plan.feature import Feature
from core.plan.known_objects import all_known, kept_letters, moved_m, place_of
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
    assert all_known(world, now) == world


def test_a_known_object_keeps_its_first_place_so_that_its_letter_cannot_wander() -> None:
    # Four revisions, each 150 m (0.00135 deg of latitude) farther; an islet counts as the same
    # up to 200 m from where it got its letter, so the second step already is another object.
    first = Position(lat_deg=50.0, lon_deg=-5.0)
    known: tuple[KnownObject, ...] = (KnownObject(id="A", kind=ObjectKind.ISLET, position=first),)
    kept = []
    for step in range(4):
        place = Position(lat_deg=50.0 + 0.00135 * step, lon_deg=-5.0)
        kept.append(kept_letters({"k": (ObjectKind.ISLET, place)}, known).get("k"))
        known = all_known(known, (replace(known[0], position=place),))
    assert kept == ["A", "A", None, None]
    assert [thing.position for thing in known] == [first]


def test_how_far_an_object_lies_from_where_it_got_its_letter() -> None:
    # One second of latitude at 50 N is 30.90 m (WGS-84 meridian radius 6 372 956 m there, worked
    # by hand), so 6 seconds are 185.4 m.
    known = _known(_world(1))
    now = {"x0": Position(lat_deg=50.0 + 6.0 / 3600.0, lon_deg=-5.0), "Y": known[0].position}
    assert moved_m(now, known) == {"x0": pytest.approx(185.4, abs=0.1)}


def test_matching_works_across_the_date_line() -> None:
    known = (
        KnownObject(
            id="A", kind=ObjectKind.PEAK, position=Position(lat_deg=-17.0, lon_deg=179.9999)
        ),
    )
    found = {"k": (ObjectKind.PEAK, Position(lat_deg=-17.0, lon_deg=-179.9999))}
    assert kept_letters(found, known) == {"k": "A"}


def _feature(key: str, *places: tuple[int, float, float]) -> Feature:
    """A stretch of waterline: number of the coast point, latitude and longitude of each."""
    return Feature(
        key=key,
        kind=ObjectKind.HEADLAND,
        lat_deg=np.array([lat for _n, lat, _lon in places]),
        lon_deg=np.array([lon for _n, _lat, lon in places]),
        point_index=np.array([n for n, _lat, _lon in places], dtype=np.int64),
        height_m=40.0,
        rise=None,
        extent_m=500.0,
        rounding_m=100.0,
        isolation_m=None,
    )


def test_a_headland_is_known_by_its_tip_whichever_leg_looks_at_it() -> None:
    # Another leg may see a stretch that does not reach the tip the headland is known by.
    beside = _feature("point 7", (3, 50.0, -5.0), (4, 50.1, -5.0))
    with_tip = _feature("point 7", (6, 50.3, -5.0), (7, 50.4, -5.2), (8, 50.3, -5.4))
    tip = Position(lat_deg=50.4, lon_deg=-5.2)
    assert place_of([beside, with_tip]) == place_of([with_tip]) == tip


def test_the_middle_of_an_islet_on_the_date_line_lies_on_it() -> None:
    islet = _feature("line 2", (0, -17.0, 179.99), (1, -17.02, -179.99))
    place = place_of([islet])
    assert place.lat_deg == pytest.approx(-17.01)
    assert abs(place.lon_deg) == pytest.approx(180.0)
