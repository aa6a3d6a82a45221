import numpy as np
import pytest
from PySide6.QtCore import QPointF

from app.paint.palette import DAY, NIGHT
from app.state.document import Document
from app.views.area_cover import Scope, render_cover
from app.views.area_image import (
    AreaFrame,
    hatched,
    hidden_pixels,
    polygon_of,
    render_ground,
    scale_bar,
)
from app.views.area_inks import ground_inks, rgb
from app.views.area_marks import along_track, place_words
from app.views.area_pick import nearest_leg
from app.views.area_plot import AreaProjection
from app.views.area_relief import relief_ratio
from app.views.area_scene import AreaAsk, build_scene
from core.coverage.coverage_result import HiddenWater
from core.geodesy.position import Position
from core.sheets.page import Tone
from tests.helpers.moved_edge import with_moved_edge
from tests.helpers.sample_outcome import sample_outcome


def test_a_place_comes_back_from_the_plan() -> None:
    projection = AreaProjection(lat_deg=-30.0, lon_deg=179.0)
    lat, lon = np.array([-31.0, -29.5]), np.array([178.0, -179.5])
    points = projection.points(lat, lon)
    assert projection.lat_of(points[:, 1]) == pytest.approx(lat)
    assert np.mod(projection.lon_of(points[:, 0]) + 180.0, 360.0) - 180.0 == pytest.approx(lon)
    assert points[1, 0] > points[0, 0], "east of the antimeridian lies to the right"
    assert points[1, 1] < points[0, 1], "north is up"


def test_a_mile_is_a_mile_at_the_middle_latitude() -> None:
    # One minute of latitude on the sphere of 6 371 km is 1853.2 m (computed by hand).
    projection = AreaProjection(lat_deg=60.0, lon_deg=0.0)
    points = projection.points(np.array([60.0, 60.0 + 1 / 60]), np.array([0.0, 0.0]))
    assert points[0, 1] - points[1, 1] == pytest.approx(1853.2, rel=1e-3)


def test_land_sea_and_unknown_heights_are_told_apart(qapp: object) -> None:
    outcome = sample_outcome()
    scene = build_scene(AreaAsk(passage=outcome.plan.passage, outcome=outcome))
    left, top, right, bottom = scene.extent()
    frame = AreaFrame(
        x_m=(left + right) / 2,
        y_m=(top + bottom) / 2,
        m_per_px=(bottom - top) / 200,
        width=300,
        height=260,
    )
    inks = ground_inks(DAY)
    image = render_ground(scene, frame, inks, lambda: None)
    colours = {rgb(image.pixelColor(x, y)) for x in range(300) for y in range(260)}
    assert inks.sea in colours
    assert inks.unknown in colours, "a gap must never look like open water"
    assert inks.low_land_ratio in colours


def test_relief_darkens_slopes_away_from_the_upper_left_and_nothing_else() -> None:
    rows, cols = np.indices((40, 40), np.float32)
    cone = np.maximum(200.0 - 12.0 * np.hypot(rows - 20, cols - 20), 0.0).astype(np.float32)
    is_land = cone > 0.0
    light = relief_ratio(cone, is_land, 30.0)
    assert light.max() == 1.0
    assert light.min() >= 0.7
    assert np.all(light[~is_land] == 1.0)
    # Facing down and right, and facing up and left.
    assert light[26, 26] < 0.9
    assert light[14, 14] == 1.0
    # A shore is no slope, and the same slope seen from farther off no steeper one.
    assert np.all(relief_ratio(np.full((4, 4), 90.0, np.float32), is_land[:4, :4], 30.0) == 1.0)
    assert relief_ratio(cone, is_land, 300.0)[26, 26] > light[26, 26]


def test_before_a_plan_no_ground_looks_like_sea(qapp: object) -> None:
    scene = build_scene(AreaAsk(passage=sample_outcome().plan.passage, outcome=None))
    frame = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=100.0, width=20, height=20)
    inks = ground_inks(NIGHT)
    image = render_ground(scene, frame, inks, lambda: None)
    assert rgb(image.pixelColor(5, 5)) == inks.beyond
    assert inks.beyond != inks.sea


