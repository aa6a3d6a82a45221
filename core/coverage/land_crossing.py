"""Legs that run across land."""

from dataclasses import dataclass

import numpy as np
import shapely

from core.base.arrays import BoolArray, FloatArray
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell, LandModel
from core.passage.passage import Passage

_BERTH_M = m_from_nm(0.3)
"""Land this close to the first or last waypoint belongs to a berth, as far as we can tell."""
_CHORD_M = 500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A stretch of a leg's line that lies on land."""

    leg_index: int
    from_along_m: float
    to_along_m: float
    is_at_berth: bool


def land_crossings(passage: Passage, land: LandModel) -> tuple[Crossing, ...]:
    """Find where the track line itself (not its corridor) runs across land.

    Between the places where the line meets the coast, a stretch counts as land if most of the
    cells under it are land, or if it is shorter than two cells and both its ends lie on the same
    closed coast line (an islet the grid is too coarse for). Without a coast file the cells alone
    decide, and stretches shorter than a cell are left out.
    """
    cell_m = _cell_m(land)
    coast = _CoastTree(land)
    found = []
    for index in range(len(passage.legs)):
        line = passage.line(index)
        if line.length_m <= 0.0:
            continue
        along, is_land = _cells_along(line, land, cell_m / 2.0)
        if not land.coast.from_elevation:
            is_land = coast.corrected(line, along, is_land, 2.0 * cell_m)
        for from_m, to_m in _runs(along, is_land):
            if land.coast.from_elevation and to_m - from_m < cell_m:
                continue
            is_at_start = index == 0 and to_m <= _BERTH_M
            is_at_end = index == len(passage.legs) - 1 and from_m >= line.length_m - _BERTH_M
            found.append(
                Crossing(
                    leg_index=index,
                    from_along_m=from_m,
                    to_along_m=to_m,
                    is_at_berth=is_at_start or is_at_end,
                )
            )
    return tuple(found)


def crossing_findings(passage: Passage, crossings: tuple[Crossing, ...]) -> tuple[Finding, ...]:
    """One finding for each leg that runs across land: must fix, at a berth check."""
    findings = []
    for index in range(len(passage.legs)):
        here = [c for c in crossings if c.leg_index == index]
        serious = [c for c in here if not c.is_at_berth]
        if not here:
            continue
        name = passage.waypoints[index].name
        first = (serious or here)[0]
        length_m = sum(c.to_along_m - c.from_along_m for c in serious or here)
        place = (
            tr(
                "{distance_nm:.2f} NM after {name}",
                distance_nm=nm_from_m(first.from_along_m),
                name=name,
            )
            if first.from_along_m > 0.0
            else tr("at {name}", name=name)
        )
        if serious:
            findings.append(
                Finding(
                    severity=Severity.MUST_FIX,
                    code="leg-across-land",
                    what=tr(
                        "the track runs across land over {distance_nm:.2f} NM, first {place}",
                        distance_nm=nm_from_m(length_m),
                        place=place,
                    ),
                    where=Where(leg_number=index + 1),
                    todo=tr("Check the waypoints; move the track clear of land"),
                )
            )
        else:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="berth-on-land",
                    what=tr(
                        "the end of the passage lies on land in this data ({place})", place=place
                    ),
                    where=Where(leg_number=index + 1),
                    todo=tr("Check the position of the berth; coast and cells are only so fine"),
                )
            )
    return tuple(findings)


def _cell_m(land: LandModel) -> float:
    lattice = land.lattice
    row, col = lattice.rows / 2.0, lattice.cols / 2.0
    lat, lon = lattice.lat_lon(np.array([row, row + 1.0, row]), np.array([col, col, col + 1.0]))
    distance, _bearing, _final = geodesic.inverse(
        from_lat_deg=lat[0], from_lon_deg=lon[0], to_lat_deg=lat[1:], to_lon_deg=lon[1:]
    )
    return float(distance.max())


