"""The command line from outside: files, exit codes, one sentence for what cannot be used."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest

from core.files.project import Project, write_project
from core.plan.plan_result import KnownObject, ObjectKind
from tests.helpers.land_files import write_tif
from tests.helpers.three_islets import ROUTE, ROUTE_TABLE, WEST, write_three_islets

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "resources" / "schema" / "plan-1.schema.json"


def run(
    *words: str | Path, folder: Path, timeout_s: float = 240.0
) -> subprocess.CompletedProcess[str]:
    environment = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "QT_QPA_PLATFORM")}
    return subprocess.run(
        [sys.executable, "-m", "app", *[str(word) for word in words]],
        cwd=folder,
        env={**environment, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=timeout_s,
        check=False,
    )


def refused(answer: subprocess.CompletedProcess[str], *parts: str) -> None:
    lines = [line for line in answer.stderr.splitlines() if line.strip()]
    assert answer.returncode == 2, answer.stderr
    assert len(lines) == 1, answer.stderr
    assert "Traceback" not in answer.stderr
    for part in parts:
        assert part in lines[0]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    answer = run("demo", "out", folder=folder)
    assert answer.returncode == 0, answer.stderr
    return folder / "out"


@pytest.mark.slow
def test_demo_writes_every_kind_of_output(demo: Path) -> None:
    assert sorted(path.name for path in demo.iterdir()) == [
        "coverage.geojson",
        "index-wheelover.csv",
        "index.csv",
        "plan.json",
        "sheets.pdf",
    ]
    assert (demo / "sheets.pdf").read_bytes().startswith(b"%PDF-")
    plan = json.loads((demo / "plan.json").read_text(encoding="utf-8"))
    assert 10 <= len(plan["legs"]) <= 14
    assert "invented" in json.dumps(plan["passage"]).lower() or plan["ship"]["invented"]


@pytest.mark.slow
def test_demo_has_a_gap_that_matters_and_a_leg_with_nothing_to_index(demo: Path) -> None:
    legs = json.loads((demo / "plan.json").read_text(encoding="utf-8"))["legs"]
    assert any(leg["status"] == "incomplete" for leg in legs)
    assert any(leg["no_index_reason"] for leg in legs)
    assert any(leg["status"] == "complete" for leg in legs)


@pytest.fixture
def route(tmp_path: Path) -> Path:
    path = tmp_path / "a.csv"
    path.write_text("name,lat,lon\nA,47.0,-31.0\nB,47.2,-31.0\n")
    return path


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        (["plan", "missing.rtz", "--land", "."], ["missing.rtz", "no such file"]),
        (["plan", "a.csv"], ["no land data is given"]),
        (["plan", "a.csv", "--land", "nowhere"], ["nowhere"]),
        (["plan", "a.csv", "--land", "empty"], ["empty"]),
        (["plan", "a.csv", "--land", "empty", "--antenna", "0"], ["antenna height"]),
        (["plan", "a.csv", "--land", "empty", "--tide", "3"], ["mean sea level"]),
        (["plan", "a.csv", "--land", "empty", "--radius", "900"], ["radius"]),
        (["plan", "a.csv", "--land", "empty", "--json", "no/such/p.json"], ["no/such"]),
        (["plan", "a.csv", "--land", "empty", "--ship", "no.toml"], ["no.toml"]),
        (["plan", "a.csv", "--land", "empty", "--classes", "no.tif"], ["no.tif"]),
        (["convert", "a.csv", "-o", "b.doc"], ["b.doc"]),
        (["inspect", "nothing.tif"], ["nothing.tif"]),
        (
            ["sweep", "--land", "empty", "--at", "47,-31", "--antenna", "20", "-o", "o.tif"],
            ["empty"],
        ),
    ],
)
def test_what_cannot_be_used_is_one_sentence_and_two(
    tmp_path: Path, route: Path, words: list[str], parts: list[str]
) -> None:
    (tmp_path / "empty").mkdir()
    before = sorted(tmp_path.iterdir())
    refused(run(*words, folder=tmp_path), *parts)
    assert sorted(tmp_path.iterdir()) == before


def test_convert_writes_both_kinds(tmp_path: Path, route: Path) -> None:
    assert run("convert", route, "-o", "a.rtz", folder=tmp_path).returncode == 0
    assert run("convert", "a.rtz", "-o", "a.gpx", folder=tmp_path).returncode == 0
    assert b"rtept" in (tmp_path / "a.gpx").read_bytes()


def test_letters_of_an_earlier_plan_are_kept(tmp_path: Path) -> None:
    write_three_islets(tmp_path / "land")
    (tmp_path / "a.csv").write_text(ROUTE_TABLE)

    def letters(name: str, *words: str) -> dict[str, tuple[float, float]]:
        answer = run(
            "plan", "a.csv", "--land", "land", "--antenna", "25", *words, "--json", name,
            folder=tmp_path,
        )  # fmt: skip
        assert answer.returncode == 0, answer.stderr
        plan = json.loads((tmp_path / name).read_text(encoding="utf-8"))
        return {o["id"]: (o["lat_deg"], o["lon_deg"]) for o in plan["known_objects"]}

    first = letters("first.json")
    assert set(first) == {"A", "B", "C"}
    fresh = letters("fresh.json", "--radius", "2")
    assert (fresh["A"], fresh["B"]) == (first["B"], first["C"])
    kept = letters("kept.json", "--radius", "2", "--letters", "first.json")
    assert kept == first
    legs = json.loads((tmp_path / "kept.json").read_text(encoding="utf-8"))["legs"]
    assert {line["object"]["id"] for line in legs[0]["index_lines"]} == {"B", "C"}
    # What a first plan says by itself is no other input: the same bytes but for the clock.
    letters("again.json", "--letters", "first.json")
    one, two = (
        json.loads((tmp_path / name).read_text(encoding="utf-8"))
        for name in ("first.json", "again.json")
    )
    for plan in (one, two):
        del plan["receipt"]["created_utc"], plan["receipt"]["timings_s"]
    assert one == two


def test_a_revision_marks_the_legs_that_changed(tmp_path: Path) -> None:
    write_three_islets(tmp_path / "land")
    (tmp_path / "a.csv").write_text(ROUTE_TABLE)

    def revised(name: str, *words: str) -> dict[str, Any]:
        answer = run(
            "plan", "a.csv", "--land", "land", "--antenna", "25", "--json", name, *words,
            folder=tmp_path,
        )  # fmt: skip
        assert answer.returncode == 0, answer.stderr
        return dict(json.loads((tmp_path / name).read_text(encoding="utf-8"))["revision"])

    first = revised("first.json")
    assert (first["number"], first["since"], first["changed_legs"]) == (1, None, [])
    same = revised("same.json", "--since", "first.json")
    assert (same["number"], same["since"], same["changed_legs"]) == (1, 1, [])
    # A waypoint moved at the end changes the last leg and the turn into it, not its letters.
    (tmp_path / "a.csv").write_text(ROUTE_TABLE.replace("-29.9", "-29.88"))
    second = revised("second.json", "--since", "first.json", "--note", "pilot's berth",
                     "--pdf", "second.pdf", "--changed-only")  # fmt: skip
    assert (second["number"], second["since"], second["note"]) == (2, 1, "pilot's berth")
    assert 2 in second["changed_legs"]
    changed = {what for what, _before, _now in second["legs"][1]["changes"]}
    assert {"to", "course", "distance"} <= changed
    refused(
        run("plan", "a.csv", "--land", "land", "--since", "a.csv", folder=tmp_path),
        "a.csv",
        "no plan file",
    )


def test_a_passage_is_planned_the_other_way_round(tmp_path: Path) -> None:
    write_three_islets(tmp_path / "land")
    (tmp_path / "a.csv").write_text(ROUTE_TABLE)

    def planned(name: str, *words: str) -> dict[str, Any]:
        answer = run(
            "plan", "a.csv", "--land", "land", "--antenna", "25", "--json", name, *words,
            folder=tmp_path,
        )  # fmt: skip
        assert answer.returncode == 0, answer.stderr
        return dict(json.loads((tmp_path / name).read_text(encoding="utf-8")))

    there = planned("there.json")
    back = planned("back.json", "--reverse", "--letters", "there.json")
    assert [there["passage"]["reversed"], back["passage"]["reversed"]] == [False, True]
    names = [waypoint["name"] for waypoint in there["passage"]["waypoints"]]
    assert [waypoint["name"] for waypoint in back["passage"]["waypoints"]] == names[::-1]
    assert there["receipt"]["digest"] != back["receipt"]["digest"]
    assert [leg["distance_nm"] for leg in back["legs"]] == [
        leg["distance_nm"] for leg in there["legs"][::-1]
    ]
    assert "passage-reversed" in [finding["code"] for finding in back["findings"]]


def test_offings_and_first_paints_that_were_seen_answer_on_standard_output(
    tmp_path: Path,
) -> None:
    write_three_islets(tmp_path / "land")
    (tmp_path / "a.csv").write_text(ROUTE_TABLE)
    given = ("a.csv", "--land", "land", "--antenna", "25", "--radius", "6", "--quiet")
    answer = run(
        "offings", *given, "--leg", "1", "--shift", "-0.3,0.3", "--json", folder=tmp_path
    )  # fmt: skip
    assert answer.returncode == 0, answer.stderr
    offings = json.loads(answer.stdout)["offings"]
    assert [offing["shift_nm"] for offing in offings] == [0.0, -0.3, 0.3]
    told = run("offings", *given, "--leg", "1", "--shift", "0.3", folder=tmp_path)
    assert "0.30 NM to STARBOARD" in told.stdout
    refused(run("offings", *given, "--leg", "9", "--shift", "0.3", folder=tmp_path), "no leg 9")
    answer = run("plan", *given, "--json", "plan.json", folder=tmp_path)
    assert answer.returncode == 0, answer.stderr
    (tmp_path / "seen.csv").write_text("object,leg,range_nm\nA,1,3.2\n")
    answer = run("observed", "plan.json", "--seen", "seen.csv", "--json", folder=tmp_path)
    assert answer.returncode == 0, answer.stderr
    (row,) = json.loads(answer.stdout)["sightings"]
    assert (row["object_id"], row["leg"]) == ("A", 1)
    refused(
        run("observed", "a.csv", "--seen", "seen.csv", folder=tmp_path), "a.csv", "no plan file"
    )


def test_kinds_of_ground_are_inputs_of_the_plan(tmp_path: Path) -> None:
    write_three_islets(tmp_path / "land")
    (tmp_path / "a.csv").write_text(ROUTE_TABLE)
    write_tif(
        tmp_path / "ground.tif", np.full((60, 60), 7), west=-30.3, north=0.3, cell=0.01,
        dtype="uint8", nodata=None,
    )  # fmt: skip
    (tmp_path / "ground.csv").write_text("code,class\n7,wet sand or mud\n")

    def planned(name: str, *words: str) -> dict[str, Any]:
        answer = run(
            "plan", "a.csv", "--land", "land", "--antenna", "25", *words, "--json", name,
            folder=tmp_path,
        )  # fmt: skip
        assert answer.returncode == 0, answer.stderr
        plan = json.loads((tmp_path / name).read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(plan)
        return dict(plan)

    def fractions(plan: dict[str, Any]) -> list[float]:
        views = [view for leg in plan["legs"] for view in leg["viewpoints"]]
        return [view["painted_coast_fraction"] or 0.0 for view in views]

    without, mud = planned("a.json"), planned("b.json", "--classes", "ground.tif")
    named = [(item["role"], item["name"]) for item in mud["receipt"]["inputs"]]
    assert ("classes", "ground.tif") in named
    assert ("classes", "ground.csv") in named
    assert "classes" not in {item["role"] for item in without["receipt"]["inputs"]}
    assert mud["receipt"]["digest"] != without["receipt"]["digest"]
    assert mud["receipt"]["parameters"] == without["receipt"]["parameters"]
    # 22 dB weaker than rock of 45 deg, at ranges of many miles: less of it paints.
    assert sum(fractions(mud)) < sum(fractions(without))


def test_a_project_keeps_its_own_letters(tmp_path: Path) -> None:
    land = write_three_islets(tmp_path / "land")
    (tmp_path / "plan.json").write_text('{"known_objects": []}')
    thing = KnownObject(id="M", kind=ObjectKind.ISLET, position=WEST)
    write_project(
        tmp_path / "p.legsheet",
        Project(route_text=ROUTE, land=land, known_objects=(thing,)),
    )
    refused(
        run("plan", "p.legsheet", "--letters", "plan.json", folder=tmp_path),
        "p.legsheet",
        "keeps its letters itself",
    )
    answer = run("plan", "p.legsheet", "--json", "out.json", folder=tmp_path)
    assert answer.returncode == 0, answer.stderr
    plan = json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))
    assert [o["id"] for o in plan["known_objects"]] == ["M", "A", "B"]


@pytest.mark.slow
def test_a_stop_leaves_nothing_behind(tmp_path: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "app", "demo", "out"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stderr is not None
    for line in process.stderr:
        if "leg" in line.lower():
            break
    process.send_signal(signal.SIGINT)
    started = time.monotonic()
    process.communicate(timeout=60)
    assert process.returncode == 130
    assert time.monotonic() - started < 20.0
    assert list((tmp_path / "out").iterdir()) == []
