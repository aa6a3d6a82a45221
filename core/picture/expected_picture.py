"""The expected picture as one thing to draw, read out and pick from.

view = view_place(...)              once for a place, set, scale and pulse
picture = make_picture(view, frame) once for a frame
picture = picture.under(controls)   for every change of a control
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from core.base.arrays import ByteArray
from core.picture.controls import Controls
from core.picture.display_chain import Display, display, well_set
from core.picture.echo_rows import EchoPatch, EchoRow, NamedPlace, echo_patches, echo_rows
from core.picture.pick_echo import Picked, pick
from core.picture.picture_view import PictureView
from core.picture.screen_frame import Orientation, ScreenFrame, ScreenMap, on_screen, screen_map


class LineKind(Enum):
    """What a line laid on the picture is for."""

    PRIMARY = "primary"
    CHECK = "check"
    MARGIN = "margin"
    WHEEL_OVER = "wheel_over"


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureLine:
    """An index line as it lies on the picture."""

    kind: LineKind
    label: str
    bearing_deg: float
    """True direction of the line."""
    cross_m: float
    """Distance from own ship, m, to starboard of that direction positive."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """A view under controls, laid on pixels."""

    view: PictureView
    frame: ScreenFrame
    orientation: Orientation
    where: ScreenMap
    shown: Display
    well: Controls
    patches: tuple[EchoPatch, ...]
    lines: tuple[PictureLine, ...]

    def under(self, controls: Controls) -> "Picture":
        """The same under other controls."""
        return replace(self, shown=display(self.view, controls))

    def framed(self, frame: ScreenFrame, orientation: Orientation) -> "Picture":
        """The same view laid out anew."""
        return replace(
            self, frame=frame, orientation=orientation, where=screen_map(self.view, frame)
        )

    def turned(self, heading_deg: float | None, leeway_deg: float = 0.0) -> "Picture":
        """The same place on another heading; what is up stays."""
        view = self.view.turned(heading_deg, leeway_deg)
        return replace(self, view=view, shown=display(view, self.shown.controls))

    def screen(self) -> ByteArray:
        """Codes of ``Paint`` pixel by pixel: (H, W) uint8."""
        return on_screen(self.shown.paint, self.where)

    def rows(self) -> tuple[EchoRow, ...]:
        """The predicted echoes, in the order in which they are lost."""
        return echo_rows(self.view, self.patches, self.shown.controls, well=self.well)

    def pick(self, x_px: float, y_px: float) -> Picked:
        """What lies at a point of the frame."""
        return pick(self.view, self.shown, self.frame, self.patches, x_px, y_px)


def frame_of(
    view: PictureView,
    orientation: Orientation,
    *,
    size_px: int,
    course_deg: float = 0.0,
    off_centre_deg: float | None = None,
) -> ScreenFrame:
    """The frame that shows all of a view.

    Parameters
    ----------
    view : PictureView
        Its scale, and the off-centring by which it reaches farther.
    orientation : Orientation
        What points up.
    size_px : int
        Side of the square.
    course_deg : float
        True course, for course-up, and for ahead where no heading is known.
    off_centre_deg : float, optional
        True bearing that gets the room; ahead if None.
    """
    ahead_deg = course_deg if view.heading_deg is None else view.heading_deg
    up_deg = {
        Orientation.NORTH_UP: 0.0,
        Orientation.COURSE_UP: course_deg,
        Orientation.HEAD_UP: ahead_deg,
    }[orientation]
    return ScreenFrame(
        size_px=size_px,
        scale_m=view.scale_m,
        up_deg=up_deg,
        off_centre_ratio=view.radius_m / view.scale_m - 1.0,
        off_centre_deg=ahead_deg if off_centre_deg is None else off_centre_deg,
    )


def make_picture(
    view: PictureView,
    frame: ScreenFrame,
    *,
    orientation: Orientation = Orientation.NORTH_UP,
    controls: Controls | None = None,
    names: Sequence[NamedPlace] = (),
    lines: Sequence[PictureLine] = (),
) -> Picture:
    """Lay a view on pixels, under given controls or well set."""
    well = well_set(view)
    return Picture(
        view=view,
        frame=frame,
        orientation=orientation,
        where=screen_map(view, frame),
        shown=display(view, controls or well),
        well=well,
        patches=echo_patches(view, names, controls=well),
        lines=tuple(lines),
    )
