"""The picture's plane: from bearing and range to pixels, upright as the officer wants it.

The picture is a square whose half side is the range scale; own ship stands in its middle, or
astern of it by the off-centring. Pixels beyond the view's reach are outside.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, HoldsArrays, IntArray
from core.base.compiled import kernel
from core.base.language import Worded
from core.picture.picture_view import PictureView


class Orientation(Worded):
    """What points up."""

    NORTH_UP = "north-up"
    COURSE_UP = "course-up"
    HEAD_UP = "head-up"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreenFrame:
    """How a view is laid on a square of pixels. x runs right, y down, from the upper left."""

    size_px: int
    scale_m: float
    up_deg: float = 0.0
    """True bearing that points up."""
    off_centre_ratio: float = 0.0
    """How far own ship stands off the middle, as a share of the half side."""
    off_centre_deg: float = 0.0
    """True bearing that gets the room: own ship stands off the opposite way."""

    @property
    def m_per_px(self) -> float:
        """Metres a pixel: ``2 R_scale / N`` (handbook 8)."""
        return 2.0 * self.scale_m / self.size_px

    @property
    def own_px(self) -> tuple[float, float]:
        """Where own ship stands."""
        half = self.size_px / 2.0
        way = math.radians(self.off_centre_deg - self.up_deg)
        off = self.off_centre_ratio * half
        return half - off * math.sin(way), half + off * math.cos(way)

    def to_px(self, range_m: float, bearing_deg: float) -> tuple[float, float]:
        """Where a range and true bearing lies."""
        x, y = self.own_px
        way = math.radians(bearing_deg - self.up_deg)
        far = range_m / self.m_per_px
        return x + far * math.sin(way), y - far * math.cos(way)

    def from_px(self, x_px: float, y_px: float) -> tuple[float, float]:
        """Range, m, and true bearing, deg in [0, 360), of a point."""
        x, y = self.own_px
        range_m = math.hypot(x_px - x, y_px - y) * self.m_per_px
        return range_m, (math.degrees(math.atan2(x_px - x, y - y_px)) + self.up_deg) % 360.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ScreenMap(HoldsArrays):
    """Which cells each pixel shows; made once for a view and a frame.

    row, first, last : (H, W) int64
        Bearing row, and the range cells from ``first`` to ``last`` inclusive; ``row`` is -1
        outside.
    """

    frame: ScreenFrame
    row: IntArray
    first: IntArray
    last: IntArray


@kernel
def _map(
    bearings: int,
    cells: int,
    cell_px: float,
    x0: float,
    y0: float,
    up: float,
    row: IntArray,
    first: IntArray,
    last: IntArray,
) -> None:
    height, width = row.shape
    for i in range(height):
        for j in range(width):
            dx, dy = j + 0.5 - x0, y0 - i - 0.5
            far = math.sqrt(dx * dx + dy * dy)
            n = int(far / cell_px)
            if n >= cells:
                row[i, j] = -1
                continue
            turn = (math.atan2(dx, dy) + up) / (2.0 * math.pi)
            row[i, j] = math.floor(turn * bearings + 0.5) % bearings
            first[i, j] = max(int((far - 0.5) / cell_px + 0.5), 0) if cell_px < 1.0 else n
            last[i, j] = min(max(int((far + 0.5) / cell_px - 0.5), first[i, j]), cells - 1)


@kernel
def _gather(
    paint: ByteArray, row: IntArray, first: IntArray, last: IntArray, out: ByteArray
) -> None:
    height, width = row.shape
    for i in range(height):
        for j in range(width):
            b = row[i, j]
            most = 0
            if b >= 0:
                for n in range(first[i, j], last[i, j] + 1):
                    most = max(most, paint[b, n])
            out[i, j] = most


def screen_map(view: PictureView, frame: ScreenFrame) -> ScreenMap:
    """Find the cells behind every pixel.

    Where pixels are larger than range cells, a pixel shows the strongest of those whose middle
    it holds, as a set does.
    """
    shape = (frame.size_px, frame.size_px)
    row, first, last = (np.zeros(shape, dtype=np.int64) for _ in range(3))
    x, y = frame.own_px
    _map(
        view.bearings,
        view.echo_db.shape[1],
        view.cell_m / frame.m_per_px,
        x,
        y,
        math.radians(frame.up_deg),
        row,
        first,
        last,
    )
    return ScreenMap(frame=frame, row=row, first=first, last=last)


def on_screen(paint: ByteArray, where: ScreenMap) -> ByteArray:
    """Codes of ``Paint`` pixel by pixel: (H, W) uint8 from (B, N)."""
    out = np.empty(where.row.shape, dtype=np.uint8)
    _gather(paint, where.row, where.first, where.last, out)
    return out
