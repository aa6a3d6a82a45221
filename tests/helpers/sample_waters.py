"""Invented waters for the sample outcome: land, passage and what is in sight on the way.

Everything here is invented: the islands lie in an empty part of the South Atlantic. Sight is
found by a plain march along rays, good enough to look at, not to check with.
"""

import math

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.base.units import m_from_nm, mps_from_kn
from core.coverage.coverage_result import (
    Cause,
    CoastState,
    Coverage,
    Effect,
    Gap,
    HiddenWater,
    LandShadow,
    LegCoverage,
    LegShadow,
    SweepSettings,
    Viewpoint,
    ViewpointCoverage,
)
from core.geodesy import geodesic, rhumb
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Bounds, Position
from core.land.coast import Coast, CoastLine, CoastPoints
from core.land.land_model import Cell, LandModel
from core.land.lattice import Lattice
from core.land.sources import DataSource
from core.passage.passage import Leg, Passage, Side, Waypoint

LAT0_DEG, LON0_DEG = -30.0, -20.0
NM_M = 1852.0
REFRACTION_K = 4.0 / 3.0
ANTENNA_M = 25.0
SPEED_MPS = mps_from_kn(12.0)
_COURSES_DEG = (0.0, 60.0, 20.0)
LENGTHS_NM = (8.0, 6.0, 7.0)

ISLANDS = (
    # name, x and y of the middle (NM east and north of the first waypoint), mean radius, peak
    ("islet A", 1.36, 2.5, 0.16, 38.0, 0.05, 1.0),
    ("west island", -4.15, 4.6, 2.9, 320.0, 0.10, 0.7),
    ("east island", 3.80, 6.45, 1.70, 210.0, 0.09, 2.2),
    ("rock D", 3.02, 10.75, 0.10, 14.0, 0.05, 0.3),
    ("far island", 11.6, 19.6, 1.6, 160.0, 0.12, 4.0),
)
_VOID_BOX = (7.0, 8.6, 12.6, 14.6)
"""West, east, south, north of the hole in the elevation, NM."""


def _place(x_nm: FloatArray, y_nm: FloatArray) -> tuple[FloatArray, FloatArray]:
    lat = LAT0_DEG + np.asarray(y_nm) / 60.0
    lon = LON0_DEG + np.asarray(x_nm) / 60.0 / math.cos(math.radians(LAT0_DEG))
    return lat, lon


def _local(lat_deg: FloatArray, lon_deg: FloatArray) -> tuple[FloatArray, FloatArray]:
    x = (np.asarray(lon_deg) - LON0_DEG) * 60.0 * math.cos(math.radians(LAT0_DEG))
    return x, (np.asarray(lat_deg) - LAT0_DEG) * 60.0


def _shore_nm(angle_rad: FloatArray, radius: float, rough: float, phase: float) -> FloatArray:
    shape = (
        np.cos(2 * angle_rad + phase)
        + 0.8 * np.cos(3 * angle_rad + 2 * phase)
        + 0.5 * np.cos(7 * angle_rad - phase)
        + 0.3 * np.cos(13 * angle_rad + 3 * phase)
    )
    return radius * (1.0 + rough * shape)


def _height_m(lat_deg: FloatArray, lon_deg: FloatArray) -> FloatArray:
    x, y = _local(lat_deg, lon_deg)
    height = np.zeros_like(x)
    for _name, cx, cy, radius, peak, rough, phase in ISLANDS:
        dx, dy = x - cx, y - cy
        share = np.hypot(dx, dy) / _shore_nm(np.arctan2(dy, dx), radius, rough, phase)
        height = np.maximum(
            height, np.where(share < 1.0, 3.0 + peak * np.maximum(1.0 - share, 0.0) ** 1.2, 0.0)
        )
    return height


def _in_void(lat_deg: FloatArray, lon_deg: FloatArray) -> BoolArray:
    x, y = _local(lat_deg, lon_deg)
    west, east, south, north = _VOID_BOX
    return (x > west) & (x < east) & (y > south) & (y < north)


def sample_coast() -> Coast:
    lines = []
    for _name, cx, cy, radius, _peak, rough, phase in ISLANDS:
        angle = np.linspace(0.0, 2.0 * np.pi, max(40, int(radius * 160)) + 1)
        shore = _shore_nm(angle, radius, rough, phase)
        lat, lon = _place(cx + shore * np.cos(angle), cy + shore * np.sin(angle))
        lat[-1], lon[-1] = lat[0], lon[0]
        lines.append(CoastLine(lat_deg=lat, lon_deg=lon, is_closed=True))
    box = Bounds(south_deg=-30.2, west_deg=-20.3, north_deg=-29.5, east_deg=-19.6)
    return Coast(lines=tuple(lines), declared=(box,), from_elevation=False)


