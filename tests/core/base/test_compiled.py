"""Kernels kept on disk are those of the sources as they are now."""

from pathlib import Path

import numpy as np
import pytest

from core.base.compiled import is_prepared, kernel, sources_digest


def _tree(root: Path) -> dict[str, Path]:
    texts = {
        "base/compiled.py": "x = 1\n",
        "base/constants.py": "RADIUS = 1.0\n",
        "coverage/rays.py": (
            "from core.base.compiled import kernel\nfrom core.base.constants import RADIUS\n"
        ),
        "words/numbers.py": "y = 2\n",
    }
    paths = {}
    for name, text in texts.items():
        path = root / "core" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        paths[name] = path
    return paths


def test_change_of_a_kernel_or_of_what_it_imports_gives_another_folder(tmp_path: Path) -> None:
    paths = _tree(tmp_path)
    digests = [sources_digest(tmp_path)]
    for name in ("coverage/rays.py", "base/constants.py", "base/compiled.py"):
        with paths[name].open("a", encoding="utf-8") as stream:
            stream.write("z = 3\n")
        digests.append(sources_digest(tmp_path))
    assert len(set(digests)) == len(digests)


def test_change_elsewhere_keeps_the_folder(tmp_path: Path) -> None:
    paths = _tree(tmp_path)
    before = sources_digest(tmp_path)
    paths["words/numbers.py"].write_text("y = 4\n", encoding="utf-8")
    assert sources_digest(tmp_path) == before


def test_compiled_function_computes_what_it_says() -> None:
    @kernel
    def total(values: np.ndarray) -> float:
        result = 0.0
        for value in values:
            result += value
        return result

    assert total(np.array([1.0, 2.5])) == 3.5


def test_a_fresh_computer_is_known_by_its_empty_cache(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path / "none"))
    assert not is_prepared()
    folder = tmp_path / "kernels" / "core_coverage"
    folder.mkdir(parents=True)
    (folder / "rays.trace-1.py311.1.nbc").write_bytes(b"x")
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path / "kernels"))
    assert is_prepared()
