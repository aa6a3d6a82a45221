"""What is drawn over the ground of the area: legs, waypoints, own ship, hidden water."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from app.paint.palette import Palette
from app.state.document import Document
from app.views.area_cover import Scope
from app.views.area_image import AreaFrame, polygon_of, scale_bar
from app.views.area_labels import Labels, draw_label
from app.views.area_measure import between_words
from app.views.area_scene import AreaScene
from core.base.arrays import FloatArray
from core.base.language import tr
from core.geodesy.position import Position
from core.sheets.page import Tone
from core.words import quantities


def backdrop(palette: Palette) -> QColor:
    """Colour where nothing is drawn."""
    return palette.colour(Tone.SHADE)


def draw_empty(painter: QPainter, room: QRectF, palette: Palette) -> None:
    """Say what to do where there is no passage."""
    painter.setPen(palette.colour(Tone.FAINT_INK))
    painter.drawText(
        room, int(Qt.AlignmentFlag.AlignCenter), tr("No route yet: open one (Ctrl+O) or type it")
    )


def _pen(palette: Palette, tone: Tone, width: float, dash: tuple[float, ...] = ()) -> QPen:
    pen = QPen(palette.colour(tone), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if dash:
        pen.setDashPattern([length / width for length in dash])
    return pen


def draw_passage(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, document: Document, palette: Palette
) -> None:
    """Corridor, legs, viewpoints, limits, waypoints, marks, objects."""
    chosen = document.leg_index
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(_pen(palette, Tone.FAINT_INK, 1.3, (2.0, 4.0)))
    for track in scene.gone:
        painter.drawPolyline(polygon_of(frame.to_px(track)))
    _draw_limits(painter, frame, scene, chosen, palette)
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
            painter.drawRects(_squares(frame.to_px(leg.viewpoints), 1.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
    labels = Labels(
        frame,
        _signs(frame, scene, document),
        has_words=scene.land is None or scene.is_edited,
    )
    _draw_objects(painter, frame, scene, document, palette, labels)
    _draw_marks(painter, frame, scene, palette, labels)
    _draw_waypoints(painter, frame, scene, chosen, palette, labels)


def _squares(places: FloatArray, half_px: float) -> list[QRectF]:
    """Squares round places, drawn in one go: each call that draws may wait for a worker."""
    side_px = 2.0 * half_px
    return [QRectF(x - half_px, y - half_px, side_px, side_px) for x, y in places.tolist()]


def _used(document: Document) -> set[str]:
    """Objects that lines of the chosen leg are laid on."""
    leg = document.leg_plan
    return set() if leg is None else {line.object.id for line in leg.lines}


def _signs(frame: AreaFrame, scene: AreaScene, document: Document) -> list[QPointF]:
    """Where waypoints, marks and objects of the chosen leg are drawn."""
    used = _used(document)
    found = [QPointF(x, y) for x, y in frame.to_px(scene.waypoints)]
    found += [frame.point(mark.x_m, mark.y_m) for mark in scene.marks]
    found += [frame.point(x_m, y_m) for name, x_m, y_m in scene.objects if name in used]
    return found


def _draw_waypoints(
    painter: QPainter,
    frame: AreaFrame,
    scene: AreaScene,
    chosen: int,
    palette: Palette,
    labels: Labels,
) -> None:
    places = frame.to_px(scene.waypoints)
    painter.setBrush(palette.colour(Tone.SEA))
    painter.setPen(_pen(palette, Tone.TRACK, 1.5))
    painter.drawRects(_squares(places, 3.0))
    for number in sorted(range(len(places)), key=lambda i: i not in (chosen, chosen + 1)):
        x, y = places[number]
        labels.draw(painter, QPointF(x, y), scene.names[number], palette, Tone.INK)


def _draw_limits(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, chosen: int, palette: Palette
) -> None:
    """Circles of danger limits of the chosen leg and of all legs round their marks."""
    for limit in scene.limits:
        if limit.leg_index not in (None, chosen):
            continue
        at = frame.point(limit.x_m, limit.y_m)
        for radius_m, dash in ((limit.least_m, ()), (limit.most_m, (6.0, 4.0))):
            if radius_m:
                painter.setPen(_pen(palette, Tone.MARGIN, 1.4, dash))
                painter.drawEllipse(at, radius_m / frame.m_per_px, radius_m / frame.m_per_px)


def _draw_marks(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, palette: Palette, labels: Labels
) -> None:
    """Fixed marks filled, floating marks hollow, places in the water as a cross."""
    for mark in scene.marks:
        at = frame.point(mark.x_m, mark.y_m)
        painter.setPen(_pen(palette, Tone.OBJECT, 1.5))
        if mark.is_place:
            painter.drawLine(at - QPointF(4, 0), at + QPointF(4, 0))
            painter.drawLine(at - QPointF(0, 4), at + QPointF(0, 4))
        else:
            painter.setBrush(palette.colour(Tone.OBJECT if mark.is_fixed else Tone.SEA))
            corners = (QPointF(0, -5), QPointF(4.5, 3.5), QPointF(-4.5, 3.5))
            painter.drawPolygon(QPolygonF([at + corner for corner in corners]))
        labels.draw(painter, at, mark.name, palette, Tone.OBJECT)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _draw_objects(
    painter: QPainter,
    frame: AreaFrame,
    scene: AreaScene,
    document: Document,
    palette: Palette,
    labels: Labels,
) -> None:
    used = _used(document)
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
        corners = (QPointF(0, -5), QPointF(5, 0), QPointF(0, 5), QPointF(-5, 0))
        painter.drawPolygon(QPolygonF([at + corner for corner in corners]))
        labels.draw(painter, at, name, palette, Tone.OBJECT)
    painter.restore()


def draw_ship(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, document: Document, palette: Palette
) -> None:
    """Own ship where the cursor is on the chosen leg, as she heads."""
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
    painter: QPainter,
    frame: AreaFrame,
    scene: AreaScene,
    chosen: int,
    palette: Palette,
    has_focus: bool,
) -> None:
    """Scale bar with its length, north arrow, and an edge that shows the keyboard is here."""
    nm, length_px = scale_bar(frame.m_per_px, frame.width * 0.3)
    x, y = 10.0, frame.height - 12.0
    painter.setPen(_pen(palette, Tone.INK, 2.0))
    painter.drawLine(QPointF(x, y), QPointF(x + length_px, y))
    for end in (x, x + length_px):
        painter.drawLine(QPointF(end, y - 4.0), QPointF(end, y + 4.0))
    draw_label(painter, QPointF(x + length_px + 8.0, y + 4.0), f"{nm:g} NM", palette, Tone.INK)
    north = QPointF(frame.width - 16.0, 14.0)
    painter.setPen(_pen(palette, Tone.INK, 1.4))
    painter.drawLine(north, north + QPointF(0.0, 22.0))
    painter.drawLine(north, north + QPointF(-4.0, 7.0))
    painter.drawLine(north, north + QPointF(4.0, 7.0))
    painter.drawText(north + QPointF(-4.0, 36.0), "N")
    words = _warning(scene, chosen)
    if words:
        at = QPointF(10.0, frame.height - 34.0)
        draw_label(painter, at, words, palette, Tone.WARNING)
    if has_focus:
        painter.setPen(_pen(palette, Tone.OWN_SHIP, 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(1.0, 1.0, frame.width - 2.0, frame.height - 2.0))


def _warning(scene: AreaScene, chosen: int) -> str:
    """What must not be taken for open or for known water; empty where nothing is to be said."""
    if scene.land is None:
        return tr("Land is shown once the plan is computed; grey is not open water")
    if not scene.is_edited:
        return ""
    is_kept = chosen < len(scene.legs) and scene.legs[chosen].source_leg is not None
    if is_kept:
        return tr("LINE EDITED: coast and hidden water as before the edit")
    return tr("LINE EDITED: coast and hidden water of this leg are not known")


def draw_scope(
    painter: QPainter,
    frame: AreaFrame,
    scene: AreaScene,
    scope: Scope,
    chosen: int,
    palette: Palette,
) -> None:
    """Say of what coast and hidden water are, beside the scale; nothing where none are shown."""
    if chosen < len(scene.legs) and scene.legs[chosen].source_leg is not None:
        words = tr("Coast and hidden water {of_what}", of_what=scope.value)
        width = painter.fontMetrics().horizontalAdvance(words)
        at = QPointF(frame.width - width - 10.0, frame.height - 8.0)
        draw_label(painter, at, words, palette, Tone.FAINT_INK)


def place_words(document: Document, place: Position) -> str:
    """Position of a place, and how it bears from own ship."""
    words = quantities.position(place)
    leg_index = document.leg_index
    if document.passage is None or leg_index >= len(document.passage.legs):
        return words
    own_ship = document.passage.line(leg_index).position_at(document.cursor_along_m)
    return tr(
        "{place}   from own ship {range_and_bearing}",
        place=words,
        range_and_bearing=between_words(own_ship, place),
    )
