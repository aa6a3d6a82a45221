"""Facts about one land file: what it is, covers and is worth, in numbers and in words."""

import math
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from core.base.language import tr
from core.base.progress import Progress, Quiet
from core.files.cell_size import cell_size_m, resolution_words
from core.files.coast_files import read_coast
from core.files.coast_header import CoastFile, read_coast_header, refuse_no_numbers
from core.files.hashing import sha256_of
from core.files.raster_file import RasterFile, read_headers, read_heights
from core.geodesy.position import Bounds
from core.plan.object_result import Grade

_STRIP_CELLS = 8_000_000
_GOOD_CELL_M, _FAIR_CELL_M = 40.0, 100.0
_GOOD_SPACING_M, _FAIR_SPACING_M = 60.0, 300.0
_MANY_VOIDS = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Quality:
    """Worth of a file for this job: ``good``, ``fair`` or ``poor``, with the reason."""

    grade: str
    reason: str

    def __str__(self) -> str:
        return f"{Grade(self.grade).shown}: {self.reason}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ElevationFacts:
    """What an elevation raster is."""

    name: str
    driver: str
    crs: str
    area: Bounds
    rows: int
    cols: int
    resolution: str
    void_fraction: float
    lowest_m: float | None
    highest_m: float | None
    released: str
    licence: str
    sha256: str
    quality: Quality


@dataclass(frozen=True, slots=True, kw_only=True)
class CoastFacts:
    """What a coast file is."""

    name: str
    driver: str
    crs: str
    declared: tuple[Bounds, ...]
    declared_by: str
    """``the file`` if it states its area, ``its envelope`` otherwise."""
    polygon_count: int
    line_count: int
    closed_line_count: int
    spacing_m: float | None
    """Median distance between vertices, m."""
    remarks: tuple[str, ...]
    released: str
    licence: str
    sha256: str
    quality: Quality


def elevation_facts(path: Path, progress: Progress | None = None) -> tuple[ElevationFacts, ...]:
    """Facts about the rasters of an elevation file, which is read through once.

    Raises
    ------
    InputError
        The file cannot be used.
    """
    report = progress or Quiet()
    return tuple(_elevation(file, report) for file in read_headers(path))


def _elevation(file: RasterFile, progress: Progress) -> ElevationFacts:
    lattice = file.lattice
    voids, lowest, highest = 0, math.inf, -math.inf
    step = max(1, _STRIP_CELLS // lattice.cols)
    for row in range(0, lattice.rows, step):
        rows = min(step, lattice.rows - row)
        heights = read_heights(file, row=row, col=0, rows=rows, cols=lattice.cols)
        known = heights[~np.isnan(heights)]
        voids += heights.size - known.size
        if known.size:
            lowest, highest = min(lowest, float(known.min())), max(highest, float(known.max()))
        progress.report((row + rows) / lattice.rows, tr("reading {file_name}", file_name=file.name))
    share = voids / (lattice.rows * lattice.cols)
    middle = (file.area.south_deg + file.area.north_deg) / 2.0
    return ElevationFacts(
        name=file.name,
        driver=file.driver,
        crs=file.crs_name,
        area=file.area,
        rows=lattice.rows,
        cols=lattice.cols,
        resolution=resolution_words(lattice, middle),
        void_fraction=share,
        lowest_m=lowest if math.isfinite(lowest) else None,
        highest_m=highest if math.isfinite(highest) else None,
        released=file.note.released,
        licence=file.note.licence,
        sha256=sha256_of(file.path),
        quality=elevation_quality(max(cell_size_m(lattice, middle)), share),
    )


def elevation_quality(cell_m: float, void_fraction: float) -> Quality:
    """Worth of heights by the size of their cells, m, and the share of cells without one."""
    if void_fraction >= 1.0:
        return Quality(grade="poor", reason=tr("holds no height at all"))
    if cell_m > _FAIR_CELL_M:
        return Quality(
            grade="poor",
            reason=tr("cells of {cell_m:.0f} m lose islets, cliffs and summits", cell_m=cell_m),
        )
    if void_fraction > _MANY_VOIDS:
        return Quality(
            grade="fair",
            reason=tr("{void_fraction:.1%} of the cells are void", void_fraction=void_fraction),
        )
    if cell_m > _GOOD_CELL_M:
        return Quality(
            grade="fair",
            reason=tr(
                "cells of {cell_m:.0f} m lower sharp summits and lose small islets", cell_m=cell_m
            ),
        )
    return Quality(grade="good", reason=tr("cells of {cell_m:.0f} m, hardly a void", cell_m=cell_m))


def coast_facts(path: Path) -> CoastFacts:
    """Facts about a coast file.

    Raises
    ------
    InputError
        The file cannot be used.
    """
    file = read_coast_header(path)
    refuse_no_numbers(path)
    polygons = lines = closed = 0
    spacings: list[float] = []
    remarks = [finding.what for finding in file.findings]
    for area in file.declared:
        coast, findings = read_coast(replace(file, declared=(area,)), area)
        polygons += len(coast.polygons)
        lines += len(coast.lines)
        closed += sum(1 for line in coast.lines if line.is_closed)
        if coast.spacing_m:
            spacings.append(coast.spacing_m)
        remarks += [f.what for f in findings if f not in file.findings]
    spacing = float(np.median(spacings)) if spacings else None
    return CoastFacts(
        name=path.name,
        driver=file.driver,
        crs=_crs_words(file),
        declared=file.declared,
        declared_by=tr("the file") if file.declares_itself else tr("its envelope"),
        polygon_count=polygons,
        line_count=lines,
        closed_line_count=closed,
        spacing_m=spacing,
        remarks=tuple(dict.fromkeys(remarks)),
        released=file.note.released,
        licence=file.note.licence,
        sha256=sha256_of(path),
        quality=_coast_quality(spacing),
    )


def _crs_words(file: CoastFile) -> str:
    return ", ".join(dict.fromkeys((layer.crs or tr("none stated"))[:60] for layer in file.layers))


def _coast_quality(spacing_m: float | None) -> Quality:
    if spacing_m is None:
        return Quality(grade="fair", reason=tr("declares an area without any land"))
    words = tr("vertices about {spacing_m:.0f} m apart", spacing_m=spacing_m)
    if spacing_m <= _GOOD_SPACING_M:
        return Quality(grade="good", reason=words)
    if spacing_m <= _FAIR_SPACING_M:
        return Quality(
            grade="fair",
            reason=tr("{vertices}; piers, rocks and small inlets are lost", vertices=words),
        )
    return Quality(grade="poor", reason=tr("{vertices}; the coast is generalised", vertices=words))
