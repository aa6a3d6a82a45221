"""The ground of the area view as a picture drawn off the GUI thread: land, coast, gaps."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QByteArray, QDataStream, QPointF
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPolygonF

from app.views.area_relief import relief_ratio
from app.views.area_scene import AreaScene, land_classes
from core.base.arrays import BoolArray, FloatArray
from core.coverage.coverage_result import HiddenWater

_HATCH_PX = 7
_LAND_STEPS = 6
_BIN_M = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaFrame:
    """The part of the plan that is seen: middle in scene metres, metres a pixel, size in pixels."""

    x_m: float
    y_m: float
    m_per_px: float
    width: int
    height: int

    def to_px(self, points: FloatArray) -> FloatArray:
        """Pixels (n, 2) of scene places (n, 2)."""
        middle = np.array([self.width / 2.0, self.height / 2.0])
        px: FloatArray = (points - np.array([self.x_m, self.y_m])) / self.m_per_px + middle
        return px

    def point(self, x_m: float, y_m: float) -> QPointF:
        """Pixel of one scene place."""
        return QPointF(
            (x_m - self.x_m) / self.m_per_px + self.width / 2.0,
            (y_m - self.y_m) / self.m_per_px + self.height / 2.0,
        )

    def scene_place(self, x_px: float, y_px: float) -> tuple[float, float]:
        """Scene place of a pixel."""
        return (
            self.x_m + (x_px - self.width / 2.0) * self.m_per_px,
            self.y_m + (y_px - self.height / 2.0) * self.m_per_px,
        )

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom in scene metres."""
        half_x = self.width * self.m_per_px / 2.0
        half_y = self.height * self.m_per_px / 2.0
        return self.x_m - half_x, self.y_m - half_y, self.x_m + half_x, self.y_m + half_y


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaInks:
    """Colours of the ground, each red, green, blue in 0 to 255."""

    sea: tuple[int, int, int]
    low_land_ratio: tuple[int, int, int]
    high_land: tuple[int, int, int]
    coast: tuple[int, int, int]
    unknown: tuple[int, int, int]
    beyond: tuple[int, int, int]


def polygon_of(points: FloatArray) -> QPolygonF:
    """Qt's polygon of an (n, 2) array, read by Qt as one stream."""
    block = np.ascontiguousarray(points, dtype=">f8")
    stream = QDataStream(QByteArray(len(block).to_bytes(4, "big") + block.tobytes()))
    polygon = QPolygonF()
    stream >> polygon
    return polygon


def _ground(scene: AreaScene, frame: AreaFrame, inks: AreaInks) -> QImage:
    left, top, _right, _bottom = frame.box()
    x_m: FloatArray = left + (np.arange(frame.width, dtype=np.float64) + 0.5) * frame.m_per_px
    y_m: FloatArray = top + (np.arange(frame.height, dtype=np.float64) + 0.5) * frame.m_per_px
    colours = np.zeros((256, 3), np.uint8)
    colours[0] = inks.sea
    low, high = np.array(inks.low_land_ratio, float), np.array(inks.high_land, float)
    for step in range(_LAND_STEPS):
        colours[1 + step] = low + (high - low) * step / (_LAND_STEPS - 1)
    colours[7], colours[8], colours[255] = inks.beyond, inks.unknown, inks.beyond
    light = None
    if scene.land is None:
        classes = np.full((frame.height, frame.width), 255, np.uint8)
    else:
        classes, height_m = land_classes(scene.land, scene.projection, x_m, y_m)
        light = relief_ratio(height_m, (classes >= 1) & (classes <= _LAND_STEPS), frame.m_per_px)
        # Crossed hatch, fixed to the picture: unknown heights must never look like open water.
        rows = np.arange(frame.height)[:, None]
        cols = np.arange(frame.width)[None, :]
        on_line = ((rows + cols) % _HATCH_PX == 0) | ((rows - cols) % _HATCH_PX == 0)
        classes[(classes == 7) & on_line] = 8
    rgb = np.empty((frame.height, frame.width, 4), np.uint8)
    rgb[..., :3] = colours[classes][..., ::-1]
    if light is not None:
        is_dim = light < 1.0
        rgb[is_dim, :3] = rgb[is_dim, :3] * light[is_dim][:, None]
    rgb[..., 3] = 255
    image = QImage(
        rgb.tobytes(), frame.width, frame.height, 4 * frame.width, QImage.Format.Format_RGB32
    )
    return image.copy()


