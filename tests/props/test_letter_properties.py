"""Letters from revision to revision, over drawn archipelagos; all land is invented."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.geodesy import geodesic
from core.geodesy.position import Position
from core.plan.plan_result import KnownObject, Plan
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned

Revision = tuple[tuple[int, ...], float, float]
"""Which islets the land holds, the radius swept, NM, and the water above the land's zero, m."""

_SPOTS = (
    (-2.4, -5.0, 44.0),
    (1.2, -3.5, 9.0),
    (-0.9, -2.0, 30.0),
    (3.1, -1.0, 6.0),
    (0.8, 0.5, 21.0),
    (-1.7, 1.5, 4.0),
    (2.2, 2.6, 55.0),
    (-3.4, 4.0, 12.0),
)
"""Miles east and north, and height, m: more than a mile apart."""

revisions = st.lists(
    st.tuples(
        st.sets(st.integers(0, len(_SPOTS) - 1), min_size=1).map(lambda s: tuple(sorted(s))),
        st.sampled_from((3.0, 6.0, 12.0)),
        st.sampled_from((0.0, 3.0, 7.0)),
    ),
    min_size=2,
    max_size=4,
)
few = settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


def _plan(revision: Revision, known: tuple[KnownObject, ...]) -> Plan:
    numbers, radius_nm, water_m = revision
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=120.0)
    for number in numbers:
        east, north, height = _SPOTS[number]
        if height > water_m:
            sea = sea.land(islet(east * NM, north * NM, width_m=240.0), height - water_m)
    sea = sea.land(islet(13.0 * NM, 13.0 * NM), 1.0)
    land = sea.model()
    passage = track((0.0, -6.0 * NM), (0.0, 3.0 * NM), (3.0 * NM, 6.0 * NM))
    coverage = covered(land, passage, radius_m=radius_nm * NM)
    return planned(
        land, passage, coverage, marks=(mark("C", 0.6 * NM, -5.5 * NM),), known_objects=known
    )


def _apart_m(one: Position, other: Position) -> float:
    apart, _bearing, _final = geodesic.inverse(
        from_lat_deg=one.lat_deg,
        from_lon_deg=one.lon_deg,
        to_lat_deg=other.lat_deg,
        to_lon_deg=other.lon_deg,
    )
    return float(apart)


@few
@given(revisions)
def test_a_letter_is_one_place_in_every_revision(drawn: list[Revision]) -> None:
    known: tuple[KnownObject, ...] = ()
    places: dict[str, Position] = {}
    for revision in drawn:
        plan = _plan(revision, known)
        ids = [thing.id for thing in plan.objects]
        assert len(ids) == len(set(ids))
        for thing in plan.objects:
            # Edge points of islets 240 m wide, from any side, lie within 340 m of each other;
            # no two islets are nearer than a mile.
            assert _apart_m(places.setdefault(thing.id, thing.position), thing.position) < 340.0
        for letter, place in places.items():
            same = [o.id for o in plan.objects if _apart_m(o.position, place) < 340.0]
            assert same in ([], [letter])
        assert plan.known_objects[: len(known)] == known
        known = plan.known_objects


@few
@given(revisions)
def test_planning_the_last_revision_again_changes_nothing(drawn: list[Revision]) -> None:
    last = _plan(drawn[0], ())
    for revision in drawn[1:]:
        last = _plan(revision, last.known_objects)
    again = _plan(drawn[-1], last.known_objects)
    assert (again.legs, again.objects) == (last.legs, last.objects)
    assert again.known_objects == last.known_objects


@few
@given(revisions)
def test_a_first_plan_knows_what_it_would_know_of_itself(drawn: list[Revision]) -> None:
    fresh = _plan(drawn[0], ())
    again = _plan(drawn[0], fresh.known_objects)
    assert (again.legs, again.objects) == (fresh.legs, fresh.objects)
    assert again.known_objects == fresh.known_objects
    assert not again.are_letters_kept
