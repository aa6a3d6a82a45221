"""A whole small job with stream and leeway. Answers by hand; the archipelago is invented."""

import json
import math
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from core.base.errors import InputError
from core.base.units import mps_from_kn
from core.files.plan_json import plan_document
from core.plan.outcome import Outcome
from core.sheets.leg_sections import leg_sections
from core.words.messages import Say
from core.words.motion_words import unallowed_words
from tests.helpers.small_job import Scene

SCHEMA = Path(__file__).resolve().parents[3] / "resources" / "schema" / "plan-1.schema.json"


@pytest.fixture(scope="module")
def scene(tmp_path_factory: pytest.TempPathFactory) -> tuple[Scene, tuple[Path, ...]]:
    scene = Scene(folder=tmp_path_factory.mktemp("stream"), lat_deg=48.0, lon_deg=-30.0)
    return scene, scene.write_whole()


@pytest.fixture(scope="module")
def pair(scene: tuple[Scene, tuple[Path, ...]]) -> tuple[Outcome, Outcome]:
    """Without, and with 2 kn setting 090 and leeway to starboard."""
    where, land = scene
    speed = mps_from_kn(12.0)
    moved = where.plan(
        land,
        speed_mps=speed,
        set_deg=90.0,
        drift_mps=mps_from_kn(2.0),
        leeway_starboard_deg=3.0,
    )
    return where.plan(land, speed_mps=speed), moved


def legs_of(outcome: Outcome) -> list[dict[str, Any]]:
    document = json.loads(json.dumps(plan_document(outcome)))
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(document)
    legs: list[dict[str, Any]] = document["legs"]
    return legs


def test_heading_and_ground_speed_are_in_the_plan_file(pair: tuple[Outcome, Outcome]) -> None:
    still, moved = (legs_of(outcome) for outcome in pair)
    for before, leg in zip(still, moved, strict=True):
        assert before["heading_deg"] is None
        assert before["heading_deg_reason"] == "no set or leeway was given"
        across = 2.0 * math.sin(math.radians(90.0 - leg["course_deg"]))
        along = 2.0 * math.cos(math.radians(90.0 - leg["course_deg"]))
        crab = -math.degrees(math.asin(across / 12.0))
        expected = (leg["course_deg"] + crab - 3.0) % 360.0
        assert leg["heading_deg"] == pytest.approx(expected, abs=1e-3)
        assert leg["ground_speed_kn"] == pytest.approx(
            math.sqrt(144.0 - across**2) + along, abs=1e-3
        )
        assert leg["speed_kn"] == 12.0
        assert leg["stream"] == {"set_deg": 90.0, "drift_kn": 2.0}
        assert leg["leeway"]["to_starboard_deg"] == 3.0
        assert leg["leeway"]["heading_to_deg"] == pytest.approx((expected + 3.0) % 360, abs=1e-3)


def test_every_time_shifts_with_the_ground_speed(pair: tuple[Outcome, Outcome]) -> None:
    still, moved = (legs_of(outcome) for outcome in pair)
    shift_min = 0.0
    for before, leg in zip(still, moved, strict=True):
        shift_min += 60.0 * leg["distance_nm"] * (1.0 / leg["ground_speed_kn"] - 1.0 / 12.0)
        later = leg["end_minutes_from_start"] - before["end_minutes_from_start"]
        assert later == pytest.approx(shift_min, abs=0.02)
        for view in leg["viewpoints"]:
            run_min = 60.0 * view["along_nm"] / leg["ground_speed_kn"]
            at_min = view["minutes_from_start"] - leg["start_minutes_from_start"]
            assert at_min == pytest.approx(run_min, abs=0.02)


def test_index_lines_lie_along_the_course_never_the_heading(pair: tuple[Outcome, Outcome]) -> None:
    # Job note 2.1.6.
    for leg in legs_of(pair[1]):
        lines = [line for line in leg["index_lines"] if line["role"] in ("primary", "check")]
        for line in lines:
            assert line["line_bearing_deg"] == pytest.approx(leg["course_deg"], abs=0.2)
    assert any(leg["index_lines"] for leg in legs_of(pair[1]))


def test_the_rate_of_turn_is_that_through_the_water(pair: tuple[Outcome, Outcome]) -> None:
    for leg in legs_of(pair[1])[:-1]:
        turn = leg["wheel_over"]
        exact = math.degrees(12.0 / turn["turn_radius_nm"]) / 60.0
        assert turn["rate_of_turn_deg_per_min"] == pytest.approx(exact, abs=0.02)


def test_the_sheet_says_stream_and_what_it_does_when_forgotten(
    pair: tuple[Outcome, Outcome],
) -> None:
    still, moved = pair
    leg = moved.plan.legs[0]
    (section,) = [s for s in leg_sections(moved, leg) if s.title == Say.STREAM]
    (entry,) = section.entries
    assert entry.text.startswith(
        "Stream sets 090° T, 2.0 kn; leeway up to 3° to starboard; heads 34"
    )
    # 300 m of corridor at 2 kn: 4.86 min, rounded down.
    assert entry.text.endswith(
        "If not allowed for, 2.0 kn to STARBOARD: out of the corridor after 4.8 min."
    )
    assert leg.motion is not None
    assert "sets her 2.0 kn to STARBOARD: read after " in unallowed_words(leg, leg.motion)
    assert all(s.title != Say.STREAM for s in leg_sections(still, still.plan.legs[0]))


def test_a_stream_is_part_of_the_digest(pair: tuple[Outcome, Outcome]) -> None:
    assert pair[0].digest != pair[1].digest


def test_a_stream_too_strong_ends_the_job_with_one_sentence(
    scene: tuple[Scene, tuple[Path, ...]],
) -> None:
    where, land = scene
    with pytest.raises(InputError, match=r"^leg 1: at 3\.0 kn the ship cannot be made to gain"):
        where.plan(land, speed_mps=mps_from_kn(3.0), set_deg=180.0, drift_mps=mps_from_kn(3.5))
