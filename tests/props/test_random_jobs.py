"""Random inputs through the whole job: a plan that keeps the definitions, or one sentence.

Forty seeded cases in every run; ``LEGSHEET_RANDOM_JOBS`` asks for another number.
"""

import json
import math
import os
import random
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import numpy as np
import pytest

from app.paint.outputs import OutputPaths, write_outputs
from core.base.errors import LegsheetError
from core.base.progress import Quiet
from core.base.units import m_from_nm, mps_from_kn
from core.coverage.first_paint_result import PaintLimit
from core.files.project import Options, Project
from core.geodesy import geodesic
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from tests.helpers.land_files import VOID, write_geojson, write_tif

ROOT = Path(__file__).resolve().parents[2]
COUNT = int(os.environ.get("LEGSHEET_RANDOM_JOBS", "40"))
_CELL_DEG = 1.0 / 600.0
_CELLS = 200
_SCHEMA = json.loads((ROOT / "resources/schema/plan-1.schema.json").read_text(encoding="utf-8"))


def _land(rng: random.Random, folder: Path, west: float, north: float) -> list[Path]:
    """Random hills, islets and voids; sometimes a coast, cut, crossing itself or none."""
    heights = np.zeros((_CELLS, _CELLS), dtype=np.float64)
    row, col = np.mgrid[0:_CELLS, 0:_CELLS]
    for _ in range(rng.randint(0, 6)):
        r, c = rng.uniform(0, _CELLS), rng.uniform(0, _CELLS)
        wide, high = rng.choice([1.0, 3.0, 15.0]), rng.choice([3.0, 40.0, 400.0])
        heights += high * np.exp(-((row - r) ** 2 + (col - c) ** 2) / (2.0 * wide**2))
    heights[heights < 1.0] = rng.choice([0, 0, -30])
    if rng.random() < 0.4:
        r, c = rng.randrange(_CELLS - 20), rng.randrange(_CELLS - 20)
        heights[r : r + rng.randint(1, 20), c : c + rng.randint(1, 20)] = VOID
    paths = [
        write_tif(folder / "land.tif", heights.round(), west=west, north=north, cell=_CELL_DEG)
    ]
    if rng.random() < 0.5:
        span = _CELLS * _CELL_DEG

        def corner() -> tuple[float, float]:
            return west + rng.random() * span, north - rng.random() * span

        rings = [
            tuple(corner() for _ in range(rng.randint(3, 6))) for _ in range(rng.randint(0, 3))
        ]
        box = (west, north - span, west + span, north)
        paths.append(
            write_geojson(
                folder / "coast.geojson", polygons=rings, bbox=box if rng.random() < 0.7 else None
            )
        )
    return paths


def _route(rng: random.Random, folder: Path, west: float, north: float) -> Path:
    span = _CELLS * _CELL_DEG
    count = 1 if rng.random() < 0.05 else rng.choice([2, 3, 4, 6])
    places = [
        (north - span * rng.uniform(-0.1, 1.1), west + span * rng.uniform(-0.1, 1.1))
        for _ in range(count)
    ]
    if count > 2 and rng.random() < 0.08:
        places[1] = places[0]
    if count > 2 and rng.random() < 0.3:
        places[2] = (places[1][0] + 1e-6, places[1][1])
    rows = ["name,lat,lon,turn radius,xtd port,xtd stbd,speed"]
    for number, (lat, lon) in enumerate(places):
        radius = rng.choice(["", "0.3", "2.5", "0"])
        corridor = rng.choice(["", "0.1", "3"])
        speed = rng.choice(["", "12", "0.5", "60", "-3", "abc"])
        name = rng.choice([f"W{number}", "", "Same name", "Ö" * 40])
        rows.append(f"{name},{lat:.7f},{_wrapped(lon):.7f},{radius},{corridor},{corridor},{speed}")
    path = folder / "route.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def _wrapped(lon_deg: float) -> float:
    return (lon_deg + 180.0) % 360.0 - 180.0


def _marks(rng: random.Random, folder: Path, west: float, north: float) -> Path | None:
    if rng.random() < 0.5:
        return None
    span = _CELLS * _CELL_DEG
    rows = ["name,lat,lon,kind,height_m,fixed"]
    for number in range(rng.randint(1, 5)):
        lat, lon = north - span * rng.random(), west + span * rng.random()
        fixed = rng.choice(["yes", "no"])
        rows.append(
            f"Mark {number},{lat:.6f},{_wrapped(lon):.6f},beacon,{rng.choice([2, 15])},{fixed}"
        )
    path = folder / "marks.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def _options(rng: random.Random) -> Options:
    tide = rng.choice([None, None, 0.0, 4.5])
    return Options(
        antenna_height_m=rng.choice([0.0, math.nan])
        if rng.random() < 0.06
        else rng.choice([None, 5.0, 25.0, 60.0]),
        radius_m=m_from_nm(rng.choice([2.0, 5.0])),
        tide_m=tide,
        mean_sea_level_m=None if tide is None or rng.random() < 0.1 else 2.5,
        speed_mps=rng.choice([None, mps_from_kn(10.0)]),
        refraction_k=rng.choice([None, 1.0, 2.0]),
    )


