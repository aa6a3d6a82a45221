"""The whole job on the four real passages, with their land data and a 25 m antenna.

Land: SRTM 3 arc-seconds (public domain) and GSHHG 2.3.7 (LGPL); routes made for these tests.
"""

import itertools
import json
from dataclasses import replace
from pathlib import Path

import jsonschema
import numpy as np
import pytest

from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.coverage.object_echo import bin_rad_of, piece_margins_db
from core.coverage.object_light import light_pieces
from core.coverage.piece_light import Eye, Pieces
from core.coverage.terrain import prepare_terrain
from core.files.plan_json import plan_bytes
from core.files.project import Options, Project
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexObject, KnownObject, Mark, ObjectKind, Plan, Role
from core.plan.request import Request
from tests.helpers.independent_ray import land_in_sight_near

PASSAGES = {
    "HoweSound_Squamish": "bc_howe_sound",
    "Ischia_BoccaPiccola_Salerno": "italy_naples_capri",
    "Arran_KilbrannanSound": "scotland_lorn_kintyre",
    "FirthOfLorn_SoundOfMull": "scotland_lorn_kintyre",
}
_REACH_M = 500.0
"""How far round an object's edge its echo may come from."""
SCHEMA = Path(__file__).resolve().parents[2] / "resources" / "schema" / "plan-1.schema.json"

pytestmark = pytest.mark.slow


def _request(
    name: str,
    real_data: Path,
    *,
    radius_nm: float = 24.0,
    tide_m: float | None = None,
    known: tuple[KnownObject, ...] = (),
) -> Request:
    folder = real_data / PASSAGES[name]
    project = Project(
        route=folder / "routes" / f"{name}.rtz",
        land=(
            folder / "dem_srtm3.tif",
            folder / "coast_gshhg_f_land.geojson",
            folder / "coast_gshhg_f_lines.geojson",
        ),
        options=Options(
            antenna_height_m=25.0,
            radius_m=m_from_nm(radius_nm),
            tide_m=tide_m,
            mean_sea_level_m=None if tide_m is None else 0.0,
        ),
        known_objects=known,
    )
    return make_request(project)


def _planned(
    name: str,
    real_data: Path,
    *,
    radius_nm: float = 24.0,
    tide_m: float | None = None,
    known: tuple[KnownObject, ...] = (),
) -> Outcome:
    request = _request(name, real_data, radius_nm=radius_nm, tide_m=tide_m, known=known)
    return plan_passage(request, Quiet())


@pytest.fixture(scope="module", params=sorted(PASSAGES))
def outcome(request: pytest.FixtureRequest, real_data: Path) -> Outcome:
    return _planned(request.param, real_data)


