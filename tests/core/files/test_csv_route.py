"""Reading tables of waypoints.

Headers and layouts are common practice, no source.
"""

from pathlib import Path

import pytest

from core.base.errors import InputError
from core.base.units import m_from_nm, mps_from_kn
from core.files.csv_columns import Role, find_table
from core.files.readers import RouteFile, passage_from_text, read_passage
from core.geodesy.leg_line import LegKind

_SAMPLES = Path(__file__).parents[2] / "data" / "routes"


def _read(text: str) -> RouteFile:
    route = passage_from_text(text, "a.csv")
    assert route.kind == "CSV"
    return route


def _text_of_error(text: str) -> str:
    with pytest.raises(InputError) as caught:
        passage_from_text(text, "a.csv")
    return str(caught.value)


def _places(route: RouteFile) -> list[tuple[float, float]]:
    return [
        (round(w.position.lat_deg, 9), round(w.position.lon_deg, 9))
        for w in route.passage.waypoints
    ]


def test_a_table_with_preamble_decimal_commas_and_all_columns() -> None:
    route = read_passage(_SAMPLES / "invented_strait.csv")
    passage = route.passage
    assert [w.name for w in passage.waypoints] == ["North entrance", "Beacon turn", "WP 3"]
    assert _places(route) == [(-17.05, 179.9), (-17.2, -179.95), (-17.4, -179.8)]
    assert [w.turn_radius_m for w in passage.waypoints] == [
        m_from_nm(0.4),
        m_from_nm(0.75),
        m_from_nm(0.4),
    ]
    first, second = passage.legs
    assert (first.kind, second.kind) == (LegKind.GEODESIC, LegKind.RHUMB)
    assert (first.corridor_port_m, first.corridor_starboard_m) == (m_from_nm(0.05), m_from_nm(0.2))
    assert (second.corridor_port_m, second.corridor_starboard_m) == (m_from_nm(0.3), m_from_nm(0.2))
    assert (first.speed_mps, second.speed_mps) == (mps_from_kn(10.5), mps_from_kn(14.0))
    assert [str(f) for f in route.findings] == [
        "invented_strait.csv, line 8: rows without a position at the end passed over."
    ]


@pytest.mark.parametrize(
    "text",
    [
        "name,lat,lon\nA,10.5,-20.25\nB,11,-21",
        "Name;Latitude;Longitude\nA;10,5;-20,25\nB;11;-21",
        "WPT\tLAT (DD)\tLONG (DD)\nA\t10.5\t-20.25\nB\t11\t-21",
        'wp,lat_deg,lon_deg\nA,"10,5","-20,25"\nB,11,-21',
        "Longitude,Latitude,Waypoint Name\n20 15.0W,10 30.0N,A\n21W,11N,B",
        "Name,Lat,N/S,Lon,E/W\nA,10 30.0,N,20 15.0,W\nB,11,N,21,W",
        "Name,Lat deg,Lat min,N/S,Lon deg,Lon min,E/W\nA,10,30.0,N,20,15.0,W\nB,11,0,N,21,0,W",
        "Name,Lat,Lat min,Lat sec,Lon,Lon min,Lon sec\nA,10,30,0,-20,15,0\nB,11,0,0,-21,0,0",
        "WP;Position\nA;10-30.00N 020-15.00W\nB;11-00.00N 021-00.00W",
        "Punkt;Breite;Länge\nA;10,5;-20,25\nB;11;-21",
        "# plan 7\nVoyage,12\n\n\nName,LATITUDE,LONGITUDE\nA,10°30'00\"N,20°15'00\"W\nB,11°N,21°W",
    ],
)
def test_layouts(text: str) -> None:
    assert _places(_read(text)) == [(10.5, -20.25), (11.0, -21.0)]


@pytest.mark.parametrize(
    ("header", "role", "factor_ratio"),
    [
        ("Turn radius", Role.RADIUS, 1.0),
        ("Radius [m]", Role.RADIUS, 1 / 1852),
        ("XTD port (NM)", Role.CORRIDOR_PORT, 1.0),
        ("portsideXTD", Role.CORRIDOR_PORT, 1.0),
        ("XTE Stbd", Role.CORRIDOR_STARBOARD, 1.0),
        ("Cross track limit starboard (cables)", Role.CORRIDOR_STARBOARD, 0.1),
        ("XTD", Role.CORRIDOR, 1.0),
        ("Planned speed", Role.SPEED, 1.0),
        ("Speed (m/s)", Role.SPEED, 3600 / 1852),
        ("RL/GC", Role.KIND, 1.0),
        ("geometryType", Role.KIND, 1.0),
        ("Leg type", Role.KIND, 1.0),
        ("ETA", Role.ETA, 1.0),
        ("Remarks", Role.NOTE, 1.0),
        ("WP No", Role.NUMBER, 1.0),
    ],
)
def test_columns_are_known_by_many_names(header: str, role: Role, factor_ratio: float) -> None:
    table = find_table(f"Lat,Lon,{header}")
    assert table is not None
    assert table.columns[role].index == 2
    assert table.columns[role].factor_ratio == pytest.approx(factor_ratio)


