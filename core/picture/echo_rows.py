"""The echoes of a picture one by one: what, where, how far over the threshold, what took it.

Land is told apart by the places the caller names; what is left goes by runs that hang together,
cut into sectors. A row's margin is that of the strongest cell of its patch.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy import ndimage

from core.base.arrays import FloatArray, HoldsArrays, IntArray
from core.base.language import Worded
from core.base.units import m_from_nm
from core.coverage.coverage_result import CoastState
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.picture.controls import CONTROL_FIELDS, Controls
from core.picture.display_chain import UNCERTAIN_DB, margins_at, well_set
from core.picture.picture_view import Ground, PictureView

_SECTOR_DEG = 15.0
_REACH_M = m_from_nm(0.5)
_LEAST_DB = -100.0


class EchoKind(Worded):
    """What a row stands for."""

    LAND = "land"
    MARK = "mark"


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedPlace:
    """A place whose land goes under its name, such as a headland."""

    name: str
    position: Position
    reach_m: float = _REACH_M
    """Land this near belongs to it, unless to a nearer one."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EchoPatch(HoldsArrays):
    """One predicted echo of a view and the cells it stands in.

    rows, cols : (n,) int64
        Bearing rows and range cells.
    echo_db : (n,) float64
        Its own strength over noise, dB.
    """

    name: str
    """Empty for land nobody named."""
    kind: EchoKind
    range_m: float
    """Of a mark its place, of land its strongest cell when well set."""
    bearing_deg: float
    merges: bool
    """A mark no stronger than the land it stands on: not to be told apart."""
    well_margin_db: float
    rows: IntArray
    cols: IntArray
    echo_db: FloatArray
    is_unknown: bool = False
    """A mark of which unknown heights leave open whether it is in sight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EchoRow:
    """One predicted echo under the controls as they are."""

    patch: EchoPatch
    margin_db: float
    taken_by: str
    """Field of ``Controls`` that, put back to well set, would bring it back most; empty while
    the echo paints or would not paint well set either."""

    @property
    def well_margin_db(self) -> float:
        """Margin with the set well set, dB."""
        return self.patch.well_margin_db

    @property
    def is_lost(self) -> bool:
        """Would be expected well set, and is not now."""
        return self.margin_db < 0.0 <= self.patch.well_margin_db

    @property
    def is_blind(self) -> bool:
        """Whether own structure takes all of it."""
        return self.patch.rows.size > 0 and self.margin_db <= _LEAST_DB


def echo_patches(
    view: PictureView, names: Sequence[NamedPlace] = (), *, controls: Controls | None = None
) -> tuple[EchoPatch, ...]:
    """The echoes to be expected well set, uncertain ones included; made once for a view.

    Parameters
    ----------
    view : PictureView
        The place; its point targets become marks.
    names : sequence of NamedPlace
        Places whose land goes under a name.
    controls : Controls, optional
        What counts as well set; ``well_set(view)`` if None.
    """
    well = controls or well_set(view)
    rows, cols = np.nonzero(
        (view.echo_db > view.snr_required_db - UNCERTAIN_DB) & (view.ground != Ground.UNKNOWN)
    )
    echo = view.echo_db[rows, cols].astype(np.float64)
    margin = margins_at(view, well, rows, cols, echo)
    keep = margin > -UNCERTAIN_DB
    rows, cols, echo, margin = rows[keep], cols[keep], echo[keep], margin[keep]
    marks = _marks(view, well)
    if rows.size == 0:
        return marks
    owner = _owners(view, rows, cols, names)
    land = _runs(view, rows, cols)
    key = np.where(owner >= 0, -1 - owner, land)
    found = [
        _land_patch(view, part, names, (rows, cols, echo, margin), int(label))
        for label, part in _groups(key)
    ]
    # A mark alone on the water is its own row; its spread is no land.
    free = [patch for patch in found if patch.name or not _is_all_marks(view, patch, marks)]
    return (*marks, *free)


def echo_rows(
    view: PictureView,
    patches: Sequence[EchoPatch],
    controls: Controls,
    *,
    well: Controls | None = None,
) -> tuple[EchoRow, ...]:
    """Rows of the patches in the order in which they are lost: least margin well set first."""
    well = well or well_set(view)
    ordered = sorted(patches, key=lambda patch: patch.well_margin_db)
    now = _strongest(view, controls, ordered)
    brought = {
        name: _strongest(view, replace(controls, **{name: getattr(well, name)}), ordered)
        for name in CONTROL_FIELDS
        if getattr(controls, name) != getattr(well, name)
    }
    out = []
    for i, patch in enumerate(ordered):
        taken = ""
        if brought and now[i] < 0.0 <= patch.well_margin_db:
            taken = max(brought, key=lambda name: brought[name][i])
        out.append(EchoRow(patch=patch, margin_db=float(now[i]), taken_by=taken))
    return tuple(out)


def _strongest(view: PictureView, controls: Controls, patches: Sequence[EchoPatch]) -> FloatArray:
    """Margin of the strongest cell of each patch, dB: (patches,)."""
    out = np.full(len(patches), _LEAST_DB)
    held = [i for i, patch in enumerate(patches) if patch.rows.size]
    if not held:
        return out
    parts = [patches[i] for i in held]
    margins = margins_at(
        view,
        controls,
        np.concatenate([patch.rows for patch in parts]),
        np.concatenate([patch.cols for patch in parts]),
        np.concatenate([patch.echo_db for patch in parts]),
    )
    starts = np.cumsum([0, *(patch.rows.size for patch in parts[:-1])])
    out[held] = np.maximum.reduceat(margins, starts)
    return out


def _marks(view: PictureView, well: Controls) -> tuple[EchoPatch, ...]:
    found = []
    for point in view.points:
        row = round(point.bearing_deg * view.bearings / 360.0) % view.bearings
        col = min(int(point.range_m / view.cell_m), view.echo_db.shape[1] - 1)
        is_gap = view.ground[row, col] == Ground.UNKNOWN
        seen = point.state is CoastState.IN_SIGHT and not is_gap
        rows, cols, echo = (
            (np.array([row]), np.array([col]), _over_noise(view, point.power_w))
            if seen and point.power_w > 0.0
            else (np.empty(0, np.int64), np.empty(0, np.int64), np.empty(0))
        )
        patch = EchoPatch(
            name=point.name,
            kind=EchoKind.MARK,
            range_m=point.range_m,
            bearing_deg=point.bearing_deg,
            merges=bool(echo.size) and float(view.echo_db[row, col]) > float(echo[0]) + 3.02,
            well_margin_db=_LEAST_DB,
            rows=rows,
            cols=cols,
            echo_db=echo,
            is_unknown=point.state is not CoastState.HIDDEN and not seen,
        )
        found.append(patch)
    margins = _strongest(view, well, found)
    return tuple(
        replace(patch, well_margin_db=float(margin))
        for patch, margin in zip(found, margins, strict=True)
    )


def _over_noise(view: PictureView, power_w: float) -> FloatArray:
    return np.array([10.0 * math.log10(power_w / view.budget.noise_power_w)])


def _owners(
    view: PictureView, rows: IntArray, cols: IntArray, names: Sequence[NamedPlace]
) -> IntArray:
    """Number of the nearest named place in reach, -1 without: (n,)."""
    owner = np.full(rows.size, -1, dtype=np.int64)
    if not names:
        return owner
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=view.position.lat_deg,
        from_lon_deg=view.position.lon_deg,
        to_lat_deg=np.array([n.position.lat_deg for n in names]),
        to_lon_deg=np.array([n.position.lon_deg for n in names]),
    )
    angle = rows * (2.0 * math.pi / view.bearings)
    far = (cols + 0.5) * view.cell_m
    east, north = far * np.sin(angle), far * np.cos(angle)
    nearest = np.full(rows.size, np.inf)
    for number, name in enumerate(names):
        reach_m = name.reach_m
        near = np.flatnonzero(np.abs(far - range_m[number]) <= reach_m)
        turn = math.radians(bearing_deg[number])
        off = np.hypot(
            east[near] - range_m[number] * math.sin(turn),
            north[near] - range_m[number] * math.cos(turn),
        )
        take = (off <= reach_m) & (off < nearest[near])
        owner[near[take]] = number
        nearest[near[take]] = off[take]
    return owner


def _runs(view: PictureView, rows: IntArray, cols: IntArray) -> IntArray:
    """A label for each cell: runs that hang together, across north too, cut into sectors."""
    mask = np.zeros(view.echo_db.shape, dtype=np.bool_)
    mask[rows, cols] = True
    labels, count = ndimage.label(mask, structure=np.ones((3, 3)))
    joined = np.arange(count + 1)
    for a, b in zip(labels[0], labels[-1], strict=True):
        if a and b:
            joined[joined == joined[b]] = joined[a]
    sectors = round(360.0 / _SECTOR_DEG)
    sector = rows * sectors // view.bearings
    return np.asarray(joined[labels[rows, cols]] * sectors + sector, np.int64)


def _groups(key: IntArray) -> list[tuple[int, IntArray]]:
    order = np.argsort(key, kind="stable")
    labels, starts = np.unique(key[order], return_index=True)
    parts = np.split(order, starts[1:])
    return [(int(label), part) for label, part in zip(labels, parts, strict=True)]


def _land_patch(
    view: PictureView,
    part: IntArray,
    names: Sequence[NamedPlace],
    cells: tuple[IntArray, IntArray, FloatArray, FloatArray],
    label: int,
) -> EchoPatch:
    rows, cols, echo, margin = cells
    best = part[int(np.argmax(margin[part]))]
    return EchoPatch(
        name=names[-1 - label].name if label < 0 else "",
        kind=EchoKind.LAND,
        range_m=(float(cols[best]) + 0.5) * view.cell_m,
        bearing_deg=float(rows[best]) * 360.0 / view.bearings,
        merges=False,
        well_margin_db=float(margin[best]),
        rows=rows[part],
        cols=cols[part],
        echo_db=echo[part],
    )


def _is_all_marks(view: PictureView, patch: EchoPatch, marks: Sequence[EchoPatch]) -> bool:
    """Whether the strongest cell of a patch is the echo of a mark, not of land."""
    at = int(np.argmax(patch.echo_db))
    row, col = int(patch.rows[at]), int(patch.cols[at])
    return any(not mark.merges and covers(view, mark, row, col) for mark in marks)


def covers(view: PictureView, patch: EchoPatch, row: int, col: int) -> bool:
    """Whether a patch's echo stands in a cell; that of a mark spreads by beam and pulse."""
    if patch.rows.size == 0:
        return False
    if patch.kind is EchoKind.LAND:
        return bool(np.any((patch.rows == row) & (patch.cols == col)))
    across = (row - int(patch.rows[0])) % view.bearings
    width = view.budget.radar.horizontal_beamwidth_deg * view.bearings / 360.0
    depth = int(view.budget.pulse.depth_m / view.cell_m) + 1
    return min(across, view.bearings - across) <= width and 0 <= col - int(patch.cols[0]) <= depth