def test_hidden_water_is_hatched_on_its_bearing_and_range_only(qapp: object) -> None:
    rays = 360
    offsets = np.concatenate((np.zeros(91), np.ones(rays - 90))).astype(np.int64)
    hidden = HiddenWater(
        offsets=offsets,  # ray 90 alone: due east
        from_m=np.array([2000.0], np.float32),
        to_m=np.array([4000.0], np.float32),
    )
    frame = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=20.0, width=500, height=500)
    ink = rgb(DAY.colour(Tone.HIDDEN_WATER))
    is_hidden, is_in_reach = hidden_pixels(hidden, 6000.0, frame, (0.0, 0.0), 1.0)
    assert is_in_reach[250, 490]
    assert not is_in_reach[0, 0]
    image = hatched(is_hidden, ink)
    marked = [
        (x, y) for x in range(500) for y in range(500) if image.pixelColor(x, y).alpha() == 255
    ]
    assert marked
    for x, y in marked:
        east, south = (x + 0.5 - 250) * 20.0, (y + 0.5 - 250) * 20.0
        assert 1950.0 <= np.hypot(east, south) <= 4050.0
        assert abs(np.degrees(np.arctan2(south, east))) <= 0.51


def test_the_painted_edge_of_the_chosen_leg_alone_is_drawn_at_its_own_place(qapp: object) -> None:
    outcome = with_moved_edge(sample_outcome(), 0, 0.02)
    scene = build_scene(AreaAsk(passage=outcome.plan.passage, outcome=outcome))
    assert [bool(leg.painted) for leg in scene.legs] == [True, False, False]
    edge = np.concatenate(scene.legs[0].painted)
    points = outcome.land.points
    charted = scene.projection.points(points.lat_deg, points.lon_deg)
    # 0.02 deg of latitude on the sphere of the plan: 2224 m (computed by hand), up is minus.
    assert edge - charted == pytest.approx(np.tile([0.0, -2224.0], (len(edge), 1)), abs=20.0)
    middle = edge[len(edge) // 2]
    frame = AreaFrame(
        x_m=float(middle[0]), y_m=float(middle[1]), m_per_px=20.0, width=60, height=60
    )
    ink = DAY.colour(Tone.COAST_IN_SIGHT).rgb()
    drawn = []
    for moved in (0, 1):
        moved_outcome = with_moved_edge(outcome, moved, 0.02)
        scene = build_scene(AreaAsk(passage=outcome.plan.passage, outcome=moved_outcome))
        image = render_cover(scene, frame, Scope.LEG, 0, 0.0, DAY, lambda: None)
        assert image is not None
        drawn.append(any(image.pixel(x, y) == ink for x in range(60) for y in range(60)))
    assert drawn == [True, False]


def test_the_block_copy_makes_the_same_polygon() -> None:
    points = np.array([[1.0, 2.0], [3.5, -4.0], [0.0, 0.25]])
    polygon = polygon_of(points)
    assert [(polygon.at(i).x(), polygon.at(i).y()) for i in range(3)] == [
        (1.0, 2.0),
        (3.5, -4.0),
        (0.0, 0.25),
    ]
    assert polygon_of(np.empty((0, 2))).isEmpty()


def test_own_ship_heads_along_the_track() -> None:
    track = np.array([[0.0, 100.0], [0.0, 0.0], [100.0, 0.0]])
    place, way = along_track(track, 0.25)
    assert (place.x(), place.y(), way) == pytest.approx((0.0, 50.0, 0.0))
    place, way = along_track(track, 1.0)
    assert (place.x(), place.y(), way) == pytest.approx((100.0, 0.0, 90.0))


def test_the_nearest_leg_is_picked() -> None:
    outcome = sample_outcome()
    scene = build_scene(AreaAsk(passage=outcome.plan.passage, outcome=outcome))
    frame = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=50.0, width=600, height=600)
    for number, leg in enumerate(scene.legs):
        middle = leg.track.mean(axis=0)
        found = nearest_leg(frame, scene, frame.point(float(middle[0]), float(middle[1])))
        assert found is not None
        assert found[0] == number
        assert found[1] < 2.0
    far = nearest_leg(frame, scene, QPointF(-9000.0, 0.0))
    assert far is not None
    assert far[1] > 1000.0


def test_a_scale_bar_has_a_round_length_that_fits() -> None:
    nm, length_px = scale_bar(18.52, 250.0)
    assert nm == 2.0
    assert length_px == pytest.approx(200.0)


def test_a_place_is_told_in_degrees_and_minutes() -> None:
    words = place_words(Document(), Position(lat_deg=-30.5, lon_deg=-20.25))
    assert words == "30° 30.00′ S 020° 15.00′ W"
