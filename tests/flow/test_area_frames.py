"""Moving the plan of the four real passages: each frame is painted in the time of the screen.

Land: SRTM 3 arc-seconds (public domain) and GSHHG 2.3.7 (LGPL); routes made for these tests.
"""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.paint.palette import DAY, NIGHT
from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.views.area_scene import land_of
from app.views.area_view import AreaView
from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.project import Options, Project
from core.jobs.make_request import make_request
from core.jobs.plan_passage import land_round
from tests.helpers.frame_times import FRAME_MS, frame_times_ms, median_ms

pytestmark = pytest.mark.slow

_FOLDERS = {
    "HoweSound_Squamish": "bc_howe_sound",
    "Ischia_BoccaPiccola_Salerno": "italy_naples_capri",
    "Arran_KilbrannanSound": "scotland_lorn_kintyre",
    "FirthOfLorn_SoundOfMull": "scotland_lorn_kintyre",
}


@pytest.fixture
def view(qtbot: QtBot, qapp: QApplication) -> Iterator[AreaView]:
    load_fonts()
    made = AreaView(Document(), DAY)
    made.resize(1100, 760)
    made.show()
    yield made
    made.close_threads()
    made.close()
    made.deleteLater()


@pytest.mark.parametrize("name", sorted(_FOLDERS))
def test_frames_of_real_land_are_painted_in_time(
    qtbot: QtBot, view: AreaView, real_data: Path, name: str
) -> None:
    folder = real_data / _FOLDERS[name]
    request = make_request(
        Project(
            route=folder / "routes" / f"{name}.rtz",
            land=(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_land.geojson"),
            options=Options(antenna_height_m=25.0, radius_m=m_from_nm(12.0)),
        )
    )
    land = land_round(request, (request.passage,), Quiet())
    document = view.document
    document.set_passage(request.passage)
    qtbot.waitUntil(lambda: view.pictures.scene is not None)
    scene = view.pictures.scene
    assert scene is not None
    view.pictures.scene = replace(scene, land=land_of(land, scene.projection, None))
    for palette in (DAY, NIGHT):
        view.set_colours(palette)
        qtbot.waitUntil(lambda: view.pictures.ground is not None, timeout=20_000)
        # Measured with a whole plan: 2.5 to 4 ms.
        assert median_ms(frame_times_ms(view)) < FRAME_MS
