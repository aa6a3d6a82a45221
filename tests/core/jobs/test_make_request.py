from dataclasses import replace
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.units import mps_from_kn
from core.files.project import Options, Project
from core.jobs.demo import demo_project
from core.jobs.make_request import make_request
from core.jobs.reverse_project import reversed_project
from core.passage.reverse import reversed_passage
from core.passage.stream import Leeway, LegStream, Stream
from core.plan.leg_rules import rules_for
from core.plan.plan_result import KnownObject, ObjectKind, Override
from core.plan.rules import DEFAULT_RULES
from tests.helpers.land_files import write_tif


@pytest.fixture
def project() -> Project:
    return demo_project()


def test_every_file_that_goes_in_is_on_the_receipt(project: Project) -> None:
    inputs = make_request(project).inputs
    roles = ["route", "ship", "marks", "limits", "contingencies"]
    assert [item.role for item in inputs] == roles
    assert all(len(item.sha256) == 64 for item in inputs)


def test_kinds_of_ground_go_in_with_their_table(project: Project, tmp_path: Path) -> None:
    raster = write_tif(tmp_path / "ground.tif", [[50]], west=0.0, north=1.0, cell=1.0)
    raster.with_suffix(".csv").write_text("code,class\n50,metropolitan\n", encoding="utf-8")
    request = make_request(replace(project, classes=raster))
    assert [(item.role, item.name) for item in request.inputs][-1] == ("classes", "ground.csv")
    assert request.ground is not None
    assert request.ground.path == raster
    assert make_request(project).ground is None


def test_streams_of_legs_go_in_with_those_of_the_passage(project: Project, tmp_path: Path) -> None:
    table = tmp_path / "streams.csv"
    table.write_text("leg,set,drift,leeway\n2,045,1.5,\n", encoding="utf-8")
    everywhere = Options(set_deg=360.0, drift_mps=0.5, leeway_starboard_deg=4.0)
    request = make_request(replace(project, streams=table, options=everywhere))
    assert ("streams", "streams.csv") in [(item.role, item.name) for item in request.inputs]
    first, second = request.streams.on(1), request.streams.on(2)
    assert first.stream == Stream(set_deg=0.0, drift_mps=0.5)
    assert second.stream == Stream(set_deg=45.0, drift_mps=mps_from_kn(1.5))
    assert first.leeway == second.leeway == Leeway(to_starboard_deg=4.0)


def test_a_stream_for_a_leg_that_is_not_there_is_refused(project: Project, tmp_path: Path) -> None:
    table = tmp_path / "streams.csv"
    table.write_text("leg,set,drift\n99,045,1.5\n", encoding="utf-8")
    with pytest.raises(
        InputError, match=r"streams\.csv: a stream is given for leg 99, the passage has \d+ legs"
    ):
        make_request(replace(project, streams=table))


def test_tide_and_mean_sea_level_give_the_water_level(project: Project) -> None:
    # Tide 5.2 m, mean sea level 3.0 m above chart datum: land of 20 m stands 17.8 m above the
    # water (computed by hand).
    options = Options(tide_m=5.2, mean_sea_level_m=3.0)
    level = make_request(replace(project, options=options)).environment.water_level_m
    assert 20.0 - level == pytest.approx(17.8)


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (Options(tide_m=3.0), "given without mean sea level"),
        (Options(mean_sea_level_m=3.0), "given without the height of tide"),
        (Options(antenna_height_m=0.0), "antenna height above water 0 m is not between"),
        (Options(tidal_range_m=0.0), "tidal range 0 m is not between 0.1 and 20 m"),
        (Options(low_water_m=0.5), "only one of low and high water"),
        (Options(low_water_m=0.5, high_water_m=5.0), "without mean sea level"),
        (
            Options(tide_m=2.0, mean_sea_level_m=3.0, low_water_m=5.0, high_water_m=0.5),
            "low water 5 m is not below high water 0.5 m",
        ),
        (Options(refraction_k=0.0), "refraction factor k 0 is not between"),
        (Options(radius_m=1e6), "sweep radius"),
        (Options(traffic_speed_mps=0.1), "speed of traffic 0.194 kn is not between 1 and 100 kn"),
        (Options(decision_time_s=5.0), "decision time 0.0833 min is not between 1 and 60 min"),
        (Options(fix_interval_s=9000.0), "interval of fixes 150 min is not between 1 and 120 min"),
        (Options(overlap_s=30.0), "overlap at a hand-over 0.5 min is not between 1 and 60 min"),
        (Options(corridor_m=0.0), "corridor 0 NM"),
        (Options(pass_off_m=-1.0), "passing distance -0.0005.* NM is not between 0 and 5 NM"),
        (Options(speed_mps=0.0), "the speed is not between"),
        (Options(set_deg=45.0), "the set of a stream is given without its drift"),
        (Options(drift_mps=1.0), "the drift of a stream is given without its set"),
        (Options(set_deg=361.0, drift_mps=1.0), "the set 361 degrees is not between"),
        (Options(set_deg=1.0, drift_mps=11.0), r"the drift 21\.\d* kn is not between 0 and 20 kn"),
        (Options(leeway_port_deg=50.0), "leeway to port 50 degrees is not between 0 and 45"),
    ],
)
def test_an_option_nobody_can_mean_is_one_sentence(
    project: Project, options: Options, sentence: str
) -> None:
    with pytest.raises(InputError, match=sentence):
        make_request(replace(project, options=options))


