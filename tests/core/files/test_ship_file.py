"""Ship files: what is read, and the one sentence for each thing that does not fit."""

import hashlib
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.files.ship_file import (
    builtin_ship,
    builtin_ship_path,
    builtin_ships,
    default_ship,
    read_ship,
)
from core.ship.ship import STANDARD_RANGE_SCALES_M, Band

_LEAST = """
name = "test ship"
[dimensions]
length_overall_m = 100
beam_m = 16
[draughts]
forward_m = 4.0
aft_m = 6.0
[turning]
response_distance_m = 80
[[turning.at_speed]]
speed_kn = 12
radius_m = 500
[[radar]]
band = "X"
antenna_above_keel_m = 30
"""


def _written(folder: Path, text: str) -> Path:
    path = folder / "ship.toml"
    path.write_text(text, encoding="utf-8")
    return path


def _error(folder: Path, text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_ship(_written(folder, text))
    return str(caught.value)


def test_the_least_a_ship_file_must_say_makes_a_ship(tmp_path: Path) -> None:
    path = _written(tmp_path, _LEAST)
    ship, findings, sha256 = read_ship(path)
    assert findings == ()
    assert sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert ship.name == "test ship"
    assert not ship.invented
    assert ship.turn_radius_m == 500.0
    radar = ship.radars[0]
    assert (radar.name, radar.band) == ("X band radar", Band.X)
    assert radar.range_scales_m == STANDARD_RANGE_SCALES_M
    assert ship.antenna_height_above_water_m(radar) == 25.0


def test_positions_from_the_stern_are_shifted_to_the_aft_marks(tmp_path: Path) -> None:
    text = _LEAST.replace(
        "beam_m = 16",
        "beam_m = 16\naft_draught_marks_from_stern_m = 10\nbetween_draught_marks_m = 80",
    )
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text + "antenna_from_stern_m = 30\n"))
    # 20 of 80 m forward of the aft marks: draught 6 - 2/4 = 5.5 m; computed by hand.
    assert ship.antenna_height_above_water_m(ship.radars[0]) == pytest.approx(24.5, abs=1e-12)


def test_without_stated_marks_the_forward_ones_are_at_the_bow(tmp_path: Path) -> None:
    text = _LEAST.replace("beam_m = 16", "beam_m = 16\naft_draught_marks_from_stern_m = 10")
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.length_between_marks_m == 90.0


def test_a_rate_of_turn_becomes_a_radius(tmp_path: Path) -> None:
    # job.md T11 (published rule and by hand): 1.0 NM at 15 kn needs 14.3 deg/min.
    text = _LEAST.replace("speed_kn = 12\nradius_m = 500", "speed_kn = 15\nrate_deg_per_min = 14.3")
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.turn_radius_m / 1852.0 == pytest.approx(1.0, abs=0.003)


def test_passage_speed_picks_the_radius_from_the_table(tmp_path: Path) -> None:
    text = _LEAST.replace(
        "response_distance_m = 80", "response_distance_m = 80\npassage_speed_kn = 9"
    )
    text += "[[turning.at_speed]]\nspeed_kn = 6\nradius_m = 300\n"
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.turn_radius_m == pytest.approx(400.0, abs=1e-9)


def test_blind_sectors_are_those_of_the_load_condition_now(tmp_path: Path) -> None:
    text = 'load_condition = "cranes topped"\n' + _LEAST
    text += """
[[radar.load_condition]]
name = "cranes stowed"
[[radar.load_condition]]
name = "cranes topped"
[[radar.load_condition.blind_sector]]
from_relative_deg = 358
to_relative_deg = 2
cause = "jibs"
kind = "shadow"
"""
    ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert findings == ()
    (sector,) = ship.radars[0].blind_sectors
    assert (sector.from_relative_deg, sector.to_relative_deg) == (358.0, 2.0)
    assert sector.cause == "jibs"
    assert sector.is_shadow
    assert [case.name for case in ship.radars[0].load_conditions] == [
        "cranes stowed",
        "cranes topped",
    ]


def test_an_unknown_load_condition_is_a_finding(tmp_path: Path) -> None:
    text = 'load_condition = "cranes toped"\n' + _LEAST
    text += '[[radar.load_condition]]\nname = "cranes topped"\n'
    _ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert [str(finding) for finding in findings] == [
        "ship.toml: no radar has the load condition «cranes toped», no blind sectors are used. "
        "Choose one of cranes topped."
    ]


