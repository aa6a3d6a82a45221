"""A line of the strip taken by the mouse and moved sideways: what it comes to lie on."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from app.views.plan_rows import use_words
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.passage.passage import Side
from core.plan.intervals import intersection, length_m
from core.plan.object_result import ObjectLook
from core.plan.plan_result import IndexLine, LegPlan, Role
from core.sheets.page import Dash, Item, Place, Stroke, Symbol, Tone
from core.sheets.strip_block import Strip
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_lines import STYLES, signed_m
from core.words import quantities
from core.words.reasons import sentence

LIMITS_FROM_CHART = tr("Limits come from the chart and the master, never from this plan.")
_GRAB_MM = 1.6
_TARGET_MM = 3.0
_STEP_NM = 0.01
_WHOLE_SHARE = 0.95
_PLAYS_MM = 0.6
"""Nearer than this two objects lie under the line alike; the place along the leg decides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineDrag:
    """A line on its way; ``cross_m`` is where it is now, starboard positive."""

    leg: LegPlan
    strip: Strip
    line: IndexLine
    cross_m: float
    along_m: float
    """Of the mouse."""

    @property
    def is_limit(self) -> bool:
        """Whether it is a margin line, which goes to a distance and not to an object."""
        return self.line.role is Role.MARGIN

    @property
    def side(self) -> Side:
        """The side it is on now."""
        return Side.STARBOARD if self.cross_m > 0.0 else Side.PORT

    @property
    def limit_m(self) -> float:
        """Distance of a margin line in whole hundredths of a mile."""
        steps = max(round(nm_from_m(abs(self.cross_m)) / _STEP_NM), 1)
        return m_from_nm(steps * _STEP_NM)

    @property
    def target(self) -> ObjectLook | None:
        """The object that an index line has come to lie on; None over none, and for margins."""
        if self.is_limit:
            return None
        frame = self.strip.frame
        here = frame.x_mm(self.cross_m, self.side)
        near = [
            (abs(frame.x_mm(cross_of(look), look.side) - here), look)
            for look in self.leg.looks
            if look.side is self.side
        ]
        near = [(far, look) for far, look in near if far <= _TARGET_MM and self._share(look) > 0.0]
        if not near:
            return None
        closest = min(far for far, _look in near)
        alike = [look for far, look in near if far <= closest + _PLAYS_MM]
        return min(alike, key=lambda look: (not self._is_met(look), look.place))

    def _is_met(self, look: ObjectLook) -> bool:
        return any(low <= self.along_m <= high for low, high in look.windows)

    @property
    def part_m(self) -> tuple[float, float]:
        """The part of the leg that the line serves, which is what goes to another object."""
        return self.line.from_along_m, self.line.to_along_m

    def _share(self, look: ObjectLook) -> float:
        """How much of that part an object can serve, 0 to 1."""
        served_m = length_m(intersection(tuple(look.windows), (self.part_m,)))
        return served_m / max(self.part_m[1] - self.part_m[0], 1.0)

    def moved(self, place: Place) -> "LineDrag":
        """The drag with the mouse at another place of the page."""
        along_m, cross_m = self.strip.frame.track_coordinates(place)
        most_m = self.strip.frame.half_width_m
        cross_m = min(max(cross_m, -most_m), most_m)
        if self.is_limit:
            # A limit is a distance off its own object, which lies to one side.
            sign = 1.0 if self.line.side is Side.STARBOARD else -1.0
            cross_m = sign * max(cross_m * sign, m_from_nm(_STEP_NM))
        return replace(self, cross_m=cross_m, along_m=along_m)

    @property
    def words(self) -> tuple[str, str]:
        """What letting go would do, in two lines."""
        return self._limit_words() if self.is_limit else self._index_words()

    def _limit_words(self) -> tuple[str, str]:
        line, which = self.line, self.line.limit
        sense = which.shown if which is not None else tr("limit")
        was = quantities.miles(line.cross_index_range_m, 2)
        first = tr(
            "margin on {object_id} {side} {sense} {distance} (was {distance_before})",
            object_id=line.object.id,
            side=quantities.side(line.side),
            sense=sense,
            distance=quantities.distance(self.limit_m, 2),
            distance_before=was,
        )
        return first, LIMITS_FROM_CHART

    def _index_words(self) -> tuple[str, str]:
        line, target = self.line, self.target
        first = (
            f"{use_words(line.role)} {quantities.side(self.side)} "
            f"{quantities.index_range(abs(self.cross_m), line.range_scale_m)}"
        )
        if target is None:
            return first, tr("no object to index here; let go and nothing changes")
        if target.object.id == line.object.id:
            return first, tr("{object_id}: as planned", object_id=target.object.id)
        said = {
            "object_id": target.object.id,
            "range": quantities.index_range(target.cross_index_range_m, line.range_scale_m),
            "place": target.place,
            "sentence": sentence(target.reason),
        }
        if target.is_weak:
            words = tr("{object_id} {range}, place {place}, weak: {sentence}", **said)
        else:
            words = tr("{object_id} {range}, place {place}: {sentence}", **said)
        share = self._share(target)
        if share < _WHOLE_SHARE:
            words = tr(
                "{whole_words}; serves {share:.0f} % of this line's part of the leg",
                whole_words=words,
                share=share * 100.0,
            )
        return first, words

    def items(self) -> Iterator[Item]:
        """The line where it is now, and the object and line it would go to."""
        frame = self.strip.frame
        tone, width, dash = STYLES[self.line.role]
        x = frame.x_mm(self.cross_m, self.side)
        yield from _upright(
            frame, x, self.line.from_along_m, self.line.to_along_m, tone, width + 0.25, dash
        )
        target = self.target
        if target is not None:
            yield from object_items(self.strip, target, tone, self.part_m)


