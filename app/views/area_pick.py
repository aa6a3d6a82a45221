"""What lies under a pixel of the area view."""

from itertools import pairwise

import numpy as np
from PySide6.QtCore import QPointF

from app.views.area_image import AreaFrame
from app.views.area_scene import AreaScene

_LEG_PX = 12.0
_WAYPOINT_PX = 9.0


def waypoint_at(frame: AreaFrame, scene: AreaScene, at: QPointF) -> int | None:
    """The waypoint under a pixel; where several lie close, the nearest."""
    apart = frame.to_px(scene.waypoints) - np.array([at.x(), at.y()])
    distances = np.hypot(apart[:, 0], apart[:, 1])
    index = int(np.argmin(distances))
    return index if distances[index] <= _WAYPOINT_PX else None


def leg_at(frame: AreaFrame, scene: AreaScene, at: QPointF) -> int | None:
    """The leg under a pixel."""
    found = nearest_leg(frame, scene, at)
    return found[0] if found is not None and found[1] <= _LEG_PX else None


def nearest_object(frame: AreaFrame, scene: AreaScene, at: QPointF) -> str | None:
    """Name or letter of the mark or index object nearest to a pixel."""
    places = [(m.name, m.x_m, m.y_m) for m in scene.marks] + list(scene.objects)
    if not places:
        return None
    x_m, y_m = frame.scene_place(at.x(), at.y())
    return min(places, key=lambda p: (p[1] - x_m) ** 2 + (p[2] - y_m) ** 2)[0]


def name_at(frame: AreaFrame, scene: AreaScene, at: QPointF) -> str:
    """Name of the waypoint, mark or index object under a pixel; empty where there is none."""
    number = waypoint_at(frame, scene, at)
    if number is not None:
        return scene.names[number]
    x_m, y_m = frame.scene_place(at.x(), at.y())
    places = [(m.name, m.x_m, m.y_m) for m in scene.marks] + list(scene.objects)
    near = [(np.hypot(x - x_m, y - y_m) / frame.m_per_px, name) for name, x, y in places]
    far_px, name = min(near, default=(np.inf, ""))
    return name if far_px <= _WAYPOINT_PX else ""


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