def test_no_load_condition_chosen_is_a_finding(tmp_path: Path) -> None:
    text = _LEAST + '[[radar.load_condition]]\nname = "cranes topped"\n'
    _ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert [finding.code for finding in findings] == ["load-condition"]


def test_what_later_stages_need_is_kept(tmp_path: Path) -> None:
    text = _LEAST + (
        "antenna_from_stern_m = 20\nantenna_to_starboard_m = -1.5\nvertical_beamwidth_deg = 22\n"
        "peak_power_kw = 25\nantenna_gain_db = 31\nrange_scales_nm = [12, 3, 6, 3]\n"
        'installation_standard = "IMO MSC.192(79)"\npreset = "Typical, well kept"\n'
        "frequency_ghz = 9.38\nrotation_rpm = 28\nnoise_figure_db = 4.5\nlosses_db = 8\n"
        'polarisation = "V"\n'
        "[[radar.pulse]]\nlength_us = 0.07\nrepetition_hz = 3000\nto_scale_nm = 3\n"
        "bandwidth_mhz = 18\n"
        '[[radar.pulse]]\nname = "long"\nlength_us = 0.8\nfrom_scale_nm = 12\n'
    )
    ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert findings == ()
    radar = ship.radars[0]
    assert radar.antenna_to_starboard_m == -1.5
    assert radar.vertical_beamwidth_deg == 22.0
    assert radar.peak_power_w == 25_000.0
    assert radar.antenna_gain_db == 31.0
    assert radar.range_scales_m == (5556.0, 11112.0, 22224.0)
    assert (radar.installation_standard, radar.preset) == ("IMO MSC.192(79)", "typical")
    assert radar.frequency_hz == pytest.approx(9.38e9)
    assert (radar.rotation_rpm, radar.noise_figure_db, radar.losses_db) == (28.0, 4.5, 8.0)
    assert radar.polarisation == "V"
    assert radar.pulses[0].bandwidth_hz == 18e6
    assert radar.pulses[1].bandwidth_hz is None
    assert [pulse.name for pulse in radar.pulses] == ["0.07 µs", "long"]
    assert radar.pulses[0].length_s == pytest.approx(0.07e-6)
    assert radar.pulses[0].to_scale_m == 5556.0
    assert radar.pulse_s == pytest.approx(0.07e-6)


def test_a_certificate_that_names_no_known_standard_is_a_finding(tmp_path: Path) -> None:
    text = _LEAST + 'installation_standard = "some standard"\n'
    _ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert [str(finding) for finding in findings] == [
        "ship.toml: radar 1: installation_standard names none of MSC.192(79), MSC.64(67), "
        "A.477(XII); MSC.192(79) is taken. Write the resolution of the certificate."
    ]


def test_known_errors_are_kept_and_said_not_to_be_applied(tmp_path: Path) -> None:
    text = "[errors]\ngyro_error_deg = 0.5\n" + _LEAST.replace('name = "test ship"', "")
    text = 'name = "test ship"\n' + text + "range_index_error_m = -20\n"
    ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.gyro_error_deg == 0.5
    assert ship.radars[0].range_index_error_m == -20.0
    assert [str(finding) for finding in findings] == [
        "ship.toml: known errors (gyro +0.5 deg, X band radar range -20 m) are not applied to the "
        "numbers of the plan, but widen the errors stated with them. Apply them when setting "
        "lines and reading ranges."
    ]


def test_a_mistyped_key_is_named_with_the_nearest_one(tmp_path: Path) -> None:
    text = _LEAST + "horizontal_beam_width_deg = 1.2\n"
    _ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert [str(finding) for finding in findings] == [
        "ship.toml: radar 1: «horizontal_beam_width_deg» is not known and was left out. "
        "Write «horizontal_beamwidth_deg» if that was meant."
    ]
    assert findings[0].severity is Severity.CHECK


def test_bow_offset_gives_the_reference_point(tmp_path: Path) -> None:
    text = _LEAST + "[radar_reference_point]\nbow_offset_m = 74\n"
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.reference is not None
    assert ship.reference.from_stern_m == 26.0
    assert ship.bow_offset_m == 74.0