@pytest.mark.parametrize("header", ["Wind speed", "Current speed", "Speed min", "Course", "Dist"])
def test_columns_that_mean_something_else(header: str) -> None:
    table = find_table(f"Lat,Lon,{header}")
    assert table is not None
    assert set(table.columns) == {Role.LAT, Role.LON}


def test_lengths_in_metres_and_units_in_cells() -> None:
    text = "Name,Lat,Lon,Radius (m),XTD port,XTD stbd,Speed\n"
    text += "A,10,20,,,,\nB,11,20,926,0.5 NM,185.2 m,12 kn"
    route = _read(text)
    assert route.passage.waypoints[1].turn_radius_m == pytest.approx(926.0)
    leg = route.passage.legs[0]
    assert leg.corridor_port_m == pytest.approx(926.0)
    assert leg.corridor_starboard_m == pytest.approx(185.2)
    assert leg.speed_mps == mps_from_kn(12.0)


def test_a_unit_that_does_not_fit_is_left_out() -> None:
    route = _read("Lat,Lon,XTD\n10,20,\n11,20,5 kn")
    assert route.passage.legs[0].corridor_port_m is None
    assert "corridor-dropped" in [f.code for f in route.findings]


def test_one_cross_track_column_is_for_both_sides() -> None:
    leg = _read("Lat,Lon,XTD\n10,20,\n11,20,0.2").passage.legs[0]
    assert leg.corridor_port_m == leg.corridor_starboard_m == m_from_nm(0.2)


def test_values_belong_to_the_leg_that_arrives() -> None:
    route = _read("Lat,Lon,Speed\n10,20,\n11,20,8\n12,20,9")
    assert [leg.speed_mps for leg in route.passage.legs] == [mps_from_kn(8), mps_from_kn(9)]


def test_values_belong_to_the_leg_that_leaves_where_the_last_row_has_none() -> None:
    route = _read("Lat,Lon,Speed\n10,20,8\n11,20,9\n12,20,-")
    assert [leg.speed_mps for leg in route.passage.legs] == [mps_from_kn(8), mps_from_kn(9)]


def test_values_in_every_row_are_a_finding_unless_all_alike() -> None:
    route = _read("Lat,Lon,Speed\n10,20,7\n11,20,8\n12,20,9")
    assert [leg.speed_mps for leg in route.passage.legs] == [mps_from_kn(8), mps_from_kn(9)]
    (finding,) = [f for f in route.findings if f.code == "leg-values-arriving"]
    assert str(finding) == (
        "a.csv, line 1: limits, speed and kind in a row are taken for the leg that arrives there. "
        "Check the first leg."
    )
    alike = _read("Lat,Lon,Speed\n10,20,7\n11,20,7\n12,20,7")
    assert "leg-values-arriving" not in [f.code for f in alike.findings]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            "Name,Lat,Lon\nA,10,20\nB,,21\nC,12,22",
            "a.csv, line 3, waypoint B: the latitude is missing. Correct the position.",
        ),
        (
            "Name,Lat,Lon\nA,10,20\nB,,\nC,12,22",
            "a.csv, line 3: the row has no position. Add the position or remove the row.",
        ),
        (
            "Name,Lat,Lon\nA,10,20\nB,nan,21",
            "a.csv, line 3, waypoint B: latitude “nan” cannot be read. Correct the position.",
        ),
        (
            "Name,Lat,Lon\nA,10,20\nB,100,21",
            "a.csv, line 3, waypoint B: latitude “100” is more than 90 degrees. "
            "Correct the position.",
        ),
        (
            "Name,Lat,Lon\nA,10,20\nB,10,190",
            "a.csv, line 3, waypoint B: longitude “190” is more than 180 degrees. "
            "Correct the position.",
        ),
        (
            # Read cell by cell this would be 56 N 20 E.
            "Name,Lat,Lon\nA,56,20,-5,76\nB,57,20,-5,76",
            "a.csv, line 2: the row has 5 cells below a header of 3. "
            "With decimal commas put semicolons between the columns.",
        ),
        (
            "Name,Lat,Lon\nA,10,20",
            "a.csv: the route has one waypoint, and a passage needs two. "
            "Add the missing waypoints.",
        ),
        (
            "Name,Lat,Lon\n",
            "a.csv: the route has no waypoint, and a passage needs two. Add the missing waypoints.",
        ),
        (
            "Name,Lat,Lon\nA,10,20\nB,10,20\nC,11,20",
            "a.csv, line 3: leg 1 has no length, because waypoints A and B are at one place. "
            "Remove one of them.",
        ),
        (
            'Name,Lat,Lon\nA,10,20\n"' + "x" * 200_000 + "\n" + "y" * 10,
            "a.csv, line 3: the row cannot be cut into cells. Check the quotation marks.",
        ),
    ],
)
def test_bad_tables(text: str, sentence: str) -> None:
    assert _text_of_error(text) == sentence
