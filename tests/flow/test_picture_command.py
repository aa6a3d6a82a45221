"""``legsheet picture`` from outside: a picture whole or not at all, wrong words in one sentence."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QImage

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "resources" / "demo"
AT = "47 08.5N,31 34.0W"


def _run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "app", "picture", *words],
        env={**os.environ, "PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=300.0,
        check=False,
    )


def _place(*words: str, out: Path) -> tuple[str, ...]:
    return ("--land", str(DEMO / "land"), "--at", AT, *words, "-o", str(out))


def _brightness(path: Path) -> float:
    image = QImage(str(path)).convertToFormat(QImage.Format.Format_Grayscale8)
    pixels = np.frombuffer(image.constBits(), dtype=np.uint8)
    return float(pixels.mean())


def test_a_picture_by_day_and_by_night(tmp_path: Path) -> None:
    day, night = tmp_path / "day.png", tmp_path / "night.png"
    common = (
        "--ship", str(DEMO / "ship.toml"), "--marks", str(DEMO / "marks.csv"), "--scale", "3",
        "--heading", "60", "--sea-state", "3", "--size", "400",
    )  # fmt: skip
    answer = _run(*_place(*common, out=day))
    assert (answer.returncode, answer.stdout) == (0, "")
    quiet = _run(
        *_place(
            *common, "--night", "--quiet", "--orientation", "head-up", "--off-centre", "50",
            "--gain", "-6", "--tuning", "3", "--sea-clutter", "80", "--rain-clutter", "20",
            "--interference-rejection", "--echo-stretch", "--pulse", "short", "--band", "X",
            "--radar", "x band, main mast", "--preset", "minimum", "--rain", "2",
            "--refraction", "1.2", "--tide", "2", "--msl", "1.5", "--antenna", "20",
            "--course", "65", "--leeway", "3", "--off-centre-to", "65",
            out=night,
        )
    )  # fmt: skip
    assert (quiet.returncode, quiet.stdout, quiet.stderr) == (0, "", "")
    image = QImage(str(day))
    assert image.width() == pytest.approx(400 * 170 / 160, abs=2)
    assert image.height() > image.width()
    assert _brightness(day) > 200.0 > 40.0 > _brightness(night)


def test_the_same_words_give_the_same_bytes(tmp_path: Path) -> None:
    files = [tmp_path / "one.png", tmp_path / "two.png"]
    for path in files:
        words = ("--antenna", "20", "--scale", "1.5", "--size", "300", "--quiet")
        assert _run(*_place(*words, out=path)).returncode == 0
    assert files[0].read_bytes() == files[1].read_bytes()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "antenna"),
        (("--antenna", "500"), "antenna height"),
        (("--antenna", "20", "--scale", "5"), "range scale of 5 NM"),
        (("--antenna", "20", "--preset", "best"), "preset"),
        (("--antenna", "20", "--radar", "main"), "--ship"),
        (("--antenna", "20", "--pulse", "huge"), "pulse"),
        (("--antenna", "20", "--heading", "999"), "heading"),
        (("--antenna", "20", "--course", "-999"), "course"),
        (("--antenna", "20", "--heading", "9", "--leeway", "90"), "leeway"),
        (("--antenna", "20", "--orientation", "head-up"), "--heading"),
        (("--antenna", "20", "--orientation", "course-up"), "--course"),
        (("--antenna", "20", "--off-centre", "90"), "off-centring"),
        (("--antenna", "20", "--off-centre-to", "400"), "farther"),
        (("--antenna", "20", "--gain", "60"), "gain"),
        (("--antenna", "20", "--tuning", "-1"), "mistuning"),
        (("--antenna", "20", "--sea-clutter", "101"), "sea clutter"),
        (("--antenna", "20", "--rain-clutter", "-5"), "rain clutter"),
        (("--antenna", "20", "--sea-state", "9"), "sea state"),
        (("--antenna", "20", "--rain", "-1"), "rain"),
        (("--antenna", "20", "--refraction", "0"), "refraction"),
        (("--antenna", "20", "--tide", "2"), "mean sea level"),
        (("--antenna", "20", "--msl", "99", "--tide", "2"), "mean sea level"),
        (("--antenna", "20", "--size", "20"), "size"),
        (("--antenna", "20", "--marks", "nowhere.csv"), "nowhere.csv"),
        (("--antenna", "20", "--classes", "nowhere.tif"), "nowhere"),
        (("--ship", "nowhere.toml"), "nowhere.toml"),
        (("--ship", str(DEMO / "ship.toml"), "--radar", "lidar"), "lidar"),
        (("--ship", str(DEMO / "ship.toml"), "--radar", "S band, main mast", "--band", "X"), "X"),
    ],
)
def test_what_cannot_be_used_is_one_sentence_and_two(
    words: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    out = tmp_path / "out.png"
    answer = _run(*_place(*words, "--quiet", out=out))
    assert answer.returncode == 2
    assert answer.stdout == ""
    assert len(answer.stderr.strip().splitlines()) == 1
    assert answer.stderr.startswith("legsheet: ")
    assert says in answer.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--scale", "wide"), "--scale"),
        (("--gain", "much"), "--gain"),
        (("--band", "C"), "--band"),
        (("--orientation", "south-up"), "--orientation"),
        (("--size", "big"), "--size"),
    ],
)
def test_what_is_no_word_at_all_is_refused_by_the_parser(
    words: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    answer = _run(*_place("--antenna", "20", *words, out=tmp_path / "out.png"))
    assert answer.returncode == 2
    assert says in answer.stderr
    assert "Traceback" not in answer.stderr


def test_a_place_on_high_land_or_without_data_and_a_folder_that_is_none(tmp_path: Path) -> None:
    out = tmp_path / "out.png"
    inland = _run(
        "--land", str(DEMO / "land"), "--at", "47 15.0N,31 33.0W", "--antenna", "20",
        "--scale", "1.5", "--quiet", "-o", str(out),
    )  # fmt: skip
    assert inland.returncode == 2
    assert "land" in inland.stderr
    far = _run(
        "--land", str(DEMO / "land"), "--at", "10N,30W", "--antenna", "20", "--quiet",
        "-o", str(out),
    )  # fmt: skip
    assert far.returncode == 2
    assert len(far.stderr.strip().splitlines()) == 1
    nowhere = _run(*_place("--antenna", "20", "--quiet", out=tmp_path / "no" / "out.png"))
    assert nowhere.returncode == 2
    assert list(tmp_path.iterdir()) == []