def test_a_bow_offset_that_does_not_add_up_is_a_finding(tmp_path: Path) -> None:
    text = _LEAST + "[radar_reference_point]\nbow_offset_m = 74\nfrom_stern_m = 20\n"
    ship, findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.bow_offset_m == 80.0
    assert [finding.code for finding in findings] == ["bow-offset-differs"]


def test_two_antenna_heights_are_a_finding_and_the_one_above_water_holds(tmp_path: Path) -> None:
    ship, findings, _sha256 = read_ship(_written(tmp_path, _LEAST + "antenna_above_water_m = 21\n"))
    assert ship.antenna_height_above_water_m(ship.radars[0]) == 21.0
    assert [finding.code for finding in findings] == ["antenna-height-twice"]


def test_missing_response_distance_is_one_length_with_a_finding(tmp_path: Path) -> None:
    ship, findings, _sha256 = read_ship(
        _written(tmp_path, _LEAST.replace("response_distance_m = 80\n", ""))
    )
    assert ship.response_distance_m == 100.0
    assert [finding.code for finding in findings] == ["response-assumed"]


def test_a_large_trim_is_a_finding(tmp_path: Path) -> None:
    _ship, findings, _sha256 = read_ship(
        _written(tmp_path, _LEAST.replace("aft_m = 6.0", "aft_m = 7.5"))
    )
    assert [finding.code for finding in findings] == ["large-trim"]


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 0",
            "ship.toml, radar 1: antenna_above_keel_m 0 is not above zero. Correct the height.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_water_m = -2",
            "ship.toml, radar 1: antenna_above_water_m -2 is not above zero. Correct the height.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 4",
            "ship.toml, radar 1: antenna_above_keel_m 4 puts the antenna 1.0 m under water at "
            "these draughts. Correct the height or the draughts.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 5",
            "ship.toml, radar 1: antenna_above_keel_m 5 puts the antenna 0.0 m under water at "
            "these draughts. Correct the height or the draughts.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = nan",
            "ship.toml, radar 1: antenna_above_keel_m is not a finite number. Correct the value.",
        ),
        (
            "antenna_above_keel_m = 30",
            "",
            "ship.toml, radar 1: there is no height of the antenna. Add antenna_above_keel_m, or "
            "antenna_above_water_m.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = true",
            "ship.toml, radar 1: antenna_above_keel_m is not a number. Write a plain number such "
            "as 12.5.",
        ),
        (
            "antenna_above_keel_m = 30",
            'antenna_above_keel_m = 30\npreset = "best"',
            "ship.toml, radar 1: preset «best» is not one of minimum standard, typical. Correct "
            "the word.",
        ),
        (
            "antenna_above_keel_m = 30",
            'antenna_above_keel_m = 30\npolarisation = "circular"',
            "ship.toml, radar 1: polarisation «circular» is not one of H, V. Correct the word.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 30\nfrequency_ghz = 3.05",
            "ship.toml, radar 1: frequency_ghz 3.05 is not between 9.2 and 9.5. Correct the value.",
        ),
        (
            'band = "X"',
            'band = "K"',
            "ship.toml, radar 1: band «K» is not one of X, S. Correct the word.",
        ),
        (
            'band = "X"',
            "",
            'ship.toml, radar 1: band is missing or empty. Add a line «band = "..."».',
        ),
        (
            "beam_m = 16",
            'beam_m = "16"',
            "ship.toml, dimensions: beam_m is not a number. Write a plain number such as 12.5.",
        ),
        (
            "length_overall_m = 100",
            "length_overall_m = 1000",
            "ship.toml, dimensions: length_overall_m 1000 is not between 5 and 500. Correct the "
            "value.",
        ),
        (
            "forward_m = 4.0",
            "",
            "ship.toml, draughts: forward_m is missing. Add a line «forward_m = ...».",
        ),
        (
            "forward_m = 4.0",
            "forward_m = 1" + "0" * 400,
            "ship.toml, draughts: forward_m is far too large. Correct the value.",
        ),
        (
            "radius_m = 500",
            "",
            "ship.toml, turning at_speed 1: needs one of radius_m and rate_deg_per_min. Give the "
            "one your data states.",
        ),
        (
            "[[turning.at_speed]]\nspeed_kn = 12\nradius_m = 500",
            "",
            "ship.toml, turning: there is no turning radius. Add speed and radius under "
            "[[turning.at_speed]].",
        ),
        (
            'name = "test ship"',
            'name = "  "',
            'ship.toml: name is missing or empty. Add a line «name = "..."».',
        ),
        (
            'name = "test ship"',
            'name = "a"\nname = "b"',
            "ship.toml: this is not a valid TOML file (Cannot overwrite a value (at line 3, column "
            "11)). Correct the line or start from a built-in example.",
        ),
        (
            '[[radar]]\nband = "X"\nantenna_above_keel_m = 30',
            "",
            "ship.toml: there is no radar. Add one under a heading [[radar]].",
        ),
        (
            "[[radar]]",
            "[radar]",
            "ship.toml: radar is not a list of tables. Write each under [[radar]].",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 30\nantenna_from_stern_m = 101",
            "ship.toml, radar 1: antenna_from_stern_m 101 is not between 0 and 100. Correct the "
            "value.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 30\nrange_scales_nm = [3, 0]",
            "ship.toml, radar 1: 0 in range_scales_nm is not between 0.05 and 120. Correct the "
            "value.",
        ),
        (
            "antenna_above_keel_m = 30",
            "antenna_above_keel_m = 30\nrange_scales_nm = []",
            "ship.toml, radar 1: range_scales_nm is not a list of numbers. Write it as [1, 2, 3].",
        ),
    ],
)
def test_what_does_not_fit_is_one_sentence(
    tmp_path: Path, old: str, new: str, sentence: str
) -> None:
    assert old in _LEAST
    assert _error(tmp_path, _LEAST.replace(old, new)) == sentence