def _keeps_the_definitions(outcome: Outcome, document: dict[str, object]) -> None:
    jsonschema.Draft202012Validator(_SCHEMA).validate(document)
    assert not list(_unexplained(document))
    ids = [thing.id for thing in outcome.plan.objects]
    assert len(ids) == len(set(ids))
    for leg, coverage in zip(outcome.plan.legs, outcome.coverage.legs, strict=True):
        line = outcome.plan.passage.line(leg.leg_index)
        end_m = leg.wheel_over.along_m if leg.wheel_over is not None else leg.distance_m
        primaries = [x for x in leg.lines if x.role.value == "primary"]
        assert bool(primaries) != bool(leg.no_index_reason)
        matters = any(g.cause.value != "beyond_data" for g in coverage.gaps)
        assert coverage.is_complete or coverage.gaps
        assert not (coverage.is_complete and matters)
        _keeps_the_limits(leg)
        for index in leg.lines:
            assert index.cross_index_range_m > 0.0
            assert -1.0 <= index.from_along_m <= index.to_along_m <= leg.distance_m + 1.0
            if index.role.value != "wheel_over":
                assert index.to_along_m <= end_m + 1.0
            if index.role.value in ("primary", "check"):
                assert index.object.is_fixed
                # The side, by a bearing from the foot of the perpendicular.
                along, cross = line.track_coordinates(
                    np.array([index.object.position.lat_deg]),
                    np.array([index.object.position.lon_deg]),
                )
                lats, lons, courses = line.at(along)
                _d, bearing, _f = geodesic.inverse(
                    from_lat_deg=lats,
                    from_lon_deg=lons,
                    to_lat_deg=index.object.position.lat_deg,
                    to_lon_deg=index.object.position.lon_deg,
                )
                relative = float((bearing[0] - courses[0]) % 360.0)
                assert (relative < 180.0) is (index.side.value == "starboard"), cross


def _unexplained(node: object, where: str = "") -> Iterator[str]:
    """Nulls that have a reason beside them that says nothing."""
    if isinstance(node, dict):
        for key, value in node.items():
            if value is None and not node.get(f"{key}_reason", "not asked for"):
                yield f"{where}/{key}"
            yield from _unexplained(value, f"{where}/{key}")
    elif isinstance(node, list):
        for number, value in enumerate(node):
            yield from _unexplained(value, f"{where}/{number}")


def _keeps_the_limits(leg: LegPlan) -> None:
    """The limits of first paints in their order, with reasons; nothing both paints and must not."""
    for paint in (*leg.first_paints, *leg.coast_paints):
        limits = (
            paint.earliest_possible,
            paint.normally_from,
            paint.normally_by,
            paint.corridor_by,
            paint.overdue,
        )
        places = [_place_of(limit) for limit in limits]
        assert places == sorted(places), paint.object_id
        for limit in limits:
            assert (limit.moment is None) is bool(limit.reason)
            assert limit.moment is None or 0.0 <= limit.moment.along_m <= leg.distance_m + 1.0
        for radar in paint.by_radar:
            ends = [end for stretch in radar.stretches for end in stretch]
            assert ends == sorted(ends)
    stretches = {
        paint.object_id: [s for radar in paint.by_radar for s in radar.stretches]
        for paint in leg.first_paints
    }
    for item in leg.must_not_paint:
        assert item.begins.along_m < item.ends.along_m
        assert not item.masked_by.startswith("land 0 m")
        for from_m, to_m in stretches.get(item.object_id, ()):
            assert to_m <= item.begins.along_m or item.ends.along_m <= from_m, item.object_id


def _place_of(limit: PaintLimit) -> float:
    if limit.is_from_start:
        return -math.inf
    return math.inf if limit.moment is None else limit.moment.along_m


@pytest.mark.parametrize("seed", range(COUNT))
@pytest.mark.usefixtures("qapp")  # before any output makes an application without windows
def test_a_random_job_is_planned_or_refused_in_one_sentence(seed: int, tmp_path: Path) -> None:
    rng = random.Random(seed)  # noqa: S311 - repeatable, not secret
    north = rng.choice([50.3, -20.0, 0.1, 70.0])
    west = rng.choice([-31.0, 179.9, -0.1])
    project = Project(
        route=_route(rng, tmp_path, west, north),
        land=tuple(_land(rng, tmp_path, west, north)),
        marks=_marks(rng, tmp_path, west, north),
        options=_options(rng),
    )
    outputs = OutputPaths(
        pdf=tmp_path / "o.pdf", json=tmp_path / "o.json", geojson=tmp_path / "o.geojson",
        csv=tmp_path / "o.csv",
    )  # fmt: skip
    try:
        outcome = plan_passage(make_request(project), Quiet())
        write_outputs(outcome, outputs, Quiet())
    except LegsheetError as error:
        sentence = str(error)
        assert sentence
        assert "\n" not in sentence
        assert not list(tmp_path.glob("o*"))
        return
    document = json.loads(outputs.json.read_text(encoding="utf-8")) if outputs.json else {}
    _keeps_the_definitions(outcome, document)
