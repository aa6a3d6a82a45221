"""How long sweeps take: beside GDAL's viewshed, on one and two threads, and just after a start."""

import os
import platform
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from statistics import median

import numpy as np

from core.coverage.terrain import prepare_terrain
from tests.bench.sight_accuracy import sweep
from tests.bench.sight_scenes import CELL_M, NM, Scene
from tests.helpers.bare_land import bare_land
from tests.helpers.exact_sight import ANTENNA_M, R_M, K

_GDAL_PYTHON = "/usr/bin/python3"
"""Debian's own, with the binding of python3-gdal; any other environment lacks it."""
# Reads a square of heights and times the viewshed of its middle, in memory, without files.
_GDAL_WORKER = """
import sys, time
import numpy as np
from osgeo import gdal
gdal.UseExceptions()
gdal.SetConfigOption("GDAL_NUM_THREADS", "1")
path, cell, antenna, radius, bend, rounds = sys.argv[1], *map(float, sys.argv[2:])
a = np.load(path)
band_of = gdal.GetDriverByName("MEM").Create("", a.shape[1], a.shape[0], 1, gdal.GDT_Float32)
band_of.SetGeoTransform((0, cell, 0, 0, 0, -cell))
band_of.GetRasterBand(1).WriteArray(a)
x, y = (a.shape[1] // 2 + 0.5) * cell, -(a.shape[0] // 2 + 0.5) * cell
print(gdal.__version__)
for _ in range(int(rounds)):
    start = time.perf_counter()
    gdal.ViewshedGenerate(band_of.GetRasterBand(1), "MEM", "", [], x, y, antenna, 0.0, 1.0, 0.0,
                          255.0, -1.0, bend, gdal.GVM_Edge, radius)
    print(time.perf_counter() - start)
"""
_FIRST_SWEEP = """
import time
import numpy as np
from tests.bench.sight_accuracy import sweep
from tests.helpers.bare_land import metric_lattice, terrain_of
lattice, place = metric_lattice("EPSG:32630", 56.0, -5.0, 60)
terrain = terrain_of(lattice, np.zeros((121, 121), np.float32))
for is_exact in (False, True):
    start = time.perf_counter()
    sweep(terrain, place, radius_m=1500.0, is_exact=is_exact)
    print(time.perf_counter() - start)
"""
_ROUNDS, _ON_END = 7, 3


@dataclass(frozen=True, kw_only=True)
class Timing:
    """Medians of one scene, ms; ``gdal_ms`` is None where GDAL's binding is not there."""

    name: str
    planning_ms: float
    exact_ms: float
    prepare_ms: float
    gdal_ms: float | None
    gdal_version: str


def processor() -> str:
    """Name of the processor as the system gives it."""
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        return platform.processor()
    names = [line.split(":", 1)[1].strip() for line in lines if line.startswith("model name")]
    return f"{names[0]}, {len(names)} cores" if names else platform.processor()


def _ms(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def _gdal_ms(path: Path, radius_m: float) -> tuple[list[float], str]:
    """Times of three viewsheds in a process of its own, and the version; none without GDAL."""
    words = (CELL_M, ANTENNA_M, radius_m, 6_378_137.0 / (K * R_M), _ON_END)
    try:
        done = subprocess.run(
            [_GDAL_PYTHON, "-c", _GDAL_WORKER, str(path), *map(str, words)],
            capture_output=True,
            text=True,
            check=True,
        )
    except (OSError, subprocess.CalledProcessError):
        return [], "not there"
    version, *times = done.stdout.split()
    return [float(t) * 1e3 for t in times], version


def beside_gdal(scene: Scene, radius_m: float = 24.0 * NM) -> Timing:
    """Both settings and GDAL in turn, several times; everything on one thread."""
    land = bare_land(scene.lattice, scene.heights_m)
    terrain = prepare_terrain(land)
    work: dict[str, Callable[[], object]] = {
        "planning": lambda: sweep(terrain, scene.position, radius_m=radius_m, is_exact=False),
        "exact": lambda: sweep(terrain, scene.position, radius_m=radius_m, is_exact=True),
        "prepare": lambda: prepare_terrain(land),
    }
    taken: dict[str, list[float]] = {name: [] for name in (*work, "gdal")}
    version = "not there"
    for one in work.values():
        one()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "heights.npy"
        np.save(path, scene.heights_m)
        for _ in range(_ROUNDS):
            for name, one in work.items():
                # Three on end, as GDAL makes them: the first finds nothing in the caches.
                taken[name] += [_ms(one) for _ in range(_ON_END)]
            times, version = _gdal_ms(path, radius_m)
            taken["gdal"] += times
    return Timing(
        name=scene.name,
        planning_ms=median(taken["planning"]),
        exact_ms=median(taken["exact"]),
        prepare_ms=median(taken["prepare"]),
        gdal_ms=median(taken["gdal"]) if taken["gdal"] else None,
        gdal_version=version,
    )


def two_threads(scene: Scene, *, is_exact: bool, radius_m: float = 24.0 * NM) -> tuple[float, bool]:
    """How many times faster two threads make eight sweeps, and whether all bits are the same."""
    terrain = prepare_terrain(bare_land(scene.lattice, scene.heights_m))

    def one(_number: int) -> bytes:
        return sweep(terrain, scene.position, radius_m=radius_m, is_exact=is_exact).tags.tobytes()

    single = one(0)
    ratios = []
    same = True
    for _ in range(3):
        start = time.perf_counter()
        same &= all(one(n) == single for n in range(8))
        between = time.perf_counter()
        with ThreadPoolExecutor(2) as pool:
            same &= all(bits == single for bits in pool.map(one, range(8)))
        ratios.append((between - start) / (time.perf_counter() - between))
    return median(ratios), same


def first_sweeps() -> tuple[tuple[float, float], tuple[float, float]]:
    """Seconds of the first planning and exact sweep with an empty cache, and after a restart."""
    with tempfile.TemporaryDirectory() as folder:
        settings = {**os.environ, "XDG_CACHE_HOME": folder}
        settings.pop("NUMBA_CACHE_DIR", None)
        pairs = []
        for _ in range(2):
            done = subprocess.run(
                [sys.executable, "-c", _FIRST_SWEEP],
                capture_output=True,
                text=True,
                check=True,
                env=settings,
                cwd=Path(__file__).parents[2],
            )
            planning, exact = done.stdout.split()
            pairs.append((float(planning), float(exact)))
    return pairs[0], pairs[1]
