"""From cells to pixels and back."""

import math

import numpy as np
import pytest

from core.picture.controls import Controls
from core.picture.display_chain import Paint, display
from core.picture.expected_picture import frame_of
from core.picture.screen_frame import Orientation, ScreenFrame, on_screen, screen_map
from tests.helpers.islands import NM
from tests.helpers.picture_views import buoy, view_of


def test_a_pixel_of_a_thousand_on_twelve_miles_is_44_4_m() -> None:
    # Handbook 8: 2 R_scale / N_pix.
    assert ScreenFrame(size_px=1000, scale_m=12.0 * NM).m_per_px == pytest.approx(44.4, abs=0.05)


@pytest.mark.parametrize("up_deg", [0.0, 75.0, 350.0])
@pytest.mark.parametrize("off", [0.0, 0.5])
def test_there_and_back(up_deg: float, off: float) -> None:
    frame = ScreenFrame(
        size_px=700, scale_m=6.0 * NM, up_deg=up_deg, off_centre_ratio=off, off_centre_deg=75.0
    )
    x, y = frame.to_px(3.0 * NM, 123.0)
    assert frame.from_px(x, y) == pytest.approx((3.0 * NM, 123.0))
    # Straight up lies on the bearing that is up, above own ship.
    x, y = frame.to_px(NM, up_deg)
    assert (x, y) == pytest.approx((frame.own_px[0], frame.own_px[1] - 350.0 / 6.0))


def test_off_centring_gives_the_room_ahead() -> None:
    frame = ScreenFrame(
        size_px=600, scale_m=6.0 * NM, up_deg=90.0, off_centre_ratio=0.5, off_centre_deg=90.0
    )
    assert frame.own_px == pytest.approx((300.0, 450.0))
    assert frame.to_px(9.0 * NM, 90.0) == pytest.approx((300.0, 0.0))


@pytest.mark.parametrize("size_px", [200, 700, 1500])
def test_an_echo_lies_where_it_belongs_however_coarse_the_pixels(size_px: int) -> None:
    view = view_of("bare", targets=(buoy(4.0 * NM, rcs_m2=500.0, height_m=8.0),))
    shown = display(view, Controls())
    for orientation in Orientation:
        frame = frame_of(view.turned(40.0), orientation, size_px=size_px, course_deg=20.0)
        screen = on_screen(shown.paint, screen_map(view, frame))
        rows, cols = np.nonzero(screen >= Paint.PAINTED)
        assert rows.size > 0
        x, y = frame.to_px(4.0 * NM, 0.0)
        depth_px = view.budget.pulse.depth_m / frame.m_per_px
        near = np.hypot(cols + 0.5 - x, rows + 0.5 - y)
        beam_px = math.radians(3.0) * 4.0 * NM / frame.m_per_px
        assert near.max() <= beam_px + depth_px + 2.0
        assert near.min() <= 1.5


def test_beyond_reach_is_outside_and_all_within_is_shown() -> None:
    view = view_of("bare", scale_m=3.0 * NM)
    frame = ScreenFrame(size_px=301, scale_m=3.0 * NM)
    screen = on_screen(display(view, Controls()).paint, screen_map(view, frame))
    i, j = np.mgrid[:301, :301] - 150.0
    far = np.hypot(i, j)
    assert np.all(screen[far > 151.5] == Paint.OUTSIDE)
    assert np.all(screen[far < 149.0] != Paint.OUTSIDE)


def test_every_painted_cell_is_seen_when_pixels_are_coarse() -> None:
    # A pixel shows the strongest of its cells: no thin echo falls between two pixels.
    view = view_of("bare", scale_m=6.0 * NM)
    cells = np.full(view.echo_db.shape, Paint.NOTHING, dtype=np.uint8)
    frame = ScreenFrame(size_px=100, scale_m=6.0 * NM)
    where = screen_map(view, frame)
    for col in range(100, 500, 7):
        cells[:] = Paint.NOTHING
        cells[:, col] = Paint.PAINTED
        screen = on_screen(cells, where)
        # Straight up and down a pixel column the range steps a pixel at a time.
        assert (screen[:, 50] == Paint.PAINTED).any()