def test_what_scales_and_fixes_are_planned_with_reaches_the_rules(project: Project) -> None:
    options = Options(
        traffic_speed_mps=mps_from_kn(30.0),
        decision_time_s=720.0,
        fix_interval_s=180.0,
        pass_off_m=185.2,
        overlap_s=300.0,
    )
    environment = make_request(replace(project, options=options)).environment
    rules = rules_for(environment, DEFAULT_RULES)
    assert rules.other_speed_mps == mps_from_kn(30.0)
    assert rules.pass_off_m == 185.2
    assert (rules.decision_time_s, rules.fix_interval_s) == (720.0, 180.0)
    assert rules.overlap_s == 300.0
    given = make_request(project).environment
    assert rules_for(given, DEFAULT_RULES) == DEFAULT_RULES


def test_places_among_the_marks_are_no_marks_to_index_on(project: Project, tmp_path: Path) -> None:
    marks = tmp_path / "marks.csv"
    marks.write_text(
        "name,lat,lon,kind,fixed,height_m\nMouth,47.18,-31.53,harbour mouth,,\n"
        "Beacon,47.2,-31.6,beacon,yes,9\n"
    )
    request = make_request(replace(project, marks=marks))
    assert [mark.name for mark in request.marks] == ["Beacon"]
    assert [mark.name for mark in request.places] == ["Mouth"]


def test_no_route_and_no_land_are_told_apart(project: Project) -> None:
    with pytest.raises(InputError, match="no route is given"):
        make_request(replace(project, route=None))
    with pytest.raises(InputError, match="no land data is given"):
        make_request(replace(project, land=()))


def _islet(letter: str, *, off_deg: float = 0.0) -> KnownObject:
    """A known islet near the demo's waters, or so far north of them."""
    start = make_request(demo_project()).passage.waypoints[0].position
    position = replace(start, lat_deg=start.lat_deg + off_deg)
    return KnownObject(id=letter, kind=ObjectKind.ISLET, position=position)


@pytest.mark.parametrize(
    ("object_id", "known", "wanted"),
    [
        ("F", (), True),
        ("f", (), True),
        ("P2", (), True),
        ("F", ("A", "B"), True),
        ("F", ("A", "F"), False),
        ("f ", ("A", "F"), False),
        ("Ruskel Light", (), False),
        ("RUSKEL", (), False),
    ],
)
def test_a_letter_is_to_be_checked_unless_an_earlier_plan_says_what_it_is(
    project: Project, object_id: str, known: tuple[str, ...], wanted: bool
) -> None:
    override = Override(leg_number=4, role="primary", object_id=object_id)
    things = tuple(_islet(letter) for letter in known)
    made = make_request(replace(project, overrides=(override,), known_objects=things))
    assert ("choices-by-letter" in [f.code for f in made.findings]) is wanted
    assert made.known_objects == things


def test_objects_of_other_waters_are_left_behind_unless_one_is_named(project: Project) -> None:
    # Two degrees of latitude are 120 NM: farther than any object of a passage.
    far = _islet("A", off_deg=-2.0 - 2.0)
    made = make_request(replace(project, known_objects=(far,)))
    assert made.known_objects == ()
    assert [f.code for f in made.findings if f.code.startswith("letters")] == ["letters-anew"]
    both = (far, _islet("B"))
    assert make_request(replace(project, known_objects=both)).known_objects == both
    named = (Override(leg_number=1, role="primary", object_id="a"),)
    kept = make_request(replace(project, known_objects=(far,), overrides=named))
    assert kept.known_objects == (far,)


def test_turned_round_the_danger_limits_go_with_their_legs(
    project: Project, tmp_path: Path
) -> None:
    path = tmp_path / "limits.csv"
    path.write_text("object,leg,not_less_than_nm\nA,1,0.8\nB,,0.5\nC,99,0.4\n")
    project = replace(project, limits=path)
    there, back = make_request(project), make_request(reversed_project(project))
    count = len(there.passage.legs)
    assert [limit.leg_number for limit in there.limits] == [1, None, 99]
    assert [limit.leg_number for limit in back.limits] == [count, None, 99]
    assert back.passage == reversed_passage(there.passage)
    assert "passage-reversed" in [finding.code for finding in back.findings]
    again = make_request(reversed_project(reversed_project(project)))
    assert (again.passage, again.limits) == (there.passage, there.limits)


def test_a_table_of_streams_counts_the_legs_of_the_route_either_way(
    project: Project, tmp_path: Path
) -> None:
    # The same water and the same wind on the opposite course: leeway changes sides.
    table = tmp_path / "streams.csv"
    table.write_text("leg,set,drift,leeway\n2,045,1.5,+4\n", encoding="utf-8")
    count = len(make_request(project).passage.legs)
    back = make_request(replace(reversed_project(project), streams=table)).streams
    stream = Stream(set_deg=45.0, drift_mps=mps_from_kn(1.5))
    assert back.on(count - 1) == LegStream(stream=stream, leeway=Leeway(to_port_deg=4.0))
    assert back.on(2) == LegStream()
