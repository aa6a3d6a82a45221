"""What is drawn over the ground of the area: legs, waypoints, own ship, hidden water."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QImage, QPainter, QPen, QPolygonF

from app.paint.palette import Palette
from app.state.document import Document
from app.views.area_image import AreaFrame, polygon_of, render_hidden, scale_bar
from app.views.area_inks import rgb
from app.views.area_scene import AreaScene
from app.views.readout_words import nearest_viewpoint
from core.base.arrays import FloatArray
from core.geodesy.position import Position
from core.plan.outcome import Outcome
from core.sheets.page import Tone
from core.words import quantities

_HIDDEN_PX = 720


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenPatch:
    """Hidden water from one viewpoint as a picture: middle, half side in scene metres."""

    x_m: float
    y_m: float
    half_m: float
    image: QImage


def backdrop(palette: Palette) -> QColor:
    """Colour where nothing is drawn."""
    return palette.colour(Tone.SHADE)


def hidden_patch(
    outcome: Outcome, scene: AreaScene, leg_index: int, along_m: float, palette: Palette
) -> HiddenPatch | None:
    """Hidden water from the viewpoint nearest to own ship; None where none was swept."""
    view = nearest_viewpoint(outcome, leg_index, along_m)
    if view is None:
        return None
    place = view.viewpoint.position
    x_m, y_m = scene.projection.points(np.array([place.lat_deg]), np.array([place.lon_deg]))[0]
    stretch = np.cos(np.radians(scene.projection.lat_deg)) / np.cos(np.radians(place.lat_deg))
    radius_m = outcome.coverage.settings.radius_m
    ink = rgb(palette.colour(Tone.HIDDEN_WATER))
    return HiddenPatch(
        x_m=float(x_m),
        y_m=float(y_m),
        half_m=radius_m * float(stretch),
        image=render_hidden(view.hidden, radius_m, _HIDDEN_PX, ink),
    )


def draw_hidden(painter: QPainter, frame: AreaFrame, patch: HiddenPatch) -> None:
    """Lay hidden water over the ground."""
    corner = frame.point(patch.x_m - patch.half_m, patch.y_m - patch.half_m)
    far = frame.point(patch.x_m + patch.half_m, patch.y_m + patch.half_m)
    painter.drawImage(QRectF(corner, far), patch.image)


def draw_empty(painter: QPainter, room: QRectF, palette: Palette) -> None:
    """Say what to do where there is no passage."""
    painter.setPen(palette.colour(Tone.FAINT_INK))
    painter.drawText(
        room, int(Qt.AlignmentFlag.AlignCenter), "No route yet: open one (Ctrl+O) or type it"
    )


def _pen(palette: Palette, tone: Tone, width: float, dash: tuple[float, ...] = ()) -> QPen:
    pen = QPen(palette.colour(tone), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if dash:
        pen.setDashPattern([length / width for length in dash])
    return pen


def _label(painter: QPainter, at: QPointF, text: str, palette: Palette, tone: Tone) -> None:
    """Text on a ground of its own, so that it can be read over land and lines."""
    metrics = painter.fontMetrics()
    box = QRectF(
        at.x() - 2.0,
        at.y() - metrics.ascent(),
        metrics.horizontalAdvance(text) + 4.0,
        metrics.height(),
    )
    ground = palette.colour(Tone.SEA)
    ground.setAlpha(200)
    painter.fillRect(box, ground)
    painter.setPen(palette.colour(tone))
    painter.drawText(at, text)


def draw_passage(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, document: Document, palette: Palette
) -> None:
    """Corridor, legs, viewpoints, waypoints, objects and own ship."""
    chosen = document.leg_index
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for number, leg in enumerate(scene.legs):
        is_chosen = number == chosen
        painter.setPen(_pen(palette, Tone.CORRIDOR, 1.0, (5.0, 3.0)))
        for edge in (leg.port_edge, leg.starboard_edge):
            if len(edge):
                painter.drawPolyline(polygon_of(frame.to_px(edge)))
        painter.setPen(_pen(palette, Tone.TRACK, 2.6 if is_chosen else 1.3))
        painter.drawPolyline(polygon_of(frame.to_px(leg.track)))
        if is_chosen and len(leg.viewpoints):
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(palette.colour(Tone.FAINT_INK))
            for x, y in frame.to_px(leg.viewpoints):
                painter.drawRect(QRectF(x - 1.0, y - 1.0, 2.0, 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
    _draw_waypoints(painter, frame, scene, chosen, palette)
    _draw_objects(painter, frame, scene, document, palette)
    _draw_ship(painter, frame, scene, document, palette)


def _draw_waypoints(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, chosen: int, palette: Palette
) -> None:
    places = frame.to_px(scene.waypoints)
    painter.setBrush(palette.colour(Tone.SEA))
    painter.setPen(_pen(palette, Tone.TRACK, 1.5))
    for x, y in places:
        painter.drawRect(QRectF(x - 3.0, y - 3.0, 6.0, 6.0))
    taken: list[QRectF] = []
    metrics = painter.fontMetrics()
    order = sorted(range(len(places)), key=lambda i: i not in (chosen, chosen + 1))
    for number in order:
        x, y = places[number]
        text = scene.names[number]
        width = metrics.horizontalAdvance(text)
        for at in (QPointF(x + 7, y - 5), QPointF(x + 7, y + 14), QPointF(x - width - 7, y - 5)):
            box = QRectF(at.x() - 2, at.y() - metrics.ascent(), width + 4, metrics.height())
            if not any(box.intersects(other) for other in taken):
                taken.append(box)
                _label(painter, at, text, palette, Tone.INK)
                break


def _draw_objects(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, document: Document, palette: Palette
) -> None:
    leg = document.leg_plan
    if leg is None:
        return
    used = {line.object.id for line in leg.lines}
    font = QFont(painter.font())
    font.setBold(True)
    painter.save()
    painter.setFont(font)
    for name, x_m, y_m in scene.objects:
        if name not in used:
            continue
        at = frame.point(x_m, y_m)
        painter.setPen(_pen(palette, Tone.OBJECT, 1.6))
        painter.setBrush(palette.colour(Tone.SEA))
        painter.drawPolygon(
            QPolygonF(
                [at + QPointF(0, -5), at + QPointF(5, 0), at + QPointF(0, 5), at + QPointF(-5, 0)]
            )
        )
        _label(painter, at + QPointF(8, 5), name, palette, Tone.OBJECT)
    painter.restore()


def _draw_ship(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, document: Document, palette: Palette
) -> None:
    length_m = document.leg_length_m()
    if length_m <= 0.0 or document.leg_index >= len(scene.legs):
        return
    track = frame.to_px(scene.legs[document.leg_index].track)
    place, way = along_track(track, document.cursor_along_m / length_m)
    painter.save()
    painter.translate(place)
    painter.rotate(way)
    painter.setPen(QPen(palette.colour(Tone.SEA), 1.0))
    painter.setBrush(palette.colour(Tone.OWN_SHIP))
    hull = ((0, -10), (4.5, -3), (4.5, 9), (-4.5, 9), (-4.5, -3))
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in hull]))
    painter.restore()


def along_track(track: FloatArray, share: float) -> tuple[QPointF, float]:
    """The place a share of the way along a drawn track, and how it heads: degrees from up."""
    steps = np.diff(track, axis=0)
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    reached = np.concatenate(([0.0], np.cumsum(lengths)))
    wanted = min(max(share, 0.0), 1.0) * reached[-1]
    number = int(np.clip(np.searchsorted(reached, wanted, side="right") - 1, 0, len(steps) - 1))
    rest = (wanted - reached[number]) / lengths[number] if lengths[number] > 0.0 else 0.0
    x, y = track[number] + steps[number] * rest
    way = np.degrees(np.arctan2(steps[number][0], -steps[number][1]))
    return QPointF(float(x), float(y)), float(way)


def draw_frame(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, palette: Palette, has_focus: bool
) -> None:
    """Scale bar with its length, north arrow, and an edge that shows the keyboard is here."""
    nm, length_px = scale_bar(frame.m_per_px, frame.width * 0.3)
    x, y = 10.0, frame.height - 12.0
    painter.setPen(_pen(palette, Tone.INK, 2.0))
    painter.drawLine(QPointF(x, y), QPointF(x + length_px, y))
    for end in (x, x + length_px):
        painter.drawLine(QPointF(end, y - 4.0), QPointF(end, y + 4.0))
    _label(painter, QPointF(x + length_px + 8.0, y + 4.0), f"{nm:g} NM", palette, Tone.INK)
    north = QPointF(frame.width - 16.0, 14.0)
    painter.setPen(_pen(palette, Tone.INK, 1.4))
    painter.drawLine(north, north + QPointF(0.0, 22.0))
    painter.drawLine(north, north + QPointF(-4.0, 7.0))
    painter.drawLine(north, north + QPointF(4.0, 7.0))
    painter.drawText(north + QPointF(-4.0, 36.0), "N")
    if scene.land is None:
        _label(
            painter,
            QPointF(10.0, 18.0),
            "Land is shown once the plan is computed; grey is not open water",
            palette,
            Tone.WARNING,
        )
    if has_focus:
        painter.setPen(_pen(palette, Tone.OWN_SHIP, 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(1.0, 1.0, frame.width - 2.0, frame.height - 2.0))


def place_words(scene: AreaScene, x_m: float, y_m: float) -> str:
    """Position of a place in the plan, in degrees and minutes."""
    lat = float(scene.projection.lat_of(np.array([y_m]))[0])
    lon = float(scene.projection.lon_of(np.array([x_m]))[0])
    return quantities.position(Position(lat_deg=lat, lon_deg=(lon + 180.0) % 360.0 - 180.0))


def nearest_leg(frame: AreaFrame, scene: AreaScene, at: QPointF) -> tuple[int, float] | None:
    """The leg nearest to a pixel and its distance in pixels."""
    here = np.array([at.x(), at.y()])
    best: tuple[int, float] | None = None
    for number, leg in enumerate(scene.legs):
        track = frame.to_px(leg.track)
        for start, end in pairwise(track):
            step = end - start
            length = float(step @ step)
            share = float(np.clip(((here - start) @ step) / length, 0.0, 1.0)) if length else 0.0
            distance = float(np.hypot(*(here - start - share * step)))
            if best is None or distance < best[1]:
                best = (number, distance)
    return best
