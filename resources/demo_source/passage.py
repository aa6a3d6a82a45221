"""The invented passage through the archipelago, its marks and danger limits."""

from dataclasses import dataclass

ETD = "2031-05-14T02:30:00Z"
ROUTE_NAME = "INVENTED Merrowan demo passage"


@dataclass(frozen=True)
class WaypointPlace:
    """A waypoint and the leg that arrives at it; the first one has no leg."""

    name: str
    east_nm: float
    north_nm: float
    radius_nm: float | None = None
    corridor_nm: float = 0.25
    speed_kn: float = 13.0


WAYPOINTS = (
    WaypointPlace("Outer Sea", -45.0, -14.2),
    WaypointPlace("Landfall", -36.0, -11.8, 1.0, 0.5),
    WaypointPlace("Ostrin Approach", -12.6, -4.0, 1.0, 0.5),
    WaypointPlace("Ostrin South", -8.0, -3.5, 0.6, 0.3),
    WaypointPlace("Strand West", -4.2, 0.1, 0.6, 0.25),
    WaypointPlace("Strand East", -0.6, 0.1, 0.6, 0.25),
    WaypointPlace("Quessal Sound", 3.2, 2.2, 0.6, 0.2, 10.0),
    WaypointPlace("Talpen", 8.0, 4.1, 0.6, 0.25, 12.0),
    WaypointPlace("Dorvane Gap", 6.9, 8.9, 0.6, 0.25, 12.0),
    WaypointPlace("North Stack", 0.6, 9.4, 0.6, 0.3),
    WaypointPlace("Velbane", -5.2, 7.4, 0.6, 0.3),
    WaypointPlace("Iskary North", -9.9, 4.6, 0.6, 0.3, 12.0),
    WaypointPlace("Iskary Entrance", -10.05, 1.8, 0.3, 0.25, 8.0),
    WaypointPlace("Iskary Anchorage", -7.3, 2.1, None, 0.2, 6.0),
)


@dataclass(frozen=True)
class MarkPlace:
    """A mark of the officer."""

    name: str
    kind: str
    east_nm: float
    north_nm: float
    height_m: float
    is_fixed: bool
    is_on_chart: bool = True


MARKS = (
    MarkPlace("Ruskel Light", "lighthouse", -5.3, -2.45, 52.0, True),
    MarkPlace("Strand Breakwater West", "breakwater end", -1.55, 0.88, 6.0, True),
    MarkPlace("Strand Breakwater East", "breakwater end", -1.15, 0.98, 6.0, True),
    MarkPlace("Strand Tower", "tower", -0.4, 1.7, 64.0, True),
    MarkPlace("Fennard Spit Beacon", "beacon", -1.5, -2.6, 9.0, True),
    MarkPlace("Sound Rock Beacon", "beacon", 2.6, 1.1, 18.0, True),
    MarkPlace("Talpen Rock Racon", "racon", 9.35, 2.55, 16.0, True),
    MarkPlace("Iskary Head Light", "lighthouse", -8.7, 2.85, 60.0, True),
    MarkPlace("Old Pier", "pier", -6.2, 2.6, 4.0, True, False),
    MarkPlace("Fennard Buoy", "buoy", -2.4, -2.2, 4.0, False),
    MarkPlace("Iskary Buoy", "buoy", -8.3, 2.05, 3.0, False),
    MarkPlace("Strand Harbour Mouth", "harbour mouth", -1.35, 0.9, 0.0, True),
    MarkPlace("Old Pier Ferry Slip", "ferry slip", -6.2, 2.5, 0.0, True, False),
)


@dataclass(frozen=True)
class LimitPlace:
    """A danger limit of the officer."""

    mark: str
    leg: int
    not_less_nm: float | None
    not_more_nm: float | None
    note: str


LIMITS = (
    LimitPlace("Ruskel Light", 4, 0.8, None, "invented: foul ground north-west of the islets"),
    LimitPlace("Strand Breakwater East", 5, 0.5, None, "invented: shoal off the beach"),
    LimitPlace("Sound Rock Beacon", 6, 0.4, 1.1, "invented: rock to the south, ledge to the north"),
    LimitPlace("Talpen Rock Racon", 7, 1.0, None, "invented: breakers round the rock"),
    LimitPlace("Iskary Head Light", 12, 0.8, None, "invented: ledge off the headland"),
)


@dataclass(frozen=True)
class ContingencyPlace:
    """A contingency leg of the officer."""

    leg: int
    turn_before_nm: float
    course_deg: float
    distance_nm: float
    name: str
    note: str


CONTINGENCIES = (
    ContingencyPlace(
        4, 1.5, 330.0, 2.5, "Strand Roads", "invented: if the Strand is not clear of traffic"
    ),
)


@dataclass(frozen=True)
class SamplePoint:
    """A waypoint of a sample route in degrees."""

    name: str
    lat_deg: float
    lon_deg: float


DATE_LINE = (
    SamplePoint("D1", -31.25, 178.9),
    SamplePoint("D2", -31.05, 179.75),
    SamplePoint("D3", -30.7, -179.4),
    SamplePoint("D4", -30.75, -178.6),
)
"""Across the 180th meridian, in open water far from any shore."""

FAR_SOUTH = (
    SamplePoint("S1", -47.2, -121.8),
    SamplePoint("S2", -47.6, -121.1),
    SamplePoint("S3", -47.55, -120.2),
    SamplePoint("S4", -48.1, -119.9),
)
"""In the South Pacific, as far from land as the sea allows."""