def _points(coast: Coast) -> CoastPoints:
    lats, lons, lengths, owners, starts = [], [], [], [], []
    for number, line in enumerate(coast.lines):
        lat = (line.lat_deg[1:] + line.lat_deg[:-1]) / 2.0
        lon = (line.lon_deg[1:] + line.lon_deg[:-1]) / 2.0
        length, _b, _f = geodesic.inverse(
            from_lat_deg=line.lat_deg[:-1],
            from_lon_deg=line.lon_deg[:-1],
            to_lat_deg=line.lat_deg[1:],
            to_lon_deg=line.lon_deg[1:],
        )
        first = np.zeros(lat.size, dtype=np.bool_)
        first[0] = True
        lats.append(lat)
        lons.append(lon)
        lengths.append(length)
        owners.append(np.full(lat.size, number, dtype=np.int64))
        starts.append(first)
    lat_all, lon_all = np.concatenate(lats), np.concatenate(lons)
    return CoastPoints(
        lat_deg=lat_all,
        lon_deg=lon_all,
        length_m=np.concatenate(lengths),
        height_m=np.full(lat_all.size, 8.0, dtype=np.float32),
        line=np.concatenate(owners),
        is_line_start=np.concatenate(starts),
    )


def sample_land() -> LandModel:
    cell = 3.0 / 3600.0
    lattice = Lattice(
        crs="EPSG:4326",
        left_x=-20.15,
        top_y=-29.62,
        cell_x=cell,
        cell_y=cell,
        rows=540,
        cols=520,
    )
    rows, cols = np.mgrid[0 : lattice.rows, 0 : lattice.cols]
    lat, lon = lattice.lat_lon(rows.ravel().astype(np.float64), cols.ravel().astype(np.float64))
    heights = _height_m(lat, lon)
    codes = np.where(heights > 0.0, int(Cell.LAND), int(Cell.SEA)).astype(np.uint8)
    void = _in_void(lat, lon)
    codes[void] = int(Cell.VOID)
    heights[void] = np.nan
    coast = sample_coast()
    return LandModel(
        lattice=lattice,
        heights_m=heights.reshape(lattice.rows, lattice.cols).astype(np.float32),
        cell=codes.reshape(lattice.rows, lattice.cols),
        coast=coast,
        points=_points(coast),
        water_level_m=0.2,
        height_error_m=5.0,
        heights_assumed=False,
        sources=(
            DataSource(
                role="elevation",
                name="invented_heights.tif",
                sha256="1f" * 32,
                resolution="3 arc-seconds (about 93 x 80 m)",
                released="2024",
                licence="invented, Apache-2.0",
            ),
            DataSource(
                role="coast",
                name="invented_coast.geojson",
                sha256="2e" * 32,
                resolution="vertices about 80 m apart",
                released="2025",
                licence="invented, Apache-2.0",
            ),
        ),
        findings=(),
    )


def sample_passage() -> Passage:
    place = Position(lat_deg=LAT0_DEG, lon_deg=LON0_DEG)
    places = [place]
    for course, length in zip(_COURSES_DEG, LENGTHS_NM, strict=True):
        lat, lon = rhumb.direct(
            lat_deg=places[-1].lat_deg,
            lon_deg=places[-1].lon_deg,
            course_deg=course,
            distance_m=length * NM_M,
        )
        places.append(Position(lat_deg=float(lat), lon_deg=float(lon)))
    names = ("Outer buoy", "Islet turn", "North gate", "Open sea")
    leg = Leg(
        corridor_port_m=m_from_nm(0.2), corridor_starboard_m=m_from_nm(0.2), speed_mps=SPEED_MPS
    )
    return Passage(
        name="Invented sound, outbound",
        waypoints=tuple(
            Waypoint(name=name, position=place, turn_radius_m=m_from_nm(0.8))
            for name, place in zip(names, places, strict=True)
        ),
        legs=(leg, leg, leg),
    )


def _rays(place: Position, bearings: FloatArray, ranges_m: FloatArray) -> tuple[FloatArray, ...]:
    """Heights (rays, ranges) and the highest slope met before each step."""
    x0, y0 = _local(np.array([place.lat_deg]), np.array([place.lon_deg]))
    angle = np.radians(bearings)[:, None]
    x = x0 + ranges_m / NM_M * np.sin(angle)
    y = y0 + ranges_m / NM_M * np.cos(angle)
    lat, lon = _place(x, y)
    height = _height_m(lat, lon)
    drop = ranges_m**2 / (2.0 * REFRACTION_K * 6_371_000.0)
    slope = (height - ANTENNA_M - drop) / ranges_m
    before = np.maximum.accumulate(slope, axis=1)
    before = np.concatenate([np.full((bearings.size, 1), -np.inf), before[:, :-1]], axis=1)
    return height, before, drop