def cross_of(look: ObjectLook) -> float:
    """Cross-index range of an object with its side: starboard positive, m."""
    sign = 1.0 if look.side is Side.STARBOARD else -1.0
    return sign * look.cross_index_range_m


def object_items(
    strip: Strip, look: ObjectLook, tone: Tone, part_m: tuple[float, float] | None = None
) -> Iterator[Item]:
    """The line that an object would carry, dotted over its windows, and a ring round its sign.

    With ``part_m`` over what of them lies in that part of the leg.
    """
    frame = strip.frame
    windows = tuple(look.windows)
    if part_m is not None:
        windows = intersection(windows, (part_m,))
    if look.cross_index_range_m <= frame.half_width_m:
        x = frame.x_mm(cross_of(look), look.side)
        for low_m, high_m in windows:
            yield from _upright(frame, x, low_m, high_m, tone, 0.6, Dash.DOTTED)
    for item in strip.items:
        if isinstance(item, Symbol) and item.reference == f"object:{look.object.id}":
            yield ring((item.x_mm, item.y_mm), item.size_mm + 3.2)


def ring(middle: Place, across_mm: float) -> Stroke:
    """A ring round a thing, which stays to be seen in it."""
    turns = [2.0 * math.pi * step / 36.0 for step in range(37)]
    half = across_mm / 2.0
    return Stroke(
        points=tuple(
            (middle[0] + half * math.sin(turn), middle[1] - half * math.cos(turn)) for turn in turns
        ),
        width_mm=0.45,
        tone=Tone.OWN_SHIP,
    )


def _upright(
    frame: StripFrame,
    x_mm: float,
    low_m: float,
    high_m: float,
    tone: Tone,
    width_mm: float,
    dash: Dash,
) -> Iterator[Stroke]:
    low, high = frame.y_mm(frame.clamp_along(low_m)), frame.y_mm(frame.clamp_along(high_m))
    yield Stroke(points=((x_mm, low), (x_mm, high)), width_mm=width_mm, tone=tone, dash=dash)


def limit_items(strip: Strip, line: IndexLine, distance_m: float) -> Iterator[Item]:
    """A margin line at another distance than the plan has it."""
    frame = strip.frame
    if distance_m <= frame.half_width_m:
        x = frame.x_mm(distance_m if line.side is Side.STARBOARD else -distance_m, line.side)
        tone, width, _dash = STYLES[line.role]
        yield from _upright(
            frame, x, line.from_along_m, line.to_along_m, tone, width + 0.2, Dash.DOTTED
        )


def grab(leg: LegPlan, strip: Strip, place: Place) -> LineDrag | None:
    """The line that the mouse takes at a place; None where none can be taken."""
    frame = strip.frame
    best: tuple[float, IndexLine] | None = None
    for line in leg.lines:
        cross_m = signed_m(line)
        if line.role is Role.WHEEL_OVER or abs(cross_m) > frame.half_width_m:
            continue
        top = frame.y_mm(frame.clamp_along(line.to_along_m)) - _GRAB_MM
        bottom = frame.y_mm(frame.clamp_along(line.from_along_m)) + _GRAB_MM
        far = abs(frame.x_mm(cross_m, line.side) - place[0])
        if top <= place[1] <= bottom and far <= _GRAB_MM and (best is None or far < best[0]):
            best = (far, line)
    if best is None:
        return None
    line = best[1]
    along_m = frame.track_coordinates(place)[0]
    return LineDrag(leg=leg, strip=strip, line=line, cross_m=signed_m(line), along_m=along_m)
