"""Every sheet of the demo and of four real passages, in the font in which it is printed.

Land of the real ones: SRTM 3 arc-seconds (public domain) and GSHHG 2.3.7 (LGPL).
"""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.paint.measure import QtMeasure
from app.paint.qt_setup import load_fonts
from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.project import Options, Project
from core.jobs.check_pictures import check_pictures, landfall_pictures
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.picture.display_chain import Paint
from core.plan.outcome import Outcome
from core.plan.tune_result import Rung
from core.sheets.book import make_book
from core.sheets.check_picture import CheckPicture
from core.sheets.page import Page, Rectangle
from core.sheets.strip_block import make_strip
from core.words.bridge_words import Bridge
from core.words.messages import Say
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.readable import (
    cut_texts,
    off_page,
    on_ruler,
    outside,
    overlaps,
    small_texts,
    words_of,
)
from tests.helpers.ringed_echoes import codes_round

_REAL = {
    "HoweSound_Squamish": "bc_howe_sound",
    "Ischia_BoccaPiccola_Salerno": "italy_naples_capri",
    "Arran_KilbrannanSound": "scotland_lorn_kintyre",
    "FirthOfLorn_SoundOfMull": "scotland_lorn_kintyre",
}

pytestmark = pytest.mark.slow


def _real_project(name: str, real_data: Path) -> Project:
    folder = real_data / _REAL[name]
    return Project(
        route=folder / "routes" / f"{name}.rtz",
        land=(
            folder / "dem_srtm3.tif",
            folder / "coast_gshhg_f_land.geojson",
            folder / "coast_gshhg_f_lines.geojson",
        ),
        options=Options(antenna_height_m=25.0, radius_m=m_from_nm(12.0)),
    )


@pytest.fixture(scope="module", params=["demo", *sorted(_REAL)])
def outcome(request: pytest.FixtureRequest) -> Outcome:
    if request.param == "demo":
        return demo_outcome()
    project = _real_project(request.param, request.getfixturevalue("real_data"))
    return plan_passage(make_request(project), Quiet())


@pytest.fixture(scope="module")
def measure(qapp: QApplication) -> QtMeasure:
    load_fonts()
    return QtMeasure()


@pytest.fixture(scope="module")
def pictures(outcome: Outcome) -> tuple[CheckPicture, ...]:
    return check_pictures(outcome, Quiet(), size_px=500)


@pytest.fixture(scope="module")
def pages(
    outcome: Outcome, measure: QtMeasure, pictures: tuple[CheckPicture, ...]
) -> tuple[Page, ...]:
    return make_book(outcome, measure, pictures, landfall_pictures(outcome, Quiet(), size_px=500))


def test_no_text_lies_over_another_or_off_the_paper_or_is_cut_or_small(
    pages: tuple[Page, ...], measure: QtMeasure
) -> None:
    for page in pages:
        assert overlaps(page.items, measure) == []
        assert off_page(page, measure) == []
        assert cut_texts(page.items) == []
        assert small_texts(page.items) == []


@pytest.mark.parametrize("height_mm", [80.0, 170.0])
def test_the_strips_keep_off_the_ruler_and_inside_their_room(
    outcome: Outcome, measure: QtMeasure, height_mm: float
) -> None:
    room = Rectangle(x_mm=77.0, y_mm=60.0, width_mm=122.0, height_mm=height_mm)
    for plan in outcome.plan.legs:
        strip = make_strip(outcome, plan.leg_index, frame=room, measure=measure)
        assert overlaps(strip.items, measure) == []
        assert on_ruler(strip, outcome, plan, measure) == []
        assert outside(strip.items, room, measure) == []


def test_every_object_of_every_leg_stands_in_the_book(
    outcome: Outcome, pages: tuple[Page, ...]
) -> None:
    legs = len(outcome.plan.legs)
    for plan in outcome.plan.legs:
        name = f"Leg {plan.leg_index + 1} of {legs}"
        sheet = words_of(next(page for page in pages if page.name == name))
        for line in plan.lines:
            assert line.object.id in sheet.replace("\n", " "), (name, line.object.id)
    listing = words_of(*(page for page in pages if page.part == Bridge.PAINTS)).replace("\n", " ")
    everywhere = listing or words_of(*pages).replace("\n", " ")
    for plan in outcome.plan.legs:
        for sight in plan.first_sights:
            assert sight.object_id in everywhere


def test_reasons_why_nothing_comes_in_sight_begin_as_the_lists_expect(outcome: Outcome) -> None:
    for plan in outcome.plan.legs:
        for sight in plan.first_sights:
            if sight.in_sight_from is None:
                assert sight.in_sight_from_reason.startswith(
                    (Say.REASON_FROM_START, Say.REASON_NEVER, "not known")
                )


def test_ringed_echoes_lie_on_ink_and_the_hidden_one_on_none(
    outcome: Outcome, pictures: tuple[CheckPicture, ...]
) -> None:
    checked = [leg.leg_index for leg in outcome.plan.legs if leg.tune_check is not None]
    assert [picture.leg_index for picture in pictures] == checked
    for picture in pictures:
        check = outcome.plan.legs[picture.leg_index].tune_check
        assert check is not None
        strong, absent = check.echo(Rung.STRONG), check.echo(Rung.ABSENT)
        if strong is not None:
            assert (codes_round(picture, strong, 0.3) >= Paint.PAINTED).any(), picture.leg_index + 1
        if absent is not None:
            inside = codes_round(picture, absent, 0.25)
            assert inside.size > 5
            assert not (inside >= Paint.UNCERTAIN).any(), picture.leg_index + 1
