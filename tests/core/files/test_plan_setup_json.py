"""Set-up card and tune check in the plan file, on the invented sample outcome."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from core.files.plan_json import plan_document
from core.plan.setup_result import Control
from core.plan.tune_result import Rung
from tests.helpers.sample_outcome import sample_outcome

SCHEMA = Path(__file__).resolve().parents[3] / "resources" / "schema" / "plan-1.schema.json"


@pytest.fixture(scope="module")
def legs() -> Any:
    return plan_document(sample_outcome())["legs"]


@pytest.fixture(scope="module")
def leg_schema() -> Any:
    whole = json.loads(SCHEMA.read_text(encoding="utf-8"))
    return whole["properties"]["legs"]["items"]["properties"]


def test_every_leg_has_a_card_and_every_row_a_reason(legs: Any) -> None:
    for leg in legs:
        assert leg["setup"]["band"] == "X"
        assert all(row["setting"] and row["why"] for row in leg["setup"]["rows"])


def test_the_schema_knows_every_control_and_step(leg_schema: Any) -> None:
    row = leg_schema["setup"]["anyOf"][0]["properties"]["rows"]["items"]["properties"]
    assert row["control"]["enum"] == [control.value for control in Control]
    check = leg_schema["tune_checks"]["anyOf"][0]["items"]["properties"]
    step = check["echoes"]["items"]["properties"]["step"]
    assert step["enum"] == [rung.value for rung in Rung]


def test_the_schema_refuses_a_setting_without_a_reason(legs: Any, leg_schema: Any) -> None:
    card = json.loads(json.dumps(legs[0]["setup"]))
    validator = jsonschema.Draft202012Validator(leg_schema["setup"])
    validator.validate(card)
    del card["rows"][0]["why"]
    assert not validator.is_valid(card)


def test_a_tune_check_has_four_steps_at_a_place_and_time(legs: Any) -> None:
    (check,) = legs[0]["tune_checks"]
    assert check["along_nm"] == pytest.approx(1.6, abs=1e-4)
    # 1.6 NM at 12 kn are 8 minutes after 0500, by hand.
    assert check["utc"] == "2026-03-14T05:08:00Z"
    assert [step["echo"]["object_id"] for step in check["echoes"]] == ["A", "B", "D", "E"]
    absent = check["echoes"][3]["echo"]
    assert absent["margin_db"] is None
    assert not absent["expected"]
    assert "land 84 m high" in check["echoes"][3]["reason"]
    assert check["readings"]


def test_a_leg_without_a_check_says_why(legs: Any) -> None:
    for leg in legs[1:]:
        assert leg["tune_checks"] is None
        assert leg["tune_checks_reason"] == "echoes were not worked out for this leg"
