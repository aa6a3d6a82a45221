"""Elevation files, one or many, as one source of heights: windows only, finest data first."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from core.base.arrays import BoolArray, Float32Array
from core.base.errors import DataGapError, InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.progress import Progress, Quiet
from core.files.cell_size import cell_size_m, meet, resolution_words
from core.files.hashing import sha256_of
from core.files.land_paths import LandPath
from core.files.raster_file import RasterFile, hgt_bounds, read_headers, read_heights
from core.geodesy.position import Bounds
from core.land.lattice import Lattice
from core.land.resample import greatest_in_blocks, resampled
from core.land.sources import DataSource, HeightWindow

_MOST_CELLS = 100_000_000
"""What a land model holds; a plan of it takes less than 2 GB (measured, 16 to 19 bytes a cell)."""
_STRIP_CELLS = 16_000_000


@dataclass(slots=True)
class _Family:
    """Files whose cells lie on one endless lattice, each perhaps moved by a turn of longitude."""

    lattice: Lattice
    members: list[tuple[RasterFile, Lattice]] = field(default_factory=list)

    def over(self, bounds: Bounds) -> Lattice:
        """The part of the lattice that covers a box, one cell more on each side."""
        edge = np.linspace(0.0, 1.0, 33)
        lat = bounds.south_deg + edge * (bounds.north_deg - bounds.south_deg)
        lon = bounds.west_deg + edge * (bounds.east_deg - bounds.west_deg)
        lats = np.concatenate([lat, lat, np.full(33, lat[0]), np.full(33, lat[-1])])
        lons = np.concatenate([np.full(33, lon[0]), np.full(33, lon[-1]), lon, lon])
        if self.lattice.is_geographic:
            row = (self.lattice.top_y - lats) / self.lattice.cell_y - 0.5
            col = (lons - self.lattice.left_x) / self.lattice.cell_x - 0.5
        else:
            row, col = self.lattice.row_col(lats, lons)
        if not (np.all(np.isfinite(row)) and np.all(np.isfinite(col))):
            raise DataGapError(
                tr("the passage lies outside the reach of the elevation's coordinate system"),
                todo=tr("Give elevation in a system made for these waters"),
            )
        first_row, last_row = math.floor(row.min()) - 1, math.ceil(row.max()) + 1
        first_col, last_col = math.floor(col.min()) - 1, math.ceil(col.max()) + 1
        return self.lattice.part(
            row=first_row,
            col=first_col,
            rows=last_row - first_row + 1,
            cols=last_col - first_col + 1,
        )


def _turned(lattice: Lattice, bounds: Bounds) -> list[Lattice]:
    """Copies of a geographic lattice moved by whole turns so that they meet a box."""
    copies = []
    for turn in (-360.0, 0.0, 360.0):
        left = lattice.left_x + turn
        if left < bounds.east_deg and left + lattice.cell_x * lattice.cols > bounds.west_deg:
            copies.append(replace(lattice, left_x=left))
    return copies


class RasterHeights:
    """Elevation files as a ``HeightSource``: headers opened when needed, windows read.

    ``findings`` lists files of a folder that could not be used.
    """

    def __init__(self, paths: Iterable[LandPath]) -> None:
        self._paths = tuple(paths)
        self._headers: dict[Path, tuple[RasterFile, ...]] = {}
        self._broken: dict[Path, str] = {}
        self._above_ellipsoid: set[str] = set()
        self._coarsened: Finding | None = None
        for one in self._paths:
            if one.is_named:
                self._open(one)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Files that could not be used or are of doubtful heights, found so far."""
        doubtful = tuple(
            Finding(
                severity=Severity.CHECK,
                code="heights-above-ellipsoid",
                what=tr(
                    "may hold heights above the ellipsoid, up to 100 m off those above the sea"
                ),
                where=Where(file=name),
                todo=tr("Give elevation above mean sea level or a geoid"),
            )
            for name in sorted(self._above_ellipsoid)
        )
        if self._coarsened is not None:
            doubtful += (self._coarsened,)
        return doubtful + tuple(
            Finding(
                severity=Severity.CHECK,
                code="land-file-unusable",
                what=what,
                where=Where(file=path.name),
                todo=tr("Replace or remove the file"),
            )
            for path, what in self._broken.items()
        )

    def _open(self, one: LandPath) -> tuple[RasterFile, ...]:
        if one.path not in self._headers:
            try:
                self._headers[one.path] = read_headers(one.path)
            except InputError as exc:
                if one.is_named:
                    raise
                self._headers[one.path] = ()
                self._broken[one.path] = exc.what
        return self._headers[one.path]

    def files_meeting(self, bounds: Bounds) -> tuple[RasterFile, ...]:
        """Headers of the files that meet a box; tiles named for other squares stay closed."""
        found: list[RasterFile] = []
        for one in self._paths:
            square = hgt_bounds(one.path)
            if square is not None and not meet(square.padded(lat_deg=0.01, lon_deg=0.01), bounds):
                continue
            found += [f for f in self._open(one) if meet(f.area, bounds)]
        return tuple(found)

    def extent(self, bounds: Bounds) -> tuple[Bounds, ...]:
        """Areas of the files that meet a box."""
        return tuple(f.area for f in self.files_meeting(bounds))

    def _families(self, bounds: Bounds) -> list[_Family]:
        families: list[_Family] = []
        for file in self.files_meeting(bounds):
            lattice = file.lattice
            for copy in _turned(lattice, bounds) if lattice.is_geographic else [lattice]:
                for family in families:
                    if copy.offset_in(family.lattice) is not None:
                        family.members.append((file, copy))
                        break
                else:
                    families.append(_Family(lattice=copy, members=[(file, copy)]))
        middle = (bounds.south_deg + bounds.north_deg) / 2.0

        def area_m2(family: _Family) -> float:
            down, across = cell_size_m(family.lattice, middle)
            return down * across

        return sorted(families, key=area_m2)

    def window(
        self, bounds: Bounds, cell_m: float | None = None, progress: Progress | None = None
    ) -> HeightWindow:
        """Heights for a box, as ``HeightSource.window`` promises.

        Raises
        ------
        DataGapError
            No file meets the box.
        InputError
            A named file that meets it cannot be read.
        """
        report = progress or Quiet()
        families = self._families(bounds)
        if not families:
            raise DataGapError(
                tr("no elevation file reaches the passage"),
                todo=tr("Give elevation for these waters"),
            )
        middle = (bounds.south_deg + bounds.north_deg) / 2.0
        if cell_m is not None:
            return self._coarse(families, bounds, cell_m, report)
        lattices = [f.over(bounds) for f in families]
        lattice = lattices[0]
        if lattice.rows * lattice.cols > _MOST_CELLS:
            return self._within_memory(families, lattice, bounds, report)
        used: dict[Path, RasterFile] = {}
        heights, covered = self._read(families, lattice, used, report)
        return HeightWindow(
            lattice=lattice,
            heights_m=heights,
            is_missing=np.isnan(heights) & ~covered,
            sources=self._sources(used, bounds, middle),
        )

    def _within_memory(
        self, families: list[_Family], fine: Lattice, bounds: Bounds, progress: Progress
    ) -> HeightWindow:
        """Heights of a box too large for its cells, in cells each as high as its highest ground.

        Memory would else follow the box of a long slanting passage, most of it open sea.
        """
        middle = (bounds.south_deg + bounds.north_deg) / 2.0
        down_m, across_m = cell_size_m(fine, middle)
        coarser = math.sqrt(fine.rows * fine.cols / _MOST_CELLS)
        cell_m = coarser * math.sqrt(down_m * across_m)
        while True:
            down, across = max(1, round(cell_m / down_m)), max(1, round(cell_m / across_m))
            if -(-fine.rows // down) * -(-fine.cols // across) <= _MOST_CELLS:
                break
            cell_m *= 1.05
        self._coarsened = Finding(
            severity=Severity.CHECK,
            code="heights-coarsened",
            what=tr(
                "the box round the passage holds {million:,.0f} million cells of elevation; "
                "heights are taken in cells of about {cell_m:.0f} m, each as high as the highest "
                "ground in it",
                million=fine.rows * fine.cols / 1e6,
                cell_m=cell_m,
            ),
            todo=tr("Plan the passage in parts to have the elevation in full detail"),
        )
        return self._coarse(families, bounds, cell_m, progress)

    def _coarse(
        self, families: list[_Family], bounds: Bounds, cell_m: float, progress: Progress
    ) -> HeightWindow:
        middle = (bounds.south_deg + bounds.north_deg) / 2.0
        fine = families[0].over(bounds)
        down_m, across_m = cell_size_m(fine, middle)
        down, across = max(1, round(cell_m / down_m)), max(1, round(cell_m / across_m))
        rows, cols = -(-fine.rows // down), -(-fine.cols // across)
        if rows * cols > _MOST_CELLS:
            raise InputError(
                tr("the search for far land has too many cells"), todo=tr("Use larger cells")
            )
        heights = np.empty((rows, cols), dtype=np.float32)
        missing = np.empty((rows, cols), dtype=np.bool_)
        used: dict[Path, RasterFile] = {}
        step = max(1, _STRIP_CELLS // (cols * across * down))
        for first in range(0, rows, step):
            count = min(step, rows - first)
            part = fine.part(row=first * down, col=0, rows=count * down, cols=cols * across)
            strip, covered = self._read(families, part, used, Quiet())
            heights[first : first + count], missing[first : first + count] = greatest_in_blocks(
                strip, np.isnan(strip) & ~covered, rows=down, cols=across
            )
            progress.report((first + count) / rows, tr("reading heights"))
        lattice = Lattice(
            crs=fine.crs,
            left_x=fine.left_x,
            top_y=fine.top_y,
            cell_x=fine.cell_x * across,
            cell_y=fine.cell_y * down,
            rows=rows,
            cols=cols,
        )
        return HeightWindow(
            lattice=lattice,
            heights_m=heights,
            is_missing=missing,
            sources=self._sources(used, bounds, middle),
        )

    def _read(
        self,
        families: list[_Family],
        lattice: Lattice,
        used: dict[Path, RasterFile],
        progress: Progress,
    ) -> tuple[Float32Array, BoolArray]:
        heights = np.full((lattice.rows, lattice.cols), np.nan, dtype=np.float32)
        covered = np.zeros(heights.shape, dtype=np.bool_)
        for number, family in enumerate(families):
            if covered.all() and not np.isnan(heights).any():
                break
            if lattice.offset_in(family.lattice) is not None:
                self._paste(family, lattice, heights, covered, used)
            else:
                self._paste_resampled(family, lattice, heights, covered, used)
            progress.report((number + 1) / len(families), tr("reading heights"))
        return heights, covered

    def _paste(
        self,
        family: _Family,
        lattice: Lattice,
        heights: Float32Array,
        covered: BoolArray,
        used: dict[Path, RasterFile],
    ) -> None:
        """Fill unknown cells from the files of a family on the same lattice."""
        for file, at in family.members:
            place = at.offset_in(lattice)
            if place is None:
                continue
            row, col = place
            top, left = max(row, 0), max(col, 0)
            bottom, right = min(row + at.rows, lattice.rows), min(col + at.cols, lattice.cols)
            if top >= bottom or left >= right:
                continue
            part = heights[top:bottom, left:right]
            if not np.isnan(part).any():
                continue
            new = self._heights(file, top - row, left - col, part.shape)
            np.copyto(part, new, where=np.isnan(part))
            covered[top:bottom, left:right] = True
            used[file.path] = file
            if file.has_ellipsoid_heights:
                self._above_ellipsoid.add(file.name)

    def _paste_resampled(
        self,
        family: _Family,
        lattice: Lattice,
        heights: Float32Array,
        covered: BoolArray,
        used: dict[Path, RasterFile],
    ) -> None:
        """Fill unknown cells from files of another lattice, bilinearly."""
        wanted = np.isnan(heights)
        rows = np.flatnonzero(wanted.any(axis=1))
        cols = np.flatnonzero(wanted.any(axis=0))
        top, left = int(rows[0]), int(cols[0])
        target = lattice.part(
            row=top, col=left, rows=int(rows[-1]) - top + 1, cols=int(cols[-1]) - left + 1
        )
        native = _around(target, family.lattice)
        shape = (native.rows, native.cols)
        if native.rows * native.cols > _MOST_CELLS:
            raise InputError(
                tr("elevation files of very different cell sizes meet in reach"),
                todo=tr("Leave out the finest ones"),
            )
        own, own_covered = np.full(shape, np.nan, np.float32), np.zeros(shape, np.bool_)
        self._paste(family, native, own, own_covered, used)
        new, reach = resampled(own, own_covered, native, target)
        part = heights[top : top + target.rows, left : left + target.cols]
        np.copyto(part, new, where=np.isnan(part))
        covered[top : top + target.rows, left : left + target.cols] |= reach

    def _heights(
        self, file: RasterFile, row: int, col: int, shape: tuple[int, int]
    ) -> Float32Array:
        try:
            return read_heights(file, row=row, col=col, rows=shape[0], cols=shape[1])
        except InputError as exc:
            if any(one.is_named and one.path == file.path for one in self._paths):
                raise
            self._broken[file.path] = exc.what
            return np.full(shape, np.nan, dtype=np.float32)

    def _sources(
        self, used: dict[Path, RasterFile], bounds: Bounds, lat_deg: float
    ) -> tuple[DataSource, ...]:
        sources = []
        for file in used.values():
            files = [file.path, *(p for p in file.parts if _reaches(p, bounds))]
            middle = (file.area.south_deg + file.area.north_deg) / 2.0
            for path in files:
                sources.append(
                    DataSource(
                        role="elevation",
                        name=path.name,
                        sha256=sha256_of(path),
                        resolution=resolution_words(file.lattice, middle),
                        released=file.note.released,
                        licence=file.note.licence,
                    )
                )
        return tuple(sources)


def _reaches(path: Path, bounds: Bounds) -> bool:
    try:
        return any(meet(file.area, bounds) for file in read_headers(path))
    except InputError:
        return True


def _around(target: Lattice, family: Lattice) -> Lattice:
    """The part of a family's lattice that bilinear sampling at a target's cells needs."""
    down = np.unique(np.linspace(0, target.rows - 1, min(target.rows, 129)).round())
    across = np.unique(np.linspace(0, target.cols - 1, min(target.cols, 129)).round())
    r, c = np.meshgrid(down, across, indexing="ij")
    row, col = family.row_col(*target.lat_lon(r.ravel(), c.ravel()))
    first_row, last_row = math.floor(row.min()) - 3, math.ceil(row.max()) + 3
    first_col, last_col = math.floor(col.min()) - 3, math.ceil(col.max()) + 3
    return family.part(
        row=first_row, col=first_col, rows=last_row - first_row + 1, cols=last_col - first_col + 1
    )
