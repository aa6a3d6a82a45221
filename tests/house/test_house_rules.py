"""Rules of the house that a machine can hold: length of files, names, words, units."""

import ast
import os
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
CODE = sorted([*ROOT.glob("core/**/*.py"), *ROOT.glob("app/**/*.py")])
UNITS = (
    "_m", "_nm", "_s", "_mps", "_kn", "_deg", "_rad", "_hz", "_db", "_w", "_mm", "_px", "_ratio",
    "_fraction", "_min", "_minutes", "_m2", "_px_per_mm", "_mm_per_m", "_deg_per_min", "_degps",
    "_error_ratio", "_rpm", "_mm_h", "_degc", "_hpa", "_kt", "_per_m", "_s_per_m", "_per_km",
)  # fmt: skip
BARE = {"refraction_k", "fraction", "ratio", "weight", "k", "start", "stop", "share", "score"}
BARE |= {"left_x", "top_y", "cell_x", "cell_y"}  # in units of a raster's own coordinate system
BARE |= {"pd", "pfa", "sea_state", "permittivity"}  # bare by nature
BARE |= {"minutes"}  # is its own unit
BARE |= {"row0", "col0", "half_rows", "half_cols", "cells_per_step"}  # counted in cells


def _tracked() -> list[Path]:
    names = subprocess.run(
        ["git", "ls-files"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    return [ROOT / name for name in names if (ROOT / name).is_file()]


def test_no_file_is_over_400_lines() -> None:
    long = {
        path.relative_to(ROOT).as_posix(): count
        for path in CODE
        if (count := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}


def test_bare_kernels_neither_make_nor_return_arrays() -> None:
    # numba counts no references in them and does not look (core/base/compiled.py).
    numbers = {"int", "float", "bool", "None", "tuple"}
    seen, wrong = 0, []
    for path in CODE:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.FunctionDef):
                continue
            if "bare" not in [ast.unparse(d) for d in node.decorator_list]:
                continue
            seen += 1
            assert node.returns is not None
            told = {n.id for n in ast.walk(node.returns) if isinstance(n, ast.Name)}
            made = [
                ast.unparse(n.func)
                for n in ast.walk(node)
                if isinstance(n, ast.Call) and ast.unparse(n.func).startswith("np.")
            ]
            made = [name for name in made if not name.startswith(("np.uint", "np.int", "np.float"))]
            if told - numbers or made:
                wrong.append((path.name, node.name, told - numbers, made))
    assert seen > 10
    assert wrong == []


def test_no_two_modules_share_a_name() -> None:
    seen: dict[str, Path] = {}
    double = []
    for path in CODE:
        if path.name == "__init__.py":
            continue
        if path.name in seen:
            double.append((path, seen[path.name]))
        seen[path.name] = path
    assert double == []


def _float_names(tree: ast.AST) -> list[str]:
    names: list[str] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.arg) and node.annotation is not None:
            if ast.unparse(node.annotation) in ("float", "float | None"):
                names.append(node.arg)
        elif (
            isinstance(node, ast.AnnAssign)
            and isinstance(node.target, ast.Name)
            and ast.unparse(node.annotation) in ("float", "float | None")
        ):
            names.append(node.target.id)
    return names


def _is_public_module(path: Path) -> bool:
    parts = path.relative_to(ROOT).parts
    return parts[0] == "core" and parts[1] in (
        "geodesy",
        "passage",
        "ship",
        "land",
        "radar",
        "coverage",
        "plan",
    )


def test_floats_of_core_name_their_unit() -> None:
    bad = []
    for path in CODE:
        if not _is_public_module(path):
            continue
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if not isinstance(node, ast.ClassDef | ast.FunctionDef) or node.name.startswith("_"):
                continue
            if any(ast.unparse(d) in ("kernel", "bare", "inlined") for d in node.decorator_list):
                continue  # kernels use the letters of their formula
            bad += [
                f"{path.relative_to(ROOT)}: {name}"
                for name in _float_names(node)
                if not name.endswith(UNITS) and name not in BARE and not name.startswith("_")
            ]
    assert bad == []


def test_no_path_of_a_machine_stands_in_the_tree() -> None:
    forbidden = ["/" + "work/", "/" + "root/", "/" + "home/"]
    hits = []
    for path in _tracked():
        if path.suffix in (".png", ".tif", ".ttf", ".gz", ".zip", ".lock"):
            continue
        text = path.read_text(encoding="utf-8", errors="ignore")
        hits += [f"{path.relative_to(ROOT)}: {word}" for word in forbidden if word in text]
    assert hits == []


@pytest.mark.skipif(os.name != "posix", reason="the start script is for a POSIX shell")
def test_start_script_is_valid_shell() -> None:
    subprocess.run(["sh", "-n", str(ROOT / "start.sh")], check=True)
    subprocess.run(["bash", "-n", str(ROOT / ".ci" / "run")], check=True)


def test_readme_opens_with_the_job_and_names_its_two_commands() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    paragraphs = [part for part in text.split("\n\n") if part.strip()]
    assert paragraphs[0].startswith("# Legsheet")
    assert len(paragraphs[1]) > 200
    assert "sh start.sh demo" in text
    assert "sh start.sh test" in text
    assert "start.sh test" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
