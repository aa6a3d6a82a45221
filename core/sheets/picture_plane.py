"""An expected picture's plane on paper, and what stands on it whatever it is drawn for."""

import math
from collections.abc import Sequence

from core.base.angles import wrap_360_deg
from core.base.arrays import ByteArray
from core.base.units import m_from_nm, nm_from_m
from core.picture.picture_view import Own
from core.picture.screen_frame import ScreenFrame
from core.sheets.page import (
    Anchor,
    Area,
    Dash,
    Hatch,
    Item,
    Place,
    Rectangle,
    Shape,
    Stroke,
    Symbol,
    Text,
    Tone,
)


def ring_step_m(scale_m: float) -> float:
    """Distance between range rings, m: six on scales from 1.5 NM, fewer below."""
    scale_nm = nm_from_m(scale_m)
    if scale_nm >= 1.5 - 1e-6:
        return m_from_nm(scale_nm / 6.0)
    return m_from_nm(scale_nm / (3.0 if scale_nm > 0.6 else 2.0))


class PicturePlane:
    """Places of a picture on a square of paper.

    Parameters
    ----------
    frame : ScreenFrame
        How the picture lies on its pixels.
    box : Rectangle
        The square, mm.
    scale_m, radius_m : float
        Range scale, by which rings are spaced, and how far the picture reaches.
    """

    def __init__(
        self, frame: ScreenFrame, box: Rectangle, *, scale_m: float, radius_m: float
    ) -> None:
        self.frame = frame
        self.box = box
        self.radius_m = radius_m
        self.step_m = ring_step_m(scale_m)
        self.mm_per_px = box.width_mm / frame.size_px

    @property
    def ring_count(self) -> int:
        """Whole steps within the reach."""
        return math.floor(self.radius_m / self.step_m + 1e-6)

    def at(self, range_m: float, bearing_deg: float) -> Place:
        """Where a range and true bearing lies."""
        x, y = self.frame.to_px(range_m, bearing_deg)
        return self.box.x_mm + x * self.mm_per_px, self.box.y_mm + y * self.mm_per_px

    def arc(self, range_m: float, from_deg: float, width_deg: float) -> tuple[Place, ...]:
        """Places along part of a ring."""
        count = max(math.ceil(width_deg / 3.0), 1)
        return tuple(self.at(range_m, from_deg + width_deg * i / count) for i in range(count + 1))


def rings(plane: PicturePlane, *, width_mm: float = 0.12) -> Sequence[Stroke]:
    """Range rings, and the edge of the picture."""
    ranges_m = [n * plane.step_m for n in range(1, plane.ring_count + 1)]
    if plane.radius_m - plane.ring_count * plane.step_m > 1.0:
        ranges_m.append(plane.radius_m)
    return [
        Stroke(points=plane.arc(range_m, 0.0, 360.0), width_mm=width_mm, tone=Tone.RULE)
        for range_m in ranges_m
    ]


def sectors(plane: PicturePlane, own: ByteArray, *, hatched: bool = True) -> Sequence[Item]:
    """Sectors of own structure: their edges, shadow sectors hatched; blind ones are inked.

    Parameters
    ----------
    own : (B,) uint8, ``Own``
        By true bearing.
    hatched : bool
        Whether shadow sectors are; without, edges alone tell them.
    """
    bearings = own.size
    step_deg = 360.0 / bearings
    items: list[Item] = []
    starts = [b for b in range(bearings) if own[b] and own[b] != own[b - 1]]
    for start in starts:
        stop = start
        while own[(stop + 1) % bearings] == own[start] and stop - start < bearings:
            stop += 1
        from_deg, width_deg = (start - 0.5) * step_deg, (stop - start + 1) * step_deg
        ring = (plane.at(0.0, 0.0), *plane.arc(plane.radius_m, from_deg, width_deg))
        if own[start] == Own.SHADOW and hatched:
            items.append(Area(rings=(ring,), tone=Tone.FAINT_INK, hatch=Hatch.SLANTED))
        items.append(
            Stroke(
                points=(ring[1], ring[0], ring[-1]),
                width_mm=0.15,
                tone=Tone.FAINT_INK,
                dash=Dash.FINE,
            )
        )
    return items


def own_ship(plane: PicturePlane) -> Symbol:
    """Where own ship stands."""
    x, y = plane.at(0.0, 0.0)
    return Symbol(
        x_mm=x, y_mm=y, shape=Shape.RING, size_mm=2.2, tone=Tone.OWN_SHIP, is_filled=False
    )


def heading_line(plane: PicturePlane, heading_deg: float) -> Stroke:
    """From own ship ahead to the edge."""
    ends = (plane.at(0.0, 0.0), plane.at(plane.radius_m, heading_deg))
    return Stroke(points=ends, width_mm=0.3, tone=Tone.OWN_SHIP)


def north(plane: PicturePlane, *, size_pt: float = 8.0) -> Sequence[Item]:
    """A small arrow in the corner where north is not up."""
    up_deg = wrap_360_deg(plane.frame.up_deg)
    if min(up_deg, 360.0 - up_deg) < 0.5:
        return ()
    way = math.radians(-up_deg)
    x, y, long_mm = plane.box.right_mm - 8.0, plane.box.y_mm + 8.0, 5.0
    dx, dy = math.sin(way), -math.cos(way)
    tip = (x + dx * long_mm, y + dy * long_mm)
    barbs = [
        (tip[0] - 1.8 * math.sin(way + turn), tip[1] + 1.8 * math.cos(way + turn))
        for turn in (0.4, -0.4)
    ]
    return (
        Stroke(points=((x - dx * long_mm, y - dy * long_mm), tip), width_mm=0.3, tone=Tone.INK),
        Stroke(points=(barbs[0], tip, barbs[1]), width_mm=0.3, tone=Tone.INK),
        Text(x_mm=x, y_mm=y + 1.0, text="N", size_pt=size_pt, tone=Tone.INK, anchor=Anchor.MIDDLE,
             is_bold=True, on_paper=True),
    )  # fmt: skip


def ringed(place: Place, *, radius_mm: float, width_mm: float, tone: Tone, dash: Dash) -> Stroke:
    """A ring that leaves clear what stands in it."""
    turns = [2.0 * math.pi * i / 24.0 for i in range(25)]
    points = tuple(
        (place[0] + radius_mm * math.cos(turn), place[1] + radius_mm * math.sin(turn))
        for turn in turns
    )
    return Stroke(points=points, width_mm=width_mm, tone=tone, dash=dash)
