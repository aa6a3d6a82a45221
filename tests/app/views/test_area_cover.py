"""Hidden water of a whole leg, the graticule, and circles of danger limits."""

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter

from app.paint.palette import DAY
from app.state.document import Document
from app.views.area_cover import Scope, render_cover
from app.views.area_graticule import angle_words, draw_graticule, step_min, steps_within
from app.views.area_image import AreaFrame
from app.views.area_inks import rgb
from app.views.area_marks import draw_passage
from app.views.area_scene import AreaAsk, AreaScene, build_scene
from core.coverage.coverage_result import ViewpointCoverage
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.plan.plan_result import DangerLimit, Mark
from core.sheets.page import Tone
from tests.helpers.sample_outcome import sample_outcome


def _scene() -> AreaScene:
    outcome = sample_outcome()
    return build_scene(AreaAsk(passage=outcome.plan.passage, outcome=outcome))


def _frame(scene: AreaScene, m_per_px: float, size: int) -> AreaFrame:
    left, top, right, bottom = scene.extent()
    return AreaFrame(
        x_m=(left + right) / 2, y_m=(top + bottom) / 2, m_per_px=m_per_px, width=size, height=size
    )


def _is_hidden(view: ViewpointCoverage, bearing_deg: float, range_m: float) -> bool:
    hidden = view.hidden
    rays = len(hidden.offsets) - 1
    ray = round(bearing_deg / 360.0 * rays) % rays
    stretches = range(int(hidden.offsets[ray]), int(hidden.offsets[ray + 1]))
    return any(hidden.from_m[i] <= range_m <= hidden.to_m[i] for i in stretches)


def test_water_of_a_leg_is_hidden_from_every_viewpoint_on_its_track(qapp: object) -> None:
    """Looked up ray by ray with geodesics, away from the edges that pixels and bins blur."""
    outcome, scene = sample_outcome(), _scene()
    frame = _frame(scene, 100.0, 400)
    image = render_cover(scene, frame, Scope.LEG, 0, 0.0, DAY, lambda: None)
    own = render_cover(scene, frame, Scope.OWN_SHIP, 0, 0.0, DAY, lambda: None)
    assert image is not None
    assert own is not None
    ink = rgb(DAY.colour(Tone.HIDDEN_WATER))

    def hatched(picture: QImage) -> set[tuple[int, int]]:
        return {
            (x, y)
            for x in range(400)
            for y in range(400)
            if picture.pixelColor(x, y).alpha() == 255 and rgb(picture.pixelColor(x, y)) == ink
        }

    of_leg, of_ship = hatched(image), hatched(own)
    assert of_ship, "the sample has hidden water"
    assert len(of_leg) > 50
    views = outcome.coverage.legs[0].on_track()
    radius_m = outcome.coverage.settings.radius_m
    wrong = 0
    for x, y in sorted(of_leg)[::7]:
        place = scene.projection.position(*frame.scene_place(x + 0.5, y + 0.5))
        hides = []
        for view in views:
            at = view.viewpoint.position
            range_m, bearing_deg, _back = geodesic.inverse(
                from_lat_deg=at.lat_deg,
                from_lon_deg=at.lon_deg,
                to_lat_deg=place.lat_deg,
                to_lon_deg=place.lon_deg,
            )
            if float(range_m) <= radius_m:
                hides.append(_is_hidden(view, float(bearing_deg), float(range_m)))
        wrong += not (hides and all(hides))
    assert wrong <= 0.1 * max(len(of_leg) / 7, 1), f"{wrong} of {len(of_leg) / 7:.0f}"
    assert len(of_leg) <= len(of_ship), "what any viewpoint sees is not hidden of the leg"


def test_nothing_is_hatched_for_a_leg_that_was_edited() -> None:
    outcome = sample_outcome()
    scene = build_scene(
        AreaAsk(passage=outcome.plan.passage, outcome=None, before_edit=outcome, kept_legs={1: 1})
    )
    frame = _frame(scene, 100.0, 60)
    for scope in Scope:
        assert render_cover(scene, frame, scope, 0, 0.0, DAY, lambda: None) is None
    assert render_cover(scene, frame, Scope.LEG, 1, 0.0, DAY, lambda: None) is not None
    assert len(scene.gone) == 2


