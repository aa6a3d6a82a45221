"""Coast that is expected to paint and hidden water, as a picture to lay over the ground.

Of own ship's place: what the viewpoint nearest to her has. Of the whole leg: the painted edge of
the leg, and the water hidden from every viewpoint on its track.
"""

from collections.abc import Callable
from enum import Enum

import numpy as np
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QPen

from app.paint.palette import Palette
from app.views.area_image import AreaFrame, hatched, hidden_pixels, polygon_of, thinned
from app.views.area_inks import rgb
from app.views.area_scene import AreaScene
from app.views.readout_words import nearest_viewpoint
from core.base.arrays import BoolArray, FloatArray
from core.base.language import tr
from core.coverage.coverage_result import CoastState, ViewpointCoverage
from core.land.coast import CoastPoints
from core.plan.outcome import Outcome
from core.sheets.page import Tone

_COARSE = 2
"""Water of a whole leg is looked up for every so many pixels each way: many viewpoints."""


class Scope(Enum):
    """Of what coast and hidden water are shown."""

    OWN_SHIP = tr("at own ship")
    LEG = tr("of the whole leg")


def render_cover(
    scene: AreaScene,
    frame: AreaFrame,
    scope: Scope,
    leg_index: int,
    along_m: float,
    palette: Palette,
    check: Callable[[], None],
) -> QImage | None:
    """Hidden water and painted coast on clear ground; None where nothing is known of the leg.

    Parameters
    ----------
    check : callable
        Called now and then; may raise ``Cancelled``.
    """
    source = scene.source
    source_leg = scene.legs[leg_index].source_leg if leg_index < len(scene.legs) else None
    if source is None or source_leg is None:
        return None
    check()
    view = nearest_viewpoint(source, source_leg, along_m)
    if scope is Scope.LEG:
        is_hidden = _hidden_all_along(source, scene, frame, source_leg, check)
    elif view is None:
        is_hidden = np.zeros((frame.height, frame.width), bool)
    else:
        is_hidden = _hidden_from(view, source, scene, frame)
    image = hatched(is_hidden, rgb(palette.colour(Tone.HIDDEN_WATER)))
    check()
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if scope is Scope.LEG:
            _draw_runs(painter, frame, scene.legs[leg_index].painted, palette, Tone.COAST_IN_SIGHT)
        elif view is not None:
            for state, tone in (
                (CoastState.LAND_BEHIND, Tone.COAST_LAND_BEHIND),
                (CoastState.IN_SIGHT, Tone.COAST_IN_SIGHT),
            ):
                runs = _coast_runs(source.land.points, view, state, scene)
                _draw_runs(painter, frame, runs, palette, tone)
    finally:
        painter.end()
    return image


def _hidden_from(
    view: ViewpointCoverage, source: Outcome, scene: AreaScene, frame: AreaFrame
) -> BoolArray:
    place = view.viewpoint.position
    return hidden_pixels(
        view.hidden,
        source.coverage.settings.radius_m,
        frame,
        scene.projection.point(place),
        _stretch(scene, place.lat_deg),
    )[0]


def _stretch(scene: AreaScene, lat_deg: float) -> float:
    """Scene metres to a metre at a latitude."""
    return float(np.cos(np.radians(scene.projection.lat_deg)) / np.cos(np.radians(lat_deg)))


def _hidden_all_along(
    source: Outcome,
    scene: AreaScene,
    frame: AreaFrame,
    source_leg: int,
    check: Callable[[], None],
) -> BoolArray:
    """Pixels that some viewpoint has in reach and none on the track sees."""
    coarse = AreaFrame(
        x_m=frame.x_m,
        y_m=frame.y_m,
        m_per_px=frame.m_per_px * _COARSE,
        width=-(-frame.width // _COARSE),
        height=-(-frame.height // _COARSE),
    )
    is_hidden = np.zeros((coarse.height, coarse.width), bool)
    is_seen = np.zeros((coarse.height, coarse.width), bool)
    for view in source.coverage.legs[source_leg].on_track():
        check()
        place = view.viewpoint.position
        hidden, in_reach = hidden_pixels(
            view.hidden,
            source.coverage.settings.radius_m,
            coarse,
            scene.projection.point(place),
            _stretch(scene, place.lat_deg),
        )
        is_hidden |= hidden
        is_seen |= in_reach & ~hidden
    full = np.repeat(np.repeat(is_hidden & ~is_seen, _COARSE, axis=0), _COARSE, axis=1)
    return np.asarray(full[: frame.height, : frame.width])


def _coast_runs(
    points: CoastPoints, view: ViewpointCoverage, state: CoastState, scene: AreaScene
) -> tuple[FloatArray, ...]:
    """Stretches of coast in one state, a point at least; each an (n, 2) array in scene metres."""
    has = np.flatnonzero(view.shown_state == state)
    if not has.size:
        return ()
    breaks = (np.diff(has) != 1) | points.is_line_start[has[1:]]
    runs = np.split(has, np.flatnonzero(breaks) + 1)
    return tuple(scene.projection.points(points.lat_deg[r], points.lon_deg[r]) for r in runs)


def _draw_runs(
    painter: QPainter,
    frame: AreaFrame,
    runs: tuple[FloatArray, ...],
    palette: Palette,
    tone: Tone,
) -> None:
    painter.setPen(QPen(palette.colour(tone), 2.0))
    room = QRectF(0.0, 0.0, frame.width, frame.height)
    for run in runs:
        line = polygon_of(thinned(frame.to_px(run)))
        if not line.boundingRect().adjusted(-1.0, -1.0, 1.0, 1.0).intersects(room):
            continue
        if line.count() == 1:
            painter.drawPoint(line.first())
        else:
            painter.drawPolyline(line)
