"""First paints seen against expected (job.md B18, C7); ratios worked by hand."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from core.base.errors import InputError
from core.base.units import nm_from_m
from core.files.expected_plan import read_expected
from core.files.observed_json import observed_document
from core.files.plan_json import plan_bytes
from core.files.sightings_file import read_sightings
from core.jobs.compare_observed import compare_observed
from core.jobs.detect import detect
from core.jobs.detect_request import DetectWords
from core.plan.observed import hint_of, trend_of
from core.plan.observed_result import Hint, ObservedReport, Trend
from core.words.observed_words import observed_lines
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints
from tests.helpers.small_plan import paint, small_plan


def _report(folder: Path, plan: dict[str, Any], seen: str) -> ObservedReport:
    (folder / "plan.json").write_text(json.dumps(plan))
    (folder / "seen.csv").write_text(seen)
    report, _findings = compare_observed(folder / "plan.json", folder / "seen.csv")
    return report


def test_ratio_is_range_seen_over_range_expected(tmp_path: Path) -> None:
    report = _report(tmp_path, small_plan(paint("A", 9.0)), "object,leg,range_nm\na,1,8.1\n")
    (item,) = report.comparisons
    assert item.ratio == pytest.approx(0.9)
    assert (item.radar, item.name) == ("main mast", "islet A")
    # sqrt(2 x 4/3 x 6 371 000 m x 25 m) = 20 609 m: own radar horizon (computed by hand).
    assert nm_from_m(report.plan.horizon_m) == pytest.approx(11.13, abs=0.01)


def test_a_time_gives_the_range_from_the_planned_track(tmp_path: Path) -> None:
    # Half an hour after 0600 the ship is 5 NM north of the equator by the plan; a minute of
    # latitude there is 110 574.28 m / 60 = 0.9951 NM (WGS-84), so 15 minutes are 14.93 NM.
    plan = small_plan(paint("A", 15.0))
    report = _report(tmp_path, plan, "object,leg,time_utc\nA,1,2031-05-04T06:30:00Z\n")
    (item,) = report.comparisons
    assert item.is_by_time
    assert nm_from_m(item.seen_m or 0.0) == pytest.approx(14.93, abs=0.01)
    assert item.ratio == pytest.approx(0.995, abs=0.001)


def test_a_radar_that_is_named_has_its_own_expectation_and_record(tmp_path: Path) -> None:
    plan = small_plan(paint("A", 10.0))
    seen = "object,leg,range_nm,radar\nA,1,9.0,After Mast\nA,1,9.0,\n"
    report = _report(tmp_path, plan, seen)
    ratios = {item.radar: item.ratio for item in report.comparisons}
    assert ratios == {
        "after mast": pytest.approx(9.0 / 11.0),
        "main mast": pytest.approx(0.9),
    }
    assert [record.radar for record in report.records] == ["main mast", "after mast"]


@pytest.mark.parametrize(
    ("seen", "with_times", "why"),
    [
        ("A,9,5,", True, "the plan has no leg 9"),
        ("Z,1,5,", True, "expects no first paint of it on leg 1"),
        ("B,1,5,", True, "it paints from the start"),
        ("A,1,,2031-05-04T06:30Z", False, "the plan has no times"),
        ("A,1,,2031-05-04T09:30Z", True, "the ship was not on leg 1 then"),
    ],
)
def test_a_row_without_a_ratio_says_why(
    tmp_path: Path, seen: str, with_times: bool, why: str
) -> None:
    plan = small_plan(paint("A", 9.0), paint("B", None), with_times=with_times)
    report = _report(tmp_path, plan, f"object,leg,range_nm,time_utc\n{seen}\n")
    (item,) = report.comparisons
    assert item.ratio is None
    assert why in item.why
    assert not report.records
    assert why in "\n".join(observed_lines(report))
    row = observed_document(report)["sightings"][0]
    assert (row["ratio"], why in row["ratio_reason"]) == (None, True)


def test_what_a_real_plan_file_holds_is_read_back(tmp_path: Path) -> None:
    outcome = with_paints(sample_outcome())
    (tmp_path / "plan.json").write_bytes(plan_bytes(outcome))
    plan = read_expected(tmp_path / "plan.json")
    assert [leg.number for leg in plan.legs] == list(range(1, len(outcome.plan.legs) + 1))
    expected = {
        (leg.leg_index + 1, p.object_id): p.normally_by.moment.range_m
        for leg in outcome.plan.legs
        for p in leg.first_paints
        if p.normally_by.moment is not None
    }
    assert expected
    main = plan.radars[0]
    for leg in plan.legs:
        for thing in leg.paints:
            if (leg.number, thing.object_id) in expected:
                assert dict(thing.range_by_radar_m)[main] == pytest.approx(
                    expected[leg.number, thing.object_id], abs=0.05
                )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("object,leg\nA,1\n", "line 2: there is neither range_nm nor time_utc"),
        ("object,leg,range_nm\nA,x,5\n", "leg «x» is not a number of a leg"),
        ("object,leg,range_nm\nA,0,5\n", "leg «0» is not a number"),
        ("object,leg,range_nm\nA,1,-5\n", "range_nm -5 is not above 0"),
        ("object,leg,range_nm\nA,1,5\na,1,6\n", "line 3: «a» was already seen first on leg 1"),
        ("object,leg,time_utc\nA,1,noon\n", "time_utc «noon» is not a time"),
        ("object,leg,range_nm\n", "there is nothing seen under the header"),
    ],
)
def test_a_bad_table_is_one_sentence(tmp_path: Path, text: str, sentence: str) -> None:
    path = tmp_path / "seen.csv"
    path.write_text(text)
    with pytest.raises(InputError) as caught:
        read_sightings(path)
    assert sentence in str(caught.value)
    assert "seen.csv" in str(caught.value)


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": "legsheet-plan"}', "{" * 9])
def test_what_is_no_plan_file_is_one_sentence(tmp_path: Path, text: str) -> None:
    path = tmp_path / "plan.json"
    path.write_text(text)
    with pytest.raises(InputError) as caught:
        read_expected(path)
    assert "plan.json" in str(caught.value)


def test_a_trend_is_told_only_where_chance_hardly_makes_it() -> None:
    # Kendall: five values in strict order have S = 10 over a deviation of sqrt(5 x 4 x 15 / 18) =
    # 4.08, 2.45 deviations; four are too few (computed by hand).
    falling = [1.0, 0.98, 0.95, 0.93, 0.9]
    assert trend_of(falling) is Trend.FALLING
    assert trend_of(falling[::-1]) is Trend.RISING
    assert trend_of([1.0, 0.9, 1.02, 0.95, 1.0, 0.93]) is Trend.NONE
    assert trend_of(falling[:4]) is Trend.UNKNOWN


def test_air_and_radar_are_told_apart_by_near_and_far() -> None:
    assert hint_of([1.0, 0.98], [0.85, 0.9]) is Hint.AIR
    assert hint_of([0.8, 0.85], [0.9, 0.95]) is Hint.RADAR
    assert hint_of([1.0, 1.02], [0.97, 1.0]) is Hint.AS_EXPECTED
    assert hint_of([1.1, 1.15], [1.2, 1.1]) is Hint.EARLY
    assert hint_of([], [0.8, 0.85]) is Hint.ONE_SIDED
    assert hint_of([0.8], []) is Hint.TOO_FEW


def _first_nm(*, k: float, loss: float, **target: float) -> float:
    """First detection from 25 m by a typical X-band set; an echo weaker by a factor of power."""
    words = DetectWords(
        band="X",
        preset="typical",
        antenna_height_m=25.0,
        refraction_k=k,
        rcs_m2=target["rcs_m2"] * loss,
        target_height_m=target["height_m"],
        is_extended=target["height_m"] > 5.0,
    )
    found = detect(words).ranges.first_m
    assert found is not None
    return nm_from_m(found)


def test_six_decibels_and_weak_refraction_are_told_apart_in_nine_runs_of_ten() -> None:
    # job.md C7: -6 dB (a quarter of the power, 10^-0.6) against k 1.0, simulated with the
    # detection model itself: buoys and boats expected within own horizon, shores (833.3 m2 a metre,
    # definitions.md) beyond it, four of each, read with 3 % of scatter.
    near = [{"rcs_m2": rcs, "height_m": 3.5} for rcs in (1.0, 3.0, 5.0, 10.0)]
    far = [{"rcs_m2": 833.3 * h, "height_m": h} for h in (30.0, 60.0, 100.0, 200.0)]
    expected = [_first_nm(k=4.0 / 3.0, loss=1.0, **t) for t in (*near, *far)]
    assert max(expected[:4]) < 11.13 < min(expected[4:])
    runs = 100
    noise = np.random.default_rng(7).normal(1.0, 0.03, (2, runs, 8))
    for number, (k, loss, hint) in enumerate(
        ((4.0 / 3.0, 10.0**-0.6, Hint.RADAR), (1.0, 1.0, Hint.AIR))
    ):
        ratios = np.array([_first_nm(k=k, loss=loss, **t) for t in (*near, *far)]) / np.array(
            expected
        )
        right = sum(
            hint_of(list(seen[:4]), list(seen[4:])) is hint for seen in ratios * noise[number]
        )
        assert right >= 0.9 * runs, (hint, ratios)


def test_words_are_hints(tmp_path: Path) -> None:
    paints = [paint(chr(65 + i), 8.0 if i < 3 else 20.0) for i in range(6)]
    seen = "object,leg,range_nm\n" + "".join(
        f"{chr(65 + i)},1,{8.0 if i < 3 else 17.0}\n" for i in range(6)
    )
    report = _report(tmp_path, small_plan(*paints), seen)
    (record,) = report.records
    assert record.hint is Hint.AIR
    text = "\n".join(observed_lines(report))
    assert "speaks for the air" in text
    assert "Hints only" in text
    assert "safe" not in text.lower()
    json.dumps(observed_document(report), allow_nan=False)
