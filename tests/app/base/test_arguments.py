from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.base.arguments import parse


def test_no_word_opens_the_window() -> None:
    assert parse([]).command == "window"


def test_one_file_opens_in_the_window() -> None:
    arguments = parse(["my route.rtz"])
    assert (arguments.command, arguments.file) == ("window", Path("my route.rtz"))


def test_plan_takes_nautical_units_and_turns_them_into_metres() -> None:
    arguments = parse(
        [
            "plan", "a.rtz", "--land", "x", "--land", "y", "--antenna", "25", "--radius", "12",
            "--speed", "10", "--tide", "-0.4", "--msl", "2.9", "--etd", "2026-11-25T05:00:00Z",
            "--json", "p.json", "--traffic", "20", "--decision", "12", "--fix-every", "3",
            "--pass-off", "0.1",
        ]
    )  # fmt: skip
    assert arguments.paths == (Path("x"), Path("y"))
    assert arguments.options.antenna_height_m == 25.0
    assert arguments.options.radius_m == 12.0 * 1852.0
    assert arguments.options.pass_off_m == pytest.approx(185.2)
    assert arguments.options.speed_mps == pytest.approx(10.0 * 1852.0 / 3600.0)
    assert arguments.options.tide_m == -0.4
    assert arguments.options.traffic_speed_mps == pytest.approx(20.0 * 1852.0 / 3600.0)
    assert (arguments.options.decision_time_s, arguments.options.fix_interval_s) == (720.0, 180.0)
    assert arguments.options.start_utc == datetime(2026, 11, 25, 5, 0, tzinfo=UTC)
    assert arguments.json == Path("p.json")
    assert not arguments.is_json


@pytest.mark.parametrize(
    ("leeway", "port_deg", "starboard_deg"), [("4", 4.0, 4.0), ("+4", 0.0, 4.0), ("-4,5", 4.5, 0.0)]
)
def test_stream_and_leeway_are_read_as_officers_write_them(
    leeway: str, port_deg: float, starboard_deg: float
) -> None:
    arguments = parse(
        ["plan", "a.rtz", "--stream", "045,1.5", "--leeway", leeway, "--streams", "s.csv"]
    )
    options = arguments.options
    assert options.set_deg == 45.0
    assert options.drift_mps == pytest.approx(1.5 * 1852.0 / 3600.0)
    assert (options.leeway_port_deg, options.leeway_starboard_deg) == (port_deg, starboard_deg)
    assert arguments.streams == Path("s.csv")


def test_a_southern_place_is_no_option() -> None:
    arguments = parse(
        ["sweep", "--land", "x", "--at", "-28.5,-71.5", "--antenna", "25", "-o", "o.tif"]
    )
    assert arguments.position is not None
    assert arguments.position.lat_deg == -28.5
    assert arguments.is_exact


@pytest.mark.parametrize(
    "words",
    [
        ["plan"],
        ["plan", "a.rtz", "--antenna", "high"],
        ["plan", "a.rtz", "--antenna", "nan"],
        ["plan", "a.rtz", "--etd", "tomorrow"],
        ["sweep", "--land", "x", "--at", "north", "-o", "o.tif"],
        ["plan", "a.rtz", "--stream", "045"],
        ["plan", "a.rtz", "--stream", "north,2"],
        ["plan", "a.rtz", "--leeway", "west"],
        ["plan", "a.rtz", "--leeway", "90"],
        ["sail", "away"],
        ["--wrong"],
    ],
)
def test_words_that_make_no_sense_end_with_two(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as caught:
        parse(words)
    assert caught.value.code == 2
    assert "Traceback" not in capsys.readouterr().err
