"""The anchoring card through the whole job: at the last waypoint, at another by its name."""

import json
from pathlib import Path

import jsonschema
import pytest

from core.base.errors import InputError
from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.plan_json import plan_bytes
from core.files.project import Options, Project
from core.geodesy import geodesic
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.anchoring_result import Anchorage
from core.plan.outcome import Outcome
from core.sheets.book import make_book
from core.sheets.page import Text
from core.sheets.sheet_frame import BOTTOM_MM
from core.words.anchor_words import TITLE
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.small_job import Scene

_SCHEMA = Path(__file__).resolve().parents[3] / "resources" / "schema" / "plan-1.schema.json"


def _project(folder: Path, anchorage: Anchorage) -> Project:
    scene = Scene(folder=folder, lat_deg=40.0, lon_deg=-35.0)
    return Project(
        route_text=scene.route_text(),
        land=scene.write_whole(),
        anchorage=anchorage,
        options=Options(antenna_height_m=20.0, radius_m=m_from_nm(6.0), corridor_m=300.0),
    )


@pytest.fixture(scope="module")
def outcome(tmp_path_factory: pytest.TempPathFactory) -> Outcome:
    folder = tmp_path_factory.mktemp("anchorage")
    anchorage = Anchorage(waypoint="wp 2", cable_m=110.0, hawse_m=120.0)
    return plan_passage(make_request(_project(folder, anchorage)), Quiet())


def test_the_card_is_of_the_leg_that_leads_to_the_named_waypoint(outcome: Outcome) -> None:
    card = outcome.plan.anchoring
    assert card is not None
    assert card.leg_index == 0
    assert card.spot == outcome.plan.passage.waypoints[1].position
    assert card.swing_m == 230.0
    assert card.watch


def test_watched_ranges_are_to_what_paints_from_the_anchorage(outcome: Outcome) -> None:
    """By the geodesic from the spot to the middle of the islet (three cells of 3 arc-seconds)."""
    card = outcome.plan.anchoring
    assert card is not None
    known = {thing.id: thing.position for thing in outcome.plan.known_objects}
    for item in card.watch:
        middle = known[item.object_id]
        range_m, bearing, _final = geodesic.inverse(
            from_lat_deg=card.spot.lat_deg,
            from_lon_deg=card.spot.lon_deg,
            to_lat_deg=middle.lat_deg,
            to_lon_deg=middle.lon_deg,
        )
        assert item.range_m == pytest.approx(float(range_m), abs=250.0)
        assert item.bearing_deg == pytest.approx(float(bearing) % 360.0, abs=8.0)


def test_the_plan_file_holds_the_card_and_fits_its_schema(outcome: Outcome) -> None:
    document = json.loads(plan_bytes(outcome))
    jsonschema.Draft202012Validator(json.loads(_SCHEMA.read_text(encoding="utf-8"))).validate(
        document
    )
    assert document["anchoring"]["leg"] == 1
    assert document["anchoring"]["watch"]


def test_the_card_keeps_to_its_sheet(outcome: Outcome) -> None:
    pages = [page for page in make_book(outcome, FixedMeasure()) if page.name == TITLE]
    assert len(pages) == 1
    texts = [item for item in pages[0].items if isinstance(item, Text)]
    caution = next(text for text in texts if "holding ground" in text.text)
    boxes = next(text for text in texts if text.text == "Prepared")
    assert caution.y_mm < boxes.y_mm < BOTTOM_MM
    assert any("legsheet picture" in text.text for text in texts)


def test_a_waypoint_that_no_leg_leads_to_is_one_sentence(tmp_path: Path) -> None:
    for name in ("WP 1", "Elsewhere"):
        with pytest.raises(InputError, match=f"no leg leads to a waypoint «{name}»"):
            make_request(_project(tmp_path, Anchorage(waypoint=name)))
