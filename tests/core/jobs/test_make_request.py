from dataclasses import replace

import pytest

from core.base.errors import InputError
from core.files.project import Options, Project
from core.jobs.demo import demo_project
from core.jobs.make_request import make_request
from core.plan.plan_result import Override


@pytest.fixture
def project() -> Project:
    return demo_project()


def test_every_file_that_goes_in_is_on_the_receipt(project: Project) -> None:
    inputs = make_request(project).inputs
    assert [item.role for item in inputs] == ["route", "ship", "marks", "limits"]
    assert all(len(item.sha256) == 64 for item in inputs)


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
        (Options(refraction_k=0.0), "refraction factor k 0 is not between"),
        (Options(radius_m=1e6), "sweep radius"),
        (Options(corridor_m=0.0), "corridor 0 NM"),
        (Options(speed_mps=0.0), "the speed is not between"),
    ],
)
def test_an_option_nobody_can_mean_is_one_sentence(
    project: Project, options: Options, sentence: str
) -> None:
    with pytest.raises(InputError, match=sentence):
        make_request(replace(project, options=options))


def test_no_route_and_no_land_are_told_apart(project: Project) -> None:
    with pytest.raises(InputError, match="no route is given"):
        make_request(replace(project, route=None))
    with pytest.raises(InputError, match="no land data is given"):
        make_request(replace(project, land=()))


def test_a_choice_by_letter_is_to_be_checked_and_one_by_name_is_not(project: Project) -> None:
    by_letter = Override(leg_number=4, role="primary", object_id="F")
    by_name = Override(leg_number=4, role="primary", object_id="Ruskel Light")
    for override, wanted in ((by_letter, True), (by_name, False)):
        codes = [f.code for f in make_request(replace(project, overrides=(override,))).findings]
        assert ("choices-by-letter" in codes) is wanted
