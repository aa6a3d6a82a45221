"""What stands where on a drawn strip: the nearest thing to a place, and all things on one level."""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from core.sheets.page import Area, Item, Measure, Place, Raster, Stroke, Symbol, Text, text_box
from core.sheets.strip_block import Strip

GROUND = ("land", "hidden-water", "no-data")
"""References of what lies under all else."""
_SILENT = ("", "track", "corridor", "own-ship")
_REACH_MM = 1.6
_LEVEL_MM = 0.5
_LEAST_WIDE_MM = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A thing met on one level of the strip."""

    x_mm: float
    reference: str


@dataclass(frozen=True, slots=True, eq=False)
class StripMap:
    """The things of a strip that stand for something, found quickly."""

    strip: Strip
    references: tuple[str, ...]
    shapes: tuple[BaseGeometry, ...]
    tree: shapely.STRtree

    @classmethod
    def of(cls, strip: Strip, measure: Measure) -> "StripMap":
        """The map of a drawn strip."""
        found = [
            (item.reference, shape)
            for item in strip.items
            if item.reference not in _SILENT
            for shape in (_shape(item, measure),)
            if not shape.is_empty
        ]
        shapes = tuple(shape for _reference, shape in found)
        return cls(
            strip, tuple(reference for reference, _shape in found), shapes, shapely.STRtree(shapes)
        )

    def at(self, place: Place, *, reach_mm: float = _REACH_MM) -> str:
        """Reference of the nearest thing; of the ground where nothing stands there; else empty.

        Of things as near as each other the last drawn is meant, which is the one seen.
        """
        point = shapely.Point(place)
        near = self.tree.query(point, predicate="dwithin", distance=reach_mm)
        best, found, ground = reach_mm, "", ""
        for number in sorted(int(n) for n in near):
            reference = self.references[number]
            distance = float(self.shapes[number].distance(point))
            if reference in GROUND:
                if distance == 0.0:
                    ground = reference
            elif distance <= best:
                best, found = distance, reference
        return found or ground

    def across(self, y_mm: float) -> tuple[Spot, ...]:
        """All things on one level from port to starboard, each once where it is met."""
        outer = self.strip.frame.outer
        band = shapely.box(outer.x_mm, y_mm - _LEVEL_MM, outer.right_mm, y_mm + _LEVEL_MM)
        spots: list[Spot] = []
        for number in sorted(int(n) for n in self.tree.query(band, predicate="intersects")):
            reference = self.references[number]
            cut = self.shapes[number].intersection(band)
            for part in shapely.get_parts(cut):
                low, _top, high, _bottom = part.bounds
                if reference in GROUND and high - low < _LEAST_WIDE_MM:
                    continue
                spots.append(Spot(x_mm=float((low + high) / 2.0), reference=reference))
        spots.sort(key=lambda spot: spot.x_mm)
        kept: list[Spot] = []
        for spot in spots:
            is_told = any(
                spot.reference == other.reference
                and (spot.reference not in GROUND or spot.x_mm - other.x_mm < _LEAST_WIDE_MM)
                and (not spot.reference.startswith("coast:") or spot.x_mm - other.x_mm < 3.0)
                for other in kept
            )
            if not is_told:
                kept.append(spot)
        return tuple(kept)


def _shape(item: Item, measure: Measure) -> BaseGeometry:
    if isinstance(item, Stroke):
        points = np.asarray(item.points, dtype=np.float64)
        return shapely.LineString(points) if len(points) > 1 else shapely.Point()
    if isinstance(item, Symbol):
        return shapely.Point(item.x_mm, item.y_mm).buffer(item.size_mm / 2.0)
    if isinstance(item, Text):
        room = text_box(item, measure)
        return shapely.box(room.x_mm, room.y_mm, room.right_mm, room.bottom_mm)
    if isinstance(item, Raster):
        room = item.room
        return shapely.box(room.x_mm, room.y_mm, room.right_mm, room.bottom_mm)
    return _polygon(item)


def _polygon(area: Area) -> BaseGeometry:
    rings = [ring for ring in area.rings if len(ring) >= 3]
    if not rings:
        return shapely.Point()
    shape = shapely.Polygon(rings[0], rings[1:])
    return shape if shape.is_valid else shape.buffer(0.0)
