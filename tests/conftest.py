"""Fixtures for all tests: where real data lies, and the versions in the report head."""

import os
from importlib.metadata import version
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# Machines differ in speed, so no example is refused for its time; CI draws the same examples.
settings.register_profile(
    "local", deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
settings.register_profile("ci", settings.get_profile("local"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "local")

_ROOT = Path(__file__).resolve().parent.parent


def _data_folder() -> Path:
    named = os.environ.get("LEGSHEET_TEST_DATA")
    return Path(named) if named else _ROOT.parent / "shared" / "data"


def pytest_report_header() -> str:
    """Name the libraries that numbers may depend on."""
    names = ("numpy", "numba", "rasterio", "pyogrio", "pyproj", "shapely", "PySide6-Essentials")
    return "with " + ", ".join(f"{name} {version(name)}" for name in names)


@pytest.fixture(scope="session")
def real_data() -> Path:
    """Folder of real open data; skips where it is absent."""
    folder = _data_folder()
    if not (folder / "README.md").is_file():
        if os.environ.get("LEGSHEET_TEST_DATA"):
            pytest.fail(f"LEGSHEET_TEST_DATA is set, but there is no data in {folder}")
        pytest.skip("real open data is not there (LEGSHEET_TEST_DATA)")
    return folder


@pytest.fixture(scope="session")
def reference_folder(real_data: Path) -> Path:
    """Folder of independent reference code; skips where it is absent."""
    folder = real_data.parent / "reference"
    if not folder.is_dir():
        pytest.skip("independent reference code is not there")
    return folder