def test_every_leg_has_an_index_line_or_a_printed_reason(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        primary = [line for line in leg.lines if line.role is Role.PRIMARY]
        assert bool(primary) != bool(leg.no_index_reason), f"leg {leg.leg_index + 1}"


def test_every_leg_has_scales_over_its_whole_length(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        main = [s for s in leg.scales if s.radar == leg.scales[0].radar]
        assert main[0].from_along_m == pytest.approx(0.0, abs=1.0)
        assert main[-1].to_along_m == pytest.approx(leg.distance_m, abs=1.0)
        for earlier, later in itertools.pairwise(main):
            assert earlier.to_along_m == pytest.approx(later.from_along_m, abs=1.0)


def test_windows_lie_on_their_leg_and_before_the_wheel_over(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        end = leg.distance_m if leg.wheel_over is None else leg.wheel_over.along_m
        for line in leg.lines:
            assert -1e-6 <= line.from_along_m <= line.to_along_m <= leg.distance_m + 1e-6
            if line.role in (Role.PRIMARY, Role.CHECK):
                assert line.to_along_m <= max(end, 0.0) + 1.0


def test_nothing_floating_is_indexed(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        for line in leg.lines:
            assert line.object.is_fixed
            assert line.object.kind is not ObjectKind.PEAK


def test_floating_marks_beside_every_leg_are_shown_and_never_indexed(real_data: Path) -> None:
    name = "HoweSound_Squamish"
    request = _request(name, real_data)
    marks = []
    for number in range(len(request.passage.legs)):
        line = request.passage.line(number)
        lat, lon = line.offset(np.array([line.length_m / 2.0]), np.array([m_from_nm(0.5)]))
        marks.append(
            Mark(
                name=f"Invented Buoy {number + 1}",
                position=Position(lat_deg=float(lat[0]), lon_deg=float(lon[0])),
                height_above_water_m=4.0,
                is_fixed=False,
                kind="buoy",
            )
        )
    plan = plan_passage(replace(request, marks=tuple(marks)), Quiet()).plan
    names = {mark.name for mark in marks}
    told = {thing.id for leg in plan.legs for thing, _reason in leg.candidates} & names
    assert told
    for leg in plan.legs:
        assert not names & {line.object.id for line in leg.lines}
        assert not names & {look.object.id for look in leg.looks}
        assert not names & {line.fallback.object_id for line in leg.lines if line.fallback}


def test_index_objects_are_in_sight_at_both_ends_of_their_windows(outcome: Outcome) -> None:
    land, settings = outcome.land, outcome.coverage.settings
    hidden = []
    for leg in outcome.plan.legs:
        line = outcome.plan.passage.line(leg.leg_index)
        for index in leg.lines:
            if index.role not in (Role.PRIMARY, Role.CHECK):
                continue
            for along in (index.from_along_m, index.to_along_m):
                own = line.position_at(along)
                if not land_in_sight_near(
                    land,
                    from_lat_deg=own.lat_deg,
                    from_lon_deg=own.lon_deg,
                    to_lat_deg=index.object.position.lat_deg,
                    to_lon_deg=index.object.position.lon_deg,
                    antenna_height_m=settings.antenna_height_m,
                    refraction_k=settings.refraction_k,
                    within_m=200.0,
                ):
                    hidden.append(f"leg {leg.leg_index + 1} {index.object.id} at {along:.0f} m")
    assert hidden == []


def test_index_objects_are_detected_at_both_ends_of_their_windows(outcome: Outcome) -> None:
    """The margin of the echo at the very ends, by the walk that first paint uses.

    Windows rest on sweeps from viewpoints near by, so this is another way to the same answer.
    """
    budget, land = outcome.coverage.budget, outcome.land
    assert budget is not None
    terrain = prepare_terrain(land)
    lost, count = [], 0
    for leg in outcome.plan.legs:
        line = outcome.plan.passage.line(leg.leg_index)
        for index in leg.lines:
            if index.role not in (Role.PRIMARY, Role.CHECK):
                continue
            thing = index.object
            for along in (index.from_along_m, index.to_along_m):
                light = light_pieces(
                    terrain,
                    line.position_at(along),
                    Pieces(
                        lat_deg=np.array([thing.position.lat_deg]),
                        lon_deg=np.array([thing.position.lon_deg]),
                        reach_m=np.array([_REACH_M]),
                        height_m=np.array([thing.height_above_water_m]),
                    ),
                    np.array([0]),
                    Eye(
                        antenna_height_m=budget.antenna_height_m,
                        refraction_k=budget.conditions.refraction_k,
                    ),
                    cell_m=max(outcome.plan.legs[0].looks[0].confidence.cell_m / 2.0, 30.0),
                    bin_rad=bin_rad_of(budget),
                )
                (margin_db,) = piece_margins_db(light, budget)
                count += 1
                if not margin_db >= 0.0:
                    lost.append(f"leg {leg.leg_index + 1} {thing.id} {along:.0f} m {margin_db:.1f}")
    assert count > 0
    assert lost == []


def test_marked_objects_say_what_they_are_and_how_sure_that_is(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        looks = {look.object.id: look for look in leg.looks}
        assert [look.place for look in leg.looks] == list(range(1, len(leg.looks) + 1))
        assert leg.data_grain_m is not None
        # Two of the cells of 3 arc-seconds, north to south.
        assert leg.data_grain_m >= 180.0
        for index in leg.lines:
            if index.role not in (Role.PRIMARY, Role.CHECK):
                continue
            look = looks[index.object.id]
            assert look.object.confirm_on_chart
            assert look.confidence.least_margin_db is not None
            assert look.confidence.least_margin_db >= 0.0
            weak = {item.object.id for item in leg.looks if item.is_weak}
            assert index.role is Role.PRIMARY or index.object.id not in weak
        if any(not look.is_weak for look in leg.looks):
            assert not leg.looks[0].is_weak


def test_hand_overs_are_long_enough_or_the_best_there_is(outcome: Outcome) -> None:
    for leg in outcome.plan.legs:
        for change in leg.hand_overs:
            assert change.agreement_m > 0.0
            assert change.fallback not in (change.from_object, change.to_object)
        watch = leg.corridor_watch
        has_primary = any(line.role is Role.PRIMARY for line in leg.lines)
        assert (watch is not None) == has_primary


def test_letters_are_unique_over_the_passage(outcome: Outcome) -> None:
    ids = [item.id for item in outcome.plan.objects]
    assert len(ids) == len(set(ids))


def test_the_plan_file_fits_its_schema(outcome: Outcome) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(json.loads(plan_bytes(outcome)))


def test_letters_stay_with_their_places_under_other_conditions(real_data: Path) -> None:
    name = "Ischia_BoccaPiccola_Salerno"
    known = _planned(name, real_data).plan.known_objects
    fresh = _planned(name, real_data, radius_nm=12.0, tide_m=3.0).plan
    kept = _planned(name, real_data, radius_nm=12.0, tide_m=3.0, known=known).plan
    assert kept.known_objects[: len(known)] == known
    # Both find the same objects; where each is, the first plan without letters to keep says.
    letters = {
        one.id: other.id for one, other in zip(_in_order(fresh), _in_order(kept), strict=True)
    }
    old = {(thing.kind, thing.position): thing.id for thing in known}
    held = [t for t in fresh.known_objects if (t.kind, t.position) in old]
    assert held
    assert {letters[t.id]: t.position for t in held} == {
        old[t.kind, t.position]: t.position for t in held
    }
    reserved = {thing.id for thing in known}
    places = {thing.id: thing.position for thing in known}
    for thing in fresh.known_objects:
        letter = letters[thing.id]
        if letter in reserved:
            assert _apart_m(places[letter], thing.position) <= 1_000.0


def _in_order(plan: Plan) -> list[IndexObject]:
    return sorted(plan.objects, key=lambda o: (o.position.lat_deg, o.position.lon_deg, o.name))


def _apart_m(one: Position, other: Position) -> float:
    apart, _bearing, _final = geodesic.inverse(
        from_lat_deg=one.lat_deg,
        from_lon_deg=one.lon_deg,
        to_lat_deg=other.lat_deg,
        to_lon_deg=other.lon_deg,
    )
    return float(apart)


def test_a_second_run_gives_the_same_plan(real_data: Path) -> None:
    name = "Ischia_BoccaPiccola_Salerno"
    outcome = _planned(name, real_data)
    again = _planned(name, real_data, known=outcome.plan.known_objects)
    first, second = (json.loads(plan_bytes(made)) for made in (outcome, again))
    for document in (first, second):
        document["receipt"].pop("created_utc")
        document["receipt"].pop("timings_s")
    assert first == second
