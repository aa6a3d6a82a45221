"""The picture job at a place: what was asked reaches the physics."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from core.base.progress import Quiet
from core.geodesy.position import Position
from core.jobs.demo import demo_paths
from core.jobs.picture_place import PlacePicture, picture_place
from core.jobs.picture_request import PictureWords
from core.picture.display_chain import Paint
from tests.helpers.land_files import write_tif

AT = Position(lat_deg=47.0 + 8.5 / 60.0, lon_deg=-31.0 - 34.0 / 60.0)
WORDS = PictureWords(land=demo_paths().land, position=AT, antenna_height_m=20.0, size_px=200)


def _made(**changes: object) -> PlacePicture:
    return picture_place(replace(WORDS, **changes), Quiet())  # type: ignore[arg-type]


def test_kinds_of_ground_reach_the_echo(tmp_path: Path) -> None:
    # Mud everywhere: some 10 to 25 dB under the gamma of slopes (handbook 6.4).
    raster = write_tif(
        tmp_path / "kinds.tif",
        np.full((100, 100), 90),
        west=-32.0,
        north=47.5,
        cell=0.01,
        nodata=0,
        dtype="uint8",
    )
    raster.with_suffix(".csv").write_text("code,class\n90,wet sand or mud\n")
    plain, mud = _made().picture, _made(classes=raster).picture
    lit = plain.view.echo_db > 20.0
    assert lit.sum() > 1000
    fall = np.median(plain.view.echo_db[lit] - mud.view.echo_db[lit])
    assert 5.0 < fall < 35.0


def test_tide_moves_the_water_and_what_is_asked_is_in_the_caption() -> None:
    made = _made(tide_m=6.0, mean_sea_level_m=1.0, sea_state=3.0, refraction_k=1.0)
    text = "\n".join(made.caption)
    for words in ("Tide 6.0 m", "Sea state 3", "k 1.00", "minimum standard", "X band"):
        assert words in text
    low = _made().picture.view.ground
    assert np.mean(low != made.picture.view.ground) > 0.001


def test_a_higher_antenna_looks_farther_and_another_preset_sees_more() -> None:
    # Each preset of the same set at the same place; the typical one loses 16.1 dB less at X band
    # (handbook 12.4: 26.1 and 10 dB).
    least, typical = _made().picture.view, _made(preset="typical").picture.view
    lit = least.echo_db > 0.0
    assert typical.echo_db[lit] - least.echo_db[lit] == pytest.approx(16.1, abs=1e-3)
    high = _made(antenna_height_m=60.0).picture.view
    assert (high.ground == Paint.SHADOW).sum() < (least.ground == Paint.SHADOW).sum()


def test_unasked_it_is_well_set_and_asked_it_is_as_asked() -> None:
    assert _made().picture.shown.controls == _made().picture.well
    asked = _made(gain_db=-4.0, sea_clutter_percent=30.0, echo_stretch=True).picture
    controls = asked.shown.controls
    assert (controls.gain_db, controls.sea_clutter, controls.echo_stretch) == (-4.0, 0.3, True)
    assert controls.rain_clutter == asked.well.rain_clutter
