"""Offings of a leg past invented islets; cross-index ranges worked by hand."""

import json
from pathlib import Path

import numpy as np
import pytest

from core.base.errors import Cancelled, InputError
from core.base.progress import Quiet
from core.base.units import m_from_nm, nm_from_m
from core.files.offings_json import offings_document
from core.files.project import Options, Project
from core.jobs import compare_offings as module
from core.jobs import plan_passage
from core.jobs.compare_offings import compare_offings
from core.jobs.make_request import make_request
from core.jobs.offing_shifts import check_shifts, shifts_in_text
from core.plan.offing_result import Offing, OffingTable
from core.plan.request import Request
from core.words.offing_words import offing_lines
from tests.helpers.land_files import box_ring, write_geojson, write_tif

_MINUTE = 1.0 / 60.0
_CELL = 1.0 / 1200.0
"""3 arc-seconds of elevation: 92.7 m of longitude on the equator."""
# Northbound on the meridian of 20 W from 1 S to 1 minute N of it; an islet 2 minutes of longitude
# east of the track and one 4 minutes west, both 40 m high.
_WEST, _NORTH, _SIDE = -20.25, 0.25, 0.5
_ISLETS = ((2.0, 0.0), (-4.0, 2.0))


def _write(folder: Path) -> tuple[Path, Path]:
    count = round(_SIDE / _CELL)
    heights = np.zeros((count, count), dtype=np.int16)
    rings = []
    for east_min, north_min in _ISLETS:
        col = round((-20.0 + east_min * _MINUTE - _WEST) / _CELL)
        row = round((_NORTH - north_min * _MINUTE) / _CELL)
        heights[row - 2 : row + 2, col - 2 : col + 2] = 40
        west, north = _WEST + (col - 2) * _CELL, _NORTH - (row - 2) * _CELL
        rings.append(box_ring(west, north - 4 * _CELL, west + 4 * _CELL, north))
    tif = write_tif(folder / "land.tif", heights, west=_WEST, north=_NORTH, cell=_CELL)
    box = (_WEST, _NORTH - _SIDE, _WEST + _SIDE, _NORTH)
    return tif, write_geojson(folder / "coast.geojson", polygons=rings, bbox=box)


_ROUTE = "-0.1, -20.05\n-0.1, -20.0\n0.1, -20.0\n0.1, -20.06\n"
"""East for 3 NM, north for 12, west for 3.6."""


@pytest.fixture(scope="module")
def request_of(tmp_path_factory: pytest.TempPathFactory) -> Request:
    folder = tmp_path_factory.mktemp("offings")
    limits = folder / "limits.csv"
    limits.write_text("object,leg,not_less_than_nm\nA,2,1.6\n")
    return make_request(
        Project(
            route_text=_ROUTE,
            land=_write(folder),
            limits=limits,
            options=Options(antenna_height_m=20.0, radius_m=m_from_nm(8.0), corridor_m=300.0),
        )
    )


@pytest.fixture(scope="module")
def table(request_of: Request) -> OffingTable:
    shifts = (m_from_nm(-0.5), m_from_nm(0.5), m_from_nm(2.0))
    return compare_offings(request_of, 2, shifts, Quiet())


def _ranges_nm(offing: Offing) -> dict[str, float]:
    return {line.object_id: nm_from_m(line.cross_index_range_m) for line in offing.lines}


def test_the_planned_offing_comes_first_and_changes_nothing(table: OffingTable) -> None:
    first = table.offings[0]
    assert (first.shift_m, first.distance_change_m) == (0.0, 0.0)
    assert [nm_from_m(o.shift_m) for o in table.offings] == pytest.approx([0.0, -0.5, 0.5, 2.0])