def _points(line: LegLine, along_m: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Places along a line; between exact places every 500 m the way is straight (to 0.1 m)."""
    count = max(2, int(np.ceil(line.length_m / _CHORD_M)) + 1)
    knots = np.linspace(0.0, line.length_m, count)
    lats, lons, _courses = line.at(knots)
    lons = np.unwrap(lons, period=360.0)
    return np.interp(along_m, knots, lats), np.interp(along_m, knots, lons)


def _cells_along(line: LegLine, land: LandModel, step_m: float) -> tuple[FloatArray, BoolArray]:
    """Places along the line at most a step apart, and whether the cell there is land."""
    count = max(2, int(np.ceil(line.length_m / step_m)) + 1)
    along = np.linspace(0.0, line.length_m, count)
    lat, lon = _points(line, along)
    row, col = land.lattice.row_col(lat, lon)
    rows, cols = np.floor(row + 0.5).astype(np.int64), np.floor(col + 0.5).astype(np.int64)
    inside = (rows >= 0) & (rows < land.lattice.rows) & (cols >= 0) & (cols < land.lattice.cols)
    is_land = np.zeros(count, dtype=np.bool_)
    is_land[inside] = land.cell[rows[inside], cols[inside]] == Cell.LAND
    return along, is_land


def _runs(along_m: FloatArray, is_land: BoolArray) -> list[tuple[float, float]]:
    """Stretches of consecutive places on land, each reaching half way to its neighbours."""
    edges = np.flatnonzero(np.diff(np.r_[False, is_land, False].astype(np.int8)))
    last = along_m.size - 1
    runs = []
    for first, past in zip(edges[::2], edges[1::2], strict=True):
        end = past - 1
        from_m = along_m[0] if first == 0 else (along_m[first - 1] + along_m[first]) / 2.0
        to_m = along_m[last] if end == last else (along_m[end] + along_m[end + 1]) / 2.0
        runs.append((float(from_m), float(to_m)))
    return runs


class _CoastTree:
    """Pieces of coast in an index, to find where a track meets them."""

    def __init__(self, land: LandModel) -> None:
        self._middle_deg = land.lattice.lat_lon(
            np.array([land.lattice.rows / 2.0]), np.array([land.lattice.cols / 2.0])
        )[1][0]
        self._lines = []
        self._is_closed = []
        for line in land.coast.lines:
            lon = np.unwrap(line.lon_deg, period=360.0)
            lon += 360.0 * np.round((self._middle_deg - lon[0]) / 360.0)
            self._lines.append(shapely.LineString(np.column_stack([lon, line.lat_deg])))
            self._is_closed.append(line.is_closed)
        self._tree = shapely.STRtree(self._lines)

    def corrected(
        self, line: LegLine, along_m: FloatArray, is_land: BoolArray, short_m: float
    ) -> BoolArray:
        """Land along a track, decided stretch by stretch between its meetings with the coast."""
        meets = self._meetings(line)
        edges = [0.0, *(m for m, _ring in meets), line.length_m]
        rings = [-1, *(ring for _m, ring in meets), -2]
        result = np.zeros(is_land.size, dtype=np.bool_)
        for number in range(len(edges) - 1):
            from_m, to_m = edges[number], edges[number + 1]
            inside = (along_m >= from_m) & (along_m <= to_m)
            is_islet = rings[number] == rings[number + 1] and to_m - from_m <= short_m
            if not inside.any():
                nearest = int(np.argmin(np.abs(along_m - (from_m + to_m) / 2.0)))
                result[nearest] |= is_islet
            elif is_islet or is_land[inside].mean() > 0.5:
                result[inside] = True
        return result

    def _meetings(self, line: LegLine) -> list[tuple[float, int]]:
        """Places along the line where it meets the coast, and on which closed line.

        Meetings with open lines carry numbers of their own below 0: what lies between two of
        them cannot be told from the line alone.
        """
        if not self._lines:
            return []
        count = max(2, int(np.ceil(line.length_m / _CHORD_M)) + 1)
        knots = np.linspace(0.0, line.length_m, count)
        lat, lon = _points(line, knots)
        lon = lon + 360.0 * np.round((self._middle_deg - lon[0]) / 360.0)
        track = shapely.LineString(np.column_stack([lon, lat]))
        found: list[tuple[float, int]] = []
        for ring in self._tree.query(track, predicate="intersects"):
            for part in shapely.get_parts(shapely.intersection(track, self._lines[ring])):
                for x, y in part.coords:
                    along, _cross = line.track_coordinates(np.array([y]), np.array([x]))
                    place = float(np.clip(along[0], 0.0, line.length_m))
                    found.append((place, int(ring) if self._is_closed[ring] else -3 - len(found)))
        return sorted(found)
