"""A disk that fills up while a command writes: one sentence, exit 2, nothing half-written."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.helpers.small_job import Scene

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def scene(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, tuple[Path, ...]]:
    made = Scene(folder=tmp_path_factory.mktemp("scene"), lat_deg=47.0, lon_deg=-31.0)
    route = made.folder / "route.csv"
    route.write_text("lat,lon\n" + made.route_text().replace(", ", ",") + "\n", encoding="utf-8")
    return route, made.write_whole()


@pytest.fixture
def tiny_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 64 kB, made by root; without the right the tests skip and say so."""
    disk = tmp_path / "disk"
    disk.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)],
        capture_output=True,
        check=False,
    )
    if made.returncode != 0:
        pytest.skip("a small file system cannot be mounted here")
    yield disk
    subprocess.run(["umount", str(disk)], check=False, capture_output=True)


def _run(*words: str | Path, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "app", *[str(word) for word in words]],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=240.0,
        check=False,
    )


def _refused(answer: subprocess.CompletedProcess[str]) -> None:
    assert answer.returncode == 2, answer.stderr
    lines = [line for line in answer.stderr.splitlines() if line.strip()]
    assert len(lines) == 1, answer.stderr
    assert "Traceback" not in answer.stderr


@pytest.mark.slow
def test_a_plan_that_does_not_fit_leaves_the_old_files_whole(
    tiny_disk: Path, scene: tuple[Path, tuple[Path, ...]]
) -> None:
    route, land = scene
    (tiny_disk / "plan.json").write_text("old", encoding="utf-8")
    words: list[str | Path] = ["plan", route, "--antenna", "20", "--radius", "6", "--quiet"]
    for path in land:
        words += ["--land", path]
    outputs: list[str | Path] = [
        "--json",
        tiny_disk / "plan.json",
        "--pdf",
        tiny_disk / "sheets.pdf",
    ]
    _refused(_run(*words, *outputs, folder=tiny_disk.parent))
    assert sorted(p.name for p in tiny_disk.iterdir()) == ["plan.json"]
    assert (tiny_disk / "plan.json").read_text(encoding="utf-8") == "old"


def test_a_sweep_and_a_route_that_do_not_fit_leave_nothing(
    tiny_disk: Path, scene: tuple[Path, tuple[Path, ...]]
) -> None:
    route, land = scene
    (tiny_disk / "full").write_bytes(b"x" * 62_000)
    sweep: list[str | Path] = [
        "sweep",
        "--land",
        land[0],
        "--at",
        "47.0,-31.0",
        "--antenna",
        "20",
        "--radius",
        "6",
    ]
    _refused(_run(*sweep, "--quiet", "-o", tiny_disk / "out.tif", folder=tiny_disk.parent))
    (tiny_disk / "full").write_bytes(b"x" * 65_536)
    _refused(_run("convert", route, "-o", tiny_disk / "out.rtz", folder=tiny_disk.parent))
    assert [p.name for p in tiny_disk.iterdir()] == ["full"]
