"""The plan file, its schema, GeoJSON and tables, on the invented sample outcome."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from shapely.geometry import shape

from core.coverage.hidden_water import hidden_from
from core.files.plan_csv import index_table_bytes, wheel_over_table_bytes
from core.files.plan_geojson import geojson_document
from core.files.plan_json import plan_bytes, plan_document
from core.geodesy.position import Position
from core.plan.digest import digest_of
from core.plan.outcome import Outcome
from core.plan.plan_result import KnownObject, ObjectKind, Override, Role
from tests.helpers.moved_edge import with_moved_edge
from tests.helpers.sample_outcome import sample_outcome

SCHEMA = Path(__file__).resolve().parents[3] / "resources" / "schema" / "plan-1.schema.json"


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    sample = sample_outcome()
    return replace(sample, digest=digest_of(sample), created_utc="2026-11-25T05:00:00Z")


@pytest.fixture(scope="module")
def schema() -> Any:
    return json.loads(SCHEMA.read_text(encoding="utf-8"))


def test_the_schema_is_one(schema: Any) -> None:
    jsonschema.Draft202012Validator.check_schema(schema)


def test_the_plan_file_fits_its_schema(outcome: Outcome, schema: Any) -> None:
    jsonschema.Draft202012Validator(schema).validate(json.loads(plan_bytes(outcome)))


def test_every_null_has_its_reason_beside_it(outcome: Outcome) -> None:
    def walk(node: Any, path: str) -> list[str]:
        if isinstance(node, list):
            return [hit for i, item in enumerate(node) for hit in walk(item, f"{path}[{i}]")]
        if not isinstance(node, dict):
            return []
        bad = [
            f"{path}.{key}"
            for key, value in node.items()
            if value is None and path != ".receipt.parameters" and not node.get(f"{key}_reason")
        ]
        return bad + [hit for key, value in node.items() for hit in walk(value, f"{path}.{key}")]

    assert walk(plan_document(outcome), "") == []


def test_the_plan_file_says_nothing_about_echoes_that_were_not_worked_out(outcome: Outcome) -> None:
    for leg in plan_document(outcome)["legs"]:
        for sight in leg["first_paints"]:
            assert sight["overdue"] is None
            assert sight["normally_by"] is None


def test_same_outcome_same_bytes(outcome: Outcome) -> None:
    assert plan_bytes(outcome) == plan_bytes(outcome)


def test_digest_changes_with_a_parameter_and_not_with_the_clock(outcome: Outcome) -> None:
    later = replace(outcome, created_utc="2027-01-01T00:00:00Z")
    assert digest_of(later) == outcome.digest
    other = replace(
        outcome,
        coverage=replace(
            outcome.coverage, settings=replace(outcome.coverage.settings, antenna_height_m=31.0)
        ),
    )
    assert digest_of(other) != outcome.digest


def test_digest_counts_known_objects_only_where_a_first_plan_would_differ(outcome: Outcome) -> None:
    thing = KnownObject(
        id="Q", kind=ObjectKind.ISLET, position=Position(lat_deg=-36.5, lon_deg=174.8)
    )
    told = replace(outcome, request=replace(outcome.request, known_objects=(thing,)))
    assert digest_of(told) == outcome.digest
    kept = replace(told, plan=replace(told.plan, are_letters_kept=True))
    assert digest_of(kept) != outcome.digest
    named = Override(leg_number=1, role="primary", object_id="q ")
    chosen = replace(outcome, request=replace(outcome.request, overrides=(named,)))
    known = replace(chosen, request=replace(chosen.request, known_objects=(thing,)))
    assert digest_of(known) != digest_of(chosen)
    elsewhere = replace(thing, position=Position(lat_deg=-36.5, lon_deg=174.8000001))
    moved = replace(kept, request=replace(kept.request, known_objects=(elsewhere,)))
    assert digest_of(moved) != digest_of(kept)


def test_geojson_has_every_kind_and_closed_rings(outcome: Outcome) -> None:
    features = geojson_document(outcome)["features"]
    kinds = {feature["properties"]["kind"] for feature in features}
    assert {
        "corridor",
        "viewpoint",
        "coast_in_sight",
        "index_line",
        "wheel_over",
        "object",
    } <= kinds
    for feature in features:
        if feature["geometry"]["type"] == "Polygon":
            ring = feature["geometry"]["coordinates"][0]
            assert ring[0] == ring[-1]


def test_geojson_has_the_painted_edge_at_its_own_place(outcome: Outcome) -> None:
    points = outcome.land.points
    features = geojson_document(with_moved_edge(outcome, 1, 0.02))["features"]
    painted = [f for f in features if f["properties"]["kind"] == "coast_painted"]
    assert [f["properties"]["leg"] for f in painted] == [2]
    lines = painted[0]["geometry"]["coordinates"]
    assert len(lines) == points.is_line_start.sum()
    places = np.concatenate([np.array(line) for line in lines])
    assert places[:, 1] == pytest.approx(points.lat_deg + 0.02, abs=1e-6)
    assert np.mod(places[:, 0] - points.lon_deg + 180.0, 360.0) == pytest.approx(180.0, abs=1e-6)


def test_index_table_has_a_row_for_each_line(outcome: Outcome) -> None:
    rows = list(csv.DictReader(io.StringIO(index_table_bytes(outcome).decode("utf-8-sig"))))
    lines = [line for leg in outcome.plan.legs for line in leg.lines]
    assert len(rows) == len(lines)
    assert [row["side"] for row in rows] == [line.side.value for line in lines]
    assert [float(row["cross_index_range_nm"]) for row in rows] == pytest.approx(
        [line.cross_index_range_m / 1852.0 for line in lines], abs=1e-5
    )


def test_wheel_over_table_has_a_row_for_each_turn(outcome: Outcome) -> None:
    rows = list(csv.DictReader(io.StringIO(wheel_over_table_bytes(outcome).decode("utf-8-sig"))))
    assert len(rows) == sum(leg.wheel_over is not None for leg in outcome.plan.legs)


def test_a_name_that_a_spreadsheet_would_run_is_quoted(outcome: Outcome) -> None:
    leg = outcome.plan.legs[0]
    line = next(line for line in leg.lines if line.role is Role.PRIMARY)
    named = replace(line, object=replace(line.object, name='=HYPERLINK("x")'))
    plan = replace(outcome.plan, legs=(replace(leg, lines=(named,), key_in=()),))
    text = index_table_bytes(replace(outcome, plan=plan)).decode("utf-8-sig")
    assert "'=HYPERLINK" in text


def test_hidden_water_is_hidden_from_the_place_it_names(outcome: Outcome) -> None:
    shadows = [
        f
        for f in geojson_document(outcome)["features"]
        if f["properties"]["kind"] == "hidden_water"
    ]
    assert shadows
    for feature in shadows:
        said = feature["properties"]
        view = min(
            outcome.coverage.legs[said["leg"] - 1].on_track(),
            key=lambda v: abs(v.viewpoint.along_m / 1852.0 - said["along_nm"]),
        )
        assert view.viewpoint.along_m / 1852.0 == pytest.approx(said["along_nm"], abs=1e-3)
        inside = shape(feature["geometry"]).representative_point()
        here = [
            v
            for v in outcome.coverage.legs[said["leg"] - 1].viewpoints
            if v.viewpoint.along_m == view.viewpoint.along_m
        ]
        assert said["cross_nm"] == pytest.approx([v.viewpoint.cross_m / 1852.0 for v in here])
        assert any(hidden_from(v, np.array([inside.y]), np.array([inside.x])).all() for v in here)
        assert said["craft_height_m"] == outcome.coverage.settings.craft_height_m
        assert "hidden by land" in said["meaning"]