def test_cross_index_ranges_move_with_the_leg_under_the_same_letters(table: OffingTable) -> None:
    # The islet's west side is two cells of 3 seconds nearer than 2 minutes of longitude, 111 319.5
    # m a degree on the equator: 2.003 - 0.100 NM = 1.90 NM. Half a mile nearer on to starboard.
    planned, port, starboard, _across = table.offings
    assert _ranges_nm(planned)["A"] == pytest.approx(1.90, abs=0.01)
    assert _ranges_nm(port)["A"] == pytest.approx(2.40, abs=0.01)
    assert _ranges_nm(starboard)["A"] == pytest.approx(1.40, abs=0.01)
    assert nm_from_m(planned.nearest_land_m or 0.0) == pytest.approx(1.90, abs=0.03)


def test_distance_is_that_of_the_leg_and_its_neighbours(table: OffingTable) -> None:
    # The legs before and after both grow by a shift to starboard: 2 x 0.5 NM.
    changes = [nm_from_m(o.distance_change_m) for o in table.offings]
    assert changes == pytest.approx([0.0, -1.0, 1.0, 4.0], abs=0.01)


def test_a_broken_danger_limit_and_land_on_the_line_are_said_first_and_loud(
    table: OffingTable,
) -> None:
    planned, port, starboard, across = table.offings
    assert not any("DANGER LIMIT BROKEN" in words for words in planned.warnings + port.warnings)
    assert any("DANGER LIMIT BROKEN: 1.3" in w or "1.4" in w for w in starboard.warnings)
    assert across.warnings[0].startswith("THE LEG CROSSES LAND")
    assert not any("CROSS LAND" in words for words in planned.warnings)


def test_land_is_read_once(request_of: Request, monkeypatch: pytest.MonkeyPatch) -> None:
    reads = []
    real = plan_passage.land_round

    def counted(*args: object, **words: object) -> object:
        reads.append(1)
        return real(*args, **words)  # type: ignore[arg-type]

    monkeypatch.setattr(module, "land_round", counted)
    compare_offings(request_of, 1, (m_from_nm(0.3), m_from_nm(-0.3)), Quiet())
    assert reads == [1]


def test_it_can_be_stopped(request_of: Request) -> None:
    class Stop:
        def report(self, fraction: float, text: str = "") -> None:
            if fraction > 0.4:
                raise Cancelled

    with pytest.raises(Cancelled):
        compare_offings(request_of, 2, (m_from_nm(0.5),), Stop())


def test_words_and_file_say_the_same_and_promise_nothing(table: OffingTable) -> None:
    text = "\n".join(offing_lines(table))
    document = offings_document(table)
    json.dumps(document, allow_nan=False)
    assert "0.50 NM to STARBOARD" in text
    assert "THE LEG CROSSES LAND" in " ".join(text.split())
    assert "safe" not in text.lower()
    for offing, row in zip(table.offings, document["offings"], strict=True):
        assert row["shift_nm"] == pytest.approx(nm_from_m(offing.shift_m), abs=1e-5)
        assert row["warnings"] == list(offing.warnings)
        for line in offing.lines:
            assert line.object_id in text


def test_a_leg_or_an_offing_that_makes_no_sense_is_one_sentence(request_of: Request) -> None:
    with pytest.raises(InputError, match="no leg 4"):
        compare_offings(request_of, 4, (500.0,), Quiet())
    for shifts, words in (
        ((), "no offing"),
        ((0.0,), "0 NM from"),
        ((m_from_nm(21.0),), "21 NM"),
        (tuple(100.0 * i for i in range(1, 10)), "9 offings"),
    ):
        with pytest.raises(InputError, match=words):
            check_shifts(shifts)
    assert check_shifts((500.0, -500.0, 500.0)) == (500.0, -500.0)


@pytest.mark.parametrize("text", ["0.5,1.0", "0.5, 1.0", "0,5 / 1,0", "0,5;1,0", " 0.5  1 "])
def test_distances_are_read_as_officers_type_them(text: str) -> None:
    assert shifts_in_text(text) == pytest.approx((926.0, 1852.0))


@pytest.mark.parametrize("text", ["a", "0.5,x", "nan", "1e999", "0.5,-"])
def test_what_is_no_distance_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a distance in NM"):
        shifts_in_text(text)
