"""Letters from one revision of a whole plan to the next, over invented land."""

from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.plan_result import DangerLimit, Override, Plan, Role
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, findings_of, mark, planned

_FIRST = (1.0, -3.0)
_OTHERS = ((1.2, -1.5), (-0.9, 1.5))


def _scene(*places_nm: tuple[float, float]) -> tuple[LandModel, Passage, Coverage]:
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=60.0)
    for east_nm, north_nm in places_nm:
        sea = sea.land(islet(east_nm * NM, north_nm * NM, width_m=120.0), 38.0)
    land = sea.model()
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM), (5.2 * NM, 7.0 * NM))
    return land, passage, covered(land, passage)


def _letters(plan: Plan) -> dict[tuple[float, float], str]:
    return {
        (round(t.position.lat_deg, 2), round(t.position.lon_deg, 2)): t.id
        for t in plan.objects
        if not t.id.startswith("P")
    }


def test_an_islet_new_in_the_data_takes_no_letter_from_another() -> None:
    before = planned(*_scene(*_OTHERS))
    fresh = planned(*_scene(_FIRST, *_OTHERS))
    assert _letters(before) != {k: v for k, v in _letters(fresh).items() if k in _letters(before)}
    kept = planned(*_scene(_FIRST, *_OTHERS), known_objects=before.known_objects)
    letters = _letters(kept)
    assert {k: letters[k] for k in _letters(before)} == _letters(before)
    assert set(letters.values()) == {"A", "B", "C"}
    assert kept.are_letters_kept


def test_a_choice_follows_its_islet_not_its_letter() -> None:
    before = planned(*_scene(_FIRST, *_OTHERS))
    chosen = Override(leg_number=1, role="primary", object_id="C")
    after = planned(*_scene(*_OTHERS), known_objects=before.known_objects, overrides=(chosen,))
    primaries = {line.object.id for line in after.legs[0].lines if line.role is Role.PRIMARY}
    assert "C" in primaries
    gone = planned(
        *_scene(*_OTHERS),
        known_objects=before.known_objects,
        overrides=(Override(leg_number=1, role="primary", object_id="A"),),
    )
    assert findings_of(gone, "choice-unknown") == [1]
    (said,) = [str(f) for f in gone.findings if f.code == "choice-unknown"]
    assert (
        "the chosen object A is known from an earlier plan but not found in sight this time" in said
    )
    assert "A" in {thing.id for thing in gone.known_objects}


def test_a_chosen_object_that_moved_is_told_and_others_are_not() -> None:
    # 150 m east: within the 200 m that an islet may move, beyond the 100 m told about.
    east_nm = _FIRST[0] + 150.0 / NM
    before = planned(*_scene(_FIRST, *_OTHERS))
    after = planned(
        *_scene((east_nm, _FIRST[1]), *_OTHERS),
        known_objects=before.known_objects,
        overrides=(
            Override(leg_number=1, role="primary", object_id="A"),
            Override(leg_number=1, role="check", object_id="B"),
        ),
        limits=(DangerLimit(object_id="a", leg_number=None, least_m=100.0, most_m=None),),
    )
    said = [f for f in after.findings if f.code == "choice-moved"]
    assert [(f.what.split(",")[0], f.where.leg_number) for f in said] == [("A", 1), ("a", None)]
    assert all("150 m from where it got its letter" in f.what for f in said)
    again = planned(
        *_scene((east_nm, _FIRST[1]), *_OTHERS),
        known_objects=after.known_objects,
        overrides=(Override(leg_number=1, role="primary", object_id="A"),),
    )
    assert findings_of(again, "choice-moved") == [1]


def test_a_chosen_object_stays_however_many_do_better() -> None:
    # Better ones than the letters a leg gives away stand about it in the new data.
    far = (-2.5, -1.0)
    before = planned(*_scene(far))
    many = tuple((side * 0.9, -3.6 + 0.55 * i) for i in range(13) for side in (1.0, -1.0))
    scene = _scene(far, *many)
    plain = planned(*scene, known_objects=before.known_objects)
    assert "A" not in {thing.id for thing in plain.objects}
    assert "A" in {thing.id for thing in plain.known_objects}
    chosen = Override(leg_number=1, role="primary", object_id="a")
    after = planned(*scene, known_objects=before.known_objects, overrides=(chosen,))
    assert not findings_of(after, "choice-unknown")
    assert "A" in {line.object.id for line in after.legs[0].lines if line.override is not None}
    others = {k: v for k, v in _letters(after).items() if v != "A"}
    assert others == _letters(plain)


def test_a_mark_that_takes_a_known_letter_as_its_name_is_told() -> None:
    before = planned(*_scene(_FIRST, *_OTHERS))
    after = planned(
        *_scene(_FIRST, *_OTHERS),
        known_objects=before.known_objects,
        marks=(mark("B", -1.0 * NM, 2.0 * NM),),
        overrides=(Override(leg_number=1, role="primary", object_id="B"),),
    )
    assert findings_of(after, "choice-moved") == [1]
    ids = [thing.id for thing in after.objects]
    assert len(ids) == len(set(ids))
    assert ids.count("B") == 1
    assert "D" in ids


def test_planning_again_with_the_same_land_changes_no_letter() -> None:
    scene = _scene(_FIRST, *_OTHERS)
    before = planned(*scene)
    again = planned(*scene, known_objects=before.known_objects)
    assert not again.are_letters_kept
    assert again.legs == before.legs
    assert again.known_objects == before.known_objects