def _viewpoint(leg_index: int, line: LegLine, along_m: float, land: LandModel) -> ViewpointCoverage:
    place = line.position_at(along_m)
    ranges = np.arange(60.0, 12.0 * NM_M, 140.0)
    bearings = np.arange(0.0, 360.0, 0.5)
    height, before, drop = _rays(place, bearings, ranges)
    is_hidden = (height == 0.0) & ((5.0 - ANTENNA_M - drop) / ranges < before)
    offsets: list[int] = [0]
    from_m: list[float] = []
    to_m: list[float] = []
    for row in is_hidden:
        edges = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(np.int8)))
        from_m.extend(ranges[edges[::2]])
        to_m.extend(ranges[np.minimum(edges[1::2], ranges.size - 1)])
        offsets.append(len(from_m))
    points = land.points
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=place.lat_deg,
        from_lon_deg=place.lon_deg,
        to_lat_deg=points.lat_deg,
        to_lon_deg=points.lon_deg,
    )
    ray = np.round(np.mod(bearing, 360.0) / 0.5).astype(np.int64) % bearings.size
    step = np.clip(np.searchsorted(ranges, distance) - 3, 0, ranges.size - 1)
    slope = (8.0 - ANTENNA_M - distance**2 / (2.0 * REFRACTION_K * 6_371_000.0)) / distance
    state = np.where(slope >= before[ray, step], int(CoastState.IN_SIGHT), int(CoastState.HIDDEN))
    state = np.where(distance > 12.0 * NM_M, int(CoastState.OUTSIDE), state).astype(np.uint8)
    nearest = int(np.argmin(distance))
    inside = state != int(CoastState.OUTSIDE)
    seen = state == int(CoastState.IN_SIGHT)
    total = float(points.length_m[inside].sum())
    return ViewpointCoverage(
        viewpoint=Viewpoint(leg_index=leg_index, along_m=along_m, cross_m=0.0, position=place),
        nearest_land_range_m=float(distance[nearest]),
        nearest_land_bearing_deg=float(np.mod(bearing[nearest], 360.0)),
        coast_state=state,
        coast_inland_m=np.where(seen, 0.0, np.nan).astype(np.float32),
        coast_in_sight_fraction=float(points.length_m[seen].sum()) / total if total else None,
        first_land_inland_m=0.0 if seen.any() else None,
        horizon_slope=np.zeros(3600, dtype=np.float32),
        hidden=HiddenWater(
            offsets=np.array(offsets, dtype=np.int64),
            from_m=np.array(from_m, dtype=np.float32),
            to_m=np.array(to_m, dtype=np.float32),
        ),
        shadows=(
            LandShadow(
                bearing_from_deg=40.0,
                bearing_to_deg=62.0,
                range_from_m=6_000.0,
                range_to_m=15_000.0,
            ),
        ),
    )


def sample_coverage(passage: Passage, land: LandModel) -> Coverage:
    legs = []
    for index in range(len(passage.legs)):
        line = passage.line(index)
        count = round(line.length_m / m_from_nm(0.5))
        places = np.linspace(0.0, line.length_m, count + 1)
        gaps: tuple[Gap, ...] = ()
        if index == 2:
            gaps = (
                Gap(
                    cause=Cause.VOID,
                    bearing_from_deg=62.0,
                    bearing_to_deg=104.0,
                    range_from_m=m_from_nm(1.6),
                    from_along_m=0.0,
                    to_along_m=m_from_nm(4.2),
                    effect=Effect.OBJECT,
                ),
            )
        legs.append(
            LegCoverage(
                leg_index=index,
                viewpoints=tuple(_viewpoint(index, line, float(s), land) for s in places),
                is_complete=index != 2,
                gaps=gaps,
                shadows=(
                    LegShadow(
                        track_along_m=None,
                        from_along_m=m_from_nm(2.0),
                        to_along_m=m_from_nm(6.0),
                        bearing_from_deg=250.0,
                        bearing_to_deg=320.0,
                        range_from_m=m_from_nm(2.2),
                        range_to_m=m_from_nm(8.0),
                        side=Side.PORT,
                        cause="land 320 m high, 2.1 NM off",
                    ),
                )
                if index == 0
                else (),
                crosses_land=False,
            )
        )
    return Coverage(
        settings=SweepSettings(
            antenna_height_m=ANTENNA_M, refraction_k=REFRACTION_K, radius_m=m_from_nm(12.0)
        ),
        legs=tuple(legs),
        sweep_count=sum(len(leg.viewpoints) for leg in legs),
        findings=(),
    )
