"""Reading typed and pasted routes."""

from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.findings import Severity
from core.files.readers import passage_from_text, read_passage

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"


def _text_of_error(text: str) -> str:
    with pytest.raises(InputError) as caught:
        passage_from_text(text, "typed route")
    return str(caught.value)


_TODO = "Write one position a line, such as START 56 12.34N 005 45.60W."


def test_a_typed_route() -> None:
    route = read_passage(_SAMPLES / "invented_strait.txt")
    assert (route.kind, route.passage.name) == ("text", "invented_strait")
    assert [w.name for w in route.passage.waypoints] == ["North entrance", "Beacon turn", "WP 3"]
    assert [round(w.position.lon_deg, 9) for w in route.passage.waypoints] == [
        179.9,
        -179.95,
        -179.8,
    ]
    assert [str(f) for f in route.findings] == [
        "invented_strait.txt, line 1: one line without a number passed over.",
        "invented_strait.txt: legs whose kind is not stated are taken as rhumb lines.",
    ]


@pytest.mark.parametrize("text", ["10.5, 20.5\n11.5, 21.5", "A;10,5;20,5\r\nB;11,5;21,5\r\n"])
def test_decimals_without_letters_are_latitude_first_and_said_so(text: str) -> None:
    route = passage_from_text(text, "typed route")
    assert [w.position.lat_deg for w in route.passage.waypoints] == [10.5, 11.5]
    (finding,) = [f for f in route.findings if f.code == "order-assumed"]
    assert finding.severity is Severity.CHECK
    assert str(finding) == (
        "typed route, line 1: positions without hemisphere letters are taken as latitude first, "
        "then longitude, north and east positive. Check the first waypoint."
    )


def test_letters_leave_nothing_to_assume() -> None:
    route = passage_from_text("10.5N 20.5E\n11.5N 21.5E", "typed route")
    assert [f.code for f in route.findings] == ["leg-kind-assumed"]


def test_pasted_files_of_other_formats_are_known() -> None:
    for name in ("rtz", "gpx", "csv", "geojson"):
        text = (_SAMPLES / f"invented_strait.{name}").read_text(encoding="utf-8")
        route = passage_from_text(text, "typed route")
        assert len(route.passage.waypoints) == 3


def test_the_name_of_the_passage_is_the_one_given() -> None:
    assert passage_from_text("1N 1E\n2N 2E", "typed route").passage.name == "typed route"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("  \n ", "typed route: the text is empty. Write one position a line."),
        ("hello\nworld", f"typed route: the text has no position. {_TODO}"),
        (
            "1N 1E",
            "typed route: the route has one waypoint, and a passage needs two. "
            "Add the missing waypoints.",
        ),
        (
            "1N 1E\n91N 1E",
            f"typed route, line 2: latitude “91N” is more than 90 degrees. {_TODO}",
        ),
        (
            "1N 1E\n1 56 12.34N 005 45.6W",
            f"typed route, line 2: the two angles are not written alike. {_TODO}",
        ),
        (
            "1N 1E\nWP 1 56N 5W",
            "typed route, line 2: it is not plain where the name ends; "
            f"put a comma behind the name. {_TODO}",
        ),
        (
            "A 1N 1E\nB 1N 1E\nC 2N 1E",
            "typed route, line 2: leg 1 has no length, because waypoints A and B are at one place. "
            "Remove one of them.",
        ),
    ],
)
def test_bad_text(text: str, sentence: str) -> None:
    assert _text_of_error(text) == sentence
