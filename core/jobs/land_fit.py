"""Which land files serve a passage: looked at once, remembered, held against its waters."""

import math
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress
from core.files.cell_size import cell_size_m, resolution_words
from core.files.coast_header import read_coast_header
from core.files.data_inspection import coast_facts, elevation_quality
from core.files.land_paths import LandKind, find_land
from core.files.land_shelf import Shelf, ShelfFile, file_stamp
from core.files.raster_file import read_headers
from core.geodesy import geodesic
from core.geodesy.position import Bounds, bounds_of
from core.land.land_fit_result import LandFit, LegFit
from core.passage.passage import Passage

_LARGE_COAST_BYTES = 60_000_000
_METRES_PER_DEGREE = 110_574.0
_STEP_M = 2.0 * 1852.0
_RINGS = (0.5, 1.0)
_BEARINGS_DEG = tuple(float(bearing) for bearing in range(0, 360, 45))


def looked_at(shelf: Shelf, paths: Sequence[Path], progress: Progress) -> Shelf:
    """The shelf with all land files below some paths; only new and changed ones are read.

    A file that cannot be used is kept with its reason, so that it can be told.

    Raises
    ------
    InputError
        A path holds no land data at all.
    Cancelled
        A stop was asked for.
    """
    lands = find_land(paths)
    fresh = [land for land in lands if shelf.of(land.path.resolve()) is None]
    found = []
    for number, land in enumerate(fresh):
        progress.report(number / len(fresh), tr("Looking at {file_name}", file_name=land.path.name))
        found.append(_entry(land.path.resolve(), land.kind))
    return shelf.with_files(found)


def _entry(path: Path, kind: LandKind) -> ShelfFile:
    """What the head of a file says; heights are not read through, they may be many."""
    size, changed_ns = file_stamp(path)
    try:
        facts = _heights(path) if kind is LandKind.ELEVATION else _coast(path, size)
    except InputError as exc:
        return ShelfFile(
            path=path, size=size, changed_ns=changed_ns, kind="unusable", problem=str(exc)
        )
    return replace(facts, size=size, changed_ns=changed_ns)


def _heights(path: Path) -> ShelfFile:
    rasters = read_headers(path)
    first = rasters[0]
    middle_deg = (first.area.south_deg + first.area.north_deg) / 2.0
    quality = elevation_quality(max(cell_size_m(first.lattice, middle_deg)), 0.0)
    return ShelfFile(
        path=path,
        size=0,
        changed_ns=0,
        kind=LandKind.ELEVATION.value,
        areas=tuple(raster.area for raster in rasters),
        resolution=resolution_words(first.lattice, middle_deg),
        released=first.note.released,
        licence=first.note.licence,
        grade=quality.grade,
        reason=quality.reason,
    )


def _coast(path: Path, size: int) -> ShelfFile:
    entry = ShelfFile(path=path, size=0, changed_ns=0, kind=LandKind.COAST.value)
    if size > _LARGE_COAST_BYTES:
        head = read_coast_header(path)
        return replace(
            entry,
            areas=head.declared,
            released=head.note.released,
            licence=head.note.licence,
            resolution=tr("not looked at"),
        )
    facts = coast_facts(path)
    return replace(
        entry,
        areas=facts.declared,
        released=facts.released,
        licence=facts.licence,
        resolution=tr("vertices {spacing_m:.0f} m apart", spacing_m=facts.spacing_m)
        if facts.spacing_m
        else tr("no shape"),
        grade=facts.quality.grade,
        reason=facts.quality.reason,
    )


def fit_of(shelf: Shelf, passage: Passage, radius_m: float) -> LandFit:
    """Hold the shelf against the waters of a passage.

    Parameters
    ----------
    shelf : Shelf
        What is known; files that are gone or changed do not count.
    passage : Passage
        The route.
    radius_m : float
        How far round its legs land matters, m.
    """
    usable = [
        file
        for file in shelf.files
        if file.kind != "unusable" and file_stamp(file.path) == (file.size, file.changed_ns)
    ]
    around = bounds_of(tuple(waypoint.position for waypoint in passage.waypoints))
    pad_deg = radius_m / _METRES_PER_DEGREE
    widest = math.cos(math.radians(min(abs(around.south_deg), abs(around.north_deg), 89.0)))
    waters = around.padded(lat_deg=2.0 * pad_deg, lon_deg=2.0 * pad_deg / max(widest, 0.05))
    usable = [file for file in usable if any(_meet(area, waters) for area in file.areas)]
    by_leg = [_places(passage, index, radius_m) for index in range(len(passage.legs))]
    sizes = [lats.size for lats, _lons in by_leg]
    lats = np.concatenate([lats for lats, _lons in by_leg])
    lons = np.concatenate([lons for _lats, lons in by_leg])
    masks = [_covered(file, lats, lons) for file in usable]
    shares = [float(mask.mean()) for mask in masks]
    order = sorted(
        (number for number, share in enumerate(shares) if share > 0.0),
        key=lambda number: (usable[number].kind != "elevation", -shares[number]),
    )
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    by_kind = {
        kind: np.add.reduceat(_any(usable, masks, kind, lats.size), starts) / np.array(sizes)
        for kind in ("elevation", "coast")
    }
    return LandFit(
        paths=tuple(usable[number].path for number in order),
        kinds=tuple(usable[number].kind for number in order),
        shares=tuple(shares[number] for number in order),
        legs=tuple(
            LegFit(
                leg_number=index + 1,
                heights_fraction=float(heights),
                coast_fraction=float(coast),
                places=size,
            )
            for index, (heights, coast, size) in enumerate(
                zip(by_kind["elevation"], by_kind["coast"], sizes, strict=True)
            )
        ),
    )


def _any(files: list[ShelfFile], masks: list[BoolArray], kind: str, size: int) -> FloatArray:
    """1 where some file of a kind covers a place, else 0."""
    found = np.zeros(size, dtype=np.bool_)
    for file, mask in zip(files, masks, strict=True):
        if file.kind == kind:
            found |= mask
    return found.astype(np.float64)


def _covered(file: ShelfFile, lats: FloatArray, lons: FloatArray) -> BoolArray:
    found = np.zeros(lats.size, dtype=np.bool_)
    for area in file.areas:
        found |= (
            (lats >= area.south_deg)
            & (lats <= area.north_deg)
            & (np.mod(lons - area.west_deg, 360.0) <= area.east_deg - area.west_deg)
        )
    return found


def _meet(one: Bounds, other: Bounds) -> bool:
    if one.north_deg < other.south_deg or one.south_deg > other.north_deg:
        return False
    return (one.west_deg - other.west_deg) % 360.0 <= other.east_deg - other.west_deg or (
        other.west_deg - one.west_deg
    ) % 360.0 <= one.east_deg - one.west_deg


def _places(passage: Passage, leg_index: int, radius_m: float) -> tuple[FloatArray, FloatArray]:
    """Places round a leg, deg: every 2 NM of it, on it and on two rings."""
    line = passage.line(leg_index)
    count = max(2, int(line.length_m / _STEP_M) + 1)
    lats, lons, _courses = line.at(np.linspace(0.0, line.length_m, count))
    found_lats, found_lons = [lats], [lons]
    for share in _RINGS:
        for bearing_deg in _BEARINGS_DEG:
            lat, lon, _back = geodesic.direct(
                lat_deg=lats,
                lon_deg=lons,
                bearing_deg=np.full(count, bearing_deg),
                distance_m=np.full(count, share * radius_m),
            )
            found_lats.append(lat)
            found_lons.append(lon)
    return np.concatenate(found_lats), np.concatenate(found_lons)