@pytest.mark.parametrize(
    ("angle_deg", "step", "letters", "width", "words"),
    [
        (55.5, 10.0, "NS", 2, "55° 30′ N"),
        (-0.25, 0.5, "EW", 3, "000° 15.0′ W"),
        (-30.0, 60.0, "NS", 2, "30° S"),
        (9.99999999, 1.0, "EW", 3, "010° 00′ E"),
    ],
)
def test_figures_of_the_graticule(
    angle_deg: float, step: float, letters: str, width: int, words: str
) -> None:
    assert angle_words(angle_deg, step, letters, width) == words


def test_lines_of_the_graticule_stand_on_round_minutes_and_apart() -> None:
    assert step_min(60.0, 600.0) == 20.0
    assert step_min(1e6, 600.0) == 1800.0
    assert list(steps_within(-0.26, 0.3, 10.0)) == pytest.approx([-1 / 6, 0.0, 1 / 6])


def test_the_graticule_is_where_its_figures_say(qapp: object) -> None:
    scene = _scene()
    frame = _frame(scene, 60.0, 300)
    image = QImage(300, 300, QImage.Format.Format_RGB32)
    image.fill(DAY.colour(Tone.SEA))
    painter = QPainter(image)
    draw_graticule(painter, frame, scene.projection, DAY)
    painter.end()
    _left, top, _right, bottom = frame.box()
    south, north = scene.projection.lat_of(np.array([bottom, top]))
    step = step_min((north - south) * 60.0, 300.0)
    sea = rgb(DAY.colour(Tone.SEA))
    for lat_deg in steps_within(float(south), float(north), step):
        y = int(frame.point(0.0, float(scene.projection.y_of(np.array([lat_deg]))[0])).y())
        rows = [rgb(image.pixelColor(298, min(max(y + d, 0), 299))) for d in (-1, 0, 1)]
        assert any(row != sea for row in rows)


def test_limits_off_marks_are_circles_of_the_chosen_leg(qapp: object) -> None:
    """A circle of 1000 m at 20 m a pixel has a radius of 50 pixels (computed by hand)."""
    passage = sample_outcome().plan.passage
    middle = build_scene(AreaAsk(passage=passage, outcome=None)).projection
    place = Position(lat_deg=middle.lat_deg, lon_deg=middle.lon_deg + 0.3)
    mark = Mark(name="Beacon", position=place, height_above_water_m=5.0, is_fixed=True)
    limits = (
        DangerLimit(object_id="beacon", leg_number=2, least_m=1000.0, most_m=None),
        DangerLimit(object_id="elsewhere", leg_number=None, least_m=500.0, most_m=None),
    )
    scene = build_scene(AreaAsk(passage=passage, outcome=None, marks=(mark,), limits=limits))
    assert len(scene.limits) == 1, "off what is no mark there is no circle"
    x_m, y_m = middle.point(place)
    frame = AreaFrame(x_m=x_m, y_m=y_m, m_per_px=20.0, width=160, height=160)
    document = Document()
    document.set_passage(passage)
    seen = []
    for leg_index in (0, 1):
        document.set_leg(leg_index)
        image = QImage(160, 160, QImage.Format.Format_RGB32)
        image.fill(DAY.colour(Tone.SEA))
        painter = QPainter(image)
        draw_passage(painter, frame, scene, document, DAY)
        painter.end()
        sea = rgb(DAY.colour(Tone.SEA))
        seen.append([x for x in range(80, 160) if rgb(image.pixelColor(x, 80 + 25)) != sea])
    assert not [x for x in seen[0] if x > 110]
    # At 25 pixels off the middle the circle lies sqrt(50^2 - 25^2) = 43.3 pixels out.
    assert any(abs(x - 123.3) < 1.6 for x in seen[1])
