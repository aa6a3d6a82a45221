"""What lies at a point of the picture."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.base.language import tr
from core.picture.display_chain import UNCERTAIN_DB, Display, Paint
from core.picture.echo_rows import EchoKind, EchoPatch, covers
from core.picture.picture_view import PictureView
from core.picture.screen_frame import ScreenFrame

_NEAR_PX = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """What is shown at a point, and why."""

    paint: Paint
    what: str
    """``land``, ``mark``, ``sea clutter``, ``rain clutter``, ``noise``, ``nothing expected``,
    ``sea below the horizon``, ``hidden by land``, ``blind sector``, ``no data``, ``outside``.
    Land and mark also where their echo is too weak now: ``paint`` and ``margin_db`` say so."""
    name: str
    """Of the patch or mark, empty without."""
    range_m: float
    bearing_deg: float
    margin_db: float | None
    """Of the echo now; None where there is none worth telling."""
    patch: EchoPatch | None


_WORDS = {
    Paint.NOTHING: tr("nothing expected"),
    Paint.BELOW_HORIZON: tr("sea below the horizon"),
    Paint.SHADOW: tr("hidden by land"),
    Paint.BLIND: tr("blind sector"),
    Paint.UNKNOWN: tr("no data"),
    Paint.SPECKLE: tr("noise"),
}


def pick(
    view: PictureView,
    shown: Display,
    frame: ScreenFrame,
    patches: Sequence[EchoPatch],
    x_px: float,
    y_px: float,
) -> Picked:
    """Tell what lies at a point of the picture, or a few pixels round it where an echo does."""
    range_m, bearing_deg = frame.from_px(x_px, y_px)
    if range_m >= view.radius_m:
        return _picked(Paint.OUTSIDE, tr("outside"), range_m, bearing_deg)
    row = round(bearing_deg * view.bearings / 360.0) % view.bearings
    col = min(int(range_m / view.cell_m), view.echo_db.shape[1] - 1)
    if Paint.UNKNOWN != shown.paint[row, col] < Paint.UNCERTAIN:
        row, col = _nearest_echo(view, shown, frame, row, col)
    paint = Paint(int(shown.paint[row, col]))
    patch = next((patch for patch in patches if covers(view, patch, row, col)), None)
    if paint is not Paint.UNKNOWN and (paint >= Paint.UNCERTAIN or patch is not None):
        margin_db = float(shown.margin_db[row, col])
        # Echo stretch draws where no echo is; the margin is that of the echo it comes from.
        is_stretched = paint >= Paint.UNCERTAIN and margin_db <= -UNCERTAIN_DB
        return Picked(
            paint=paint,
            what=(EchoKind.LAND if patch is None else patch.kind).shown,
            name="" if patch is None else patch.name,
            range_m=range_m,
            bearing_deg=bearing_deg,
            margin_db=None if is_stretched else margin_db,
            patch=patch,
        )
    if paint is Paint.CLUTTER:
        is_rain = view.rain_ratio[col] > view.sea_ratio[row, col]
        return _picked(
            paint, tr("rain clutter") if is_rain else tr("sea clutter"), range_m, bearing_deg
        )
    return _picked(paint, _WORDS[paint], range_m, bearing_deg)


def _nearest_echo(
    view: PictureView, shown: Display, frame: ScreenFrame, row: int, col: int
) -> tuple[int, int]:
    """The cell of the echo nearest to a cell, within a few pixels; itself where there is none."""
    reach_m = _NEAR_PX * frame.m_per_px
    deep = math.ceil(reach_m / view.cell_m)
    step_rad = 2.0 * math.pi / view.bearings
    wide = min(math.ceil(reach_m / ((col + 0.5) * view.cell_m * step_rad)), view.bearings // 8)
    rows = np.arange(row - wide, row + wide + 1)
    cols = np.arange(max(col - deep, 0), min(col + deep + 1, view.echo_db.shape[1]))
    part = shown.paint[np.ix_(rows % view.bearings, cols)]
    across = (rows - row)[:, np.newaxis] * step_rad * (cols + 0.5)[np.newaxis, :]
    off_m = np.hypot(across, (cols - col)[np.newaxis, :]) * view.cell_m
    off_m[(part < Paint.UNCERTAIN) | (off_m > reach_m)] = np.inf
    best = int(np.argmin(off_m))
    if not np.isfinite(off_m.ravel()[best]):
        return row, col
    i, j = divmod(best, cols.size)
    return int(rows[i]) % view.bearings, int(cols[j])


def _picked(paint: Paint, what: str, range_m: float, bearing_deg: float) -> Picked:
    return Picked(
        paint=paint,
        what=what,
        name="",
        range_m=range_m,
        bearing_deg=bearing_deg,
        margin_db=None,
        patch=None,
    )
