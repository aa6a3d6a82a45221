"""The detect job: what it asks for, what it answers, and how it says so."""

import json
from dataclasses import replace

import pytest

from core.base.errors import InputError
from core.files.detect_json import detection_json, table_json
from core.jobs.detect import detect, detect_table
from core.jobs.detect_request import DetectWords
from core.radar.radar_set import Preset
from core.words.detect_words import detected_nm, detection_lines, lost_nm, table_lines

_BUOY = DetectWords(band="X", antenna_height_m=15.0, rcs_m2=5.0, target_height_m=3.5)


def test_minimum_standard_is_taken_where_no_preset_is_named() -> None:
    found = detect(_BUOY)
    assert found.budget.radar.preset is Preset.MINIMUM
    assert found.ranges.first_m is not None
    assert found.ranges.first_m / 1852.0 == pytest.approx(4.56, abs=0.01)  # handbook 12


def test_a_range_scale_picks_its_pulse() -> None:
    assert detect(_BUOY).budget.pulse.name == "long"
    assert detect(replace(_BUOY, range_scale_m=1389.0)).budget.pulse.name == "short"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (replace(_BUOY, band=None), "no radar band is given. Give --band X or --band S."),
        (
            replace(_BUOY, antenna_height_m=None),
            "no antenna height is given. Give --antenna in metres.",
        ),
        (
            replace(_BUOY, rcs_m2=None, target_height_m=None),
            "no target is given. Give --rcs and --target-height, or --shore-height.",
        ),
        (
            replace(_BUOY, rcs_m2=None),
            "no whole target is given. Give --rcs and --target-height, or --shore-height.",
        ),
        (
            replace(_BUOY, shore_height_m=20.0),
            "two targets are given. Give --shore-height alone, or --rcs and --target-height.",
        ),
        (
            replace(_BUOY, preset="best"),
            "--preset: there is no preset «best». Use minimum standard or typical.",
        ),
        (
            replace(_BUOY, sea_state=7.0),
            "the sea state 7 is not between 0 and 6. Give another value.",
        ),
        (
            replace(_BUOY, rain_mm_h=-1.0),
            "the rain -1 mm/h is not between 0 and 200 mm/h. Give another value.",
        ),
        (
            replace(_BUOY, rcs_m2=float("inf")),
            "the radar cross-section inf m2 is not between 0.0001 and 1e+08 m2. Give another "
            "value.",
        ),
        (
            replace(_BUOY, antenna_height_m=0.0),
            "the antenna height above water 0 m is not between 1 and 150 m. Give another value.",
        ),
    ],
)
def test_what_cannot_be_worked_out_is_one_sentence(words: DetectWords, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        detect(words)
    assert str(caught.value) == sentence


def test_a_table_has_its_own_targets_and_weather() -> None:
    with pytest.raises(InputError, match="--rain does not go with --table"):
        detect_table(DetectWords(is_table=True, rain_mm_h=4.0))
    with pytest.raises(InputError, match="no preset"):
        detect_table(DetectWords(is_table=True, preset="best"))


def test_json_has_the_keys_that_are_promised() -> None:
    answer = json.loads(json.dumps(detection_json(detect(replace(_BUOY, sea_state=4.0)))))
    assert set(answer) == {
        "band", "preset", "antenna_m", "target", "sea_state", "rain_mm_h", "refraction_k", "pd",
        "pfa", "first_detection_nm", "first_detection_nm_reason", "detection_bands_nm",
        "lost_in_sea_clutter_inside_nm", "lost_in_sea_clutter_inside_nm_reason",
        "snr_required_db", "parameters",
    }  # fmt: skip
    assert (answer["band"], answer["preset"]) == ("X", "minimum standard")
    assert answer["target"] == {"kind": "point", "height_m": 3.5, "rcs_m2": 5.0}
    assert (answer["pd"], answer["pfa"], answer["sea_state"]) == (0.8, 1e-4, 4.0)
    assert 4.0 < answer["first_detection_nm"] < 4.6
    assert answer["detection_bands_nm"][-1][1] == answer["first_detection_nm"]
    assert 1.0 < answer["lost_in_sea_clutter_inside_nm"] < 4.0
    assert answer["lost_in_sea_clutter_inside_nm_reason"] == ""
    assert answer["parameters"]["losses_db"] == 26.1


def test_what_is_null_says_why() -> None:
    calm = detection_json(detect(_BUOY))
    assert calm["lost_in_sea_clutter_inside_nm"] is None
    assert "sea state 0" in calm["lost_in_sea_clutter_inside_nm_reason"]
    spar = detection_json(detect(replace(_BUOY, rcs_m2=0.3, target_height_m=1.0, sea_state=6.0)))
    assert spar["first_detection_nm"] is None
    assert spar["detection_bands_nm"] == []
    assert spar["first_detection_nm_reason"] == "sea clutter hides it at every range"
    speck = detection_json(
        detect(replace(_BUOY, rcs_m2=0.0001, target_height_m=0.05, rain_mm_h=100.0))
    )
    assert speck["first_detection_nm_reason"] == "its echo is too weak in this rain at every range"


def test_words_say_what_was_found_and_promise_nothing() -> None:
    text = "\n".join(detection_lines(detect(replace(_BUOY, sea_state=4.0, preset="typical"))))
    assert "X band, typical, well kept" in text
    assert "a point of 5 m² at 3.5 m" in text
    assert "sea state 4" in text
    assert "lost in sea inside:" in text
    assert "Ducting is not predicted" in text
    for word in ("will be", "safe", "guarantee"):
        assert word not in text.lower()


def test_words_of_a_shore_and_of_what_is_not_found() -> None:
    shore = detection_lines(detect(DetectWords(band="S", antenna_height_m=25.0, shore_height_m=60)))
    assert any("a shoreline of 50000 m², evenly from 0 to 60 m" in line for line in shore)
    spar = detection_lines(detect(replace(_BUOY, rcs_m2=0.3, target_height_m=1.0, sea_state=6.0)))
    assert any("nowhere: sea clutter hides it at every range" in line for line in spar)


def test_many_bands_are_told_from_the_outermost() -> None:
    tower = replace(_BUOY, rcs_m2=20.0, target_height_m=60.0, antenna_height_m=40.0)
    found = detect(tower)
    assert len(found.ranges.bands) > 6
    (line,) = [line for line in detection_lines(found) if line.startswith("detected from")]
    assert f"{len(found.ranges.bands) - 6} more nearer" in line


def test_ranges_are_rounded_towards_the_cautious_side() -> None:
    assert detected_nm(4.559 * 1852.0) == "4.55"
    assert detected_nm(4.56 * 1852.0) == "4.56"
    assert lost_nm(1.231 * 1852.0) == "1.24"
    assert lost_nm(1.23 * 1852.0) == "1.23"
    assert (detected_nm(None), lost_nm(None)) == ("–", "–")


def test_the_table_shows_its_residuals_row_by_row() -> None:
    bands = detect_table(DetectWords(is_table=True))
    assert [budget.radar.band.value for budget, _lines in bands] == ["X", "S"]
    for budget, lines in bands:
        text = table_lines(budget, lines)
        rows = [line for line in text if line.startswith(("shore", "ship", "small", "buoy"))]
        assert len(rows) == 7
        assert all("+" in row or "-" in row for row in rows)
    first = next(line for line in table_lines(*bands[0]) if line.startswith("typical buoy"))
    assert first.split()[2:5] == ["4.6", "4.56", "-0.04"]  # handbook 12


def test_the_table_as_json() -> None:
    bands = detect_table(DetectWords(is_table=True, band="S", preset="typical"))
    answer = table_json([budget for budget, _ in bands], [lines for _, lines in bands])
    (band,) = json.loads(json.dumps(answer))["bands"]
    assert (band["band"], band["preset"], band["antenna_m"]) == ("S", "typical", 15.0)
    assert len(band["rows"]) == 10
    row = band["rows"][7]
    assert row["standard_nm"] == pytest.approx(3.0)
    clear = row["conditions"]["clear"]["first_detection_nm"]
    assert row["residual_nm"] == pytest.approx(clear - 3.0, abs=2e-5)
    assert row["conditions"]["rain_16_mm_h"]["first_detection_nm"] < clear
    assert row["conditions"]["sea_state_5"]["lost_in_sea_clutter_inside_nm"] > 0.0
    assert sum(row["is_footnote_from_memory"] for row in band["rows"]) == 1
