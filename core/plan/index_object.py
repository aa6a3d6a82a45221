"""What an index line can be laid on."""

from dataclasses import dataclass

from core.base.language import Worded
from core.geodesy.position import Position


class ObjectKind(Worded):
    """What an object is."""

    ISLET = "islet"
    ROCK = "rock"
    HEADLAND = "headland"
    STEEP_SHORE = "steep_shore"
    PEAK = "peak"
    STRUCTURE = "structure"
    MARK = "mark"


class Edge(Worded):
    """Which part of an object the cross-index range is measured to."""

    POSITION = "position"
    NEAR_SIDE = "near_side"
    TIP = "tip"
    TANGENT = "tangent"


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexObject:
    """Something an index line can be laid on; id unique over the passage."""

    id: str
    """Letter (``A``, ``B``, ... ``AA``) or the mark's name; stable across revisions."""
    name: str
    """What a person calls it, such as ``islet 38 m, 1.4 NM NE of WP3``."""
    position: Position
    """The edge point."""
    edge: Edge
    kind: ObjectKind
    height_above_water_m: float
    is_fixed: bool
    confirm_on_chart: bool
    """True for objects known from elevation and coast alone."""