def test_a_file_that_is_no_toml_is_refused(tmp_path: Path) -> None:
    assert _error(tmp_path, "<ship/>").startswith("ship.toml: this is not a valid TOML file (")


def test_deep_nesting_is_refused(tmp_path: Path) -> None:
    assert "ship.toml: " in _error(tmp_path, "a = " + "[" * 20_000)


def test_a_missing_ship_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no such file"):
        read_ship(tmp_path / "absent.toml")


@pytest.mark.parametrize("stem", builtin_ships())
def test_built_in_ships_are_invented_and_without_findings(stem: str) -> None:
    path = builtin_ship_path(stem)
    assert "INVENTED" in path.read_text(encoding="utf-8").splitlines()[0]
    ship, findings, _sha256 = read_ship(path)
    assert findings == ()
    assert ship.invented
    assert "(invented)" in ship.name
    assert ship == builtin_ship(stem)
    for radar in ship.radars:
        assert 5.0 < ship.antenna_height_above_water_m(radar) < 80.0


def test_there_are_three_built_in_ships_and_one_is_the_default() -> None:
    assert len(builtin_ships()) == 3
    assert default_ship() == builtin_ship("general_cargo")


def test_an_unknown_built_in_ship_is_refused() -> None:
    with pytest.raises(InputError) as caught:
        builtin_ship("raft")
    assert str(caught.value) == (
        "there is no built-in ship «raft». Choose coaster or container_carrier or general_cargo."
    )


@pytest.mark.parametrize(
    ("words", "ratio", "least_m"),
    [
        # MSC.192(79) 5.12.2 and MSC.64(67) annex 4, 3.4.3, read: 1 % of the scale or 30 m
        ("MSC.192(79)", 0.01, 30.0),
        ("MSC.64(67)", 0.01, 30.0),
        # A.477(XII), from memory: 1.5 % or 70 m
        ("A.477(XII)", 0.015, 70.0),
    ],
)
def test_range_accuracy_is_what_the_main_radar_was_approved_to(
    tmp_path: Path, words: str, ratio: float, least_m: float
) -> None:
    text = _LEAST + f'installation_standard = "{words}"\n'
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.range_error_ratio == pytest.approx(ratio)
    assert ship.range_error_least_m == least_m


def test_range_accuracy_stated_in_the_file_goes_before_the_standard(tmp_path: Path) -> None:
    text = _LEAST + 'installation_standard = "A.477(XII)"\n'
    text += "[errors]\nrange_uncertainty_percent = 0.5\n"
    ship, _findings, _sha256 = read_ship(_written(tmp_path, text))
    assert ship.range_error_ratio == pytest.approx(0.005)
    assert ship.range_error_least_m == 70.0