def render_ground(
    scene: AreaScene, frame: AreaFrame, inks: AreaInks, check: Callable[[], None]
) -> QImage:
    """Draw land and coast.

    Parameters
    ----------
    check : callable
        Called now and then; may raise ``Cancelled``.
    """
    check()
    image = _ground(scene, frame, inks)
    if scene.land is None:
        return image
    check()
    left, top, right, bottom = frame.box()
    boxes = scene.land.boxes
    is_near = (
        (boxes[:, 0] <= right)
        & (boxes[:, 2] >= left)
        & (boxes[:, 1] <= bottom)
        & (boxes[:, 3] >= top)
    )
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(*inks.coast), 1.0))
        for number in np.flatnonzero(is_near):
            check()
            painter.drawPolyline(polygon_of(thinned(frame.to_px(scene.land.coast[number]))))
    finally:
        painter.end()
    return image


def thinned(points: FloatArray) -> FloatArray:
    """The same line without points closer than about half a pixel to the one kept before."""
    cells = np.floor(points * 1.5).astype(np.int64)
    keep = np.ones(len(points), bool)
    keep[1:-1] = np.any(cells[1:-1] != cells[:-2], axis=1)
    return points[keep]


def _hidden_table(hidden: HiddenWater, radius_m: float) -> BoolArray:
    """Whether water is hidden, by ray and by range bin of ``_BIN_M``; the last bin is outside."""
    rays, bins = len(hidden.offsets) - 1, int(np.ceil(radius_m / _BIN_M))
    steps = np.zeros((rays, bins + 1), np.int16)
    ray = np.repeat(np.arange(rays), np.diff(hidden.offsets))
    start = np.clip(hidden.from_m / _BIN_M, 0, bins).astype(np.int64)
    stop = np.clip(np.ceil(hidden.to_m / _BIN_M), 0, bins).astype(np.int64)
    np.add.at(steps, (ray, start), 1)
    np.add.at(steps, (ray, stop), -1)
    inside: BoolArray = np.cumsum(steps, axis=1) > 0
    inside[:, -1] = False
    return inside


def hidden_pixels(
    hidden: HiddenWater,
    radius_m: float,
    frame: AreaFrame,
    place: tuple[float, float],
    stretch_ratio: float,
) -> tuple[BoolArray, BoolArray]:
    """Which pixels are water hidden from one viewpoint, and which are in its reach.

    Parameters
    ----------
    place : (x, y)
        The viewpoint in scene metres.
    stretch_ratio : float
        Scene metres to a metre at the viewpoint.

    Returns
    -------
    is_hidden, is_in_reach : (height, width) bool arrays
    """
    table = _hidden_table(hidden, radius_m)
    left, top, _right, _bottom = frame.box()
    x = (left + (np.arange(frame.width) + 0.5) * frame.m_per_px - place[0]).astype(np.float32)
    y = (top + (np.arange(frame.height) + 0.5) * frame.m_per_px - place[1]).astype(np.float32)
    range_m = np.hypot(x[None, :], y[:, None]) / np.float32(stretch_ratio)
    turns = np.arctan2(x[None, :], -y[:, None]) * np.float32(len(table) / (2.0 * np.pi))
    row = np.rint(turns).astype(np.int32) % len(table)
    column = np.minimum(range_m / _BIN_M, table.shape[1] - 1).astype(np.int32)
    is_hidden: BoolArray = table[row, column]
    is_in_reach: BoolArray = range_m <= radius_m
    return is_hidden, is_in_reach


def hatched(is_hidden: BoolArray, ink: tuple[int, int, int]) -> QImage:
    """Hidden water hatched on clear ground."""
    height, width = is_hidden.shape
    on_line = (np.arange(height)[:, None] + np.arange(width)[None, :]) % _HATCH_PX < 1
    pixels = np.zeros((height, width, 4), np.uint8)
    pixels[is_hidden & on_line] = (*ink[::-1], 255)
    image = QImage(
        pixels.tobytes(), width, height, 4 * width, QImage.Format.Format_ARGB32_Premultiplied
    )
    return image.copy()


def scale_bar(m_per_px: float, room_px: float) -> tuple[float, float]:
    """Round length for a scale bar: nautical miles, and its length in pixels."""
    steps_nm = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0)
    fitting = [nm for nm in steps_nm if nm * 1852.0 / m_per_px <= room_px]
    nm = fitting[-1] if fitting else steps_nm[0]
    return nm, nm * 1852.0 / m_per_px
